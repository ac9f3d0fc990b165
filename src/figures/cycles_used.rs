//! Cycles counted against the life of an element.

use std::collections::BTreeSet;

use crate::record::trace::Trace;
use crate::record::{
    Record,
    kinds::cycle_log::{Carried, CycleLog, Event, Evidence},
};
#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

/// Cycles used.
pub static FIGURE: Figure = Figure {
    id: "cycles-used",
    name: "Cycles used",
    symbol: "n_u",
    unit: ONE,
    quantity: None,
    about: "Every cycle that the plant reports, with or without evidence, and those carried forward: all count against life.",
    validity: "Whole numbers; reported by the customer, not verified by the maker.",
    sources: &["Count"],
    subjects: treatments,
    formula: || sum(CARRIED) + sum(EVENTS),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CARRIED, "11", "0"),
            (CARRIED, "4", "0"),
            (EVENTS, "1", "0"),
            (EVENTS, "1", "0"),
            (EVENTS, "3", "0"),
        ],
        gives: "20",
    },
};

const CARRIED: Input = Input {
    symbol: "n_c",
    what: "the cycles carried forward",
    unit: ONE,
    from: From::Records(|scope| carried(scope, false)),
};

const EVENTS: Input = Input {
    symbol: "n_i",
    what: "each cycle of the log",
    unit: ONE,
    from: From::Records(|scope| cycles(scope, |_| true)),
};

/// Every treatment of every cycle log that has a claim.
pub fn treatments(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| -> Vec<Subject> {
        let Body::CycleLog(log) = &body.body else {
            return Vec::new();
        };
        names(log)
            .into_iter()
            .map(|name| Subject {
                record,
                part: name.to_owned(),
            })
            .collect()
    };
    plant.indexed().flat_map(of).collect()
}

/// The treatments that a log counts.
pub fn names(log: &CycleLog) -> BTreeSet<&str> {
    let events = log.events.iter().map(|event| &*event.treatment.text);
    let carried = log.count_carried_forward.0.iter();
    events
        .chain(carried.map(|carried| &*carried.treatment.text))
        .collect()
}

/// What a log carries forward of a treatment.
pub fn carried_of<'a>(log: &'a CycleLog, treatment: &str) -> impl Iterator<Item = &'a Carried> {
    let all = log.count_carried_forward.0.iter();
    all.filter(move |carried| &*carried.treatment.text == treatment)
}

/// The log of a scope.
pub fn log<'a>(scope: &Scope<'a>) -> Result<&'a CycleLog, String> {
    match &scope.record.body {
        Body::CycleLog(body) => Ok(body),
        _ => Err(say!("this record is no cycle_log").into()),
    }
}

/// Whether the words say so: a phrase of its own, which no other word turns round.
fn evidence(carried: &Carried) -> bool {
    let mut phrases = carried.evidence.split([',', ';', '.', ':', '(', ')']);
    phrases.any(|phrase| phrase.trim() == "every cycle with a trace")
}

/// How many of the cycles carried forward had a trace, by what the plant says.
pub fn traced(carried: &Carried) -> u64 {
    let all = carried.cycles.value;
    match &carried.with_trace {
        Some(count) => count.value.min(all),
        None if evidence(carried) => all,
        None => 0,
    }
}

/// Cycles of an element over its logs, in the order of fitting, each as what it carries forward and all that it counts: a log that
/// carries the earlier ones forward stands for them, one that does not comes on top.
pub fn over_logs(logs: impl Iterator<Item = (f64, f64)>) -> f64 {
    logs.fold(0.0, |life, (carried, all)| match carried >= life {
        true => all,
        false => life + all,
    })
}

/// Cycles carried forward, one value an entry; zero, at the log itself, where none are.
pub fn carried(scope: &Scope, proven_only: bool) -> Drawn {
    let own = carried_of(log(scope)?, scope.part);
    let mut data: Vec<Datum> = own
        .map(|carried| {
            let count = match proven_only {
                true => traced(carried),
                false => carried.cycles.value,
            };
            let at = carried.with_trace.as_ref().filter(|_| proven_only);
            let spot = at.map_or(carried.cycles.spot, |count| count.spot);
            Datum::count(scope.record, count as f64, &count.to_string(), spot)
        })
        .collect();
    if data.is_empty() {
        data.push(Datum::count(scope.record, 0.0, "0", scope.record.spot));
    }
    Ok(data)
}

/// One for each cycle that a predicate lets pass; a single zero where there is none.
pub fn cycles(scope: &Scope, counts: impl Fn(&Event) -> bool) -> Drawn {
    let events = log(scope)?
        .events
        .iter()
        .filter(|event| &*event.treatment.text == scope.part && counts(event));
    let mut data: Vec<Datum> = events
        .map(|event| {
            Datum::count(
                scope.record,
                1.0,
                &say!("cycle {sequence}", sequence = event.sequence.value),
                event.spot,
            )
        })
        .collect();
    if data.is_empty() {
        data.push(Datum::count(scope.record, 0.0, "0", scope.record.spot));
    }
    Ok(data)
}

/// Whether a cycle has a whole trace; that of a cycle of steam reaches the hold temperature.
pub fn proven(scope: &Scope, event: &Event) -> bool {
    let whole = trace(scope, event).is_some_and(|trace| trace.gaps().is_empty());
    event.evidence == Evidence::Trace && whole && !too_cold(scope, event)
}

/// Whether the trace of a cycle of steam never reaches the hold temperature.
pub fn too_cold(scope: &Scope, event: &Event) -> bool {
    let temperature = trace(scope, event).and_then(|trace| trace.column("temperature"));
    let hold = super::hold_time_proven::hold(scope);
    &*event.treatment.text == "steam_in_place"
        && temperature.is_some_and(|column| column.values.iter().all(|value| *value < hold))
}

fn trace<'a>(scope: &Scope<'a>, event: &Event) -> Option<&'a Trace> {
    scope.plant.folder.trace(event.trace.as_ref()?)
}
