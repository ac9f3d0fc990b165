//! R28: Nothing lies in the future of the date on the pages.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::Body,
    rule::{Outcome, Rule, View},
};

/// Nothing lies in the future of the date on the pages.
pub static RULE: Rule = Rule {
    id: "R28",
    severity: Severity::Blocks,
    demands: "Nothing lies in the future of the date on the pages.",
    protects: "a wrong year, or a record written ahead",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R28", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("records"));
    let Some(today) = view.compiled_on() else {
        return out;
    };
    for record in view.plant.records().current() {
        out.look();
        let mut times: Vec<(crate::ground::time::Date, crate::ground::place::Spot)> = record
            .recorded_at
            .iter()
            .map(|when| (when.time.date(), when.spot))
            .collect();
        match &record.body {
            Body::CycleLog(body) => {
                let events = body.events.iter().map(|event| &event.start);
                let tests = body.in_service_integrity_tests.iter().map(|test| &test.at);
                let runs = body
                    .production_runs
                    .iter()
                    .flat_map(|run| [Some(&run.start), run.end.as_ref()])
                    .flatten();
                let fitted = std::iter::once(&body.installed_at).chain(&body.removed_at);
                times.extend(
                    events
                        .chain(tests)
                        .chain(runs)
                        .chain(fitted)
                        .map(|when| (when.time.date(), when.spot)),
                );
            }
            Body::Deviation(body) => {
                let more = [
                    Some(&body.detected_at),
                    body.approved_at.as_ref(),
                    body.retest_authorised_at.as_ref(),
                ];
                times.extend(
                    more.into_iter()
                        .flatten()
                        .map(|when| (when.time.date(), when.spot)),
                );
            }
            Body::CalibrationRecord(body) => {
                let when = &body.calibration_performed_at;
                times.push((when.time.date(), when.spot));
            }
            Body::ReleaseStatement(body) => {
                times.extend(
                    body.signatures
                        .iter()
                        .map(|one| (one.signed_at.time.date(), one.signed_at.spot)),
                );
                times.extend(body.issued_on.iter().map(|day| (day.date, day.spot)));
            }
            Body::MaterialLot(body) => {
                times.push((body.received_at.time.date(), body.received_at.spot));
                times.extend(
                    body.food_contact_documents
                        .iter()
                        .map(|paper| (paper.issued.date, paper.issued.spot)),
                );
            }
            _ => {}
        }
        for (date, spot) in times.into_iter().filter(|(date, _)| *date > today) {
            out.find(
                finding(say!(
                    "{id}: {date} lies after {today}, the date of this dossier.",
                    id = &*record.id,
                    date = date,
                    today = today
                ))
                .advise(say!(
                    "Check the year on the instrument, or compiled_on in dossier.yaml."
                ))
                .at(record.at(spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}
