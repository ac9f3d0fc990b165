//! R39: Each test names the revision of the specification that was in force that day.

use std::collections::BTreeMap;

use crate::{
    figure::{Scope, limit_in},
    ground::{
        finding::{Finding, Severity},
        time::Date,
    },
    plant::Test,
    record::{Record, common::Reference, kinds::Body, read::Any},
    rule::{Outcome, Rule, View},
    verdict::judge,
};

/// Each test names the revision of the specification that was in force that day.
pub static RULE: Rule = Rule {
    id: "R39",
    severity: Severity::Blocks,
    demands: "Each test names the revision of the specification that was in force that day.",
    protects: "a limit of another day",
    explained: "Mixed revisions in a lot, by a decided deviation; a revision that was not in force, never.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R39", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests"));
    let mut by_lot: BTreeMap<&str, BTreeMap<u64, &Record>> = BTreeMap::new();
    let mut tests: BTreeMap<&str, Vec<Test>> = BTreeMap::new();
    let mut late: BTreeMap<(&str, u64), (&Record, Vec<Test>)> = BTreeMap::new();
    let mut backdated: BTreeMap<(&str, u64), (&Record, usize)> = BTreeMap::new();
    for (record, body) in view.plant.records().membrane_tests() {
        let named = body.specification.as_ref();
        if let Some(message) = named.and_then(|named| not_in_force(view, record, named)) {
            out.look();
            out.find(
                finding(message)
                    .advise(say!(
                        "Judge it to the revision in force, or say in a deviation why not."
                    ))
                    .at(record.place())
                    .about(&*record.id.text)
                    .about(&*body.material_lot.text),
            );
        }
    }
    for test in view.plant.tests() {
        let lot = view.plant.lot_of(test.element);
        if let Some(lot) = lot {
            tests.entry(lot).or_default().push(test);
        }
        let Some(day) = test.record.day() else {
            continue;
        };
        out.look();
        let named = &test.test.specification;
        let (afterwards, timely) = dated(view, test.record, named, day);
        for spec in afterwards.iter().filter(|_| !timely.is_empty()) {
            let key = (&*spec.id.text, spec.revision);
            backdated.entry(key).or_insert((*spec, 0)).1 += 1;
        }
        let message = not_in_force(view, test.record, named);
        let written = view
            .plant
            .records()
            .revision("product_specification", &named.id, named.revision.value)
            .filter(|spec| {
                let both = (spec.recorded_at.as_ref(), test.record.happened());
                matches!(both, (Some(spec), Some(tested)) if spec.time > tested)
            });
        if let (Some(spec), None) = (written, &message) {
            late.entry((&*spec.id.text, spec.revision))
                .or_insert((spec, Vec::new()))
                .1
                .push(test);
        }
        if let Some(message) = message {
            out.find(
                finding(message)
                    .advise(say!(
                        "Judge it to the revision in force, or say in a deviation why not."
                    ))
                    .at(test.record.at(named.spot))
                    .about(&*test.record.id.text)
                    .about(test.element),
            );
        }
        if let Some(lot) = lot {
            by_lot
                .entry(lot)
                .or_default()
                .insert(named.revision.value, test.record);
        }
    }
    for ((id, revision), (spec, count)) in backdated {
        let mut found = finding(say!(
            "{id} revision {revision} was recorded {time} and says that it was in force before: it judges none of the {count} tests that were made before it was written.",
            id = id,
            revision = revision,
            time = written(spec),
            count = count
        ))
        .advise(say!(
            "Correct effective_from, or say in a deviation of category data where the limits stood on that day."
        ))
        .at(spec.place())
        .about(id);
        found.severity = Severity::Explain;
        out.find(found);
    }
    for ((id, revision), (spec, tests)) in late {
        let first = tests.iter().min_by_key(|test| test.record.happened());
        let mut found = finding(say!(
            "{id} revision {revision} was recorded {time}, after {count} of the tests that it judges, the first of them {test}.",
            id = id,
            revision = revision,
            time = written(spec),
            count = tests.len(),
            test = first.map_or("", |test| &*test.record.id)
        ))
        .advise(say!(
            "A limit is laid down before what it judges; say in a deviation of category data where it stood on that day."
        ))
        .at(spec.place())
        .about(id);
        found.severity = Severity::Explain;
        out.find(found);
    }
    for (lot, revisions) in by_lot
        .into_iter()
        .filter(|(_, revisions)| revisions.len() > 1)
    {
        let list: Vec<String> = revisions.keys().map(u64::to_string).collect();
        let last = revisions.values().last().map(|record| record.place());
        let mut found = finding(say!("{lot}: tests name revisions {list} of the specification; each is judged here to the one that it names. {lot2}.", lot = lot, list = list.join(say!(" and ")), lot2 = otherwise(view, lot, &tests)))
        .advise(say!("Confirm which revision the order names."))
        .about(lot);
        found.severity = Severity::Explain;
        found.place = last;
        out.find(found);
    }
    out
}

