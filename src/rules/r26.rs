//! R26: Records are made within one working day of the event.

use jiff::civil::Weekday;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::time::Date,
    record::{Record, kinds::Body, read::When},
};

/// Records are made within one working day of the event.
pub static RULE: Rule = Rule {
    id: "R26",
    severity: Severity::Explain,
    demands: "Records are made within one working day of the event.",
    protects: "facts that were written down from memory",
    explained: "By a late-entry note: a decided deviation of category data that names the record and the source of its facts.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("events"));
    for record in view.plant.records().current() {
        let (Some(event), Some(recorded)) = (event(record), &record.happened_at) else {
            continue;
        };
        out.look();
        let (happened, written) = (event.1.time.date(), recorded.time.date());
        if written > next_working_day(happened) {
            let days = written.days_since(happened);
            out.find(
                finding(say!(
                    "{id} was recorded {days} days after {event} ({happened}).",
                    id = &*record.id,
                    days = days,
                    event = event.0,
                    happened = happened
                ))
                .advise(say!("Add a late-entry note with the source of the facts."))
                .at(record.at(event.1.spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// The event that a record speaks of, where it states its time apart from its own.
fn event(record: &Record) -> Option<(&'static str, &When)> {
    match &record.body {
        Body::Deviation(body) => Some((say!("detection"), &body.detected_at)),
        Body::MaterialLot(body) => Some((say!("receipt"), &body.received_at)),
        _ => None,
    }
}

/// The next day that is no Saturday and no Sunday; holidays are not known here.
fn next_working_day(day: Date) -> Date {
    let mut next = day.next();
    while matches!(next.weekday(), Weekday::Saturday | Weekday::Sunday) {
        next = next.next();
    }
    next
}
