//! R55: Every failed or undecided result has a deviation.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// Every failed or undecided result has a deviation.
pub static RULE: Rule = Rule {
    id: "R55",
    severity: Severity::Blocks,
    demands: "Every failed or undecided result has a deviation.",
    protects: "an unwanted result that nobody speaks of",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R55", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests"));
    for test in view.plant.tests() {
        out.look();
        let bad: Vec<String> = view
            .figures_of(test.record)
            .iter()
            .filter(|computed| {
                computed.id.figure != "join-residual"
                    && matches!(
                        computed.verdict(),
                        Verdict::DoesNotConform | Verdict::Undecided
                    )
                    && computed.judgement.is_some()
            })
            .map(|computed| View::phrase(computed))
            .collect();
        let named = view
            .plant
            .deviations_about(&test.record.id)
            .next()
            .or_else(|| view.plant.deviations_about(test.element).next());
        if !bad.is_empty() && named.is_none() {
            out.find(
                finding(say!(
                    "{id}: {bad}; no deviation names it.",
                    id = &*test.record.id,
                    bad = bad.join("; ")
                ))
                .advise(say!("Open one; a scrapped part still needs it."))
                .at(test.record.place())
                .about(test.element)
                .about(&*test.record.id.text),
            );
        }
    }
    out
}
