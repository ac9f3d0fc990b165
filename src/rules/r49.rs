//! R49: No two tests share a trace.

use crate::record::folder::trace_files;
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// No two tests share a trace.
pub static RULE: Rule = Rule {
    id: "R49",
    severity: Severity::Blocks,
    demands: "No two tests share a trace.",
    protects: "one good trace for two elements",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("traces");
    let mut seen = std::collections::BTreeMap::new();
    for record in view.plant.records().current() {
        for file in trace_files(record) {
            let Some(found) = view.plant.folder.files.get(&*file.file.text) else {
                continue;
            };
            out.look();
            if let Some((other, name)) = seen.insert(found.digest, (record, &file.file)) {
                out.find(
                    finding(format!("{} and {} have the same trace ({} and {}).", &*other.id, &*record.id, &**name, &*file.file))
                        .advise("Identical noise in two tests does not occur: fetch both originals from the instrument.")
                        .at(record.at(file.file.spot))
                        .about(&*record.id.text)
                        .about(&*other.id.text),
                );
            }
        }
    }
    out
}
