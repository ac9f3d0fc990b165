//! R71: Each cycle lay inside the conditions of its claim.

use crate::{
    figure::Computed,
    figures::hold_time_proven,
    ground::{number, unit},
    record::kinds::Body,
};
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Each cycle lay inside the conditions of its claim.
pub static RULE: Rule = Rule {
    id: "R71",
    severity: Severity::Explain,
    demands: "Each cycle lay inside the conditions of its claim.",
    protects: "a treatment that was hotter or harder than anything that was tested",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("cycles"));
    for (record, log) in view.plant.records().cycle_logs() {
        let claim = view.plant.records().find("cycle_claim", &log.claim.id);
        let revision = log.claim.revision.value;
        if let Some(claim) = claim.filter(|claim| claim.revision < revision) {
            out.look();
            out.find(
                finding(say!(
                    "{assembly_id}: its log names revision {revision} of {claim}, and the latest here is {latest}.",
                    assembly_id = &*log.assembly_id,
                    revision = revision,
                    claim = &*claim.id,
                    latest = claim.revision
                ))
                .advise(say!("Name the revision that was handed over with the element."))
                .at(record.at(log.claim.spot))
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
        // What was handed over with the element binds, and not what was claimed later.
        let own = view.plant.records();
        let own = own.revision("cycle_claim", &log.claim.id, revision);
        let Some(Body::CycleClaim(claims)) = own.or(claim).map(|claim| &claim.body) else {
            continue;
        };
        for event in log.events.iter() {
            let Some(claim) = claims
                .claims
                .iter()
                .find(|claim| claim.treatment.text == event.treatment.text)
            else {
                continue;
            };
            out.look();
            let trace = event
                .trace
                .as_ref()
                .and_then(|file| view.plant.folder.trace(file))
                .and_then(|trace| trace.column("temperature"));
            let hottest = trace.and_then(|column| column.values.iter().copied().reduce(f64::max));
            let mut bad = Vec::new();
            let told = event
                .reported
                .as_ref()
                .and_then(|all| all.get("temperature_max"));
            let read = told.map(|told| (told, number::parse_with_unit(told)));
            if let Some((told, _)) = read
                .filter(|(_, read)| !matches!(read, Ok((_, unit)) if unit.dim == unit::TEMPERATURE))
            {
                bad.push(say!(
                    "temperature_max \"{told}\" is no temperature with its unit",
                    told = &**told
                ));
            }
            let hottest = told
                .and_then(|told| number::parse_with_unit(told).ok())
                .filter(|(_, unit)| unit.dim == unit::TEMPERATURE)
                .map(|(n, unit)| unit.to_si(n))
                .into_iter()
                .chain(hottest)
                .reduce(f64::max);
            if let (Some(hottest), Some(limit)) = (hottest, &claim.temperature_max)
                && hottest > limit.si
            {
                bad.push(say!(
                    "{hottest} °C against {limit}",
                    hottest = number::fixed(unit::DEGC.of_si(hottest), 1),
                    limit = limit.text
                ));
            }
            let part = hold_time_proven::part(event);
            let held = view
                .graph
                .get(hold_time_proven::FIGURE.id, &record.id, &part);
            let held = held.and_then(Computed::quantity);
            // Only what is longer beyond its doubt: a hold ends when somebody closes a valve.
            if let (Some(held), Some(limit)) = (held, &claim.time_per_cycle)
                && held.value - 2.0 * held.u() > limit.si
            {
                bad.push(say!(
                    "held {held} against {limit}",
                    held = held.show(&unit::MINUTE),
                    limit = limit.text
                ));
            }
            let pairs = [
                (
                    "differential_pressure_max",
                    &event.differential_pressure_max,
                    &claim.differential_pressure_max,
                ),
                (
                    "reverse_differential_pressure_max",
                    &event.reverse_differential_pressure_max,
                    &claim.reverse_differential_pressure_max,
                ),
            ];
            for (name, had, limit) in pairs {
                match (had, limit) {
                    (Some(had), Some(limit)) if had.si > limit.si => bad.push(say!(
                        "pressure difference {had} against {limit}",
                        had = had.text,
                        limit = limit.text
                    )),
                    (Some(had), None) if had.si > 0.0 => bad.push(say!(
                        "{name} {had}, of which the claim says nothing",
                        name = name,
                        had = had.text
                    )),
                    _ => {}
                }
            }
            if !bad.is_empty() {
                out.find(
                    finding(say!(
                        "{assembly_id}: {treatment} cycle {sequence}: {bad}; outside the claim.",
                        assembly_id = &*log.assembly_id,
                        treatment = &*event.treatment,
                        sequence = event.sequence.value,
                        bad = bad.join("; ")
                    ))
                    .advise(say!("Ask the maker in writing before further use."))
                    .at(record.at(event.spot))
                    .about(&*log.assembly_id.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}
