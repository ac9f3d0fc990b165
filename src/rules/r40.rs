//! R40: Reported and recomputed agree within the stated tolerance.

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
    },
    plant::Test,
    record::common::{Measured, Said},
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// The tolerance that the specification states, in SI and as written.
fn tolerance(
    view: &View,
    record: &crate::record::Record,
    measured: Measured,
    value: f64,
) -> Option<(f64, String)> {
    let (_, spec) = view.plant.spec_of(record)?;
    let text = spec.comparison_tolerance.as_ref()?.get(measured.word())?;
    let (n, unit) = number::parse_with_unit(text).ok()?;
    let width = if unit.dim == crate::ground::unit::Dim::NONE {
        n * unit.factor * value.abs()
    } else {
        n * unit.factor
    };
    Some((width, text.to_string()))
}

/// Half a unit of the last digit that was written: a report is rounded.
fn half_a_digit(text: &str, si: f64) -> f64 {
    let word = text.split(' ').next().unwrap_or_default();
    let places = word.split_once('.').map_or(0, |(_, digits)| digits.len());
    let written: f64 = word.parse().unwrap_or(0.0);
    if written == 0.0 {
        0.0
    } else {
        (0.5 * libm::pow(10.0, -(places as f64)) * si / written).abs()
    }
}

/// Reported and recomputed agree within the stated tolerance.
pub static RULE: Rule = Rule {
    id: "R40",
    severity: Severity::Explain,
    demands: "Reported and recomputed agree within the stated tolerance.",
    protects: "a figure that was copied wrongly, or an instrument that knows no uncertainty",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R40", Severity::Explain, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("reported values"));
    for computed in view.graph.computed.values() {
        let (Some(reported), Some(quantity)) = (&computed.reported, computed.quantity()) else {
            continue;
        };
        out.look();
        let record = view.plant.record(computed.subject.record);
        let element = Test::of(record).map(|test| test.element);
        let about = |found: Finding| {
            found
                .at(reported.at.clone())
                .about(&*record.id.text)
                .about(element.unwrap_or(&record.id))
        };
        let said = match reported.verdict {
            Some(Said::Pass) => Some(Verdict::Conforms),
            Some(Said::Fail) => Some(Verdict::DoesNotConform),
            None => None,
        };
        if let (Some(said), Some(judgement)) = (said, &computed.judgement)
            && said != judgement.verdict
            && judgement.verdict != Verdict::NotEvaluated
        {
            let decides = Test::of(record).is_none_or(|test| view.decides(&test));
            let mut found = about(finding(say!(
                "{id}: reported {reported}, {said}; recomputed {figure}, {limit}: {verdict}.",
                id = computed.id,
                reported = reported.text,
                said = if said == Verdict::Conforms {
                    say!("pass")
                } else {
                    say!("fail")
                },
                figure = quantity.show(&computed.figure.unit),
                limit = judgement.limit.text,
                verdict = judgement.verdict.said()
            )))
            .advise(match said {
                Verdict::Conforms => say!(
                    "The recomputed verdict stands; an instrument knows no uncertainty. Hold the item."
                ),
                _ => say!(
                    "Hold the item. Who or what said fail may have seen what no figure shows: find out why, and say it in a deviation."
                ),
            });
            found.severity = if decides && element.is_some_and(|element| view.in_release(element)) {
                Severity::Blocks
            } else {
                Severity::Explain
            };
            out.find(found);
        }
        let difference = (reported.si - quantity.value).abs();
        let stated = computed
            .figure
            .quantity
            .and_then(|measured| tolerance(view, record, measured, quantity.value));
        let (width, text) = match &stated {
            Some((width, text)) => (*width, text.clone()),
            None => (
                0.05 * quantity.value.abs(),
                say!("5 %, no tolerance being stated").into(),
            ),
        };
        if difference > width + half_a_digit(&reported.text, reported.si) {
            let found = about(finding(say!(
                "{id}: reported {reported}, recomputed {figure}; they differ by more than {what}.",
                id = computed.id,
                reported = reported.text,
                figure = quantity.show(&computed.figure.unit),
                what = text
            )))
            .advise(say!(
                "Find out how the reported value was got; both are shown."
            ));
            out.find(found);
        }
    }
    for computed in view
        .graph
        .computed
        .values()
        .filter(|computed| computed.worked.is_err())
    {
        let Some(reported) = computed
            .reported
            .as_ref()
            .filter(|reported| reported.verdict == Some(Said::Fail))
        else {
            continue;
        };
        let record = view.plant.record(computed.subject.record);
        let element = Test::of(record).map_or(&*record.id.text, |test| test.element);
        let why = computed.worked.as_ref().err().cloned().unwrap_or_default();
        let found = finding(say!(
            "{id}: reported {reported}, fail; not evaluated here: {why}.",
            id = computed.id,
            reported = reported.text,
            why = why
        ));
        out.find(
            Finding {
                severity: view.weight(element),
                ..found
            }
            .advise(say!(
                "The reported failure stands until the test is repeated."
            ))
            .at(reported.at.clone())
            .about(&*record.id.text)
            .about(element),
        );
    }
    out
}
