//! Exports of instruments and filled-in forms → records, by a mapping that is itself a record.
//!
//! The export is kept as it came, each record names it with its digest, its lines and the mapping: so whoever
//! has the dossier can take the records from the export again (rule R89) and see that they say the same.

mod again;
mod plan;
mod record;
mod sheet;
mod trace;
mod value;
mod write;

use std::collections::{BTreeMap, BTreeSet, HashMap};

pub use again::{OF_REVISIONS, difference, nodes_of};
pub use plan::form;
pub use sheet::{MAX_COLUMNS, decoded, separator};

use crate::{
    ground::{digest::Digest, name::safe_path, place::Spot},
    record::{
        Record,
        folder::{Folder, holds_records},
        kinds::intake_mapping::IntakeMapping,
        yaml::Node,
    },
};
use plan::Plan;
use record::Taking;
use sheet::Sheet;

/// Where exports are kept in the folder.
pub const EXPORTS: &str = "exports";
/// Where traces go.
pub const TRACES: &str = "traces";
/// How many flaws of one export are told one by one.
pub const MAX_FLAWS: usize = 50;

/// What is wrong, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct Flaw {
    /// Where.
    pub at: At,
    /// What.
    pub message: String,
    /// What to do.
    pub advice: String,
}

/// Where something is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum At {
    /// In the mapping.
    Mapping(Spot),
    /// In a line of the export, in a cell where it is one.
    Line {
        /// The line.
        line: u32,
        /// What the cell says.
        cell: String,
    },
}

impl Flaw {
    fn spot(spot: Spot, message: impl Into<String>, advice: impl Into<String>) -> Flaw {
        Flaw {
            at: At::Mapping(spot),
            message: message.into(),
            advice: advice.into(),
        }
    }

    fn line(line: u32, message: impl Into<String>, advice: impl Into<String>) -> Flaw {
        Flaw::cell(line, "", message, advice)
    }

    fn cell(line: u32, cell: &str, message: impl Into<String>, advice: impl Into<String>) -> Flaw {
        let at = At::Line {
            line,
            cell: cell.to_owned(),
        };
        Flaw {
            at,
            message: message.into(),
            advice: advice.into(),
        }
    }
}

/// A mapping with its id and revision.
#[derive(Copy, Clone, Debug)]
pub struct Mapping<'a> {
    /// The record.
    pub record: &'a Record,
    /// What it says.
    pub body: &'a IntakeMapping,
}

/// An export and where the dossier keeps it.
#[derive(Copy, Clone, Debug)]
pub struct Export<'a> {
    /// Its bytes.
    pub bytes: &'a [u8],
    /// The path in the folder.
    pub kept: &'a str,
}

/// What else an export is read with.
pub struct Beside<'a> {
    /// The bytes of a file beside the export, by its name and whether a mapping makes a trace of it.
    pub file: &'a (dyn Fn(&str, bool) -> Option<Vec<u8>> + Sync),
    /// The mappings of the folder.
    pub mappings: &'a [Mapping<'a>],
}

/// A record that was made.
#[derive(Debug)]
pub struct Made {
    /// The record, as it will be read.
    pub record: Record,
    /// Its text.
    pub text: String,
    /// The same, read.
    pub node: Node<'static>,
    /// The line of its first row.
    pub line: u32,
    /// Which line of the export stands where in the text.
    places: write::Places,
}

impl Made {
    /// The line of the export that a place in the text is from.
    pub fn line_at(&self, spot: Spot) -> u32 {
        write::nearest(&self.places, spot).map_or(self.line, |from| from.0)
    }
}

/// What an export gave.
#[derive(Debug)]
pub struct Taken {
    /// The kind of the records.
    pub kind: &'static str,
    /// The records.
    pub made: Vec<Made>,
    /// Traces and the exports that they were taken from: path in the folder, bytes.
    pub files: BTreeMap<String, Vec<u8>>,
    /// How many rows the export has, and how many of them count.
    pub rows: (usize, usize),
    /// Words of rows that do not count, and how many rows have each.
    pub skipped: BTreeMap<String, usize>,
    /// Columns that nothing comes from.
    pub unused: Vec<String>,
    /// Lines that are alike in every cell and belong to one record.
    pub alike: Vec<(u32, u32)>,
    /// Members of lists that were left out because every cell of theirs is blank.
    pub left_out: usize,
}

/// The path under which an export is kept: its name with the beginning of its digest, since instruments give
/// every export the same name.
pub fn kept(name: &str, bytes: &[u8]) -> String {
    let name = file_name(name);
    let digest = &Digest::of(bytes).to_string()[..8];
    match name.rsplit_once('.') {
        Some((stem, ending)) => format!("{EXPORTS}/{stem}-{digest}.{ending}"),
        None => format!("{EXPORTS}/{name}-{digest}"),
    }
}

/// A file that was beside an export when it was taken in, where the folder keeps it.
pub fn beside(folder: &Folder, name: &str, converted: bool) -> Option<Vec<u8>> {
    let place = if converted { EXPORTS } else { TRACES };
    let found = folder.files.get(&*format!("{place}/{}", file_name(name)));
    found.map(|file| file.bytes.clone())
}

