//! R65: A challenge could have shown what is claimed: the lower bound reaches the claim.

use crate::record::kinds::deviation::Category;
use crate::{
    ground::{
        finding::{Finding, Severity},
        number,
        unit::LENGTH,
    },
    record::kinds::Body,
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// A challenge could have shown what is claimed: the lower bound reaches the claim.
pub static RULE: Rule = Rule {
    id: "R65",
    severity: Severity::Blocks,
    demands: "A challenge could have shown what is claimed: the lower bound reaches the claim.",
    protects: "zero colonies out of a small challenge, sold as complete retention",
    explained: "When a decided deviation takes the run out of the claim; it stays visible.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R65", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("challenge runs"));
    for computed in view.graph.all("log-reduction-bound") {
        let record = view.plant.record(computed.subject.record);
        out.look();
        let Some(quantity) = computed.quantity() else {
            let why = computed.worked.as_ref().err().cloned().unwrap_or_default();
            out.find(
                finding(say!(
                    "{id} is not evaluated: {why}.",
                    id = computed.id,
                    why = why
                ))
                .advise(say!("Correct the record, or repeat the challenge."))
                .at(record.place())
                .about(&*record.id.text),
            );
            continue;
        };
        let Some(judgement) = &computed.judgement else {
            out.find(
                finding(format!(
                    "{}: {}.",
                    computed.id,
                    computed.undecidable.clone().unwrap_or_default()
                ))
                .advise(say!("State the claim as \"LRV >= 7.0 at 0.45 um\"."))
                .at(record.place())
                .about(&*record.id.text),
            );
            continue;
        };
        if judgement.verdict == Verdict::Conforms {
            continue;
        }
        let Body::RetentionChallenge(body) = &record.body else {
            continue;
        };
        let run = body
            .runs
            .iter()
            .find(|run| format!("run-{run}", run = run.run.value) == *computed.id.part);
        let Some(run) = run else { continue };
        let mut found = finding(say!("{id}: {colonies} colonies from {challenge_total} show LRV ≥ {quantity}, {limit}.", id = computed.id, colonies = run.colonies.value, challenge_total = run.challenge_total.text, quantity = number::fixed(quantity.value, 2), limit = judgement.limit.text))
            .advise(say!("Not wrong, not enough. Use runs that reach the claim, or repeat it with more organisms; exclude this one by a deviation and keep it visible."))
            .at(record.at(run.spot))
            .about(&*record.id.text);
        let own = format!("{id}/run-{run}", id = &*record.id, run = run.run.value);
        // A deviation about anything else of the challenge takes no result out.
        let excluded = [&*own, &*record.id.text].iter().find_map(|id| {
            let mut settled = view.plant.settled(id);
            settled.find(|(_, body)| body.category == Category::Exclusion)
        });
        if let Some((deviation, _)) = excluded {
            found.severity = Severity::Note;
            found.message.push_str(&say!(
                " Not used for the claim ({id}).",
                id = &*deviation.id
            ));
        }
        out.find(found);
    }
    for (record, body) in view.plant.records().retention_challenges() {
        for run in body.runs.iter() {
            let stated = run.challenge_per_area.as_ref().map(|density| density.si);
            let computed = run.challenge_total.si / run.exposed_area.si;
            if stated.is_some_and(|stated| (stated / computed - 1.0).abs() > 0.1) {
                out.find(
                    finding(say!(
                        "{id} run {run}: {challenge_total} on {exposed_area} is not {density}.",
                        id = &*record.id,
                        run = run.run.value,
                        challenge_total = run.challenge_total.text,
                        exposed_area = run.exposed_area.text,
                        density = run
                            .challenge_per_area
                            .as_ref()
                            .map_or("", |density| &density.text)
                    ))
                    .advise(say!("Find out which of the three is wrong."))
                    .at(record.at(run.spot))
                    .about(&*record.id.text),
                );
            }
        }
        if let Some((spec_record, spec)) = view.plant.spec_of(record) {
            let size = |text: &str| {
                let read = number::parse_with_unit(text.trim()).ok()?;
                (read.1.dim == LENGTH).then(|| read.1.to_si(read.0))
            };
            let claimed = body.claim_under_test.rsplit_once(" at ");
            let claimed = claimed.and_then(|(_, text)| size(text));
            let rated = &spec.nominal_rating;
            if let Some(claimed) = claimed
                && (claimed / rated.si - 1.0).abs() > 1e-9
            {
                out.find(
                    finding(say!(
                        "{id} shows \"{claim}\", and the rating of {id2} is {rating}.",
                        id = &*record.id,
                        claim = &*body.claim_under_test,
                        id2 = &*spec_record.id,
                        rating = rated.text
                    ))
                    .advise(say!("A challenge of another rating shows nothing of this one; correct the claim or the product."))
                    .at(record.at(body.claim_under_test.spot))
                    .about(&*record.id.text),
                );
            }
            let named = spec.rating_basis.contains(&*body.organism.name.text);
            if !named {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{id}: challenged with {name}, which the rating of {id2} does not name.", id = &*record.id, name = &*body.organism.name, id2 = &*spec_record.id))
                    }
                    .advise(say!("Say in a deviation of category exclusion what this challenge is for, or repeat it with the organism of the rating."))
                    .at(record.at(body.organism.spot))
                    .about(&*record.id.text),
                );
            }
        }
        let numbers: std::collections::BTreeSet<u64> =
            body.runs.iter().map(|run| run.run.value).collect();
        if body.runs.is_empty() || numbers.len() < body.runs.len() {
            let what = if body.runs.is_empty() {
                say!("has no run")
            } else {
                say!("has two runs of one number")
            };
            out.find(
                finding(format!("{} {what}.", &*record.id))
                    .advise(say!("Record every run once, numbered from 1."))
                    .at(record.place())
                    .about(&*record.id.text),
            );
        }
    }
    out
}
