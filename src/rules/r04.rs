//! R04: Every quantity has a unit that fits its field and a believable size.

use crate::{
    ground::finding::Severity,
    record::folder,
    rule::{Outcome, Rule, View},
};

/// Every quantity has a unit that fits its field and a believable size.
pub static RULE: Rule = Rule {
    id: "R04",
    severity: Severity::Blocks,
    demands: "Every quantity has a unit that fits its field and a believable size.",
    protects: "a slip of a factor of ten, or gauge taken for absolute",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("record files");
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
        .filter(|problem| problem.rule == "R04")
        .cloned()
        .collect();
    out
}
