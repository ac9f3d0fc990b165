//! R66: The controls of a challenge are valid, and its samples stayed whole.

use crate::{
    ground::{
        finding::{Finding, Severity},
        time::Time,
    },
    rule::{Outcome, Rule, View},
};

/// The controls of a challenge are valid, and its samples stayed whole.
pub static RULE: Rule = Rule {
    id: "R66",
    severity: Severity::Blocks,
    demands: "The controls of a challenge are valid, and its samples stayed whole.",
    protects: "zero colonies of organisms that were dead",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

/// Of the organisms that were given, at least so many must come back for the control to show something: 70 % (USP <1227>, from
/// memory).
const LEAST_RECOVERY: f64 = 0.7;

/// A bubble point after the challenge that is less than this share of the one before is another (common practice, no source).
const LEAST_LEFT: f64 = 0.9;

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("challenges"));
    for (record, body) in view.plant.records().retention_challenges() {
        out.look();
        let time = |key: &str| {
            let text = body.incubation.as_ref()?.get(key)?;
            Time::parse(text).ok()
        };
        if let (Some(start), Some(end)) = (time("start"), time("end"))
            && start.moment >= end.moment
        {
            out.find(
                finding(say!(
                    "{id}: incubated until {end}, from {start} on.",
                    id = &*record.id,
                    end = end,
                    start = start
                ))
                .advise(say!(
                    "Correct the times; plates that were not incubated show nothing."
                ))
                .at(record.at(body.spot))
                .about(&*record.id.text),
            );
        }
        let statement = body.reported.as_ref();
        let statement = statement.and_then(|reported| reported.get("statement"));
        let passed = body.runs.iter().find(|run| run.colonies.value > 0);
        if let (Some(said), Some(run)) = (statement, passed)
            && said.to_lowercase().contains("no passage")
        {
            out.find(
                finding(say!(
                    "{id}: the laboratory states \"{said}\", and run {run} counts {colonies} colonies.",
                    id = &*record.id,
                    said = &**said,
                    run = run.run.value,
                    colonies = run.colonies.value
                ))
                .advise(say!("Ask the laboratory which of the two is right."))
                .at(record.at(said.spot))
                .about(&*record.id.text),
            );
        }
        for run in &body.runs {
            let points = run
                .pre_test_bubble_point
                .as_ref()
                .zip(run.post_test_bubble_point.as_ref());
            let Some((before, after)) = points.filter(|(a, b)| b.si < LEAST_LEFT * a.si) else {
                continue;
            };
            out.find(
                finding(say!(
                    "{id}: in run {run} the bubble point fell from {before} to {after}: the sample was no longer the one that was to be challenged.",
                    id = &*record.id,
                    run = run.run.value,
                    before = before.text,
                    after = after.text
                ))
                .advise(say!("Find out when it was damaged, and repeat the run."))
                .at(record.at(after.spot))
                .about(&*record.id.text),
            );
        }
        let Some(controls) = &body.controls else {
            out.find(
                finding(say!("{id} has no controls.", id = &*record.id))
                    .advise(say!(
                        "Without controls a challenge shows nothing; repeat it."
                    ))
                    .at(record.place())
                    .about(&*record.id.text),
            );
            continue;
        };
        for kind in ["positive_passage", "negative", "viability_after_contact"] {
            let verdict = controls.get(&format!("{kind}/verdict", kind = kind));
            let grew = kind == "negative"
                && controls
                    .get("negative/colonies")
                    .is_some_and(|colonies| &**colonies != "0");
            // A control that passes nothing, or organisms that are dead, show nothing either.
            let dead = match kind {
                "positive_passage" => controls
                    .get("positive_passage/colonies")
                    .is_some_and(|n| &**n == "0"),
                "viability_after_contact" => controls
                    .get("viability_after_contact/recovery")
                    .is_some_and(|share| {
                        crate::ground::number::parse_with_unit(share)
                            .is_ok_and(|(n, unit)| unit.to_si(n) < LEAST_RECOVERY)
                    }),
                _ => false,
            };
            if dead {
                out.find(
                    finding(say!("{id}: the control {kind} is called valid and shows nothing: the whole challenge is void, its zero counts too.", id = &*record.id, kind = kind.replace('_', " ")))
                        .advise(say!("Repeat the challenge."))
                        .at(record.at(verdict.map_or(body.spot, |verdict| verdict.spot)))
                        .about(&*record.id.text),
                );
                continue;
            }
            if verdict.is_some_and(|verdict| &**verdict == "valid") && !grew {
                continue;
            }
            let repeat = say!("Repeat the challenge.").to_owned();
            let (why, advice) = match verdict {
                _ if grew => (say!("grew").to_owned(), repeat),
                Some(verdict) => (say!("is {verdict}", verdict = &**verdict), repeat),
                None => (
                    say!("is missing").to_owned(),
                    say!(
                        "Record it under controls as {kind} with its verdict, as the laboratory reports it; if it was not made, repeat the challenge.",
                        kind = kind
                    ),
                ),
            };
            out.find(
                finding(say!("{id}: the control {kind} {why}: the whole challenge is void, its zero counts too.", id = &*record.id, kind = kind.replace('_', " "), why = why))
                .advise(&advice)
                .at(record.at(verdict.map_or(body.spot, |verdict| verdict.spot)))
                .about(&*record.id.text),
            );
        }
    }
    out
}