/// The revisions of a named specification that say they were in force on a day: those that were written after a record of it, and the
/// others.
fn dated<'a>(
    view: &View<'a>,
    record: &Record,
    named: &Reference,
    day: Date,
) -> (Vec<&'a Record>, Vec<&'a Record>) {
    let all = view.plant.records();
    let all = all.revisions("product_specification", &named.id);
    let dated = all.filter(|spec| {
        matches!(&spec.body, Body::ProductSpecification(body) if body.effective_from.date <= day)
    });
    dated.partition(|spec| {
        let both = (spec.recorded_at.as_ref(), record.happened());
        matches!(both, (Some(spec), Some(tested)) if spec.time > tested)
    })
}

/// That a record names a revision which was not in force on its day.
fn not_in_force(view: &View, record: &Record, named: &Reference) -> Option<String> {
    let day = record.day()?;
    // Whatever day it says, a revision that was not written yet was not in force, as long as another was.
    let (afterwards, timely) = dated(view, record, named, day);
    let latest = |all: &[&Record]| all.iter().map(|record| record.revision).max();
    match latest(&timely).or_else(|| latest(&afterwards)) {
        None => Some(say!(
            "{id} names {id2} revision {revision}, and no revision of it in this folder was in force on {day}.",
            id = &*record.id,
            id2 = &*named.id,
            revision = named.revision.value,
            day = day
        )),
        Some(revision) if revision != named.revision.value => Some(say!(
            "{id} names {id2} revision {revision}; revision {revision2} was in force on {day}.",
            id = &*record.id,
            id2 = &*named.id,
            revision = named.revision.value,
            revision2 = revision,
            day = day
        )),
        Some(_) => None,
    }
}

/// When a record was written.
fn written(record: &Record) -> String {
    let when = record.recorded_at.as_ref();
    when.map_or_else(String::new, |when| when.time.to_string())
}

/// What the revision that the release of a lot names says of tests that name another.
fn otherwise(view: &View, lot: &str, tests: &BTreeMap<&str, Vec<Test>>) -> String {
    let ordered = view.plant.releases().find_map(|(_, release)| {
        let own = &*release.object.lot_id.text == lot;
        own.then(|| release.requirements.iter().find_map(ordered))?
    });
    let Some((document, revision)) = ordered else {
        return say!("No release statement names a revision for it").into();
    };
    let record = view
        .plant
        .records()
        .revision("product_specification", &document, revision);
    let Some((record, Body::ProductSpecification(spec))) =
        record.map(|record| (record, &record.body))
    else {
        return say!(
            "The release names {document} revision {revision}, which is not in this folder",
            document = document,
            revision = revision
        );
    };
    let mut differ = Vec::new();
    for test in tests.get(lot).into_iter().flatten() {
        let named = &test.test.specification;
        if *named.id.text == *document && named.revision.value == revision {
            continue;
        }
        let scope = Scope {
            plant: view.plant,
            record: test.record,
            part: "",
        };
        for computed in view.figures_of(test.record) {
            let (Some(quantity), Some(judgement), Some(word)) = (
                computed.quantity(),
                &computed.judgement,
                computed.figure.quantity,
            ) else {
                continue;
            };
            let Ok(Some(limit)) = limit_in(&scope, record, spec, word) else {
                continue;
            };
            let other = judge(quantity, &limit).verdict;
            if other != judgement.verdict {
                differ.push(say!("{element} {computed} against {limit}: {other} (to revision {revision}: {verdict})", element = test.element, computed = computed.shown(), limit = limit.text, other = other.words(), revision = named.revision.value, verdict = judgement.verdict.said()));
            }
        }
    }
    match differ.is_empty() {
        true => say!(
            "The release names {document} revision {revision}; to it every verdict is the same",
            document = document,
            revision = revision
        ),
        false => say!(
            "The release names {document} revision {revision}; to it these differ: {differ}",
            document = document,
            revision = revision,
            differ = differ.join("; ")
        ),
    }
}

/// Document and revision of a requirement that names both.
fn ordered(requirement: &Any) -> Option<(String, u64)> {
    let document = requirement.get("document")?;
    let revision = requirement.get("revision")?.parse().ok()?;
    Some((document.to_string(), revision))
}
