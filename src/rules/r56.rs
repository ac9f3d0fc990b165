//! R56: A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.
pub static RULE: Rule = Rule {
    id: "R56",
    severity: Severity::Blocks,
    demands: "A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.",
    protects: "testing until it passes",
    explained: "Never; the result before the retest stands. What is held and left out of the release is named as such.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R56", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("retests"));
    for test in view
        .plant
        .tests()
        .filter(|test| test.test.test_number.value > 1)
    {
        out.look();
        for flaw in view.plant.retest_flaws(&test) {
            let found = finding(format!("{}: {}", &*test.record.id, flaw.message))
                .advise(flaw.advice)
                .at(test.record.at(flaw.spot));
            out.find(
                Finding {
                    severity: view.weight(test.element),
                    ..found
                }
                .about(test.element)
                .about(&*test.record.id.text),
            );
        }
    }
    out
}
