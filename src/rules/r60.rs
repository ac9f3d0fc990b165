//! R60: Every seal has a run, and what was done lies inside the validated window.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
        place::Spot,
        unit::{DEGC, TEMPERATURE},
    },
    record::{
        Record,
        kinds::{
            Body,
            seal_run::{Seal, SealRun},
        },
        read::Demand,
    },
    rule::{Outcome, Rule, View},
    stats::summary,
};

/// Every seal has a run, and what was done lies inside the validated window.
pub static RULE: Rule = Rule {
    id: "R60",
    severity: Severity::Blocks,
    demands: "Every seal has a run, and what was done lies inside the validated window.",
    protects: "a cold or burnt seal",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R60", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("seal runs and joins"));
    let mut laid_down: BTreeMap<_, (&Record, String)> = BTreeMap::new();
    for (record, run) in view.plant.records().seal_runs() {
        out.look();
        windows(view, record, run, &mut out);
        let Some(document) = run.validated_window.get("document") else {
            continue;
        };
        // One revision of one document lays down one window for one sort of seal.
        let revision = run.validated_window.get("revision").map(|text| &*text.text);
        let of = (&*document.text, revision, run.seal_type);
        let ranges = run.validated_window.leaves.iter();
        let ranges = ranges.filter(|(key, _)| !["document", "revision"].contains(&&**key));
        let ranges: BTreeSet<String> = ranges
            .map(|(key, text)| format!("{key} {}", &**text))
            .collect();
        let ranges = Vec::from_iter(ranges).join("; ");
        match laid_down.get(&of) {
            None => {
                laid_down.insert(of, (record, ranges));
            }
            Some((first, window)) if *window != ranges => out.find(
                finding(say!(
                    "{id} and {first} name {document} for windows that differ.",
                    id = &*record.id,
                    first = &*first.id,
                    document = &**document
                ))
                .advise(say!(
                    "Write the window that the document lays down, with its revision."
                ))
                .at(record.at(document.spot))
                .about(&*record.id.text)
                .about(&*first.id.text),
            ),
            Some(_) => {}
        }
    }
    // Where runs of end caps are recorded at all, a module without one is forgotten; whether they must be is the specification's
    // to say (rule R02).
    let sealed = |id: &str| {
        let runs = view.plant.modules.get(id).into_iter();
        runs.flat_map(|module| &module.seal_runs).any(|index| {
            matches!(&view.plant.record(*index).body, Body::SealRun(run) if run.seal_type == Seal::PackToEndCap)
        })
    };
    let recorded = view.plant.modules.keys().any(|id| sealed(id));
    for id in view.plant.modules.keys().filter(|_| recorded) {
        out.look();
        let assemblies = view.plant.assemblies_of(id);
        let build = assemblies.first().and_then(|id| view.plant.build(id));
        if let Some((record, _)) = build.filter(|_| !sealed(id)) {
            out.find(
                finding(say!(
                    "{id}: no seal_run of the type {seal} names it.",
                    id = id,
                    seal = Seal::PackToEndCap.word()
                ))
                .advise(say!(
                    "Add the record of the run that sealed its pack into the end caps."
                ))
                .at(record.place())
                .about(&**id),
            );
        }
    }
    for (record, build) in view.plant.records().assembly_builds() {
        for joint in build.joints.iter() {
            let run = view.plant.seal_run(&joint.seal_run);
            let Some((run, body)) = run else { continue };
            let sealed = body.items.iter().any(|item| {
                item.item.text == build.assembly_id.text
                    && item.joint.is_none_or(|own| own.value == joint.joint.value)
            });
            if !sealed {
                out.find(
                    finding(say!(
                        "{assembly_id}: join {joint} is said to be of {run}, which does not list it.",
                        assembly_id = &*build.assembly_id,
                        joint = joint.joint.value,
                        run = &*run.id
                    ))
                    .advise(say!("Find out in which run it was made: its setting, its trace and its coupons vouch for this join."))
                    .at(record.at(joint.seal_run.spot))
                    .about(&*build.assembly_id.text)
                    .about(&*run.id.text),
                );
            }
        }
        let joints = build.joints.iter();
        let joints = joints.map(|joint| (&joint.seal_run, Seal::ModuleToModule));
        let adapter = build
            .adapter
            .iter()
            .filter_map(|adapter| adapter.seal_run.as_ref());
        let piece = build
            .end_piece
            .iter()
            .filter_map(|piece| piece.seal_run.as_ref());
        let runs = joints
            .chain(adapter.map(|run| (run, Seal::Adapter)))
            .chain(piece.map(|run| (run, Seal::EndPiece)));
        for (run, due) in runs {
            out.look();
            let found = view.plant.seal_run(run);
            if let Some((_, body)) = found.filter(|(_, body)| body.seal_type != due) {
                out.find(
                    finding(say!(
                        "{assembly_id}: {run} is of seal_type {is}, and a run of {due} is due.",
                        assembly_id = &*build.assembly_id,
                        run = &**run,
                        is = body.seal_type.word(),
                        due = due.word()
                    ))
                    .advise(say!(
                        "Name the run that made this seal, or correct its type."
                    ))
                    .at(record.at(run.spot))
                    .about(&*build.assembly_id.text),
                );
            }
            if found.is_none() {
                out.find(
                    finding(say!(
                        "{assembly_id}: seal run {run} is missing.",
                        assembly_id = &*build.assembly_id,
                        run = &**run
                    ))
                    .advise(say!("Add its record with trace."))
                    .at(record.at(run.spot))
                    .about(&*build.assembly_id.text),
                );
            }
        }
        if build.joints.len() + 1 < build.modules.len() {
            out.find(
                finding(say!(
                    "{assembly_id}: {count} modules and {joints} joins.",
                    assembly_id = &*build.assembly_id,
                    count = build.modules.len(),
                    joints = build.joints.len()
                ))
                .advise(say!("Record every join with its seal run."))
                .at(record.place())
                .about(&*build.assembly_id.text),
            );
        }
    }
    out
}

