//! The bytes of an export → named columns and rows, each with its line.

use super::{Flaw, value};
use crate::record::{kinds::intake_mapping::IntakeMapping, text::MAX_FILE, trace::MAX_ROWS};

/// The most columns that an export may have.
pub const MAX_COLUMNS: usize = 1000;

/// The most cells: memory grows with them, not with the bytes of a file.
pub const MAX_CELLS: usize = 20_000_000;

/// An export, read.
#[derive(Debug)]
pub struct Sheet {
    /// The names of the columns, as written.
    pub columns: Vec<String>,
    /// The rows that have any cell filled: line and cells.
    pub rows: Vec<(u32, Vec<String>)>,
}

impl Sheet {
    /// The column of a name.
    pub fn column(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|column| column == name)
    }

    /// The names of columns that nothing uses.
    pub fn unused(&self, used: impl Fn(&usize) -> bool) -> Vec<String> {
        let unused = (0..).zip(&self.columns).filter(|(n, _)| !used(n));
        unused.map(|(_, name)| name.clone()).collect()
    }

    /// Reads the bytes of an export in the way that the mapping states.
    ///
    /// # Errors
    /// What keeps it from being read, with the line of the export or the spot in the mapping.
    pub fn read(bytes: &[u8], mapping: &IntakeMapping) -> Result<Sheet, Flaw> {
        if bytes.len() > MAX_FILE {
            return Err(Flaw::line(
                1,
                say!("is larger than {what} MiB", what = MAX_FILE >> 20),
                say!("Export fewer rows at a time."),
            ));
        }
        sound(mapping)?;
        let text = decoded(bytes, mapping)?;
        let separator = separator(mapping)?;
        let header = mapping.header_row.map_or(1, |count| count.value);
        let above: usize = text
            .split_inclusive('\n')
            .take(usize::try_from(header - 1).unwrap_or(usize::MAX))
            .map(str::len)
            .sum();
        let quoting = mapping.quotation_marks.is_none_or(|flag| flag.value);
        let table = &text[above..];
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(separator)
            .quoting(quoting)
            .flexible(true)
            .has_headers(false)
            .from_reader(table.as_bytes());
        let mut columns: Option<Vec<String>> = None;
        let mut rows: Vec<(u32, Vec<String>)> = Vec::new();
        let mut row = csv::StringRecord::new();
        loop {
            let at = |position: Option<&csv::Position>| {
                position.map_or(0, |position| position.line() + header - 1) as u32
            };
            let more = reader.read_record(&mut row).map_err(|error| {
                Flaw::line(
                    at(error.position()),
                    say!("is not CSV here"),
                    say!("Export it again."),
                )
            })?;
            if !more {
                break;
            }
            let line = at(row.position());
            let begin = row.position().map_or(0, csv::Position::byte) as usize;
            let end = reader.position().byte() as usize;
            if quoting {
                one_line(line, table.get(begin..end).unwrap_or_default())?;
            }
            let cells: Vec<String> = row.iter().map(|cell| cell.trim().to_owned()).collect();
            if cells.len() > MAX_COLUMNS {
                return Err(Flaw::line(
                    line,
                    say!(
                        "has {count} columns; at most {what} are read",
                        count = cells.len(),
                        what = MAX_COLUMNS
                    ),
                    say!("Look at field_separator of the mapping."),
                ));
            }
            let Some(columns) = &columns else {
                columns = Some(cells);
                continue;
            };
            if cells.iter().all(String::is_empty) {
                continue;
            }
            if cells.len() != columns.len() {
                return Err(Flaw::line(
                    line,
                    say!(
                        "row has {count} fields, {columns} expected",
                        count = cells.len(),
                        columns = columns.len()
                    ),
                    say!(
                        "Look at field_separator of the mapping, and at what is in this row; nothing is guessed."
                    ),
                ));
            }
            if rows.len() >= MAX_ROWS {
                return Err(Flaw::line(
                    line,
                    say!("has more than {what} rows", what = MAX_ROWS),
                    say!("Export fewer rows at a time."),
                ));
            }
            if (rows.len() + 1) * columns.len() > MAX_CELLS {
                return Err(Flaw::line(
                    line,
                    say!("has more than {what} cells", what = MAX_CELLS),
                    say!("Export fewer rows at a time."),
                ));
            }
            rows.push((line, cells));
        }
        match columns {
            Some(columns) => Ok(Sheet { columns, rows }),
            None => Err(Flaw::line(
                1,
                say!(
                    "has no line {n}, which should hold the names of the columns",
                    n = header
                ),
                say!("Look at header_row of the mapping, and whether the export is whole."),
            )),
        }
    }
}

