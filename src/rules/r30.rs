//! R30: Each instrument is in calibration on the day of use.

use crate::{
    ground::finding::{Finding, Severity},
    plant::Test,
    record::{kinds::Body, read::Text},
    rule::{Outcome, Rule, View},
};

/// The instruments that a record names.
pub fn instruments(record: &crate::record::Record) -> Vec<&Text> {
    match &record.body {
        Body::ModuleTest(body) => vec![&body.test.instrument_id],
        Body::AssemblyTest(body) => vec![&body.test.instrument_id],
        Body::MembraneTest(body) => body
            .instruments
            .iter()
            .flat_map(|all| all.texts())
            .collect(),
        Body::SealInspection(body) => body
            .destructive
            .iter()
            .map(|test| &test.instrument_id)
            .collect(),
        Body::FlowTest(body) => vec![&body.instrument_id],
        Body::SlittingRecord(body) => body.instrument_id.iter().chain(&body.instrument).collect(),
        Body::MeasurementStudy(body) => body.instrument_id.iter().collect(),
        _ => Vec::new(),
    }
}

/// Each instrument is in calibration on the day of use.
pub static RULE: Rule = Rule {
    id: "R30",
    severity: Severity::Blocks,
    demands: "Each instrument is in calibration on the day of use.",
    protects: "a number from an instrument that nobody can vouch for",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R30", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("uses of instruments"));
    for (record, body) in view.plant.records().calibration_records() {
        out.look();
        let made = body.calibration_performed_at.time.date();
        if body.valid_from.date < made {
            out.find(
                finding(say!(
                    "{id} is valid from {from}, before the calibration was made on {made}.",
                    id = &*record.id,
                    from = body.valid_from.date,
                    made = made
                ))
                .advise(say!(
                    "A certificate vouches for nothing before its calibration; correct the day."
                ))
                .at(record.at(body.valid_from.spot))
                .about(&*record.id.text)
                .about(&*body.instrument_id.text),
            );
        }
    }
    for record in view.plant.records().current() {
        let Some(day) = record.day() else { continue };
        if matches!(record.kind, "membrane_test" | "slitting_record")
            && instruments(record).is_empty()
        {
            out.look();
            out.find(
                finding(say!("{id} names no instrument.", id = &*record.id))
                    .advise(say!("Name what measured it; a number without an instrument cannot be vouched for."))
                    .at(record.place())
                    .about(&*record.id.text),
            );
        }
        if let Body::MembraneTest(body) = &record.body
            && !instruments(record).is_empty()
        {
            for measured in body.measurements.iter() {
                let made = measured.not_measured_reason.is_none();
                if !made || view.plant.instrument(record, measured.quantity).is_some() {
                    continue;
                }
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!(
                        "{id} names no instrument for its {quantity}.",
                        id = &*record.id,
                        quantity = measured.quantity.said()
                    ))
                    }
                    .advise(say!("Name what measured it; a number without an instrument cannot be vouched for."))
                    .at(record.at(measured.spot))
                    .about(&*record.id.text),
                );
            }
        }
        for instrument in instruments(record) {
            out.look();
            let all = view.plant.calibrations(instrument);
            if all.iter().any(|(_, body)| body.in_force(day)) {
                continue;
            }
            let mut found = finding(say!("{instrument} was used on {day} for {id}, and no calibration_record covers that day.", instrument = &**instrument, day = day, id = &*record.id))
                .at(record.at(instrument.spot))
                .about(&*record.id.text)
                .about(&*instrument.text);
            let before = all.iter().filter(|(_, body)| body.valid_until.date < day);
            if let Some((ended, body)) = before.max_by_key(|(_, body)| body.valid_until.date) {
                found.message.push_str(&say!(
                    " {id} ran out on {until}.",
                    id = &*ended.id,
                    until = body.valid_until.date
                ));
            }
            found = found.advise(say!("Add the certificate or repeat the tests; what rests on them alone is held or rejected by a deviation, and not released."));
            // Who holds or rejects the element that was tested need not vouch for the instrument.
            let element = match &record.body {
                Body::FlowTest(body) => Some(&*body.element_id.text),
                _ => Test::of(record).map(|test| test.element),
            };
            if let Some(element) = element.filter(|element| !view.in_release(element)) {
                found.severity = Severity::Explain;
                found = found.about(element);
            }
            out.find(found);
        }
    }
    out
}
