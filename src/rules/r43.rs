//! R43: No undecided item is in the release, where the rule is guarded acceptance.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
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

fn finding(message: String) -> Finding {
    Finding::new("R43", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("judged figures");
    let mut seen = std::collections::BTreeSet::new();
    for assembly in &view.release {
        for computed in view.figures_of_assembly(assembly) {
            // The join residual has a rule of its own (R45); plans have R52.
            if matches!(
                computed.id.figure,
                "join-residual" | "peel-force-quality" | "pull-force-quality"
            ) || computed.judgement.is_none()
                || !seen.insert(&computed.id)
            {
                continue;
            }
            out.look();
            if computed.verdict() != Verdict::Undecided {
                continue;
            }
            let record = view.plant.record(computed.subject.record);
            let element = Test::of(record).map_or(&*record.id.text, |test| test.element);
            out.find(
                finding(format!("{element}: {} ({}).", View::phrase(computed), computed.id))
                    .advise("Hold it; measure better under a plan approved beforehand, agree on another decision rule with the customer, or reject. Testing until it passes is not among them.")
                    .at(record.place())
                    .about(element)
                    .about(*assembly),
            );
        }
    }
    out
}
