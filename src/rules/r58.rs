//! R58: No deviation is open, and each that touches a released lot is disclosed.

use crate::record::kinds::Body;
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// No deviation is open, and each that touches a released lot is disclosed.
pub static RULE: Rule = Rule {
    id: "R58",
    severity: Severity::Blocks,
    demands: "No deviation is open, and each that touches a released lot is disclosed.",
    protects: "a deviation that the customer never hears of",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R58", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("deviations");
    for (record, deviation) in view.plant.records().deviations() {
        out.look();
        if deviation.decision.is_none() || deviation.approved_at.is_none() {
            let what = if deviation.decision.is_none() {
                "no decision"
            } else {
                "no approval"
            };
            out.find(
                finding(format!("{} has {what}.", &*record.id))
                    .advise("Decide hold, retest or reject, and have it approved.")
                    .at(record.place())
                    .about(&*record.id.text),
            );
        }
        for (release, body) in view.plant.releases() {
            let lot = &*body.object.lot_id.text;
            let touches = deviation.subject.texts().any(|text| {
                let roll = match view
                    .plant
                    .records()
                    .find(
                        "retention_challenge",
                        text.split('/').next().unwrap_or(text),
                    )
                    .map(|record| &record.body)
                {
                    Some(Body::RetentionChallenge(challenge)) => {
                        Some(&*challenge.material_lot.text)
                    }
                    _ => None,
                };
                let by_roll = roll.is_some_and(|roll| {
                    view.plant
                        .modules_of_roll(roll)
                        .any(|(module, _)| view.plant.lot_of(module) == Some(lot))
                });
                *text.text == *lot || view.plant.lot_of(text) == Some(lot) || by_roll
            });
            if touches
                && !body
                    .deviations_disclosed
                    .iter()
                    .any(|id| id.text == record.id.text)
            {
                out.find(
                    finding(format!(
                        "{} touches {lot} and is not disclosed in {}.",
                        &*record.id, &*release.id
                    ))
                    .advise("Add it to deviations_disclosed; the customer sees it.")
                    .at(release.place())
                    .about(&*release.id.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}
