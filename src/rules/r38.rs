//! R38: One person who acts in two roles of one chain is shown.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// One person who acts in two roles of one chain is shown.
pub static RULE: Rule = Rule {
    id: "R38",
    severity: Severity::Note,
    demands: "One person who acts in two roles of one chain is shown.",
    protects: "a chain whose links are one person",
    explained: "It needs no explanation; a person looks at it.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("release statements"));
    for (record, release) in view.plant.releases() {
        out.look();
        let mut acts: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
        for signature in release.signatures.iter() {
            acts.entry(&signature.person_id)
                .or_default()
                .insert(match &*signature.meaning.text {
                    "authorship" => say!("prepares {id}", id = &*record.id),
                    "review" => say!("reviews {id}", id = &*record.id),
                    "release" => say!("releases {id}", id = &*record.id),
                    other => say!("signs {id} as {other}", id = &*record.id, other = other),
                });
        }
        for (id, deviation) in release
            .deviations_disclosed
            .iter()
            .filter_map(|id| view.plant.records().find("deviation", id))
            .filter_map(|record| match &record.body {
                crate::record::kinds::Body::Deviation(body) => Some((&record.id, body)),
                _ => None,
            })
        {
            if let Some(person) = &deviation.approved_by {
                acts.entry(person)
                    .or_default()
                    .insert(say!("approved {id}", id = &**id));
            }
        }
        for (person, acts) in acts.iter().filter(|(_, acts)| acts.len() > 1) {
            let list: Vec<&str> = acts.iter().map(|act| &**act).collect();
            out.find(
                finding(format!("{person} {}.", list.join(", ")))
                    .advise(say!(
                        "Allowed unless the signature policy says otherwise; shown to the auditor."
                    ))
                    .at(record.place())
                    .about(*person)
                    .about(&*record.id.text),
            );
        }
    }
    out
}
