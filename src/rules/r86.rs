//! R86: No claim of cycles exceeds what the data support.

use std::collections::BTreeSet;

use crate::{
    ground::finding::{Finding, Severity},
    record::{
        common::Measured,
        kinds::{
            cycle_claim::Claim, endurance_study::EnduranceStudy, product_specification::Stage,
        },
        read::Q,
    },
    rule::{Outcome, Rule, View},
};

/// No claim of cycles exceeds what the data support.
pub static RULE: Rule = Rule {
    id: "R86",
    severity: Severity::Blocks,
    demands: "No claim of cycles exceeds what the data support.",
    protects: "a claim beyond what was ever tested",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("claims"));
    for (record, claim) in view.plant.records().cycle_claims() {
        for one in &claim.claims {
            out.look();
            let mut report = |severity: Severity, message: String, advice: &str| {
                out.find(
                    Finding {
                        severity,
                        ..finding(format!("{}: {message}.", &*record.id))
                    }
                    .advise(advice)
                    .at(record.at(one.cycles_claimed.spot))
                    .about(&*record.id.text),
                );
            };
            if one.cycles_claimed.value > one.cycles_tested.value {
                report(
                    Severity::Blocks,
                    say!(
                        "{cycles_claimed} {treatment} cycles are claimed and {cycles_tested} were tested",
                        cycles_claimed = one.cycles_claimed.value,
                        treatment = one.treatment.replace('_', " "),
                        cycles_tested = one.cycles_tested.value
                    ),
                    say!("Claim no more than was tested."),
                );
                continue;
            }
            let studies: Vec<_> = view
                .plant
                .records()
                .endurance_studys()
                .filter(|(_, study)| {
                    study.product_code.text == claim.product_code.text
                        && study.treatment.text == one.treatment.text
                })
                .collect();
            if studies.is_empty() {
                report(
                    Severity::Note,
                    say!(
                        "the claim of {cycles_claimed} {treatment} cycles rests on its report alone; no endurance_study is in this folder",
                        cycles_claimed = one.cycles_claimed.value,
                        treatment = one.treatment.replace('_', " ")
                    ),
                    say!("Add the study, so that its data can be judged here."),
                );
            }
            for (study, body) in studies {
                for stranger in strangers(body) {
                    report(
                        Severity::Blocks,
                        say!(
                            "{id} has results of {element}, which is none of its elements",
                            id = &*study.id,
                            element = stranger
                        ),
                        say!(
                            "List every element that was treated: one that is left out is not counted, however it ended."
                        ),
                    );
                }
                for worn in worn(view, study, body) {
                    report(
                        Severity::Blocks,
                        worn,
                        say!(
                            "It failed there: say so, and claim no more than every element reached."
                        ),
                    );
                }
                if let Some(near) = near(view, study, body) {
                    report(
                        Severity::Explain,
                        near,
                        say!(
                            "Count no more cycles than were reached with room for the doubt of the measurement, or measure better."
                        ),
                    );
                }
                if (one.elements_tested.value as usize) > body.elements.len() {
                    report(
                        Severity::Explain,
                        say!(
                            "{elements_tested} elements are said to be tested, {id} has {count}",
                            elements_tested = one.elements_tested.value,
                            id = &*study.id,
                            count = body.elements.len()
                        ),
                        say!("State how many were tested."),
                    );
                }
                let milder = milder(one, body);
                if !milder.is_empty() {
                    report(
                        Severity::Blocks,
                        say!(
                            "the claim of {cycles_claimed} {treatment} cycles is not shown at its conditions: {id} {milder}",
                            cycles_claimed = one.cycles_claimed.value,
                            treatment = one.treatment.replace('_', " "),
                            id = &*study.id,
                            milder = milder.join(", ")
                        ),
                        say!(
                            "Claim the conditions that were tested, or test those that are claimed."
                        ),
                    );
                }
                let reached = body.elements.iter().map(|id| body.reached(id));
                let (fewest, failed) = reached
                    .fold((u64::MAX, 0), |(fewest, failed), (n, broke)| {
                        (fewest.min(n), failed + usize::from(broke))
                    });
                if one.cycles_tested.value > fewest {
                    report(
                        Severity::Explain,
                        say!(
                            "{cycles_tested} {treatment} cycles are said to be tested, and an element of {id} reached only {fewest} intact",
                            cycles_tested = one.cycles_tested.value,
                            treatment = one.treatment.replace('_', " "),
                            id = &*study.id,
                            fewest = fewest
                        ),
                        say!("State what every element reached, and what became of the others."),
                    );
                }
                if failed > 0 {
                    report(
                        Severity::Note,
                        say!(
                            "{failed} of {count} elements of {id} failed; every element reached {fewest} {treatment} cycles intact",
                            failed = failed,
                            count = body.elements.len(),
                            id = &*study.id,
                            fewest = fewest,
                            treatment = one.treatment.replace('_', " ")
                        ),
                        say!("Say so where the claim is used."),
                    );
                }
                let Some(computed) = view.graph.get("cycles-supported", &study.id, "") else {
                    continue;
                };
                match &computed.worked {
                    Err(why) => report(
                        Severity::Blocks,
                        say!(
                            "{id} supports no number of cycles: {why}",
                            id = &*study.id,
                            why = why
                        ),
                        say!("Complete the study, or take the claim back."),
                    ),
                    Ok(worked) if worked.quantity.value < one.cycles_claimed.value as f64 => {
                        report(
                            Severity::Blocks,
                            say!(
                                "{cycles_claimed} {treatment} cycles are claimed, {id} supports {computed}",
                                cycles_claimed = one.cycles_claimed.value,
                                treatment = one.treatment.replace('_', " "),
                                id = &*study.id,
                                computed = computed.shown()
                            ),
                            say!(
                                "Claim no more than the data support, or test more elements for longer."
                            ),
                        )
                    }
                    Ok(_) => {}
                }
            }
        }
    }
    out
}

