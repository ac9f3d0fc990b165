//! sealfolio: from the test records of pleated membrane cartridge filters to a checked, offline
//! validation dossier.
//!
//! The house has floors; a module imports from floors below its own only (held by
//! `tests/floors.rs`): records and formulas, the plant's genealogy, figures, rules, the dossier,
//! its pages, the site, the command line.

#![cfg_attr(
    not(test),
    deny(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing
    )
)]

// First, because everything else speaks through its macros.
#[macro_use]
pub mod ground;

pub mod agreement;
pub mod approval;
pub mod bill;
pub mod changes;
pub mod chart;
pub mod cli;
pub mod commitment;
pub mod dossier;
pub mod extract;
pub mod figure;
pub mod figures;
pub mod formula;
pub mod graph;
pub mod handbook;
pub mod intake;
pub mod metrology;
pub mod page;
pub mod physics;
pub mod plant;
pub mod procedure;
pub mod prose;
pub mod record;
pub mod rejudge;
pub mod rule;
pub mod rules;
pub mod seal;
pub mod simulation;
pub mod site;
pub mod stats;
pub mod tree;
pub mod trend;
pub mod verdict;
