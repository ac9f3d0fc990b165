//! R70: Cycles used do not exceed the claim, each treatment on its own.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    figure::Computed,
    figures::cycles_used,
    ground::{
        finding::{Finding, Severity},
        number,
    },
    record::{
        Record,
        kinds::{Body, cycle_log::CycleLog},
    },
    rule::{Outcome, Rule, View},
};

/// Cycles used do not exceed the claim, each treatment on its own.
pub static RULE: Rule = Rule {
    id: "R70",
    severity: Severity::Blocks,
    demands: "Cycles used do not exceed the claim, each treatment on its own.",
    protects: "an element that is used beyond what was ever tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R70", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("treatments of installed elements"));
    for computed in view.graph.all("cycles-left") {
        let record = view.plant.record(computed.subject.record);
        let Body::CycleLog(log) = &record.body else {
            continue;
        };
        out.look();
        let used = view
            .graph
            .get("cycles-used", &record.id, &computed.id.part)
            .map_or(String::new(), Computed::shown);
        match &computed.worked {
            Ok(worked) if worked.quantity.value < 0.0 => out.find(
                finding(say!(
                    "{assembly_id}: {used} cycles of {part}, {quantity} over the claim.",
                    assembly_id = &*log.assembly_id,
                    used = used,
                    part = &*computed.id.part,
                    quantity = number::fixed(-worked.quantity.value, 0)
                ))
                .advise(say!(
                    "Take it out of service; the claim says nothing about the next cycle."
                ))
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            ),
            Err(why) => out.find(
                finding(say!(
                    "{assembly_id}: {used} cycles of {part}, and {why}.",
                    assembly_id = &*log.assembly_id,
                    used = used,
                    part = &*computed.id.part,
                    why = why
                ))
                .advise(say!("Ask the maker in writing before further use."))
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            ),
            Ok(_) => {}
        }
    }
    moved(view, &mut out);
    for (record, log) in view.plant.records().cycle_logs() {
        let mut numbers: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
        for event in log.events.iter() {
            numbers
                .entry(&event.treatment)
                .or_default()
                .push(event.sequence.value);
        }
        for (treatment, mut own) in numbers {
            own.sort_unstable();
            let carried = cycles_used::carried_of(log, treatment)
                .fold(0_u64, |sum, one| sum.saturating_add(one.cycles.value));
            let due = carried.saturating_add(1)..=carried.saturating_add(own.len() as u64);
            if !due.clone().eq(own.iter().copied()) {
                let list: Vec<String> = own.iter().map(u64::to_string).collect();
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{assembly_id}: cycles of {treatment} are numbered {list} after {carried} carried forward; {due} to {due2} are due.", assembly_id = &*log.assembly_id, treatment = treatment, list = list.join(", "), carried = carried, due = due.start(), due2 = due.end()))
                    }
                    .advise(say!("Find the cycle that is missing or doubled; until then count the highest number."))
                    .at(record.place())
                    .about(&*log.assembly_id.text)
                    .about(&*record.id.text),
                );
            }
        }
        let built = view.plant.build(&log.assembly_id).map(|(build, _)| build);
        let wrong = match built {
            None => Some(say!("no assembly_build knows it").to_owned()),
            Some(build)
                if build
                    .happened()
                    .is_some_and(|built| log.installed_at.time < built) =>
            {
                Some(say!(
                    "fitted {time}, before it was built",
                    time = log.installed_at.time
                ))
            }
            _ => {
                let times = log.events.iter().map(|event| event.start.time);
                let early = times.clone().any(|time| time < log.installed_at.time);
                let late = log
                    .removed_at
                    .as_ref()
                    .is_some_and(|removed| times.into_iter().any(|time| time > removed.time));
                match (early, late) {
                    (true, _) => Some(say!("cycles lie before it was fitted").to_owned()),
                    (_, true) => Some(say!("cycles lie after it was taken out").to_owned()),
                    _ => None,
                }
            }
        };
        if let Some(wrong) = wrong {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(format!("{}: {wrong} ({}).", &*log.assembly_id, &*record.id))
                }
                .advise(say!(
                    "Find out which element it is, and which time is wrong."
                ))
                .at(record.place())
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// An element that was fitted again keeps its cycles: those of all its logs are of one life.
fn moved(view: &View, out: &mut Outcome) {
    let mut by_element: BTreeMap<&str, Vec<(&Record, &CycleLog)>> = BTreeMap::new();
    for (record, log) in view.plant.records().cycle_logs() {
        let own = by_element.entry(&log.assembly_id).or_default();
        own.push((record, log));
    }
    for (element, mut logs) in by_element {
        logs.sort_by_key(|(_, log)| log.installed_at.time);
        let Some((record, log)) = logs.last().copied().filter(|_| logs.len() > 1) else {
            continue;
        };
        for treatment in logs
            .iter()
            .flat_map(|(_, log)| cycles_used::names(log))
            .collect::<BTreeSet<_>>()
        {
            out.look();
            let figure = |name, record: &Record| {
                let found = view.graph.get(name, &record.id, treatment);
                found.and_then(Computed::quantity).map(|own| own.value)
            };
            let life = cycles_used::over_logs(logs.iter().map(|(record, log)| {
                let carried = cycles_used::carried_of(log, treatment);
                let carried: f64 = carried.map(|one| one.cycles.value as f64).sum();
                (carried, figure("cycles-used", record).unwrap_or(0.0))
            }));
            let left = figure("cycles-left", record);
            let own = figure("cycles-used", record).unwrap_or(0.0);
            let Some(over) = left
                .map(|left| life - (left + own))
                .filter(|over| *over > 0.0)
            else {
                continue;
            };
            out.find(
                finding(say!(
                    "{element}: {life} cycles of {treatment} over its {count} logs, {over} over the claim.",
                    element = element,
                    life = number::fixed(life, 0),
                    treatment = treatment,
                    count = logs.len(),
                    over = number::fixed(over, 0)
                ))
                .advise(say!("Take it out of service; the claim says nothing about the next cycle. Where a log counts what an earlier one counts too, enter that in count_carried_forward."))
                .at(record.at(log.assembly_id.spot))
                .about(element)
                .about(&*record.id.text),
            );
        }
    }
}
