//! R49: No two tests share a trace, or a stretch of its noise.

use std::collections::{BTreeSet, HashMap};

use crate::record::{Record, folder::trace_files};
use crate::{
    ground::finding::{Finding, Severity},
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
    alike(view, &mut out);
    out
}

/// So many steps in a row that are the same in two traces are no chance: a step of a test's pressure takes
/// a dozen values and more, so twelve in a row agree by chance once in 10^12.
const ROW: usize = 12;
/// A stretch with fewer different steps than this says nothing: a recorder that stands still repeats itself.
const DIFFERENT: usize = 6;

/// Traces of two tests that share a stretch of noise, though not every byte.
fn alike(view: &View, out: &mut Outcome) {
    // One stretch in six is remembered, all are looked up: what two traces share for long is found.
    let mut seen: HashMap<[i32; ROW], (usize, &Record, &str)> = HashMap::new();
    let mut told: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (n, (test, file)) in view
        .plant
        .tests()
        .flat_map(|test| {
            test.test
                .measurements
                .iter()
                .filter_map(move |m| Some((test, m.trace.as_ref()?)))
        })
        .enumerate()
    {
        let Some(trace) = view.plant.folder.trace(file) else {
            continue;
        };
        let column = trace.column("gas_flow").or(trace.column("pressure"));
        let Some(column) = column else { continue };
        out.look();
        // Steps in the last digit that a trace has: a hundredth of its unit and finer.
        let unit = column.unit.factor * 1e-3;
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
                            finding(say!("{id} and {id2} share {what} readings in a row that differ from each other alike ({name} and {file}).", id = &*record.id, id2 = &*test.record.id, what = ROW, name = name, file = &*file.file))
                                .advise(say!("Noise does not repeat itself: fetch both originals from the instrument."))
                                .at(test.record.at(file.file.spot))
                                .about(&*test.record.id.text)
                                .about(&*record.id.text),
                        );
                    }
                }
                Some(_) => {}
                None if i % 6 > 0 => {}
                None => {
                    seen.insert(row, (n, test.record, &file.file));
                }
            }
        }
    }
}
