//! R86: No claim of cycles exceeds what the data support.

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
    let mut out = Outcome::of("claims");
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
                    format!(
                        "{} {} cycles are claimed and {} were tested",
                        one.cycles_claimed.value,
                        one.treatment.replace('_', " "),
                        one.cycles_tested.value
                    ),
                    "Claim no more than was tested.",
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
                    format!(
                        "the claim of {} {} cycles rests on its report alone; no endurance_study is in this folder",
                        one.cycles_claimed.value,
                        one.treatment.replace('_', " ")
                    ),
                    "Add the study, so that its data can be judged here.",
                );
            }
            for (study, body) in studies {
                for worn in worn(view, study, body) {
                    report(
                        Severity::Blocks,
                        worn,
                        "It failed there: say so, and claim no more than every element reached.",
                    );
                }
                if (one.elements_tested.value as usize) > body.elements.len() {
                    report(
                        Severity::Explain,
                        format!(
                            "{} elements are said to be tested, {} has {}",
                            one.elements_tested.value,
                            &*study.id,
                            body.elements.len()
                        ),
                        "State how many were tested.",
                    );
                }
                let milder = milder(one, body);
                if !milder.is_empty() {
                    report(
                        Severity::Blocks,
                        format!(
                            "the claim of {} {} cycles is not shown at its conditions: {} {}",
                            one.cycles_claimed.value,
                            one.treatment.replace('_', " "),
                            &*study.id,
                            milder.join(", ")
                        ),
                        "Claim the conditions that were tested, or test those that are claimed.",
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
                        format!(
                            "{} {} cycles are said to be tested, and an element of {} reached only {fewest} intact",
                            one.cycles_tested.value,
                            one.treatment.replace('_', " "),
                            &*study.id
                        ),
                        "State what every element reached, and what became of the others.",
                    );
                }
                if failed > 0 {
                    report(
                        Severity::Note,
                        format!(
                            "{failed} of {} elements of {} failed; every element reached {fewest} {} cycles intact",
                            body.elements.len(),
                            &*study.id,
                            one.treatment.replace('_', " ")
                        ),
                        "Say so where the claim is used.",
                    );
                }
                let Some(computed) = view.graph.get("cycles-supported", &study.id, "") else {
                    continue;
                };
                match &computed.worked {
                    Err(why) => report(
                        Severity::Blocks,
                        format!("{} supports no number of cycles: {why}", &*study.id),
                        "Complete the study, or take the claim back.",
                    ),
                    Ok(worked) if worked.quantity.value < one.cycles_claimed.value as f64 => {
                        report(
                            Severity::Blocks,
                            format!(
                                "{} {} cycles are claimed, {} supports {}",
                                one.cycles_claimed.value,
                                one.treatment.replace('_', " "),
                                &*study.id,
                                computed.shown()
                            ),
                            "Claim no more than the data support, or test more elements for longer.",
                        )
                    }
                    Ok(_) => {}
                }
            }
        }
    }
    out
}

/// In what a study was milder than the claim, or does not say.
fn milder(claim: &Claim, study: &EnduranceStudy) -> Vec<String> {
    let mut out = Vec::new();
    let mut hold = |what: &str, claimed: Option<(f64, &str)>, tested: Option<(f64, &str)>| match (
        claimed, tested,
    ) {
        (Some((claimed, text)), Some((tested, had))) if claimed > tested + 1e-9 * claimed.abs() => {
            out.push(format!("had {what} {had}, the claim says {text}"));
        }
        (Some((_, text)), None) => {
            out.push(format!("does not state {what}, the claim says {text}"))
        }
        _ => {}
    };
    fn pair<M>(q: &Option<Q<M>>) -> Option<(f64, &str)> {
        q.as_ref().map(|q| (q.si, &*q.text))
    }
    hold(
        "the temperature",
        pair(&claim.temperature_max),
        pair(&study.temperature),
    );
    hold(
        "the time of a cycle",
        pair(&claim.time_per_cycle),
        pair(&study.time_per_cycle),
    );
    hold(
        "the forward pressure difference",
        pair(&claim.differential_pressure_max),
        pair(&study.differential_pressure_max),
    );
    hold(
        "the reverse pressure difference",
        pair(&claim.reverse_differential_pressure_max),
        pair(&study.reverse_differential_pressure_max),
    );
    out
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
            out.push(format!(
                "{} of {} is called intact at {} cycles with a {what} of {text}",
                &*point.element, &*record.id, point.cycle.value
            ));
        };
        if let (Some(flow), Some(most)) = (&point.diffusive_flow, most(Measured::DiffusiveFlow))
            && flow.si > most
        {
            say("diffusive flow", &flow.text);
        }
        if let (Some(bubble), Some(least)) = (&point.bubble_point, least(Measured::BubblePoint))
            && bubble.si < least
        {
            say("bubble point", &bubble.text);
        }
        if let (Some(share), Some(least)) = (&point.flow_recovery, least(Measured::FlowRecovery))
            && share.si < least
        {
            say("flow recovery", &share.text);
        }
    }
    if let Some(own) = &study.least_bubble_point
        && least(Measured::BubblePoint).is_some_and(|least| own.si < least)
    {
        out.push(format!(
            "{} takes {} as the least bubble point, below that of the specification",
            &*record.id, own.text
        ));
    }
    out
}
