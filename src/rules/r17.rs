//! R17: Each material lot that was used traces to one supplier and supplier lot.

use crate::{
    ground::finding::{Finding, Severity},
    plant::lots_used,
    rule::{Outcome, Rule, View},
};

/// Each material lot that was used traces to one supplier and supplier lot.
pub static RULE: Rule = Rule {
    id: "R17",
    severity: Severity::Blocks,
    demands: "Each material lot that was used traces to one supplier and supplier lot.",
    protects: "a part that nobody can recall (one step up, EC 1935/2004 Article 17)",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R17", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("material lots used"));
    let mut seen = std::collections::BTreeSet::new();
    for record in view.plant.records().current() {
        for (lot, what) in lots_used(&record.body) {
            if !seen.insert(&lot.text) {
                continue;
            }
            out.look();
            if view.plant.material(lot).is_none() {
                out.find(
                    finding(say!(
                        "{lot} ({what}) has no material_lot record.",
                        lot = &**lot,
                        what = say!(what)
                    ))
                    .advise(say!("Add it with supplier and supplier lot (one step up)."))
                    .at(record.at(lot.spot))
                    .about(&*lot.text),
                );
            }
        }
    }
    out
}
