//! R60: Every seal has a run, and what was done lies inside the validated window.

use crate::{
    ground::unit::{DEGC, TEMPERATURE},
    ground::{
        finding::{Finding, Severity},
        number,
    },
    record::kinds::seal_run::SealRun,
    record::read::Demand,
    rule::{Outcome, Rule, View},
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
    for (record, run) in view.plant.records().seal_runs() {
        out.look();
        for (key, window) in &run.validated_window.leaves {
            if key == "document" {
                continue;
            }
            let Ok(demand) = Demand::parse(window, window.spot) else {
                out.find(
                    finding(say!(
                        "{id}: the window \"{window}\" of {key} cannot be read.",
                        id = &*record.id,
                        window = &**window,
                        key = key
                    ))
                    .advise(say!("Write \"A .. B\" with units."))
                    .at(record.at(window.spot))
                    .about(&*record.id.text),
                );
                continue;
            };
            if let Some(words) = trace_outside(view, run, key, &demand) {
                out.find(
                    finding(say!("{id}: {words}, window {window}.", id = &*record.id, words = words, window = &**window))
                        .advise(say!("Block what was sealed in it; the trace counts, not the number that was written."))
                        .at(record.at(window.spot))
                        .about(&*record.id.text),
                );
            }
            let Some(actual) = run
                .actuals
                .get(key)
                .or_else(|| run.actuals.get(&format!("{key}_mean", key = key)))
            else {
                out.find(
                    finding(say!(
                        "{id}: {key} has a window and no actual value.",
                        id = &*record.id,
                        key = key
                    ))
                    .advise(say!("Add it from the machine's export."))
                    .at(record.at(run.spot))
                    .about(&*record.id.text),
                );
                continue;
            };
            let inside = number::parse_with_unit(actual)
                .is_ok_and(|(n, unit)| unit.dim == demand.unit.dim && demand.holds(unit.to_si(n)));
            if !inside {
                let items: Vec<String> =
                    run.items.iter().map(|item| item.item.to_string()).collect();
                out.find(
                    finding(say!(
                        "{id}: {key} {actual}, window {window}. {count} items affected: {items}.",
                        id = &*record.id,
                        key = key,
                        actual = &**actual,
                        window = &**window,
                        count = items.len(),
                        items = items.join(", ")
                    ))
                    .advise(say!("Block them; weld validation decides."))
                    .at(record.at(actual.spot))
                    .about(&*record.id.text),
                );
            }
        }
    }
    for (record, build) in view.plant.records().assembly_builds() {
        let runs = build
            .joints
            .iter()
            .map(|joint| &joint.seal_run)
            .chain(
                build
                    .adapter
                    .iter()
                    .filter_map(|adapter| adapter.seal_run.as_ref()),
            )
            .chain(
                build
                    .end_piece
                    .iter()
                    .filter_map(|piece| piece.seal_run.as_ref()),
            );
        for run in runs {
            out.look();
            if view.plant.seal_run(run).is_none() {
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

/// The median of a run's temperature trace, where it lies outside the window; or that there is no trace.
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
    let mut values = view
        .plant
        .folder
        .trace(file)?
        .column("temperature")?
        .values
        .clone();
    values.sort_by(f64::total_cmp);
    let median = *values.get(values.len() / 2)?;
    (!demand.holds(median)).then(|| {
        say!(
            "the trace stands at {median} °C",
            median = number::fixed(DEGC.of_si(median), 0)
        )
    })
}
