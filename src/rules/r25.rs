//! R25: One instrument does not run two tests at once.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{ground::number, plant::Test};

/// One instrument does not run two tests at once.
pub static RULE: Rule = Rule {
    id: "R25",
    severity: Severity::Blocks,
    demands: "One instrument does not run two tests at once.",
    protects: "a trace that is not from this element, or not from this rig",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests"));
    let mut by_instrument: BTreeMap<&str, Vec<Span>> = BTreeMap::new();
    for test in view.plant.tests() {
        let Some(end) = test.record.happened_at.as_ref() else {
            continue;
        };
        out.look();
        let length = duration(view, &test);
        let end = end.time.moment.as_second() as f64;
        by_instrument
            .entry(&test.test.instrument_id)
            .or_default()
            .push((end - length, end, test));
    }
    for (instrument, mut spans) in by_instrument {
        spans.sort_by(|a, b| {
            (a.0, a.1)
                .partial_cmp(&(b.0, b.1))
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        // Each beside the one before it that ended last: a long test covers more than its neighbour.
        let mut longest: Option<&Span> = None;
        for after in &spans {
            let before = longest;
            if longest.is_none_or(|longest| after.1 > longest.1) {
                longest = Some(after);
            }
            let Some(before) = before.filter(|before| before.1 - after.0 > CLOCK) else {
                continue;
            };
            let run = |span: &Span| {
                let test = &span.2;
                say!(
                    "{instrument_run_id} ({element}, {span} min, until {time})",
                    instrument_run_id = &*test.test.instrument_run_id,
                    element = test.element,
                    span = number::fixed((span.1 - span.0) / 60.0, 0),
                    time = test
                        .record
                        .happened_at
                        .as_ref()
                        .map_or(String::new(), |when| when.time.to_string())
                )
            };
            out.find(
                Finding {
                    severity: view.weight(before.2.element).min(view.weight(after.2.element)),
                    ..finding(say!("{instrument}: {before} and {after} overlap.", instrument = instrument, before = run(before), after = run(after)))
                }
                .advise(say!("One time is wrong, or one trace is not from {instrument}: compare with the rig's own list.", instrument = instrument))
                .at(after.2.record.place())
                .about(&*after.2.record.id.text)
                .about(&*before.2.record.id.text),
            );
        }
    }
    out
}

/// When a test began and ended, in seconds.
type Span<'a> = (f64, f64, Test<'a>);

/// Clocks of a rig and of a record may differ by so many seconds.
const CLOCK: f64 = 60.0;

/// How long a test kept the rig busy: what its measurements state, and the ramps that were recorded.
fn duration(view: &View, test: &Test) -> f64 {
    let one = |measured: &crate::record::common::ElementMeasurement| {
        let stated: f64 = [&measured.stabilisation_time, &measured.measurement_time]
            .into_iter()
            .flatten()
            .map(|time| time.si)
            .sum();
        let trace = measured
            .trace
            .as_ref()
            .and_then(|file| view.plant.folder.trace(file));
        let recorded = trace
            .and_then(|trace| trace.time.last().copied())
            .unwrap_or(0.0);
        match measured.measurement_time {
            Some(_) => stated,
            None => stated + recorded,
        }
    };
    test.test.measurements.iter().map(one).sum()
}
