//! R10: No two records carry the same kind, id and revision.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// No two records carry the same kind, id and revision.
pub static RULE: Rule = Rule {
    id: "R10",
    severity: Severity::Blocks,
    demands: "No two records carry the same kind, id and revision.",
    protects: "two truths under one name",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R10", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("records"));
    let mut seen: std::collections::BTreeMap<(&str, &str, u64), &crate::record::Record> =
        std::collections::BTreeMap::new();
    for record in &view.plant.records().all {
        out.look();
        if let Some(first) = seen.insert((record.kind, &record.id, record.revision), record) {
            out.find(
                finding(say!(
                    "{id} revision {revision} exists twice, here and in {first}.",
                    id = &*record.id,
                    revision = record.revision,
                    first = first.place()
                ))
                .advise(say!("Keep both; make one the next revision with a reason."))
                .at(record.at(record.id.spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}
