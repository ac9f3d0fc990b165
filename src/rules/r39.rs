//! R39: Each test names the revision of the specification that was in force that day.

use crate::{
    ground::finding::{Finding, Severity},
    record::kinds::Body,
    rule::{Outcome, Rule, View},
};

/// Each test names the revision of the specification that was in force that day.
pub static RULE: Rule = Rule {
    id: "R39",
    severity: Severity::Blocks,
    demands: "Each test names the revision of the specification that was in force that day.",
    protects: "a limit of another day",
    explained: "Mixed revisions in a lot, by a deviation or a note; a revision that was not in force, never.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R39", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("tests");
    let mut by_lot: std::collections::BTreeMap<
        &str,
        std::collections::BTreeMap<u64, &crate::record::Record>,
    > = std::collections::BTreeMap::new();
    for test in view.plant.tests() {
        let Some(day) = test.record.day() else {
            continue;
        };
        out.look();
        let named = &test.test.specification;
        let in_force = view
            .plant
            .records()
            .all
            .iter()
            .filter_map(|record| match &record.body {
                Body::ProductSpecification(body)
                    if record.id.text == named.id.text && body.effective_from.date <= day =>
                {
                    Some(record.revision)
                }
                _ => None,
            })
            .max();
        let message = match in_force {
            None => Some(format!(
                "{} names {} revision {}, and no revision of it in this folder was in force on {day}.",
                &*test.record.id, &*named.id, named.revision.value
            )),
            Some(revision) if revision != named.revision.value => Some(format!(
                "{} names {} revision {}; revision {revision} was in force on {day}.",
                &*test.record.id, &*named.id, named.revision.value
            )),
            Some(_) => None,
        };
        if let Some(message) = message {
            out.find(
                finding(message)
                    .advise("Judge it to the revision in force, or say in a deviation why not.")
                    .at(test.record.at(named.spot))
                    .about(&*test.record.id.text)
                    .about(test.element),
            );
        }
        if let Some(lot) = view.plant.lot_of(test.element) {
            by_lot
                .entry(lot)
                .or_default()
                .insert(named.revision.value, test.record);
        }
    }
    for (lot, revisions) in by_lot
        .into_iter()
        .filter(|(_, revisions)| revisions.len() > 1)
    {
        let list: Vec<String> = revisions.keys().map(u64::to_string).collect();
        let last = revisions.values().last().map(|record| record.place());
        let mut found = finding(format!("{lot}: tests name revisions {} of the specification; all are judged here to the current one.", list.join(" and "))).advise("Confirm which revision the order names.").about(lot);
        found.severity = Severity::Explain;
        found.place = last;
        out.find(found);
    }
    out
}
