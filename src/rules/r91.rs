//! R91: A specification and a claim were approved by somebody who may, and who did not write them.

use std::collections::BTreeSet;

use crate::{
    ground::finding::{Finding, Severity},
    record::{Record, kinds::Body, read::Id},
    rule::{Outcome, Rule, View},
};

/// A specification and a claim were approved by somebody who may, and who did not write them.
pub static RULE: Rule = Rule {
    id: "R91",
    severity: Severity::Blocks,
    demands: "A specification and a claim were approved by somebody who may, and who did not write them.",
    protects: "limits that somebody gave to themselves",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

/// What somebody may do who approves limits and claims.
const ACT: &str = "approve_specification";

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("specifications and claims"));
    let records = view.plant.records();
    if records.personnel_authorisations().next().is_none() {
        out.blind = Some(say!("there is no personnel_authorisation").into());
        return out;
    }
    // Superseded revisions too, where tests are judged by them; one that judges nothing was mended by the next.
    let judging: BTreeSet<(&str, u64)> = view
        .plant
        .tests()
        .map(|test| &test.test.specification)
        .map(|named| (&*named.id.text, named.revision.value))
        .collect();
    let counts =
        |record: &&Record| record.current || judging.contains(&(&*record.id.text, record.revision));
    let counting = records.all.iter().filter(counts);
    let approved = counting.filter_map(|record| match &record.body {
        Body::ProductSpecification(body) => Some((record, &body.approved_by)),
        Body::CycleClaim(body) => Some((record, &body.approved_by)),
        _ => None,
    });
    for (record, by) in approved {
        out.look();
        if let Some(why) = wrong(view, record, by) {
            out.find(
                Finding::new(RULE.id, RULE.severity, format!("{}: {why}.", &*record.id))
                    .advise(say!(
                        "Have it approved by a person of personnel_authorisation who may approve_specification, as its next revision."
                    ))
                    .at(record.at(by.spot))
                    .about(&*record.id.text)
                    .about(&*by.text),
            );
        }
    }
    out
}

fn wrong(view: &View, record: &Record, by: &Id) -> Option<String> {
    if record
        .recorded_by
        .as_ref()
        .is_some_and(|author| author.text == by.text)
    {
        return Some(say!("{by} both wrote and approved it", by = &**by));
    }
    // The day of this very revision, not of the first.
    let day = record.recorded_at.as_ref()?.time.date();
    (!view.plant.may(by, ACT, day)).then(|| {
        say!(
            "{by} approved it, who may not approve specifications on {day}",
            by = &**by,
            day = day
        )
    })
}
