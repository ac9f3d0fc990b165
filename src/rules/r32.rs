//! R32: When an instrument is found out of tolerance, every result since its last good calibration is judged again.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::deviation::Category,
    rejudge,
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
    let mut out = Outcome::of(say!("calibrations"));
    out.looked = view.plant.records().calibration_records().count();
    for again in rejudge::rejudged(view.plant, view.graph) {
        let (body, point) = (again.calibration, again.point);
        let changed: Vec<String> = again
            .moved
            .iter()
            .filter(|moved| moved.judgement.verdict != moved.before.verdict())
            .map(|moved| {
                say!(
                    "{id} becomes {figure}, {verdict} (was {before}, {before2})",
                    id = moved.before.id,
                    figure = moved.after.bare(&moved.before.figure.unit),
                    verdict = moved.judgement.verdict.said(),
                    before = moved.before.shown(),
                    before2 = moved.before.verdict().said()
                )
            })
            .collect();
        let list = match (again.moved.len(), changed.len()) {
            (0, _) => say!("no judged figure of this folder used it").to_owned(),
            (n, 0) => say!(
                "{n} figures of {count} elements are judged again with that error, and every verdict stands",
                n = n,
                count = again.elements.len()
            ),
            (n, _) => say!(
                "{n} figures of {count} elements are judged again with that error: {changed}; the others stand",
                n = n,
                count = again.elements.len(),
                changed = changed.join("; ")
            ),
        };
        let told: Vec<String> = again.told.iter().map(|to| to.words()).collect();
        let tell = match told.is_empty() {
            true => String::new(),
            false => say!(" Tell {told}.", told = told.join("; ")),
        };
        let mut found = finding(say!("{instrument_id} was found {as_found_error} off at {nominal} on {time} (limit {maximum_permissible_error}); {list}.", instrument_id = &*body.instrument_id, as_found_error = point.as_found_error.text, nominal = point.nominal.text, time = body.calibration_performed_at.time.date(), maximum_permissible_error = point.maximum_permissible_error.text, list = list))
            .advise(say!("Open a deviation of category calibration; when the drift began is not known, so all results count as affected.{tell} Before and after stand on the page of instruments.", tell = tell))
            .at(again.record.at(point.spot))
            .about(&*body.instrument_id.text);
        let explained = view
            .plant
            .settled(&body.instrument_id)
            .find(|(_, deviation)| {
                deviation.category == Category::Calibration
                    && deviation.detected_at.time >= body.calibration_performed_at.time
            });
        if let Some((deviation, _)) = explained {
            found.severity = Severity::Note;
            found
                .message
                .push_str(&say!(" Judged in {id}.", id = &*deviation.id));
        }
        out.find(found);
    }
    for (record, body) in view.plant.records().calibration_records() {
        let over = body
            .points
            .iter()
            .find(|point| point.as_left_error.si.abs() > point.maximum_permissible_error.si.abs());
        let words = match over {
            Some(point) => say!(
                "was left {as_left_error} off at {nominal} (limit {maximum_permissible_error})",
                as_left_error = point.as_left_error.text,
                nominal = point.nominal.text,
                maximum_permissible_error = point.maximum_permissible_error.text
            ),
            None if !body.as_found_within_limits.value
                && body
                    .points
                    .iter()
                    .all(|p| p.as_found_error.si.abs() <= p.maximum_permissible_error.si.abs()) =>
            {
                say!("is stated to be outside its limits as found, and no point shows it")
                    .to_owned()
            }
            None => continue,
        };
        out.find(
            finding(format!("{} {words}.", &*body.instrument_id))
                .advise(say!(
                    "Adjust and calibrate it again, or ask the laboratory."
                ))
                .at(record.place())
                .about(&*body.instrument_id.text),
        );
    }
    out
}
