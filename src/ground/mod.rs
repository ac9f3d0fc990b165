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
pub mod progress;
pub mod quantity;
pub mod time;
pub mod unit;
