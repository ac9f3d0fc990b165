//! R06: A trace has columns with units, decimal points and rising time.

use crate::{
    ground::finding::Severity,
    rule::{Outcome, Rule, View},
};

/// A trace has columns with units, decimal points and rising time.
pub static RULE: Rule = Rule {
    id: "R06",
    severity: Severity::Blocks,
    demands: "A trace has columns with units, decimal points and rising time.",
    protects: "a decimal comma or a shuffled row",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces"));
    out.looked = view.plant.folder.traces.len();
    out.findings = view
        .plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.rule == "R06")
        .cloned()
        .collect();
    out
}
