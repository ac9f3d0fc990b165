//! R62: Each module and assembly that was read bears product code, batch and rating, and they match.

use crate::{
    ground::finding::{Finding, Severity},
    record::{
        Record,
        kinds::{
            deviation::{Category, Decision},
            marking_inspection::MarkingInspection,
        },
    },
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
                match inferred(view, body, &mark.item) {
                    Some(deviation) => {
                        out.find(
                            Finding {
                                severity: Severity::Note,
                                ..finding(format!("{}: identity inferred: its mark cannot be read, every other mark of the lot can, and the lot balances ({}).", &*mark.item, &*deviation.id))
                            }
                            .advise("Never mark it afterwards without a record.")
                            .at(record.at(mark.spot))
                            .about(&*mark.item.text)
                            .about(&*record.id.text),
                        );
                        continue;
                    }
                    None => wrong.push("cannot be read".to_owned()),
                }
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
                    .advise(match mark.legible.value {
                        true => "Find out which is true before anything else; do not mark it again.",
                        false => "Hold it. Identity by elimination is a concession: exactly one unread module, a lot that balances, and a decided deviation of category marking that names it. Never mark it afterwards without a record.",
                    })
                    .at(record.at(mark.spot))
                    .about(&*mark.item.text)
                    .about(&*record.id.text),
                );
            }
        }
    }
    out
}

/// The concession by which the identity of the one unread module of a lot that balances is inferred.
fn inferred<'a>(view: &View<'a>, body: &MarkingInspection, item: &str) -> Option<&'a Record> {
    let lot = view.plant.lots.get(&body.lot_id.text)?;
    let read = |id: &str| {
        let mut own = body.reads.iter().filter(|mark| &*mark.item.text == id);
        own.any(|mark| mark.legible.value)
    };
    let unread: Vec<&str> = lot
        .modules
        .iter()
        .map(|id| &**id)
        .filter(|id| !read(id))
        .collect();
    let balances = view
        .plant
        .records()
        .lot_reconciliations()
        .any(|(_, balance)| {
            let listed: usize = balance
                .disposition
                .iter()
                .map(|state| state.modules.len())
                .sum();
            balance.lot_id.text == body.lot_id.text
                && listed == lot.modules.len()
                && balance.modules_started.value == listed as u64
        });
    let conceded = view.plant.deviations_about(item).find(|(_, deviation)| {
        deviation.category == Category::Marking
            && deviation.decision == Some(Decision::Concession)
            && deviation.approved_at.is_some()
    });
    conceded
        .map(|(record, _)| record)
        .filter(|_| unread == [item] && balances)
}