/// What a run was meant to be and what it was.
fn windows(view: &View, record: &Record, run: &SealRun, out: &mut Outcome) {
    let mut find = |spot: Spot, message: String, advice: &str| {
        out.find(
            finding(format!("{}: {message}", &*record.id))
                .advise(advice)
                .at(record.at(spot))
                .about(&*record.id.text),
        );
    };
    let ranges = run.validated_window.leaves.iter();
    let ranges: Vec<_> = ranges
        .filter(|(key, _)| !["document", "revision"].contains(&&**key))
        .collect();
    if ranges.is_empty() {
        find(
            run.spot,
            say!("its validated_window names no range.").into(),
            say!("Write each range that was validated, as \"A .. B\" with units."),
        );
    }
    for (key, window) in ranges {
        let Ok(demand) = Demand::parse(window, window.spot) else {
            find(
                window.spot,
                say!(
                    "the window \"{window}\" of {key} cannot be read.",
                    window = &**window,
                    key = key
                ),
                say!("Write \"A .. B\" with units."),
            );
            continue;
        };
        if let Some(words) = trace_outside(view, run, key, &demand) {
            find(
                window.spot,
                say!(
                    "{words}, window {window}.",
                    words = words,
                    window = &**window
                ),
                say!(
                    "Block what was sealed in it; the trace counts, not the number that was written."
                ),
            );
        }
        let set = run.setpoints.as_ref().and_then(|all| all.get(key));
        let outside = set.filter(|set| {
            number::parse_with_unit(set)
                .is_ok_and(|(n, unit)| unit.dim == demand.unit.dim && !demand.holds(unit.to_si(n)))
        });
        if let Some(set) = outside {
            find(
                set.spot,
                say!(
                    "{key} was set to {set}, window {window}.",
                    key = key,
                    set = &**set,
                    window = &**window
                ),
                say!("Block what was sealed in it; weld validation decides."),
            );
        }
        let of = |ending: &str| {
            let name = format!("{key}{ending}");
            run.actuals.get(&name).map(|actual| (name, actual))
        };
        let actuals = ["", "_mean", "_min", "_max"].into_iter().filter_map(of);
        let actuals: Vec<_> = actuals.collect();
        if actuals.is_empty() {
            find(
                run.spot,
                say!("{key} has a window and no actual value.", key = key),
                say!("Add it from the machine's export."),
            );
        }
        for (name, actual) in actuals {
            let (n, unit) = match number::parse_with_unit(actual) {
                Ok((n, unit)) if unit.dim == demand.unit.dim => (n, unit),
                read => {
                    let why = read.err().map_or(String::new(), |why| format!(": {why}"));
                    find(
                        actual.spot,
                        say!(
                            "{name} \"{actual}\" cannot be held against the window {window}{why}.",
                            name = name,
                            actual = &**actual,
                            window = &**window,
                            why = why
                        ),
                        say!("Write a number with a unit of the same kind."),
                    );
                    continue;
                }
            };
            if !demand.holds(unit.to_si(n)) {
                let items = run.items.iter().map(|item| item.item.to_string());
                let items: Vec<String> = items.collect();
                find(
                    actual.spot,
                    say!(
                        "{key} {actual}, window {window}. Affected: {items}.",
                        key = name,
                        actual = &**actual,
                        window = &**window,
                        items = items.join(", ")
                    ),
                    say!("Block them; weld validation decides."),
                );
            }
        }
    }
}

/// Of the middle half of a trace so large a share may lie outside the window: heating up and cooling down are at its ends (common
/// practice, no source).
const OUTSIDE: f64 = 0.25;

/// Where a run's temperature trace lies outside the window, by its median or by many readings of its middle half; or that there is no
/// trace.
fn trace_outside(view: &View, run: &SealRun, key: &str, demand: &Demand) -> Option<String> {
    if demand.unit.dim != TEMPERATURE {
        return None;
    }
    let Some(file) = &run.trace else {
        return Some(say!(
            "no trace shows its {key}",
            key = key.replace('_', " ")
        ));
    };
    // A trace that cannot be read is the business of rules R05 and R06.
    let rows = &view.plant.folder.trace(file)?.column("temperature")?.values;
    let show = |si: f64| number::fixed(DEGC.of_si(si), 0);
    let median = summary::median(rows).ok()?;
    if !demand.holds(median) {
        return Some(say!(
            "the trace stands at {median} °C",
            median = show(median)
        ));
    }
    let middle = rows.get(rows.len() / 4..rows.len() - rows.len() / 4)?;
    let outside = middle.iter().copied().filter(|t| !demand.holds(*t));
    let (count, low, high) = outside.fold(
        (0, f64::INFINITY, f64::NEG_INFINITY),
        |(n, low, high), t| (n + 1, t.min(low), t.max(high)),
    );
    (f64::from(count) > OUTSIDE * middle.len() as f64).then(|| {
        say!(
            "in the middle half of its trace {count} of {all} readings lie outside, {low} °C to {high} °C",
            count = count,
            all = middle.len(),
            low = show(low),
            high = show(high)
        )
    })
}
