//! R49: No two tests share a trace, or a stretch of its noise.

use std::collections::{BTreeSet, HashMap};

use crate::record::{Record, common::TraceFile, folder::trace_files};
use crate::{
    ground::finding::{Finding, Severity},
    ground::unit::{FLOW, MBAR, ML_PER_MIN, PRESSURE},
    rule::{Outcome, Rule, View},
};

/// No two tests share a trace, or a stretch of its noise.
pub static RULE: Rule = Rule {
    id: "R49",
    severity: Severity::Blocks,
    demands: "No two tests share a trace, or a stretch of its noise.",
    protects: "one good trace for two elements",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces"));
    let mut seen = std::collections::BTreeMap::new();
    for record in view.plant.records().current() {
        for file in trace_files(record) {
            let Some(found) = view.plant.folder.files.get(&*file.file.text) else {
                continue;
            };
            out.look();
            if let Some((other, name)) = seen.insert(found.digest, (record, &file.file)) {
                out.find(
                    finding(say!("{id} and {id2} have the same trace ({name} and {file}).", id = &*other.id, id2 = &*record.id, name = &**name, file = &*file.file))
                        .advise(say!("Identical noise in two tests does not occur: fetch both originals from the instrument."))
                        .at(record.at(file.file.spot))
                        .about(&*record.id.text)
                        .about(&*other.id.text),
                );
            }
        }
    }
    let plant = view.plant;
    let tests = plant.tests().flat_map(|test| {
        let own = test.test.measurements.iter();
        own.filter_map(move |m| Some((test.record, m.trace.as_ref()?)))
    });
    alike::<ROW>(view, tests, &mut out);
    for (record, log) in plant.records().cycle_logs() {
        let own = log.events.iter().filter_map(|event| event.trace.as_ref());
        alike::<ROW_OF_CYCLES>(view, own.map(|file| (record, file)), &mut out);
    }
    readings(view, &mut out);
    out
}

/// So many readings that are the same in two tests are hardly chance, where so many of them differ from each other: of few that are
/// read to a coarse digit some pairs of a year agree (common practice, no source).
const READINGS: usize = 8;
const VALUES: usize = 5;

/// Tests whose readings are those of another test, one after the other.
fn readings(view: &View, out: &mut Outcome) {
    let records = view.plant.records();
    let flat = records.membrane_tests().map(|(record, body)| {
        let measured = body.measurements.iter();
        let all = measured.flat_map(|one| one.readings.0.iter().map(|reading| &*reading.text));
        (record, all.collect::<Vec<&str>>())
    });
    let flow = records.flow_tests().map(|(record, body)| {
        let all = body.points.iter();
        let all = all.flat_map(|point| [&*point.flow.text, &*point.differential_pressure.text]);
        (record, all.collect::<Vec<&str>>())
    });
    let mut seen: HashMap<(&str, Vec<&str>), &Record> = HashMap::new();
    let enough = |(_, all): &(&Record, Vec<&str>)| {
        all.len() >= READINGS && all.iter().collect::<BTreeSet<_>>().len() >= VALUES
    };
    for (record, all) in flat.chain(flow).filter(enough) {
        if let Some(other) = seen.insert((record.kind, all), record) {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(say!(
                        "{id} and {id2} have the same readings, one after the other.",
                        id = &*other.id,
                        id2 = &*record.id
                    ))
                }
                .advise(say!("Two tests do not repeat each other to the last digit: look which of them was copied, and measure what was not."))
                .at(record.place())
                .about(&*record.id.text)
                .about(&*other.id.text),
            );
        }
    }
}

/// So many steps in a row that are the same in two traces are no chance: a step of a test's pressure takes
/// a dozen values and more, so twelve in a row agree by chance once in 10^12.
const ROW: usize = 12;
/// The same of the cycles of one log, which one controller leads along one course: a step takes few values about it, one in four or
/// two agree, and twenty-four in a row do so by chance once in 10^7 and more.
const ROW_OF_CYCLES: usize = 24;
/// A stretch with fewer different steps than this says nothing: a recorder that stands still repeats itself.
const DIFFERENT: usize = 6;

/// Traces that share a stretch of noise, though not every byte.
fn alike<'a, const ROW: usize>(
    view: &View<'a>,
    traces: impl Iterator<Item = (&'a Record, &'a TraceFile)>,
    out: &mut Outcome,
) {
    // One stretch in six is remembered, all are looked up: what two traces share for long is found.
    let mut seen: HashMap<[i32; ROW], (usize, &Record, &str)> = HashMap::new();
    let mut told: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (n, (own, file)) in traces.enumerate() {
        let Some(trace) = view.plant.folder.trace(file) else {
            continue;
        };
        let column = trace.column("gas_flow").or(trace.column("pressure"));
        let column = column.or(trace.column("temperature"));
        let Some(column) = column else { continue };
        // Steps in the last digit that a trace may have, whatever unit it is written in.
        let unit = match column.unit.dim {
            PRESSURE => MBAR.factor * 1e-3,
            FLOW => ML_PER_MIN.factor * 1e-3,
            _ => 1e-3,
        };
        let steps: Vec<i32> = column
            .values
            .array_windows()
            .map(|[a, b]| libm::round((b - a) / unit) as i32)
            .collect();
        for (i, row) in steps.windows(ROW).enumerate() {
            let Ok(row) = <[i32; ROW]>::try_from(row) else {
                continue;
            };
            let mut different = row;
            different.sort_unstable();
            if 1 + different.array_windows().filter(|[a, b]| a != b).count() < DIFFERENT {
                continue;
            }
            match seen.get(&row) {
                Some((other, record, name)) if *other != n => {
                    // Files that are equal byte by byte were named above.
                    let digest =
                        |name: &str| view.plant.folder.files.get(name).map(|file| file.digest);
                    if digest(name) != digest(&file.file) && told.insert((*other, n)) {
                        out.find(
                            finding(say!("{id} and {id2} share {what} readings in a row that differ from each other alike ({name} and {file}).", id = &*record.id, id2 = &*own.id, what = ROW, name = name, file = &*file.file))
                                .advise(say!("Noise does not repeat itself: fetch both originals from the instrument."))
                                .at(own.at(file.file.spot))
                                .about(&*own.id.text)
                                .about(&*record.id.text),
                        );
                    }
                }
                Some(_) => {}
                None if i % 6 > 0 => {}
                None => {
                    seen.insert(row, (n, own, &file.file));
                }
            }
        }
    }
}
