//! R33: An uncertainty is small enough for its limit.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::number,
    verdict::{self, Decision},
};

/// An uncertainty is small enough for its limit.
pub static RULE: Rule = Rule {
    id: "R33",
    severity: Severity::Explain,
    demands: "An uncertainty is small enough for its limit.",
    protects: "a verdict that hangs on the instrument",
    explained: "By a decided deviation of category calibration that names the record, or the quantity as the specification writes it.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("judged figures"));
    let mut worst: BTreeMap<(&str, &str), (f64, f64, &crate::figure::Computed)> = BTreeMap::new();
    for &(_, _, computed) in view.judged() {
        let (Some(quantity), Some(judgement)) = (computed.quantity(), &computed.judgement) else {
            continue;
        };
        if !matches!(
            judgement.limit.decision,
            Decision::Guarded(_) | Decision::Rejection(_)
        ) {
            continue;
        }
        out.look();
        let (range, most) = match (judgement.limit.low, judgement.limit.high) {
            (Some(low), Some(high)) => (high - low, 1.0 / 3.0),
            (Some(one), None) | (None, Some(one)) => (one.abs(), 0.1),
            (None, None) => continue,
        };
        let share = verdict::coverage(quantity) * quantity.u() / range;
        let slot = worst
            .entry((computed.id.figure, &judgement.limit.text))
            .or_insert((share, most, computed));
        if share > slot.0 {
            *slot = (share, most, computed);
        }
    }
    for (record, body) in view.plant.records().calibration_records() {
        for point in &body.points {
            let (own, allowed) = (
                &point.expanded_uncertainty,
                &point.maximum_permissible_error,
            );
            let share = own.si / allowed.si.abs();
            // As for a limit with two ends, since what is allowed lies on both sides of zero: a third of the whole (common
            // practice, no source).
            if share.is_nan() || share > 2.0 / 3.0 {
                out.find(
                    finding(say!(
                        "{id}: at {nominal} the certificate states U = {own}, and an error of {allowed} is allowed.",
                        id = &*record.id,
                        nominal = point.nominal.text,
                        own = own.text,
                        allowed = allowed.text
                    ))
                    .advise(say!("A calibration that is less sure than what it judges shows nothing: have it calibrated better, or state why that is good enough."))
                    .at(record.at(point.nominal.spot))
                    .about(&*body.instrument_id.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    for ((figure, limit), (share, most, computed)) in worst {
        if share > most {
            let record = view.plant.record(computed.subject.record);
            let mut found = finding(say!(
                "{id}: {computed}, U is {share} % of the limit {limit}, more than {most} %.",
                id = computed.id,
                computed = computed.shown(),
                share = number::fixed(100.0 * share, 0),
                limit = limit,
                most = number::fixed(100.0 * most, 0)
            ))
            .advise(say!("State why that is good enough, or measure better."))
            .at(record.place())
            .about(&*record.id.text);
            if let Some(quantity) = computed.figure.quantity {
                found = found.about(quantity.word());
            }
            out.find(found.about(figure));
        }
    }
    out
}
