//! A mapping held against the contract of records: which field takes what, and from which columns.

use serde_json::Value as Schema;

use super::{Flaw, sheet::Sheet, value::Target};
use crate::{
    ground::{name::nearest, unit::Unit},
    record::{
        kinds::{
            self, Kind,
            intake_mapping::{IntakeField, IntakeMapping},
        },
        read::Text,
    },
};

/// One step of the way to a field.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// A key of a map.
    Key(String),
    /// A member of a list, counted from 0.
    Member(usize),
    /// A member for each row.
    EachRow,
}

/// A piece of a text with cells in it.
#[derive(Clone, Debug)]
pub enum Piece {
    /// As it is.
    Words(String),
    /// The cell of a column.
    Cell(usize),
}

/// One field, ready to be filled.
#[derive(Debug)]
pub struct Slot<'a> {
    /// As the mapping has it.
    pub field: &'a IntakeField,
    /// The way to it.
    pub path: Vec<Step>,
    /// What it takes.
    pub target: Target,
    /// What it is filled with.
    pub pieces: Vec<Piece>,
}

impl Slot<'_> {
    /// Whether it comes from cells.
    pub fn of_cells(&self) -> bool {
        self.pieces
            .iter()
            .any(|piece| matches!(piece, Piece::Cell(_)))
    }

    /// Whether each row gives one.
    pub fn each_row(&self) -> bool {
        self.path.contains(&Step::EachRow)
    }

    /// What the cells of a row say; nothing where every cell of it is blank.
    pub fn raw(&self, cells: &[String]) -> String {
        let said = |piece: &Piece| match piece {
            Piece::Words(words) => words.clone(),
            Piece::Cell(column) => cells.get(*column).cloned().unwrap_or_default(),
        };
        let mut own = self.pieces.iter().filter_map(|piece| match piece {
            Piece::Cell(column) => cells.get(*column),
            Piece::Words(_) => None,
        });
        match self.of_cells() && own.all(|cell| cell.is_empty()) {
            true => String::new(),
            false => self.pieces.iter().map(said).collect(),
        }
    }
}

/// A mapping of rows, ready to be followed.
#[derive(Debug)]
pub struct Plan<'a> {
    /// The kind of record that it makes.
    pub kind: &'static str,
    /// Its fields.
    pub slots: Vec<Slot<'a>>,
    /// The columns in which rows of one record agree.
    pub together: Vec<usize>,
    /// The column that tells which rows count.
    pub only: Option<(usize, &'a [Text])>,
    /// Columns that nothing comes from.
    pub unused: Vec<String>,
}

/// Fields that an intake fills by itself where a mapping does not.
const GIVEN: [&str; 3] = ["kind", "revision", "source"];

impl<'a> Plan<'a> {
    /// Holds a mapping against the contract and against an export.
    ///
    /// # Errors
    /// Every field that is not there, every column that is not.
    pub fn of(mapping: &'a IntakeMapping, sheet: &Sheet) -> Result<Plan<'a>, Vec<Flaw>> {
        let Some(kind) = kinds::kind(&mapping.makes).filter(|kind| kind.name != "dossier") else {
            let known = kinds::KINDS.iter().map(|kind| kind.name);
            return Err(vec![Flaw::spot(
                mapping.makes.spot,
                say!(
                    "there is no kind of record {kind}{near}",
                    kind = &*mapping.makes,
                    near = hint(&mapping.makes, known)
                ),
                say!("`sealfolio schema` lists them; a mapping of traces says trace."),
            )]);
        };
        let mut flaws = Vec::new();
        let schema = kinds::schema(kind);
        let mut slots = Vec::new();
        for field in &mapping.fields {
            match slot(field, &schema, sheet) {
                Ok(slot) => slots.push(slot),
                Err(flaw) => flaws.push(flaw),
            }
        }
        for (n, slot) in slots.iter().enumerate() {
            if slots.iter().take(n).any(|other| other.path == slot.path) {
                flaws.push(Flaw::spot(
                    slot.field.spot,
                    say!("{field} stands twice", field = &*slot.field.field),
                    say!("Take one of them out."),
                ));
            }
        }
        // What no column and no text gives is missing in every row: it is told once. Flaws above may be the reason.
        let required = schema
            .get("required")
            .and_then(Schema::as_array)
            .filter(|_| flaws.is_empty());
        let missing = required.into_iter().flatten().filter_map(Schema::as_str);
        for name in missing.filter(|name| !GIVEN.contains(name)) {
            let fills =
                |slot: &Slot| matches!(slot.path.first(), Some(Step::Key(key)) if key == name);
            if !slots.iter().any(fills) {
                flaws.push(Flaw::spot(
                    mapping.makes.spot,
                    say!(
                        "it fills no {name}, which every {kind} needs",
                        name = name,
                        kind = kind.name
                    ),
                    say!("Add it to `fields`, with the column or the text that gives it."),
                ));
            }
        }
        let mut column = |name: &Text| {
            let found = the_column(name, name, sheet);
            found.map_err(|flaw| flaws.push(flaw)).ok()
        };
        let together: Vec<usize> = mapping.together.iter().filter_map(&mut column).collect();
        let only = mapping
            .only
            .as_ref()
            .and_then(|only| Some((column(&only.column)?, &only.is[..])));
        if !flaws.is_empty() {
            return Err(flaws);
        }
        let used = |n: &usize| {
            together.contains(n)
                || only.is_some_and(|(column, _)| column == *n)
                || slots.iter().any(|slot| {
                    slot.pieces
                        .iter()
                        .any(|piece| matches!(piece, Piece::Cell(own) if own == n))
                })
        };
        let unused = sheet.unused(used);
        Ok(Plan {
            kind: kind.name,
            unused,
            slots,
            together,
            only,
        })
    }
}

/// The columns of an empty form that a person fills in, in the order of the mapping.
pub fn form(mapping: &IntakeMapping) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut add = |name: &str| {
        if !out.iter().any(|known| known == name) {
            out.push(name.to_owned());
        }
    };
    mapping.together.iter().for_each(|name| add(name));
    mapping.only.iter().for_each(|only| add(&only.column));
    for field in &mapping.fields {
        field.column.iter().for_each(|name| add(name));
        for text in field.text.iter().chain(&field.trace) {
            braced(text).filter_map(Result::err).for_each(&mut add);
        }
    }
    out
}

