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
    let mut out = Outcome::of(say!("marks"));
    for (record, body) in view.plant.records().marking_inspections() {
        for message in disagreements(view, body) {
            out.find(
                finding(format!("{}: {message}.", &*record.id))
                    .advise(say!(
                        "Find out which is true before anything else; do not mark it again."
                    ))
                    .at(record.place())
                    .about(&*record.id.text)
                    .about(&*body.lot_id.text),
            );
        }
        for mark in body.reads.iter() {
            out.look();
            let mut wrong = Vec::new();
            if !mark.legible.value {
                match inferred(view, body, &mark.item) {
                    Some(deviation) => {
                        out.find(
                            Finding {
                                severity: Severity::Note,
                                ..finding(say!("{item}: identity inferred: its mark cannot be read, every other mark of the lot can, and the lot balances ({id}).", item = &*mark.item, id = &*deviation.id))
                            }
                            .advise(say!("Never mark it afterwards without a record."))
                            .at(record.at(mark.spot))
                            .about(&*mark.item.text)
                            .about(&*record.id.text),
                        );
                        continue;
                    }
                    None => wrong.push(say!("cannot be read").to_owned()),
                }
            }
            if mark.legible.value && mark.text_read.is_none() && mark.symbol_data.is_none() {
                wrong.push(say!("is called legible, and what it reads is not recorded").to_owned());
            }
            if let Some(text) = &mark.text_read {
                wrong.extend(
                    body.expected
                        .texts()
                        .filter(|due| !bears(text, due))
                        .map(|due| {
                            say!(
                                "reads \"{what}\" without \"{due}\"",
                                what = &**text,
                                due = &**due
                            )
                        }),
                );
                if let Some(other) = other_serial(body, text, &mark.item) {
                    wrong.push(say!(
                        "reads \"{what}\", the number of {other}",
                        what = &**text,
                        other = other
                    ));
                }
            }
            if !wrong.is_empty() {
                out.find(
                    Finding {
                        severity: view.weight(&mark.item),
                        ..finding(say!("{item}: the mark {wrong}.", item = &*mark.item, wrong = wrong.join("; ")))
                    }
                    .advise(match mark.legible.value {
                        true => say!("Find out which is true before anything else; do not mark it again."),
                        false => say!("Hold it. Identity by elimination is a concession: exactly one unread module, a lot that balances, and a decided deviation of category marking that names it. Never mark it afterwards without a record."),
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
        .reconciliations(&body.lot_id)
        .any(|(_, balance)| {
            let listed: usize = balance
                .disposition
                .iter()
                .map(|state| state.modules.len())
                .sum();
            listed == lot.modules.len() && balance.modules_started.value == listed as u64
        });
    let conceded = view.plant.settled(item).find(|(_, deviation)| {
        deviation.category == Category::Marking && deviation.decision == Some(Decision::Concession)
    });
    conceded
        .map(|(record, _)| record)
        .filter(|_| unread == [item] && balances)
}

/// Whether a mark bears a text as whole words: 10.45 um does not bear 0.45 um.
fn bears(mark: &str, due: &str) -> bool {
    let (mark, due): (Vec<&str>, Vec<&str>) = (
        mark.split_whitespace().collect(),
        due.split_whitespace().collect(),
    );
    !due.is_empty() && mark.windows(due.len()).any(|words| words == due)
}

/// The digits at the end of an id.
fn serial(id: &str) -> &str {
    let digits = id.len() - id.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    &id[id.len() - digits..]
}

/// The other element of the inspection whose running number a mark bears instead of its own.
fn other_serial<'a>(body: &'a MarkingInspection, mark: &str, item: &str) -> Option<&'a str> {
    let words: Vec<&str> = mark.split_whitespace().collect();
    let own = serial(item);
    if own.is_empty() || words.contains(&own) {
        return None;
    }
    let others = body.reads.iter().map(|other| &*other.item.text);
    others.filter(|other| *other != item).find(|other| {
        let number = serial(other);
        number.len() > 2 && words.contains(&number)
    })
}

/// What an inspection expects that the specification and the lot do not say; a rub test that failed.
fn disagreements(view: &View, body: &MarkingInspection) -> Vec<String> {
    let mut out = Vec::new();
    let spec = body
        .expected
        .get("product_code")
        .map(|code| (code, view.plant.spec_of_product(code)));
    if let Some((code, None)) = &spec {
        out.push(say!(
            "expects the product code {code}, of which there is no specification",
            code = &***code
        ));
    }
    if let (Some((_, Some((_, spec)))), Some(rating)) = (&spec, body.expected.get("nominal_rating"))
    {
        let same = crate::ground::number::parse_with_unit(rating)
            .is_ok_and(|(n, unit)| (unit.to_si(n) - spec.nominal_rating.si).abs() < 1e-12);
        if !same {
            out.push(say!(
                "expects the rating {rating}, and the specification says {nominal_rating}",
                rating = &**rating,
                nominal_rating = spec.nominal_rating.text
            ));
        }
    }
    let unsaid = ["product_code", "batch", "nominal_rating"];
    let unsaid = unsaid.iter().filter(|key| body.expected.get(key).is_none());
    let unsaid: Vec<&str> = unsaid.copied().collect();
    if !unsaid.is_empty() {
        out.push(say!(
            "expects no {unsaid} on the marks",
            unsaid = unsaid.join(", ")
        ));
    }
    if let Some(batch) = body
        .expected
        .get("batch")
        .filter(|batch| batch.text != body.lot_id.text)
    {
        out.push(say!(
            "expects the batch {batch}, and the lot is {lot_id}",
            batch = &**batch,
            lot_id = &*body.lot_id
        ));
    }
    let rub = body.rub_test.as_ref().and_then(|rub| rub.get("verdict"));
    if rub.is_some_and(|verdict| &**verdict != "pass") {
        out.push(say!("the rub test failed: marks do not stay").into());
    }
    out
}
