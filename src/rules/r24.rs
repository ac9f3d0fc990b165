//! R24: Every time has its offset.

use crate::{
    ground::finding::Severity,
    record::folder,
    rule::{Outcome, Rule, View},
};

/// Every time has its offset.
pub static RULE: Rule = Rule {
    id: "R24",
    severity: Severity::Blocks,
    demands: "Every time has its offset.",
    protects: "two times that cannot be put in order",
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
        .filter(|problem| problem.rule == "R24")
        .cloned()
        .collect();
    out
}
