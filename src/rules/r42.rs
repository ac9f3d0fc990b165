//! R42: No item that does not conform is in the release.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
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

fn finding(message: String) -> Finding {
    Finding::new("R42", Severity::Blocks, message)
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
            if computed.verdict() != Verdict::DoesNotConform {
                continue;
            }
            let record = view.plant.record(computed.subject.record);
            let element = Test::of(record).map_or(&*record.id.text, |test| test.element);
            out.find(
                finding(format!(
                    "{element}: {} ({}).",
                    View::phrase(computed),
                    computed.id
                ))
                .advise("Take it out of the release; a deviation decides what becomes of it.")
                .at(record.place())
                .about(element)
                .about(*assembly),
            );
        }
    }
    out
}