/// Elements with checkpoints, or that left the study, and that its list does not name.
fn strangers(study: &EnduranceStudy) -> BTreeSet<&str> {
    let tested = study.checkpoints.iter().map(|point| &point.element);
    let left = study.censoring.iter().map(|one| &one.element);
    let listed = |id: &str| study.elements.iter().any(|own| &*own.text == id);
    let named = tested.chain(left).map(|id| &*id.text);
    named.filter(|id| !listed(id)).collect()
}

/// In what a study was milder than the claim, or does not say.
fn milder(claim: &Claim, study: &EnduranceStudy) -> Vec<String> {
    let mut out = Vec::new();
    let mut hold = |what: &str, claimed: Option<(f64, &str)>, tested: Option<(f64, &str)>| match (
        claimed, tested,
    ) {
        (Some((claimed, text)), Some((tested, had))) if claimed > tested + 1e-9 * claimed.abs() => {
            out.push(say!(
                "had {what} {had}, the claim says {what2}",
                what = what,
                had = had,
                what2 = text
            ));
        }
        (Some((_, text)), None) => out.push(say!(
            "does not state {what}, the claim says {what2}",
            what = what,
            what2 = text
        )),
        _ => {}
    };
    fn pair<M>(q: &Option<Q<M>>) -> Option<(f64, &str)> {
        q.as_ref().map(|q| (q.si, &*q.text))
    }
    hold(
        say!("the temperature"),
        pair(&claim.temperature_max),
        pair(&study.temperature),
    );
    hold(
        say!("the time of a cycle"),
        pair(&claim.time_per_cycle),
        pair(&study.time_per_cycle),
    );
    hold(
        say!("the forward pressure difference"),
        pair(&claim.differential_pressure_max),
        pair(&study.differential_pressure_max),
    );
    hold(
        say!("the reverse pressure difference"),
        pair(&claim.reverse_differential_pressure_max),
        pair(&study.reverse_differential_pressure_max),
    );
    out
}

