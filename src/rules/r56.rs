//! R56: A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::Body,
    rule::{Outcome, Rule, View},
};

/// A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.
pub static RULE: Rule = Rule {
    id: "R56",
    severity: Severity::Blocks,
    demands: "A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.",
    protects: "testing until it passes",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R56", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("retests");
    for test in view
        .plant
        .tests()
        .filter(|test| test.test.test_number.value > 1)
    {
        out.look();
        let record = test.record;
        let mut found = |message: String, advice: &str, spot| {
            out.find(
                Finding {
                    severity: view.weight(test.element),
                    ..finding(format!("{}: {message}", &*record.id))
                }
                .advise(advice)
                .at(record.at(spot))
                .about(test.element)
                .about(&*record.id.text),
            )
        };
        let rule = view
            .plant
            .spec_of(record)
            .and_then(|(_, spec)| spec.retest_rule.as_ref());
        let number = test.test.test_number;
        if let Some(rule) = rule {
            if number.value > rule.maximum_tests_per_item.value {
                found(
                    format!(
                        "test {} of at most {}.",
                        number.value, rule.maximum_tests_per_item.value
                    ),
                    "Reject the element, or plan further tests beforehand and judge all of them.",
                    number.spot,
                );
            }
            match &test.test.retest_reason_code {
                None => found(
                    "no retest_reason_code.".into(),
                    "A pass after a fail without a cause is one of two readings of the same part; the first result stands.",
                    number.spot,
                ),
                Some(reason)
                    if !rule
                        .allowed_reason_codes
                        .iter()
                        .any(|allowed| allowed.text == reason.text) =>
                {
                    found(
                        format!(
                            "the reason {} is none that the specification allows.",
                            &**reason
                        ),
                        "The first result stands.",
                        reason.spot,
                    );
                }
                Some(_) => {}
            }
        }
        let Some(id) = &test.test.retest_deviation else {
            if rule.is_none_or(|rule| rule.needs_deviation.value) {
                found(
                    "no retest_deviation allows it.".into(),
                    "Quality must explain; until then the first result stands.",
                    number.spot,
                );
            }
            continue;
        };
        let Some(Body::Deviation(deviation)) = view
            .plant
            .records()
            .find("deviation", id)
            .map(|record| &record.body)
        else {
            found(
                format!("deviation {} is missing.", &**id),
                "Add it; until then the first result stands.",
                id.spot,
            );
            continue;
        };
        match (&deviation.retest_authorised_at, &record.recorded_at) {
            (None, _) => found(
                format!("{} does not say when the retest was authorised.", &**id),
                "Quality must explain; until then the first result stands.",
                id.spot,
            ),
            (Some(allowed), Some(ran)) if allowed.time > ran.time => {
                found(
                    format!(
                        "ran {}, authorised {}: permission came after the result was known.",
                        ran.time, allowed.time
                    ),
                    "Quality must explain; until then the first result stands.",
                    id.spot,
                );
            }
            _ => {}
        }
        if deviation
            .cause
            .as_ref()
            .and_then(|cause| cause.get("known"))
            .is_some_and(|known| &*known.text == "false")
        {
            found(
                format!("{} says that the cause is not known.", &**id),
                "A pass after a fail without a cause is not accepted: reject, or plan further tests beforehand and judge all of them.",
                id.spot,
            );
        }
    }
    out
}
