//! R11: Ids follow the pattern of their kind; ids that look alike are pointed out.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::place::Place,
    plant::Test,
    record::{Record, kinds::Body, read::Id},
};

/// Ids follow the pattern of their kind; ids that look alike are pointed out.
pub static RULE: Rule = Rule {
    id: "R11",
    severity: Severity::Explain,
    demands: "Ids follow the pattern of their kind; ids that look alike are pointed out.",
    protects: "two things that a reader takes for one",
    explained: "By a decided deviation of category marking or data that names the id.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("ids"));
    let mut names: BTreeMap<&str, BTreeMap<&str, Place>> = BTreeMap::new();
    for record in view.plant.records().current() {
        for (what, id) in ids(record) {
            names
                .entry(what)
                .or_default()
                .entry(id)
                .or_insert_with(|| record.at(id.spot));
        }
    }
    for (what, ids) in names {
        let mut alike: BTreeMap<String, &str> = BTreeMap::new();
        let mut shapes: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for (id, place) in &ids {
            out.look();
            if let Some(other) = alike.insert(skeleton(id), id) {
                out.find(
                    finding(say!(
                        "the {what} ids {other} and {id} look alike.",
                        what = what,
                        other = other,
                        id = id
                    ))
                    .advise(say!(
                        "Check the mark on the thing, or the paper; correct the id that is wrong."
                    ))
                    .at(place.clone())
                    .about(*id)
                    .about(other),
                );
            }
            shapes.entry(shape(id)).or_default().push(id);
        }
        let usual = shapes.iter().max_by_key(|(_, ids)| ids.len());
        // A running number has a pattern; names of persons and instruments need none.
        let Some((usual, members)) = usual.filter(|_| ["module", "assembly"].contains(&what))
        else {
            continue;
        };
        for (shape, odd) in shapes
            .iter()
            .filter(|(shape, _)| *shape != usual && members.len() >= LEAST)
        {
            let [id] = odd[..] else { continue };
            let Some(place) = ids.get(id) else { continue };
            out.find(
                Finding {
                    severity: Severity::Note,
                    ..finding(say!(
                        "the {what} id {id} has the form {shape}, all others {usual}.",
                        what = what,
                        id = id,
                        shape = shape,
                        usual = usual
                    ))
                }
                .advise(say!("Check the mark on the thing."))
                .at(place.clone())
                .about(id),
            );
        }
    }
    out
}

/// So many ids of one form make a pattern.
const LEAST: usize = 5;

/// What is left of an id when letters and digits that look alike are made one.
fn skeleton(id: &str) -> String {
    // Letters of Greek and Cyrillic that look like Latin ones.
    let latin = |c: char| match c {
        'А' | 'Α' => 'A',
        'В' | 'Β' => 'B',
        'С' | 'Ϲ' => 'C',
        'Е' | 'Ε' => 'E',
        'Н' | 'Η' => 'H',
        'І' | 'Ι' => 'I',
        'К' | 'Κ' => 'K',
        'М' | 'Μ' => 'M',
        'Ν' => 'N',
        'О' | 'Ο' => 'O',
        'Р' | 'Ρ' => 'P',
        'Ѕ' => 'S',
        'Т' | 'Τ' => 'T',
        'Х' | 'Χ' => 'X',
        'У' | 'Υ' => 'Y',
        'Ζ' => 'Z',
        other => other,
    };
    let one = |c: char| match latin(c.to_uppercase().next().unwrap_or(c)) {
        'O' | 'Q' => '0',
        'I' | 'L' => '1',
        'Z' => '2',
        'S' => '5',
        'B' => '8',
        other => other,
    };
    id.chars()
        .filter(|c| c.is_alphanumeric())
        .map(one)
        .collect()
}

/// Its form: every digit a 9.
fn shape(id: &str) -> String {
    id.chars()
        .map(|c| if c.is_ascii_digit() { '9' } else { c })
        .collect()
}

/// The ids that a record writes down, with what they name.
fn ids(record: &Record) -> Vec<(&'static str, &Id)> {
    let mut out: Vec<(&'static str, &Id)> =
        record.recorded_by.iter().map(|id| ("person", id)).collect();
    if let Some(test) = Test::of(record) {
        out.push(("instrument", &test.test.instrument_id));
    }
    match &record.body {
        Body::PleatingRecord(body) => {
            out.push(("lot", &body.lot_id));
            for pack in &body.packs {
                out.extend([
                    ("module", &pack.module_id),
                    ("material", &pack.material_lot),
                ]);
            }
        }
        Body::ModuleTest(body) => out.push(("module", &body.head.module_id)),
        Body::AssemblyTest(body) => out.push(("assembly", &body.head.assembly_id)),
        Body::AssemblyBuild(body) => {
            out.push(("assembly", &body.assembly_id));
            out.extend(
                body.modules
                    .iter()
                    .map(|position| ("module", &position.module_id)),
            );
        }
        Body::MaterialLot(_) => out.push(("material", &record.id)),
        Body::MembraneTest(body) => out.push(("material", &body.material_lot)),
        Body::CalibrationRecord(body) => out.push(("instrument", &body.instrument_id)),
        Body::PersonnelAuthorisation(body) => {
            out.extend(
                body.persons
                    .iter()
                    .map(|person| ("person", &person.person_id)),
            );
        }
        Body::LotReconciliation(body) => out.push(("lot", &body.lot_id)),
        _ => {}
    }
    out
}
