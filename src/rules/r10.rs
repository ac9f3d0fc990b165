//! R10: No two records carry the same id and revision, and no list of a record names the same thing twice.

use std::collections::BTreeMap;

use crate::{
    ground::{
        finding::{Finding, Severity},
        place::Spot,
    },
    record::{Record, kinds::Body, read::Id},
    rule::{Outcome, Rule, View},
};

/// No two records carry the same id and revision, and no list of a record names the same thing twice.
pub static RULE: Rule = Rule {
    id: "R10",
    severity: Severity::Blocks,
    demands: "No two records carry the same id and revision, and no list of a record names the same thing twice.",
    protects: "two truths under one name",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R10", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("records"));
    // Figures, pages and deviations name a record by its id alone.
    let mut seen: BTreeMap<(&str, u64), &Record> = BTreeMap::new();
    for record in &view.plant.records().all {
        out.look();
        if let Some(first) = seen.insert((&record.id, record.revision), record) {
            out.find(
                finding(say!(
                    "{id} revision {revision} exists twice, here and in {first}.",
                    id = &*record.id,
                    revision = record.revision,
                    first = first.place()
                ))
                .advise(match first.kind == record.kind {
                    true => say!("If one is a copy of the other, take it out; if both are meant, make one the next revision with a reason."),
                    false => say!("Give one of them another id: whoever names it cannot say which kind is meant."),
                })
                .at(record.at(record.id.spot))
                .about(&*record.id.text),
            );
        }
        if *record.id.text != *record.id.text.trim() {
            out.find(
                finding(say!(
                    "the record_id \"{id}\" has a blank at its beginning or end.",
                    id = &*record.id
                ))
                .advise(say!(
                    "Take it out: whoever names the record does not see it."
                ))
                .at(record.at(record.id.spot))
                .about(&*record.id.text),
            );
        }
        for (name, spot) in doubled(&record.body) {
            out.find(
                finding(say!(
                    "{id}: {name} stands twice in one list.",
                    id = &*record.id,
                    name = name
                ))
                .advise(say!("Only one of them would count, and nobody would see which: keep the right one, under a name of its own each."))
                .at(record.at(spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// What stands a second time in a list of which one entry is taken by its name.
fn doubled(body: &Body) -> Vec<(String, Spot)> {
    fn again(names: impl Iterator<Item = (String, Spot)>) -> Vec<(String, Spot)> {
        let mut seen = std::collections::BTreeSet::new();
        names
            .filter(|(name, _)| !seen.insert(name.clone()))
            .collect()
    }
    fn ids<'a>(ids: impl Iterator<Item = &'a Id>) -> Vec<(String, Spot)> {
        again(ids.map(|id| (id.to_string(), id.spot)))
    }
    match body {
        Body::ElementGeometry(body) => [
            ids(body.parts.iter().map(|part| &part.id)),
            ids(body.materials.iter().map(|material| &material.id)),
            ids(body.fits.iter().map(|fit| &fit.id)),
            ids(body.strengths.iter().map(|strength| &strength.id)),
        ]
        .concat(),
        Body::EnduranceStudy(body) => ids(body.elements.iter()),
        Body::CycleClaim(body) => {
            let claims = body.claims.iter();
            again(claims.map(|claim| (claim.treatment.to_string(), claim.treatment.spot)))
        }
        Body::MembraneTest(body) => {
            let measured = body.measurements.iter();
            again(measured.map(|one| (one.quantity.word().to_owned(), one.spot)))
        }
        Body::ProductSpecification(body) => {
            let contributions = body.uncertainty_contributions.iter();
            let conditions = body.test_conditions.iter();
            [
                again(contributions.map(|one| {
                    (
                        format!("{} {}", one.quantity.word(), &*one.source),
                        one.spot,
                    )
                })),
                again(conditions.map(|one| (one.stage.word().to_owned(), one.spot))),
                ids(body.sampling_plans.iter().map(|plan| &plan.id)),
            ]
            .concat()
        }
        _ => Vec::new(),
    }
}