/// Refuses a row that goes on in the next line, or a quotation mark that is never closed: what follows it would be taken into its cell,
/// whole rows of it, and nobody would see.
fn one_line(line: u32, row: &str) -> Result<(), Flaw> {
    let advice = say!(
        "Find out in which cell it stands. Where marks are letters like any other, as in 20\", say quotation_marks: false in the mapping; else export again without it."
    );
    let inside = row.trim_matches(['\n', '\r']);
    let breaks = inside.matches('\n').count();
    if breaks > 0 {
        return Err(Flaw::line(
            line,
            say!(
                "a quotation mark makes one row of lines {line} to {last}",
                line = line,
                last = line as usize + breaks
            ),
            advice,
        ));
    }
    match inside.matches('"').count() % 2 {
        0 => Ok(()),
        _ => Err(Flaw::line(
            line,
            say!("a quotation mark is not closed here"),
            advice,
        )),
    }
}

/// Refuses a mapping that cannot be meant, before any row is blamed for it.
fn sound(mapping: &IntakeMapping) -> Result<(), Flaw> {
    if let Some(row) = mapping.header_row.filter(|row| row.value == 0) {
        return Err(Flaw::spot(
            row.spot,
            say!("header_row is 0, and lines count from 1"),
            say!("Write the line that holds the names of the columns."),
        ));
    }
    let decimal = mapping.decimal_separator.as_deref().unwrap_or(".");
    if let Some(thousands) = mapping.thousands_separator.as_ref()
        && &**thousands == decimal
    {
        return Err(Flaw::spot(
            thousands.spot,
            say!(
                "thousands_separator and decimal_separator are both {sign}",
                sign = decimal
            ),
            say!(
                "State them as the export writes its numbers; decimal_separator is a point when absent."
            ),
        ));
    }
    if let Some(zone) = &mapping.time_zone
        && value::zone(zone).is_none()
    {
        return Err(Flaw::spot(
            zone.spot,
            say!("there is no time zone {zone}", zone = &**zone),
            say!(
                "Write an offset such as \"+01:00\", or a name of the IANA time zone database such as Europe/Rome."
            ),
        ));
    }
    Ok(())
}

/// What separates fields.
///
/// # Errors
/// More than one character, or one that is no mark.
pub fn separator(mapping: &IntakeMapping) -> Result<u8, Flaw> {
    match mapping.field_separator.as_ref() {
        None => Ok(b','),
        Some(word) => match word.as_bytes() {
            b"tab" | b"\\t" => Ok(b'\t'),
            [one] if one.is_ascii_punctuation() => Ok(*one),
            _ => Err(Flaw::spot(
                word.spot,
                say!(
                    "field_separator is \"{what}\", and one character or tab is due",
                    what = &**word
                ),
                say!("Write \",\", \";\", \"|\" or tab."),
            )),
        },
    }
}

/// The text of an export in the encoding that the mapping states. A mark at the head of the file
/// that speaks of another encoding is met with a refusal.
///
/// # Errors
/// An encoding that does not exist, or bytes that are not of it.
pub fn decoded(bytes: &[u8], mapping: &IntakeMapping) -> Result<String, Flaw> {
    let label = mapping.encoding.as_ref();
    let encoding = match label {
        None => encoding_rs::UTF_8,
        Some(label) => encoding_rs::Encoding::for_label(label.as_bytes()).ok_or_else(|| {
            Flaw::spot(
                label.spot,
                say!("there is no encoding {what}", what = &**label),
                say!("Write a label of the Encoding Standard: utf-8, utf-16le, windows-1252, iso-8859-15 …"),
            )
        })?,
    };
    let rest = match encoding_rs::Encoding::for_bom(bytes) {
        Some((marked, _)) if marked != encoding => {
            return Err(Flaw::line(
                1,
                say!(
                    "is {marked} by the mark at its head, and the mapping says {encoding}",
                    marked = marked.name(),
                    encoding = encoding.name()
                ),
                say!("State the right encoding in the mapping."),
            ));
        }
        Some((_, length)) => bytes.get(length..).unwrap_or_default(),
        None => bytes,
    };
    match encoding.decode_without_bom_handling_and_without_replacement(rest) {
        Some(text) => Ok(text.replace("\r\n", "\n")),
        None => {
            // The first line that cannot be read, where lines can be told apart at all.
            let line = rest
                .split(|byte| *byte == b'\n')
                .position(|line| {
                    encoding
                        .decode_without_bom_handling_and_without_replacement(line)
                        .is_none()
                })
                .unwrap_or(0);
            Err(Flaw::line(
                line as u32 + 1,
                say!("is not {encoding} here", encoding = encoding.name()),
                say!(
                    "State the right encoding in the mapping: spreadsheets often write windows-1252."
                ),
            ))
        }
    }
}