/// Order of the keys of a kind, for writing.
pub fn key_order(kind: &Kind) -> Vec<&'static str> {
    let common = <crate::record::common::Common as crate::record::read::Shape>::fields();
    common
        .into_iter()
        .chain((kind.fields)())
        .map(|field| field.name)
        .collect()
}

fn hint<'n>(word: &str, known: impl IntoIterator<Item = &'n str>) -> String {
    nearest(word, known).map_or(String::new(), |near| {
        say!(" (did you mean {near}?)", near = near)
    })
}

/// Words and, as errors, names in braces.
fn braced(text: &str) -> impl Iterator<Item = Result<&str, &str>> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        if let Some((name, after)) = rest
            .strip_prefix('{')
            .and_then(|inner| inner.split_once('}'))
        {
            rest = after;
            return Some(Err(name));
        }
        let first = rest.chars().next().map_or(1, char::len_utf8);
        let end = rest[first..].find('{').map_or(rest.len(), |at| at + first);
        let (words, after) = rest.split_at(end);
        rest = after;
        Some(Ok(words))
    })
}

/// The one column of a name.
///
/// # Errors
/// No such column, or several.
pub fn the_column(name: &str, at: &Text, sheet: &Sheet) -> Result<usize, Flaw> {
    let found = sheet.column(name).ok_or_else(|| {
        Flaw::spot(
            at.spot,
            say!(
                "the export has no column \"{name}\"{near}",
                name = name,
                near = hint(name, sheet.columns.iter().map(String::as_str))
            ),
            say!(
                "Its columns are: {columns}.",
                columns = sheet.columns.join(" | ")
            ),
        )
    })?;
    match sheet.columns.iter().filter(|own| *own == name).count() {
        1 => Ok(found),
        _ => Err(Flaw::spot(
            at.spot,
            say!("the export has several columns \"{name}\"", name = name),
            say!("Name columns apart where the export comes from."),
        )),
    }
}

fn slot<'a>(field: &'a IntakeField, schema: &Schema, sheet: &Sheet) -> Result<Slot<'a>, Flaw> {
    let sources = [&field.column, &field.text, &field.trace];
    let mut given = sources.iter().filter_map(|source| source.as_ref());
    let (Some(source), None) = (given.next(), given.next()) else {
        return Err(Flaw::spot(
            field.spot,
            say!(
                "{field} needs one of column, text and trace",
                field = &*field.field
            ),
            say!("Say where its value comes from."),
        ));
    };
    let path = steps(&field.field)?;
    let target = target(&path, field, schema)?;
    let pieces = match field.column.is_some() {
        true => vec![Piece::Cell(the_column(source, source, sheet)?)],
        false => braced(source)
            .map(|piece| match piece {
                Ok(words) => Ok(Piece::Words(words.to_owned())),
                Err(name) => the_column(name, source, sheet).map(Piece::Cell),
            })
            .collect::<Result<_, _>>()?,
    };
    match (&target, &field.trace) {
        (Target::Trace, None) => Err(Flaw::spot(
            field.spot,
            say!(
                "{field} is a trace, and needs `trace`",
                field = &*field.field
            ),
            say!("Say which file beside the export it is; a column in braces stands for its cell."),
        )),
        (Target::Trace, Some(_)) | (_, None) => Ok(Slot {
            field,
            path,
            target,
            pieces,
        }),
        (_, Some(trace)) => Err(Flaw::spot(
            trace.spot,
            say!("{field} is no trace", field = &*field.field),
            say!("Say where its value comes from by column or text."),
        )),
    }
}

