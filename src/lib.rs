//! sealfolio: from the test records of pleated membrane cartridge filters to a checked, offline
//! validation dossier.
//!
//! The house has floors; a module imports from floors below its own only (held by
//! `tests/floors.rs`): records and formulas, the plant's genealogy, figures, rules, the dossier,
//! its pages, the site, the command line.

pub mod formula;
pub mod ground;
pub mod record;
pub mod verdict;
pub mod figure;
pub mod plant;
pub mod figures;
pub mod procedure;
pub mod stats;
pub mod rule;
pub mod rules;
pub mod dossier;
pub mod chart;
pub mod page;
pub mod prose;
pub mod seal;
pub mod site;
pub mod cli;
