//! R72: A cycle stated without evidence counts in full against life and not at all as proof.

use crate::{
    figure::{Computed, Scope},
    figures::{cycles_used::too_cold, f0_proven, hold_time_proven},
    ground::{
        finding::{Finding, Severity},
        number,
        time::Time,
    },
    physics::fluid,
    record::kinds::cycle_log::{CycleLog, Event},
    rule::{Outcome, Rule, View},
    stats::{distribution::normal_quantile, summary},
};

/// A cycle stated without evidence counts in full against life and not at all as proof.
pub static RULE: Rule = Rule {
    id: "R72",
    severity: Severity::Explain,
    demands: "A cycle stated without evidence counts in full against life and not at all as proof.",
    protects: "a treatment that nobody recorded",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R72", Severity::Explain, message)
}

/// How far steam may be from saturation, in K (EN 285 asks for no more than 2 K at the beginning of a hold; from memory).
const SATURATED: f64 = 2.0;

/// How far the steam of a cycle was from saturation while it was hot, in K, where that is too far: the median over the rows of its
/// trace from the hold temperature on. Nothing where no absolute pressure was recorded.
fn unsaturated(scope: &Scope, event: &Event) -> Option<f64> {
    if &*event.treatment.text != "steam_in_place" {
        return None;
    }
    let trace = scope.plant.folder.trace(event.trace.as_ref()?)?;
    let temperature = trace.column("temperature")?;
    let pressure = trace.column("pressure").filter(|column| column.absolute)?;
    let hold = hold_time_proven::hold(scope);
    let rows = temperature.values.iter().zip(&pressure.values);
    // A pressure at which there is no steam is as far away as can be.
    let apart: Vec<f64> = rows
        .filter(|(t, _)| **t >= hold)
        .map(|(t, p)| fluid::saturation_temperature(*p).map_or(*t, |saturated| t - saturated))
        .collect();
    let middle = summary::median(&apart).ok()?;
    (middle.abs() > SATURATED).then_some(middle)
}

/// Of a hold that stands so near to the hold temperature that the recorder may be wrong by as much, less than this share is surely hot
/// enough (common practice, no source).
const SURELY: f64 = 0.5;

/// Cycles most of whose hold lies within what the recorder may be wrong, and that in K at 95 %, one-sided: a slope says nothing of
/// this, since a whole plateau goes below at once.
fn near(view: &View, scope: &Scope, log: &CycleLog) -> Option<(f64, Vec<u64>)> {
    let margin = normal_quantile(0.95).ok()? * f0_proven::recorder(scope)?;
    let steam = log
        .events
        .iter()
        .filter(|event| &*event.treatment.text == "steam_in_place");
    let few = steam.filter(|event| {
        let part = hold_time_proven::part(event);
        let own = Scope {
            part: &part,
            ..*scope
        };
        let id = &scope.record.id;
        let all = view.graph.get(hold_time_proven::FIGURE.id, id, &part);
        let all = all.and_then(Computed::quantity);
        let surely = hold_time_proven::held_above(&own, margin);
        matches!((all, surely), (Some(all), Ok(surely)) if surely < SURELY * all.value)
    });
    Some((margin, few.map(|event| event.sequence.value).collect()))
}

/// A recorder may be started so long before or after a cycle, in seconds (common practice, no source).
const APART: f64 = 3600.0;

/// When the trace of a cycle begins, where that is another time than the cycle's.
fn begun_elsewhere(scope: &Scope, event: &Event) -> Option<Time> {
    let begun = scope.plant.folder.trace(event.trace.as_ref()?)?.start?;
    let apart = begun.seconds_since(event.start.time);
    (apart.abs() > APART).then_some(begun)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("cycles"));
    for (record, log) in view.plant.records().cycle_logs() {
        let scope = Scope {
            plant: view.plant,
            record,
            part: "",
        };
        if let Some((margin, few)) = near(view, &scope, log).filter(|(_, few)| !few.is_empty()) {
            let mut list: Vec<String> = few.iter().take(8).map(u64::to_string).collect();
            if few.len() > list.len() {
                list.push(say!("and {more} more", more = few.len() - list.len()));
            }
            out.find(
                Finding {
                    severity: Severity::Note,
                    ..finding(say!(
                        "{assembly_id}: most of the hold of {count} cycles lies less than {margin} K above the hold temperature, and the recorder may be wrong by as much: {list}.",
                        assembly_id = &*log.assembly_id,
                        count = few.len(),
                        margin = number::fixed(margin, 2),
                        list = list.join(", ")
                    ))
                }
                .advise(say!("Hold hotter within the claim, or know the recorder better: such a hold may not have been hot enough at all."))
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
        for event in log.events.iter() {
            out.look();
            if let Some(beyond) = unsaturated(&scope, event) {
                out.find(
                    finding(say!(
                        "{assembly_id}: {treatment} cycle {sequence}: while hot its trace is {beyond} K away from the temperature of saturated steam at its pressure.",
                        assembly_id = &*log.assembly_id,
                        treatment = &*event.treatment,
                        sequence = event.sequence.value,
                        beyond = number::fixed(beyond, 1)
                    ))
                    .advise(say!("Above it is dry, superheated steam, below it air, or a sensor is wrong: neither heats as saturated steam does. Find out which."))
                    .at(record.at(event.spot))
                    .about(&*log.assembly_id.text)
                    .about(&*record.id.text),
                );
            }
            if let Some(begun) = begun_elsewhere(&scope, event) {
                out.find(
                    finding(say!(
                        "{assembly_id}: {treatment} cycle {sequence} was started {start}, and its trace begins {begun}.",
                        assembly_id = &*log.assembly_id,
                        treatment = &*event.treatment,
                        sequence = event.sequence.value,
                        start = event.start.time,
                        begun = begun
                    ))
                    .advise(say!("It is the trace of another cycle, or one clock is wrong. Find out which."))
                    .at(record.at(event.spot))
                    .about(&*log.assembly_id.text)
                    .about(&*record.id.text),
                );
            }
            let why = match event.evidence {
                crate::record::kinds::cycle_log::Evidence::OperatorStatement => {
                    say!("operator's statement only")
                }
                crate::record::kinds::cycle_log::Evidence::MachineCounter => {
                    say!("counter of the line only")
                }
                crate::record::kinds::cycle_log::Evidence::Trace if event.trace.is_none() => {
                    say!("evidence says trace and none is named")
                }
                crate::record::kinds::cycle_log::Evidence::Trace if too_cold(&scope, event) => {
                    say!("its trace never reaches the hold temperature")
                }
                crate::record::kinds::cycle_log::Evidence::Trace => continue,
            };
            out.find(
                finding(say!("{assembly_id}: {treatment} cycle {sequence}: {why}. Counted as used, not as proof.", assembly_id = &*log.assembly_id, treatment = &*event.treatment, sequence = event.sequence.value, why = why))
                .advise(match event.trace {
                    Some(_) => say!("Find out what was recorded; a cycle that was not hot has treated nothing."),
                    None => say!("Connect the recorder to the valve that starts the cycle."),
                })
                .at(record.at(event.spot))
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
    }
    out
}
