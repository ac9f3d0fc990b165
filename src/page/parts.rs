//! What pages are made of: sections, tables, cells.

use serde::{Serialize, Serializer, ser::SerializeMap};

use super::{FindingView, figure};
use crate::{chart::escape, ground::words, verdict::Verdict};

/// One page.
#[derive(Serialize)]
pub struct Page {
    /// Path below `data/`.
    pub path: String,
    /// The template that shows it.
    #[serde(skip)]
    pub template: &'static str,
    /// Its heading.
    pub title: String,
    /// One sentence under the heading.
    pub lead: String,
    /// What nobody may overlook; empty for nothing.
    pub notice: String,
    /// The way to it: roll, module, assembly …
    pub trail: Vec<Cell>,
    /// Its parts.
    pub sections: Vec<Section>,
}

/// Pages that are still to be made: only those in the making stand in memory.
pub struct Making<'a>(Box<dyn FnOnce() -> Vec<Page> + Send + 'a>);

impl<'a> Making<'a> {
    /// Pages that one function makes together.
    pub fn of(make: impl FnOnce() -> Vec<Page> + Send + 'a) -> Making<'a> {
        Making(Box::new(make))
    }

    /// One page.
    pub fn one(make: impl FnOnce() -> Page + Send + 'a) -> Making<'a> {
        Making::of(|| vec![make()])
    }

    /// A page a thing.
    pub fn each<T: Send + 'a>(
        things: impl IntoIterator<Item = T>,
        make: impl Fn(T) -> Page + Copy + Send + 'a,
    ) -> Vec<Making<'a>> {
        let one = |thing| Making::one(move || make(thing));
        things.into_iter().map(one).collect()
    }

    /// Makes them.
    pub fn made(self) -> Vec<Page> {
        (self.0)()
    }
}

/// A part of a page.
#[derive(Serialize, Default)]
pub struct Section {
    /// Its anchor.
    pub id: String,
    /// Its heading.
    pub heading: String,
    /// Paragraphs, as HTML that was made here.
    pub html: Vec<String>,
    /// A table, or none.
    pub table: Option<Table>,
    /// Charts and drawings, as SVG.
    pub drawings: Vec<String>,
    /// Figures with their proofs.
    pub figures: Vec<figure::FigureView>,
    /// Findings.
    pub findings: Vec<FindingView>,
    /// Numbered lines of a source file, as items of a list in HTML that was made here.
    pub lines: String,
}

impl Section {
    /// A section with a heading.
    pub fn new(id: &str, heading: &str) -> Section {
        Section {
            id: id.into(),
            heading: heading.into(),
            ..Section::default()
        }
    }

    /// Adds a paragraph of plain text.
    pub fn say(mut self, text: &str) -> Section {
        self.html.push(format!("<p>{}</p>", firm(text)));
        self
    }

    /// Adds a paragraph of nothing but links, given as HTML: paper, on which they lead nowhere, is spared it.
    pub fn ways(&mut self, paragraph: String) {
        self.html
            .push(paragraph.replacen("<p>", "<p class=\"screen\">", 1));
    }

    /// Adds a table.
    pub fn table(mut self, table: Table) -> Section {
        self.table = Some(table);
        self
    }
}

/// A table.
#[derive(Default)]
pub struct Table {
    /// What it lists, for readers who do not see it.
    pub caption: String,
    /// Column heads.
    pub head: Vec<String>,
    /// Rows.
    pub rows: Vec<Vec<Cell>>,
}

impl Serialize for Table {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        /// The rows, which have a form of their own.
        #[derive(Serialize)]
        struct Rows<'a>(#[serde(serialize_with = "rows")] &'a [Vec<Cell>]);
        let mut map = to.serialize_map(Some(4))?;
        map.serialize_entry("caption", &self.caption)?;
        map.serialize_entry("head", &self.head)?;
        map.serialize_entry("look", &self.look())?;
        map.serialize_entry("rows", &Rows(&self.rows))?;
        map.end()
    }
}

/// Rows of cells, a plain one as its text alone.
fn rows<'a, S: Serializer>(rows: &'a [Vec<Cell>], to: S) -> Result<S::Ok, S::Error> {
    struct InTable<'a>(&'a Cell);
    impl Serialize for InTable<'_> {
        fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
            match self.0.is_plain() {
                true => to.serialize_str(&self.0.text),
                false => self.0.serialize(to),
            }
        }
    }
    let row = |row: &'a Vec<Cell>| -> Vec<InTable<'a>> { row.iter().map(InTable).collect() };
    to.collect_seq(rows.iter().map(row))
}

