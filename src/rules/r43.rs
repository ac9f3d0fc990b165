//! R43: No undecided item is in the release, where the rule is guarded acceptance.

use crate::{
    ground::finding::Severity,
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// No undecided item is in the release, where the rule is guarded acceptance.
pub static RULE: Rule = Rule {
    id: "R43",
    severity: Severity::Blocks,
    demands: "No undecided item is in the release, where the rule is guarded acceptance.",
    protects: "a value within its uncertainty of the limit that is called a pass",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("judged figures"));
    for judged in view.judged() {
        out.look();
        if judged.2.verdict() == Verdict::Undecided {
            out.find(view.verdict_finding(RULE.id, say!(ADVICE), judged));
        }
    }
    out
}

const ADVICE: &str = word!(
    "Hold it; measure better under a plan approved beforehand, agree on another decision rule with the customer, or reject. Testing until it passes is not among them."
);
