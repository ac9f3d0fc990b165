//! R42: No item that does not conform is in the release.

use crate::{
    ground::finding::Severity,
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// No item that does not conform is in the release.
pub static RULE: Rule = Rule {
    id: "R42",
    severity: Severity::Blocks,
    demands: "No item that does not conform is in the release.",
    protects: "a reject that is shipped",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("judged figures"));
    for judged in view.judged() {
        out.look();
        if judged.2.verdict() == Verdict::DoesNotConform {
            out.find(view.verdict_finding(RULE.id, say!(ADVICE), judged));
        }
    }
    out
}

const ADVICE: &str = word!("Take it out of the release; a deviation decides what becomes of it.");