/// The way that a mapping writes as `measurements[0].trace`.
fn steps(way: &Text) -> Result<Vec<Step>, Flaw> {
    let bad = || {
        Flaw::spot(
            way.spot,
            say!("\"{way}\" is no way to a field", way = &**way),
            say!("Write module_id, measurements[0].test_pressure or readings[].width."),
        )
    };
    let mut out = Vec::new();
    for part in way.split('.') {
        let (key, rest) = part.split_at(part.find('[').unwrap_or(part.len()));
        if key.is_empty() {
            return Err(bad());
        }
        out.push(Step::Key(key.to_owned()));
        match rest.strip_prefix('[').map(|rest| rest.strip_suffix(']')) {
            None => {}
            Some(Some("")) if out.contains(&Step::EachRow) => return Err(bad()),
            Some(Some("")) => out.push(Step::EachRow),
            Some(Some(n)) => out.push(Step::Member(
                n.parse().ok().filter(|n| *n < 100).ok_or_else(bad)?,
            )),
            Some(None) => return Err(bad()),
        }
    }
    Ok(out)
}

/// What a field takes.
fn target(path: &[Step], field: &IntakeField, schema: &Schema) -> Result<Target, Flaw> {
    let at = &field.field;
    let mut own = bare(schema, path.first());
    for (n, step) in path.iter().enumerate() {
        let next = path.get(n + 1);
        // What the contract leaves open is open all the way down.
        if own.as_object().is_some_and(serde_json::Map::is_empty) {
            break;
        }
        own = match step {
            Step::Key(key) => {
                let known = own.get("properties").and_then(Schema::as_object);
                let Some(found) = known.and_then(|known| known.get(key)) else {
                    let known = known
                        .into_iter()
                        .flat_map(|known| known.keys().map(String::as_str));
                    return Err(Flaw::spot(
                        at.spot,
                        say!(
                            "there is no field {key} here{near}",
                            key = key,
                            near = hint(key, known)
                        ),
                        say!("`sealfolio schema KIND` shows the fields of a kind."),
                    ));
                };
                bare(found, next)
            }
            Step::Member(_) | Step::EachRow => match own.get("items") {
                Some(items) => bare(items, next),
                None => {
                    return Err(Flaw::spot(
                        at.spot,
                        say!("{field} has brackets where no list is", field = &**at),
                        say!("`sealfolio schema KIND` shows the fields of a kind."),
                    ));
                }
            },
        };
    }
    let taken = Target::of(&own).ok_or_else(|| {
        Flaw::spot(
            at.spot,
            say!("{field} is a map or a list, not a value", field = &**at),
            say!("Name one of its fields: a dot leads into a map, brackets into a list."),
        )
    })?;
    if let Some(form) = field.form.as_ref()
        && !matches!(taken, Target::Time | Target::Date)
    {
        return Err(Flaw::spot(
            form.spot,
            say!(
                "{field} is no time and no date, and takes no form",
                field = &**at
            ),
            say!("Leave `form` out."),
        ));
    }
    match (
        &field.unit,
        own.as_object().is_some_and(serde_json::Map::is_empty),
    ) {
        // What the contract leaves open is a quantity where the mapping gives it a unit.
        (Some(_), true) => Ok(Target::Quantity),
        (Some(unit), false) if taken != Target::Quantity => Err(Flaw::spot(
            unit.spot,
            say!("{field} takes no unit", field = &**at),
            say!("Leave `unit` out; `sealfolio schema KIND` shows what the field is."),
        )),
        (Some(unit), false) => match units(&own).filter(|known| !known.contains(&&**unit)) {
            // Told here once, and not in each row.
            Some(known) => Err(Flaw::spot(
                unit.spot,
                say!(
                    "{field} is not measured in {unit}",
                    field = &**at,
                    unit = &**unit
                ),
                say!("It takes one of: {known}.", known = known.join(", ")),
            )),
            None => Ok(taken),
        },
        _ => Ok(taken),
    }
}

/// The units that a field takes, as its schema lists them; nothing where it does not.
fn units(schema: &Schema) -> Option<Vec<&str>> {
    let (_, behind) = schema["pattern"].as_str()?.split_once(")? (")?;
    let (listed, _) = behind.rsplit_once(")( ± ")?;
    let unit = |symbol: &str| Unit::named(&symbol.replace('\\', "")).map(|unit| unit.symbol);
    listed.split('|').map(unit).collect()
}

/// A schema without what says that a value may be left out, and without its description; where there is a choice, the form
/// that the next step leads into, and a plain value where none follows.
fn bare(schema: &Schema, next: Option<&Step>) -> Schema {
    let leads = |own: &Schema| match next {
        Some(Step::Key(_)) => own.get("properties").is_some(),
        Some(Step::Member(_) | Step::EachRow) => own.get("items").is_some(),
        None => true,
    };
    let mut own = match schema["anyOf"].as_array() {
        Some(either) => {
            let forms: Vec<Schema> = either.iter().map(|form| bare(form, next)).collect();
            let fits = forms.iter().find(|form| leads(form));
            fits.or(forms.first()).cloned().unwrap_or_default()
        }
        None => schema.clone(),
    };
    if let Some(map) = own.as_object_mut() {
        map.remove("description");
    }
    own
}
