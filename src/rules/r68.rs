//! R68: Every wetted part has a declaration for food contact.

use crate::rules::r17::lots_used;
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Every wetted part has a declaration for food contact.
pub static RULE: Rule = Rule {
    id: "R68",
    severity: Severity::Blocks,
    demands: "Every wetted part has a declaration for food contact.",
    protects: "a part that was never declared fit for food",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("material lots used");
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            let Some((material, body)) = view
                .plant
                .material(lot)
                .filter(|_| seen.insert(lot.text.clone()))
            else {
                continue;
            };
            out.look();
            if body.food_contact_documents.is_empty() {
                out.find(
                    finding(format!(
                        "{} ({what}) has no declaration for food contact.",
                        &**lot
                    ))
                    .advise("Ask the supplier for one that covers its use.")
                    .at(material.place())
                    .about(&*lot.text),
                );
            }
        }
    }
    out
}
