//! Cycles counted against the life of an element.

use crate::record::trace::Trace;
use crate::record::{
    Record,
    kinds::cycle_log::{CycleLog, Event, Evidence},
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
        let names: std::collections::BTreeSet<&str> = log
            .events
            .iter()
            .map(|event| &*event.treatment.text)
            .chain(
                log.count_carried_forward
                    .0
                    .iter()
                    .map(|carried| &*carried.treatment.text),
            )
            .collect();
        names
            .into_iter()
            .map(|name| Subject {
                record,
                part: name.to_owned(),
            })
            .collect()
    };
    plant.indexed().flat_map(of).collect()
}

/// The log of a scope.
pub fn log<'a>(scope: &Scope<'a>) -> Result<&'a CycleLog, String> {
    match &scope.record.body {
        Body::CycleLog(body) => Ok(body),
        _ => Err(say!("this record is no cycle_log").into()),
    }
}

/// Cycles carried forward, one value an entry; zero, at the log itself, where none are.
pub fn carried(scope: &Scope, proven_only: bool) -> Drawn {
    let own = log(scope)?
        .count_carried_forward
        .0
        .iter()
        .filter(|carried| &*carried.treatment.text == scope.part);
    let counts = own.filter(|carried| !proven_only || carried.evidence.contains("with a trace"));
    let mut data: Vec<Datum> = counts
        .map(|carried| {
            Datum::count(
                scope.record,
                carried.cycles.value as f64,
                &carried.cycles.value.to_string(),
                carried.cycles.spot,
            )
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
