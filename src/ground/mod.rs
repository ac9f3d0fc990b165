//! Floor 0: what every other floor stands on. Imports nothing of ours.

#[macro_use]
pub mod words;

pub mod digest;
pub mod finding;
pub mod index;
pub mod interrupt;
pub mod name;
pub mod number;
pub mod place;
pub mod plain;
pub mod progress;
pub mod quantity;
pub mod seen;
pub mod time;
pub mod unit;

/// So many things at most are one piece of work for a processor: of larger pieces, or where things that cost much stand
/// together, one processor would work on the last while the others wait.
pub const PIECE: usize = 64;