impl Table {
    /// A table with these column heads.
    pub fn new(caption: &str, head: &[&str]) -> Table {
        Table {
            caption: caption.into(),
            head: head.iter().map(|head| (*head).to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    /// How its columns are set, as classes of the style sheet: `r3` for numbers in the third, which stand right so that
    /// decimals are one below the other; `s2` for dates and ids in the second, which are not broken at their hyphens.
    fn look(&self) -> String {
        let mut classes = Vec::new();
        for column in 0..self.head.len().min(COLUMNS) {
            let cells = self.rows.iter().filter_map(|row| row.get(column));
            let texts: Vec<&str> = cells
                .clone()
                .map(|cell| &*cell.text)
                .filter(|text| !text.is_empty() && *text != "–")
                .collect();
            if texts.is_empty() || cells.clone().any(|cell| !cell.glyph.is_empty()) {
                continue;
            }
            let mut tails = texts.iter().map(|text| number_and_tail(text));
            let first = tails.next().flatten();
            if first.is_some() && tails.all(|tail| tail == first) {
                classes.push(format!("r{}", column + 1));
            } else if texts.iter().all(|text| one_short_word(text)) {
                classes.push(format!("s{}", column + 1));
            }
        }
        classes.join(" ")
    }
}

/// So many columns the style sheet can set.
const COLUMNS: usize = 12;

/// What stands behind a number, such as a unit; nothing where the text is no number.
fn number_and_tail(text: &str) -> Option<&str> {
    let digit = |c: char| c.is_ascii_digit() || ('⁰'..='⁹').contains(&c) || "¹²³".contains(c);
    let end = text.rfind(|c: char| c.is_ascii_digit())? + 1;
    let (number, tail) = text.split_at_checked(end)?;
    let tail = tail.trim_start_matches(digit);
    let inside = |c: char| digit(c) || ".,−+±·⁻≥≤ \u{202f}".contains(c);
    (number.chars().all(inside) && !tail.contains(digit)).then_some(tail)
}

/// Whether a text is one word that a line has room for, such as a date or an id.
fn one_short_word(text: &str) -> bool {
    !text.contains(' ') && text.contains('-') && text.chars().nth(16).is_none()
}

/// A cell, or a link.
#[derive(Serialize, Default, Clone)]
pub struct Cell {
    /// Its text.
    pub text: String,
    /// Where it leads, relative to the page; empty for nowhere.
    pub href: String,
    /// A verdict's key, for its glyph and style; empty for plain text.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub verdict: String,
    /// The verdict's glyph.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub glyph: String,
    /// Its own anchor; empty for none.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub anchor: String,
    /// Whether a link may go over several lines; short ones, such as ids, may not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub long: bool,
    /// A small drawing, as SVG, in the place of a text; empty for none.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub drawing: String,
}

/// Links of so many letters stand in one line.
const ONE_LINE: usize = 28;

impl Cell {
    fn is_plain(&self) -> bool {
        let parts = [
            &self.href,
            &self.verdict,
            &self.glyph,
            &self.anchor,
            &self.drawing,
        ];
        parts.iter().all(|part| part.is_empty())
    }

    /// Plain text.
    pub fn text(text: impl Into<String>) -> Cell {
        Cell {
            text: words::spelt(&text.into()).into_owned(),
            ..Cell::default()
        }
    }

    /// A link.
    pub fn link(text: impl Into<String>, href: String) -> Cell {
        let text = words::spelt(&text.into()).into_owned();
        Cell {
            long: text.chars().nth(ONE_LINE).is_some(),
            text,
            href,
            ..Cell::default()
        }
    }

    /// Plain text that can be linked to.
    pub fn anchored(anchor: &str, text: impl Into<String>) -> Cell {
        Cell {
            anchor: anchor.into(),
            ..Cell::text(text)
        }
    }

    /// A small drawing, as SVG.
    pub fn drawing(drawing: String) -> Cell {
        Cell {
            drawing,
            ..Cell::default()
        }
    }

    /// A verdict in words and glyph.
    pub fn verdict(verdict: Verdict) -> Cell {
        Cell {
            text: verdict.said().into(),
            verdict: verdict.key().into(),
            glyph: verdict.glyph().into(),
            ..Cell::default()
        }
    }
}

/// Plain text as HTML in which no line ends inside a date or between a number and its unit.
pub fn firm(text: &str) -> String {
    let words: Vec<&str> = text.split(' ').collect();
    let mut out = String::with_capacity(text.len() + 32);
    for (i, word) in words.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|before| words.get(before));
        out.push_str(match before {
            None => "",
            Some(number) if words::measured(number, word) => "\u{a0}",
            Some(_) => " ",
        });
        let bare = word.trim_matches(['(', ')', ',', '.', ';', ':']);
        match is_day(bare) {
            true => {
                let whole = format!("<span class=\"whole\">{bare}</span>");
                out.push_str(&escape(word).replacen(bare, &whole, 1));
            }
            false => out.push_str(&escape(word)),
        }
    }
    out
}

fn is_day(text: &str) -> bool {
    let part = |part: Option<&str>, digits: usize| {
        part.is_some_and(|part| {
            part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit())
        })
    };
    let mut parts = text.split('-');
    part(parts.next(), 4)
        && part(parts.next(), 2)
        && part(parts.next(), 2)
        && parts.next().is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_end_neither_in_dates_nor_before_units() {
        assert_eq!(
            firm("at 2.7 bar, received (2026-02-09) & 12 of 3"),
            "at 2.7\u{a0}bar, received (<span class=\"whole\">2026-02-09</span>) &amp; 12 of 3"
        );
    }

    #[test]
    fn columns_of_numbers_stand_right_and_words_do_not() {
        let mut table = Table::new("", &["id", "n", "day", "value", "words", "mixed"]);
        for row in [
            [
                "A-26-2101",
                "7",
                "2026-01-05",
                "8.54 ± 0.18 mL/min",
                "one",
                "1 bar",
            ],
            [
                "A-26-2102",
                "1 240",
                "–",
                "10.1 ± 0.2 mL/min",
                "2 of 3",
                "1 mbar",
            ],
        ] {
            table.rows.push(row.map(Cell::text).to_vec());
        }
        assert_eq!(table.look(), "s1 r2 s3 r4");
    }
}
