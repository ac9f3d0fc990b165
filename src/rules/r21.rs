//! R21: Materials were accepted, and inside their shelf life when used.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    plant::lots_used,
    record::kinds::{
        Body,
        deviation::{Category, Decision},
        material_lot::{MaterialLot, Status},
    },
};

/// Materials were accepted, and inside their shelf life when used.
pub static RULE: Rule = Rule {
    id: "R21",
    severity: Severity::Blocks,
    demands: "Materials were accepted, and inside their shelf life when used.",
    protects: "a rejected or stale part in a good element",
    explained: "The supplier's extension of the shelf life by a decided deviation of category data that names the lot; what was not accepted never.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("uses of material lots"));
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            let Some((_, material)) = view.plant.material(lot) else {
                continue;
            };
            out.look();
            let due = match what {
                "membrane" => Some("membrane_roll"),
                "o-rings" => Some("o_ring"),
                "stainless ring" => Some("stainless_ring"),
                _ => None,
            };
            let kind = &material.material_type;
            // What such a lot is good for, it is good for alone.
            let alone = match &*kind.text {
                "membrane_roll" => Some("membrane"),
                "o_ring" => Some("o-rings"),
                "stainless_ring" => Some("stainless ring"),
                _ => None,
            };
            let due = due.or_else(|| {
                let elsewhere = alone.is_some_and(|own| own != what);
                elsewhere.then_some(match what {
                    "support layer" => "support_layer",
                    _ => "resin_part",
                })
            });
            if let Some(due) = due.filter(|due| *due != &*kind.text)
                && seen.insert((lot.text.clone(), what))
            {
                out.find(
                    finding(say!(
                        "{id} uses {lot} as {what}, and {lot} is of material_type {kind}, not {due}.",
                        id = &*record.id,
                        lot = &**lot,
                        what = say!(what),
                        kind = &**kind,
                        due = due
                    ))
                    .advise(say!("Find out what was fitted, and name its lot."))
                    .at(record.at(lot.spot))
                    .about(&*lot.text)
                    .about(&*record.id.text),
                );
            }
            let status = status_at(view, lot, record.happened_at.as_ref())
                .unwrap_or(material.incoming_status);
            let stale = record
                .day()
                .zip(material.shelf_life_until.as_ref())
                .filter(|(used, until)| *used > until.date);
            let message = match (status, stale) {
                (Status::Accepted, None) => continue,
                (Status::Accepted, Some((used, until))) => say!(
                    "{lot} ({what}) expired {date}, used {used} in {id}.",
                    lot = &**lot,
                    what = say!(what),
                    date = until.date,
                    used = used,
                    id = &*record.id
                ),
                (status, _) => say!(
                    "{lot} ({what}) is {status} and was used in {id}.",
                    lot = &**lot,
                    what = say!(what),
                    status = status.word(),
                    id = &*record.id
                ),
            };
            // Tests of a roll are how it comes to be rejected; only use in an element counts, once a lot.
            if !matches!(record.kind, "membrane_test" | "retention_challenge")
                && seen.insert((lot.text.clone(), record.kind))
            {
                let mut found = finding(message)
                    .advise(say!("Stop what contains it; replace and retest, or bring the supplier's extension."))
                    .at(record.at(lot.spot))
                    .about(&*lot.text)
                    .about(&*record.id.text);
                // The supplier's extension: only of what is stale, never of what was not accepted.
                let extended = view.plant.settled(lot).any(|(_, body)| {
                    body.category == Category::Data
                        && !matches!(body.decision, Some(Decision::Hold | Decision::Reject))
                });
                if extended && status == Status::Accepted {
                    found.severity = Severity::Explain;
                }
                out.find(found);
            }
        }
    }
    out
}

/// The state of a lot when it was used: that of its last revision before, or else of its first.
/// What became of it later is the business of rule R79.
fn status_at(view: &View, id: &str, used: Option<&crate::record::read::When>) -> Option<Status> {
    let revisions: Vec<(&crate::record::Record, &MaterialLot)> = view
        .plant
        .records()
        .revisions("material_lot", id)
        .filter_map(|record| match &record.body {
            Body::MaterialLot(lot) => Some((record, &**lot)),
            _ => None,
        })
        .collect();
    let before = revisions.iter().rev().find(|(record, _)| {
        let written = record.recorded_at.as_ref().map(|when| when.time);
        written
            .zip(used.map(|when| when.time))
            .is_some_and(|(written, used)| written <= used)
    });
    before
        .or(revisions.first())
        .map(|(_, lot)| lot.incoming_status)
}
