//! R36: Reviewer and releaser made none of the records that they judge, and are two persons.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    ground::finding::{Finding, Severity},
    ground::place::Spot,
    plant::recall,
    record::Record,
    rule::{Outcome, Rule, View},
};

/// Reviewer and releaser made none of the records that they judge, and are two persons.
pub static RULE: Rule = Rule {
    id: "R36",
    severity: Severity::Blocks,
    demands: "Reviewer and releaser made none of the records that they judge, and are two persons.",
    protects: "someone who judges their own work",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R36", Severity::Blocks, message)
}

/// Records that somebody made who must not judge them.
const MADE: &[&str] = &[
    "module_test",
    "assembly_test",
    "membrane_test",
    "flow_test",
    "seal_run",
    "seal_inspection",
    "marking_inspection",
    "lot_reconciliation",
    "assembly_build",
    "pleating_record",
    "slitting_record",
    "retention_challenge",
    "material_lot",
];

/// The first record that each signatory made of each lot.
fn made<'a>(view: &View<'a>) -> BTreeMap<(&'a str, &'a str), &'a Record> {
    let signatories: BTreeSet<&str> = view
        .plant
        .releases()
        .flat_map(|(_, release)| release.signatures.iter())
        .map(|signature| &*signature.person_id.text)
        .collect();
    let mut out = BTreeMap::new();
    // Who wrote an earlier revision made it too.
    for record in &view.plant.records().all {
        let by = record.recorded_by.as_deref().unwrap_or_default();
        if !MADE.contains(&record.kind) || !signatories.contains(by) {
            continue;
        }
        for id in recall::elements(view.plant, record) {
            if let Some(lot) = view.plant.lot_of(&id) {
                out.entry((by, lot)).or_insert(record);
            }
        }
    }
    out
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("release statements"));
    let made = made(view);
    for (record, release) in view.plant.releases() {
        out.look();
        let (review, approval) = (release.signed_as("review"), release.signed_as("release"));
        let twice = approval.clone().find(|own| {
            let mut both = review.clone();
            both.any(|other| other.person_id.text == own.person_id.text)
        });
        if let Some(own) = twice {
            out.find(
                finding(say!(
                    "{id}: {person_id} both reviews and releases.",
                    id = &*record.id,
                    person_id = &*own.person_id
                ))
                .advise(say!("Name another reviewer."))
                .at(record.at(own.spot))
                .about(&*record.id.text),
            );
        }
        // That nobody signs as author is the business of rule R77.
        for (act, right) in [
            ("authorship", record.kind),
            ("review", "review"),
            ("release", "release"),
        ] {
            let own = release.signed_as(act);
            let mut wrong: Vec<(Spot, String)> = own
                .clone()
                .filter(|own| {
                    let day = own.signed_at.time.date();
                    !view.plant.may(&own.person_id, right, day)
                })
                .map(|own| {
                    let said = say!(
                        "{person_id} signs as {act} on {time} without being authorised for it",
                        person_id = &*own.person_id,
                        act = act,
                        time = own.signed_at.time.date()
                    );
                    (own.spot, said)
                })
                .collect();
            if own.count() == 0 && act != "authorship" {
                wrong.push((record.spot, say!("nobody signs as {act}", act = act)));
            }
            for (spot, wrong) in wrong {
                out.find(
                    finding(format!("{}: {wrong}.", &*record.id))
                        .advise(say!("Have an authorised person sign."))
                        .at(record.at(spot))
                        .about(&*record.id.text),
                );
            }
        }
        for signature in review.chain(approval) {
            let lot = &*release.object.lot_id.text;
            let own = made.get(&(&*signature.person_id.text, lot));
            if let Some(own) = own {
                out.find(
                    finding(say!(
                        "{id}: {person_id} signs as {meaning} and also recorded {id2}.",
                        id = &*record.id,
                        person_id = &*signature.person_id,
                        meaning = &*signature.meaning,
                        id2 = &*own.id
                    ))
                    .advise(say!("Name another person; nobody judges own work."))
                    .at(record.at(signature.spot))
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}
