//! R32: When an instrument is found out of tolerance, every result since its last good calibration is judged again.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// When an instrument is found out of tolerance, every result since its last good calibration is judged again.
pub static RULE: Rule = Rule {
    id: "R32",
    severity: Severity::Blocks,
    demands: "When an instrument is found out of tolerance, every result since its last good calibration is judged again.",
    protects: "results that rest on a drifted instrument",
    explained: "By a decided deviation of category calibration that names the instrument.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R32", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("calibrations");
    for (record, body) in view.plant.records().calibration_records() {
        out.look();
        let worst = body
            .points
            .iter()
            .filter(|point| {
                point.as_found_error.si.abs() > point.maximum_permissible_error.si.abs()
            })
            .max_by(|a, b| {
                (a.as_found_error.si / a.nominal.si)
                    .abs()
                    .total_cmp(&(b.as_found_error.si / b.nominal.si).abs())
            });
        let Some(point) = worst else { continue };
        let found_on = body.calibration_performed_at.time;
        let since = view
            .plant
            .calibrations(&body.instrument_id)
            .iter()
            .map(|(_, earlier)| earlier.calibration_performed_at.time)
            .filter(|time| *time < found_on)
            .max();
        let gain = point.as_found_error.si / point.nominal.si;
        let mut judged = Vec::new();
        for test in view
            .plant
            .tests()
            .filter(|test| test.test.instrument_id.text == body.instrument_id.text)
        {
            let Some(when) = test.record.recorded_at.as_ref().map(|when| when.time) else {
                continue;
            };
            if when > found_on || since.is_some_and(|since| when < since) {
                continue;
            }
            for computed in view.figures_of(test.record) {
                let (Some(quantity), Some(judgement)) = (computed.quantity(), &computed.judgement)
                else {
                    continue;
                };
                let factor = match computed.id.figure {
                    "bubble-point" => 1.0 - gain,
                    "diffusive-flow" => 1.0 / (1.0 - gain),
                    _ => continue,
                };
                let mut moved = quantity.clone();
                moved.value *= factor;
                let again = crate::verdict::judge(&moved, &judgement.limit);
                judged.push(format!(
                    "{} {} becomes {} ({}, was {})",
                    test.element,
                    computed.figure.name.to_lowercase(),
                    moved.bare(&computed.figure.unit),
                    again.verdict.words(),
                    judgement.verdict.words()
                ));
            }
        }
        let explained = view
            .plant
            .deviations_about(&body.instrument_id)
            .find(|(_, deviation)| {
                deviation.category == crate::record::kinds::deviation::Category::Calibration
                    && deviation.decision.is_some()
                    && deviation.approved_at.is_some()
            });
        let list = if judged.is_empty() {
            "no result of this folder is affected".to_owned()
        } else {
            judged.join("; ")
        };
        let mut found = finding(format!("{} was found {} off at {} (limit {}); judged again with that error: {list}.", &*body.instrument_id, point.as_found_error.text, point.nominal.text, point.maximum_permissible_error.text))
            .advise("Open a deviation of category calibration and tell every customer concerned; when the drift began is not known, so all results count as affected.")
            .at(record.at(point.spot))
            .about(&*body.instrument_id.text);
        if let Some((deviation, _)) = explained {
            found.severity = Severity::Note;
            found
                .message
                .push_str(&format!(" Judged in {}.", &*deviation.id));
        }
        out.find(found);
    }
    for (record, body) in view.plant.records().calibration_records() {
        let over = body
            .points
            .iter()
            .find(|point| point.as_left_error.si.abs() > point.maximum_permissible_error.si.abs());
        let words = match over {
            Some(point) => format!(
                "was left {} off at {} (limit {})",
                point.as_left_error.text, point.nominal.text, point.maximum_permissible_error.text
            ),
            None if !body.as_found_within_limits.value
                && body
                    .points
                    .iter()
                    .all(|p| p.as_found_error.si.abs() <= p.maximum_permissible_error.si.abs()) =>
            {
                "is stated to be outside its limits as found, and no point shows it".to_owned()
            }
            None => continue,
        };
        out.find(
            finding(format!("{} {words}.", &*body.instrument_id))
                .advise("Adjust and calibrate it again, or ask the laboratory.")
                .at(record.place())
                .about(&*body.instrument_id.text),
        );
    }
    out
}
