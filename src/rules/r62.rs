//! R62: Each module and assembly that was read bears product code, batch and rating, and they match.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Each module and assembly that was read bears product code, batch and rating, and they match.
pub static RULE: Rule = Rule {
    id: "R62",
    severity: Severity::Blocks,
    demands: "Each module and assembly that was read bears product code, batch and rating, and they match.",
    protects: "an element that says something else than its record",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("marks");
    for (record, body) in view.plant.records().marking_inspections() {
        for mark in body.reads.iter() {
            out.look();
            let mut wrong = Vec::new();
            if !mark.legible.value {
                wrong.push("cannot be read".to_owned());
            }
            if let Some(text) = &mark.text_read {
                wrong.extend(
                    body.expected
                        .texts()
                        .filter(|due| !text.contains(&*due.text))
                        .map(|due| format!("reads \"{}\" without \"{}\"", &**text, &**due)),
                );
            }
            if !wrong.is_empty() {
                out.find(
                    Finding {
                        severity: view.weight(&mark.item),
                        ..finding(format!("{}: the mark {}.", &*mark.item, wrong.join("; ")))
                    }
                    .advise("Find out which is true before anything else; do not mark it again.")
                    .at(record.at(mark.spot))
                    .about(&*mark.item.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}