/// Checkpoints that are called intact and are nearer to a limit than what the specification states of the measurement: a
/// module that measured the same would be undecided.
fn near(view: &View, record: &crate::record::Record, study: &EnduranceStudy) -> Option<String> {
    let (_, spec) = view.plant.spec_of(record)?;
    let limit = |stages: [Stage; 2], quantity| {
        let mut found = stages
            .into_iter()
            .filter_map(|stage| spec.limit(stage, quantity));
        found.next().map(|accepted| &accepted.limit)
    };
    // Two standard uncertainties, as the contributions of the specification give them.
    let doubt = |quantity, value: f64| {
        let own = spec.uncertainty_contributions.iter();
        let own = own.filter(|one| one.quantity == quantity);
        let squares = own.map(|one| match (&one.relative, &one.absolute) {
            (Some(relative), _) => (relative.value * value) * (relative.value * value),
            (None, Some(absolute)) => absolute.si * absolute.si,
            (None, None) => 0.0,
        });
        2.0 * squares.sum::<f64>().sqrt()
    };
    let least = limit([Stage::InService, Stage::Module], Measured::BubblePoint)?.low?;
    let intact = study.checkpoints.iter().filter(|point| point.intact.value);
    let close: Vec<_> = intact
        .filter_map(|point| Some((point, point.bubble_point.as_ref()?)))
        .filter(|(_, value)| {
            (least..least + doubt(Measured::BubblePoint, value.si)).contains(&value.si)
        })
        .collect();
    let (point, value) = close.iter().min_by(|a, b| a.1.si.total_cmp(&b.1.si))?;
    Some(say!(
        "{id}: bubble points that are called intact lie nearer to the limit than twice their standard uncertainty ({n}, the nearest {value} of {element} at {cycle} cycles)",
        id = &*record.id,
        n = close.len(),
        value = value.text,
        element = &*point.element,
        cycle = point.cycle.value
    ))
}

/// Checkpoints that are called intact and lie beyond a limit of the specification.
fn worn(view: &View, record: &crate::record::Record, study: &EnduranceStudy) -> Vec<String> {
    let Some((_, spec)) = view.plant.spec_of(record) else {
        return Vec::new();
    };
    let most = |quantity| {
        spec.limit(Stage::Module, quantity)
            .and_then(|accepted| accepted.limit.high)
    };
    let least = |quantity| {
        let accepted = spec
            .limit(Stage::InService, quantity)
            .or_else(|| spec.limit(Stage::Module, quantity));
        accepted.and_then(|accepted| accepted.limit.low)
    };
    let mut out = Vec::new();
    for point in study.checkpoints.iter().filter(|point| point.intact.value) {
        let mut say = |what: &str, text: &str| {
            out.push(say!(
                "{element} of {id} is called intact at {cycle} cycles with a {what} of {what2}",
                element = &*point.element,
                id = &*record.id,
                cycle = point.cycle.value,
                what = what,
                what2 = text
            ));
        };
        if let (Some(flow), Some(most)) = (&point.diffusive_flow, most(Measured::DiffusiveFlow))
            && flow.si > most
        {
            say(say!("diffusive flow"), &flow.text);
        }
        if let (Some(bubble), Some(least)) = (&point.bubble_point, least(Measured::BubblePoint))
            && bubble.si < least
        {
            say(say!("bubble point"), &bubble.text);
        }
        if let (Some(share), Some(least)) = (&point.flow_recovery, least(Measured::FlowRecovery))
            && share.si < least
        {
            say(say!("flow recovery"), &share.text);
        }
    }
    if let Some(own) = &study.least_bubble_point
        && least(Measured::BubblePoint).is_some_and(|least| own.si < least)
    {
        out.push(say!(
            "{id} takes {own} as the least bubble point, below that of the specification",
            id = &*record.id,
            own = own.text
        ));
    }
    out
}
