//! R01: Every file can be read; no key is unknown, doubled or of the wrong type.

use crate::{
    ground::finding::Severity,
    record::folder,
    rule::{Outcome, Rule, View},
};

/// Every file can be read; no key is unknown, doubled or of the wrong type.
pub static RULE: Rule = Rule {
    id: "R01",
    severity: Severity::Blocks,
    demands: "Every file can be read; no key is unknown, doubled or of the wrong type.",
    protects: "a misspelt field that silently vanishes",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("record files"));
    out.looked = view
        .plant
        .folder
        .files
        .keys()
        .filter(|name| folder::holds_records(name))
        .count();
    out.findings = view
        .plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.rule == "R01")
        .cloned()
        .collect();
    out
}