/// A name that every file system takes, and that nobody reads as records or as a chapter.
fn file_name(name: &str) -> String {
    let plain = !name.is_empty()
        && name.len() <= 80
        && !name.starts_with('.')
        && name
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || b"._-".contains(&b));
    let name = match plain {
        true => name.to_owned(),
        false => safe_path(&name.replace(['/', '\\'], "-")),
    };
    match holds_records(&name) || name.to_ascii_lowercase().ends_with(".md") {
        true => name + ".csv",
        false => name,
    }
}

/// Takes records from an export.
///
/// # Errors
/// Everything that is wrong in the mapping, or in rows of the export.
pub fn take(mapping: Mapping, export: Export, beside: &Beside) -> Result<Taken, Vec<Flaw>> {
    let sheet = Sheet::read(export.bytes, mapping.body).map_err(|flaw| vec![flaw])?;
    let plan = Plan::of(mapping.body, &sheet)?;
    let counts = |cells: &[String]| {
        plan.only.is_none_or(|(column, words)| {
            let cell = cells.get(column);
            cell.is_some_and(|cell| words.iter().any(|word| **word == **cell))
        })
    };
    let rows: Vec<&(u32, Vec<String>)> = sheet
        .rows
        .iter()
        .filter(|(_, cells)| counts(cells))
        .collect();
    let (skipped, nearly) = not_counting(&plan, &sheet);
    if !nearly.is_empty() {
        return Err(nearly);
    }
    let mut taking = Taking {
        mapping,
        export,
        digest: Digest::of(export.bytes),
        beside,
        plan: &plan,
        files: BTreeMap::new(),
        unused: BTreeSet::new(),
        left_out: 0,
    };
    let mut alike = Vec::new();
    let (mut made, mut flaws): (Vec<Made>, Vec<Flaw>) = (Vec::new(), Vec::new());
    for group in groups(&plan, &rows) {
        let mut before: HashMap<&[String], u32> = HashMap::new();
        for (line, cells) in group.iter().filter(|_| group.len() > 1) {
            if let Some(first) = before.insert(cells, *line) {
                alike.push((first, *line));
            }
        }
        match taking.record(&group) {
            Ok(one) => made.push(one),
            Err(more) => flaws.extend(more),
        }
        if flaws.len() > MAX_FLAWS {
            break;
        }
    }
    let mut first: HashMap<(&str, u64), u32> = HashMap::new();
    for one in &made {
        let key = (&*one.record.id.text, one.record.revision);
        if let Some(before) = first.insert(key, one.line) {
            flaws.push(Flaw::line(
                one.line,
                say!("{id} was in line {line} already", id = key.0, line = before),
                say!("Rows that belong together are named by `together` in the mapping; else two things bear one id: find out which."),
            ));
        }
    }
    if rows.is_empty() && flaws.is_empty() {
        flaws.push(Flaw::line(
            1,
            say!("has no row to take a record from"),
            say!(
                "Look whether the export is whole, and at `only` and `header_row` of the mapping."
            ),
        ));
    }
    match flaws.is_empty() {
        true => Ok(Taken {
            kind: plan.kind,
            made,
            left_out: taking.left_out,
            files: taking.files,
            rows: (sheet.rows.len(), rows.len()),
            skipped,
            unused: [plan.unused.clone(), taking.unused.into_iter().collect()].concat(),
            alike,
        }),
        false => Err(flaws),
    }
}

/// Words by which rows do not count, and rows that do not for a capital letter or a blank alone: those nobody meant to leave out.
fn not_counting(plan: &Plan, sheet: &Sheet) -> (BTreeMap<String, usize>, Vec<Flaw>) {
    let (mut skipped, mut nearly) = (BTreeMap::new(), Vec::new());
    let Some((column, words)) = plan.only else {
        return (skipped, nearly);
    };
    for (line, cells) in &sheet.rows {
        let cell = cells.get(column).map_or("", |cell| cell.as_str());
        if words.iter().any(|word| **word == *cell) {
            continue;
        }
        let bare = |text: &str| text.trim().to_lowercase();
        if let Some(word) = words.iter().find(|word| bare(word) == bare(cell)) {
            nearly.push(Flaw::line(
                *line,
                say!(
                    "this row says \"{cell}\", and \"{word}\" counts: for capitals or blanks alone a row is not left out",
                    cell = cell,
                    word = &**word
                ),
                say!("Add the word to `only` in the mapping, as the export writes it."),
            ));
        }
        *skipped.entry(cell.to_owned()).or_insert(0) += 1;
    }
    (skipped, nearly)
}

/// Rows of one record each, in the order in which they begin.
fn groups<'r>(plan: &Plan, rows: &[&'r (u32, Vec<String>)]) -> Vec<Vec<&'r (u32, Vec<String>)>> {
    let mut out: Vec<Vec<&(u32, Vec<String>)>> = Vec::new();
    let mut known: HashMap<Vec<&str>, usize> = HashMap::new();
    for row in rows {
        let key: Vec<&str> = plan
            .together
            .iter()
            .filter_map(|column| row.1.get(*column).map(String::as_str))
            .collect();
        let before = known.get(&key).filter(|_| !plan.together.is_empty());
        match before.and_then(|n| out.get_mut(*n)) {
            Some(own) => own.push(row),
            None => {
                known.insert(key, out.len());
                out.push(vec![row]);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests;
