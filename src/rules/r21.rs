//! R21: Materials were accepted, and inside their shelf life when used.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{record::kinds::material_lot::Status, rules::r17::lots_used};

/// Materials were accepted, and inside their shelf life when used.
pub static RULE: Rule = Rule {
    id: "R21",
    severity: Severity::Blocks,
    demands: "Materials were accepted, and inside their shelf life when used.",
    protects: "a rejected or stale part in a good element",
    explained: "By the supplier's extension of the shelf life, in a decided deviation.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("uses of material lots");
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            let Some((_, material)) = view.plant.material(lot) else {
                continue;
            };
            out.look();
            let stale = record
                .day()
                .zip(material.shelf_life_until.as_ref())
                .filter(|(used, until)| *used > until.date);
            let message = match (material.incoming_status, stale) {
                (Status::Accepted, None) => continue,
                (Status::Accepted, Some((used, until))) => format!(
                    "{} ({what}) expired {}, used {used} in {}.",
                    &**lot, until.date, &*record.id
                ),
                (status, _) => format!(
                    "{} ({what}) is {} and was used in {}.",
                    &**lot,
                    status.word(),
                    &*record.id
                ),
            };
            // Tests of a roll are how it comes to be rejected; only use in an element counts, once a lot.
            if !matches!(record.kind, "membrane_test" | "retention_challenge")
                && seen.insert((lot.text.clone(), record.kind))
            {
                out.find(finding(message).advise("Stop what contains it; replace and retest, or bring the supplier's extension.").at(record.at(lot.spot)).about(&*lot.text).about(&*record.id.text));
            }
        }
    }
    out
}
