//! R89: A record that was taken from an export says what the export says, and none is left out.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    ground::{
        finding::{Finding, Severity},
        name::capital,
        place::Place,
    },
    intake::{self, At, Beside, Export, Mapping, Taken},
    record::{Record, kinds::Body},
    rule::{Outcome, Rule, View},
};

/// A record that was taken from an export says what the export says, and none is left out.
pub static RULE: Rule = Rule {
    id: "R89",
    severity: Severity::Blocks,
    demands: "A record that was taken from an export says what the export says, and none is left out.",
    protects: "a value that was changed after it had been taken in, or a bad test that was taken out",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String, advice: &str) -> Finding {
    Finding::new(RULE.id, RULE.severity, message).advise(advice)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("records that were taken from exports"));
    let records = view.plant.records();
    // By export and mapping. What was superseded is mended, or corrected with a reason.
    let mut own: BTreeMap<(&str, &str, u64), Vec<&Record>> = BTreeMap::new();
    for record in records.current() {
        if let Some(from) = &record.taken_from {
            let key = (
                &*from.file.text,
                &*from.mapping.id.text,
                from.mapping.revision.value,
            );
            own.entry(key).or_default().push(record);
        }
    }
    let mappings: Vec<Mapping> = records
        .intake_mappings()
        .map(|(record, body)| Mapping { record, body })
        .collect();
    let mut rows: BTreeMap<&str, Rows> = BTreeMap::new();
    for ((file, id, revision), own) in own {
        own.iter().for_each(|_| out.look());
        let Some(&first) = own.first() else {
            continue;
        };
        let mapping = records
            .revision("intake_mapping", id, revision)
            .and_then(|record| match &record.body {
                Body::IntakeMapping(body) => Some(Mapping { record, body }),
                _ => None,
            });
        let Some(mapping) = mapping else {
            let message = say!(
                "{record} names the mapping {id} revision {revision}, which is not here.",
                record = &*first.id,
                id = id,
                revision = revision
            );
            out.find(finding(message, say!("Put the mapping back: without it nobody can take the record from its export again.")).at(first.place()).about(&*first.id.text));
            continue;
        };
        // A missing or changed export is the business of rule R09.
        let Some(export) = view
            .plant
            .folder
            .files
            .get(file)
            .filter(|found| stated(&own, found.digest.to_string()))
        else {
            continue;
        };
        let beside = Beside {
            file: &|name, converted| intake::beside(&view.plant.folder, name, converted),
            mappings: &mappings,
        };
        match intake::take(
            mapping,
            Export {
                bytes: &export.bytes,
                kept: file,
            },
            &beside,
        ) {
            Ok(taken) => {
                rows.entry(file).or_default().add(&taken);
                compare(view, &own, &taken, file, &mut out);
            }
            Err(flaws) => {
                for flaw in flaws.into_iter().take(1) {
                    let place = match flaw.at {
                        At::Mapping(spot) => mapping.record.at(spot),
                        At::Line { line, .. } => say_line(file, line),
                    };
                    let message = say!(
                        "{file} can no longer be taken in by {id}: {message}.",
                        file = file,
                        id = id,
                        message = flaw.message
                    );
                    out.find(
                        finding(message, &flaw.advice)
                            .at(place)
                            .about(&*first.id.text),
                    );
                }
            }
        }
    }
    for (file, rows) in rows {
        if rows.counted < rows.all {
            let mut told = finding(
                say!(
                    "{file}: {count} of its {all} rows make no record: {words}.",
                    file = file,
                    count = rows.all - rows.counted,
                    all = rows.all,
                    words = rows.words()
                ),
                say!("See that none of them is a result that somebody left out."),
            );
            told.severity = Severity::Note;
            out.find(told.at(Place::whole(file)));
        }
    }
    out
}

/// Rows of an export, those of which a mapping made records, and words of those of which none did.
#[derive(Default)]
struct Rows {
    all: usize,
    counted: usize,
    skipped: Option<BTreeSet<String>>,
}

impl Rows {
    fn add(&mut self, taken: &Taken) {
        self.all = taken.rows.0;
        self.counted += taken.rows.1;
        let words: BTreeSet<String> = taken.skipped.keys().cloned().collect();
        self.skipped = Some(match self.skipped.take() {
            None => words,
            Some(before) => before.intersection(&words).cloned().collect(),
        });
    }

    fn words(&self) -> String {
        let words = self.skipped.iter().flatten().take(12);
        let words: Vec<String> = words.map(|word| format!("\"{word}\"")).collect();
        match words.is_empty() {
            true => say!("no word tells which").into(),
            false => words.join(", "),
        }
    }
}

fn say_line(file: &str, line: u32) -> Place {
    let mut place = Place::whole(file);
    place.spot.line = line;
    place.spot.column = 1;
    place
}

fn stated(own: &[&Record], digest: String) -> bool {
    own.iter()
        .filter_map(|record| record.taken_from.as_ref())
        .any(|from| from.sha256.eq_ignore_ascii_case(&digest))
}

/// Holds the records of the folder against what the export gives.
fn compare(view: &View, own: &[&Record], taken: &Taken, file: &str, out: &mut Outcome) {
    let records = view.plant.records();
    let texts = intake::nodes_of(&view.plant.folder, own.iter().copied());
    let mut given: BTreeSet<&str> = BTreeSet::new();
    for made in &taken.made {
        let id = &*made.record.id.text;
        given.insert(id);
        let Some(record) = records.find(taken.kind, id) else {
            let message = say!(
                "Line {line} of {file} gives {id}, and there is no such record.",
                line = made.line,
                file = file,
                id = id
            );
            out.find(finding(message, say!("Take the export in again; a test that was made is never left out. If it must not count, a deviation says why.")).at(say_line(file, made.line)).about(id));
            continue;
        };
        // A revision that names no export was written by hand, and says why; a first one that does not has lost it.
        if record.taken_from.is_none() && record.revision == 1 {
            let message = say!(
                "{id} is given by line {line} of {file} and does not say that it was taken from there.",
                id = id,
                line = made.line,
                file = file
            );
            out.find(finding(message, say!("Take the export in again, or write a revision that supersedes the record and says why it differs.")).at(record.place()).about(id));
            continue;
        }
        if let Some(theirs) = texts.get(&record.index)
            && let Some(found) = intake::difference(&made.node, theirs)
        {
            let message = say!(
                "{id} says {theirs} for {field}, and line {line} of {file} gives {mine}.",
                id = id,
                theirs = found.other,
                field = found.field,
                line = made.line_at(found.one_at),
                file = file,
                mine = found.one
            );
            out.find(finding(message, say!("Put back what the export gives. If the export is wrong, write a revision that supersedes the record and says why.")).at(record.at(found.at)).about(id));
        }
    }
    for record in own {
        let id = &*record.id.text;
        if !given.contains(id) {
            let message = capital(&say!(
                "{id} is said to be taken from {file}, which gives no such record.",
                id = id,
                file = file
            ));
            out.find(finding(message, say!("Find out where it comes from; a record that was typed in does not name an export.")).at(record.place()).about(id));
        }
    }
}
