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
    let mut out = Outcome::of("records");
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
            Body::CycleLog(body) => times.extend(
                body.events
                    .iter()
                    .map(|event| (event.start.time.date(), event.start.spot)),
            ),
            Body::Deviation(body) => {
                times.push((body.detected_at.time.date(), body.detected_at.spot))
            }
            _ => {}
        }
        for (date, spot) in times.into_iter().filter(|(date, _)| *date > today) {
            out.find(
                finding(format!(
                    "{}: {date} lies after {today}, the date of this dossier.",
                    &*record.id
                ))
                .advise("Check the year on the instrument, or compiled_on in dossier.yaml.")
                .at(record.at(spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}
