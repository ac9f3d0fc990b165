//! R20: Every exclusion from a lot has a reason code and a deviation.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Every exclusion from a lot has a reason code and a deviation.
pub static RULE: Rule = Rule {
    id: "R20",
    severity: Severity::Blocks,
    demands: "Every exclusion from a lot has a reason code and a deviation.",
    protects: "a thing that was left out in silence",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("assemblies of reconciled lots"));
    for (record, body) in view.plant.records().lot_reconciliations() {
        let assemblies = view
            .plant
            .lots
            .get(&body.lot_id.text)
            .map(|lot| &lot.assemblies);
        for id in assemblies.into_iter().flatten() {
            out.look();
            let excluded = body
                .exclusions
                .iter()
                .find(|exclusion| exclusion.item.text == *id);
            let message = match excluded {
                _ if view.release.contains(&**id) => continue,
                Some(exclusion)
                    if exclusion.deviation.as_ref().is_some_and(|deviation| {
                        view.plant.records().find("deviation", deviation).is_some()
                    }) =>
                {
                    continue;
                }
                Some(_) => say!(
                    "{id} is left out of the release without a deviation.",
                    id = id
                ),
                None => say!("{id} is left out of the release without a reason.", id = id),
            };
            out.find(
                finding(message)
                    .advise(say!(
                        "State reason code and deviation in the exclusions; the customer sees them."
                    ))
                    .at(record.place())
                    .about(&**id)
                    .about(&*record.id.text),
            );
        }
    }
    out
}
