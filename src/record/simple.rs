//! The plain YAML that nearly every record is written in, read in one pass.
//!
//! A small part of the language: maps and lists in block form, or in brackets within one line; texts in double quotes without
//! escapes; words and numbers without quotes that cannot be understood in two ways. Whatever else stands in a file, be it wrong or
//! only unusual, makes this reader decline the whole file, which the two readers of `yaml.rs` then see. It never refuses, so it has no
//! messages, and where it answers, it answers as they do: tests hold both against each other on whatever can be made up.

use std::borrow::Cow;

use super::yaml::{Data, Key, MAX_DEPTH, MAX_TEXT, MAX_VALUES, Meaning, Node, elsewhere};
use crate::ground::place::Spot;

/// The most keys of a map, and the longest line with letters beyond ASCII, in bytes: what this reader does again for each key
/// or value of them must stay little.
const FEW_KEYS: usize = 128;
const SHORT_LINE: usize = 1 << 12;

/// The documents of a text; nothing where some of it is beyond this reader.
pub fn documents(text: &str) -> Option<Vec<Node<'_>>> {
    if text.contains('\r') {
        return None;
    }
    let mut lines = Lines {
        rest: text,
        number: 0,
        values: 0,
        current: None,
    };
    let mut nodes = Vec::new();
    lines.advance();
    while let Some(line) = lines.current {
        if line.parts_documents() {
            lines.advance();
        } else if !nodes.is_empty() {
            return None;
        }
        nodes.push(lines.block(1)?);
    }
    (!nodes.is_empty()).then_some(nodes)
}

/// A line that says something.
#[derive(Copy, Clone)]
struct Line<'a> {
    /// From 1.
    number: u32,
    /// How many blanks stand before its text.
    indent: usize,
    /// Without the blanks on either side.
    text: &'a str,
    /// Whether each of its letters is a byte.
    ascii: bool,
}

impl<'a> Line<'a> {
    fn parts_documents(&self) -> bool {
        self.indent == 0 && self.text == "---"
    }

    fn is_item(&self) -> bool {
        self.text.starts_with("- ")
    }

    /// Where the byte `at` of its text stands.
    fn spot(&self, at: usize) -> Spot {
        let before = self.text.get(..at).unwrap_or(self.text);
        let letters = match self.ascii {
            true => before.len(),
            false => before.chars().count(),
        };
        Spot {
            line: self.number,
            column: (self.indent + letters) as u32 + 1,
        }
    }

    /// Its text from the byte `at` on.
    fn from(&self, at: usize) -> &'a str {
        self.text.get(at..).unwrap_or("")
    }

    /// Whether it says nothing from the byte `at` on: a remark stands apart from what is before it.
    fn ends(&self, at: usize) -> bool {
        let rest = self.from(at);
        rest.is_empty() || rest.starts_with(' ') && rest.trim_start_matches(' ').starts_with('#')
    }

    /// The first byte from `at` on that is no blank.
    fn past_blanks(&self, at: usize) -> usize {
        self.text.len() - self.from(at).trim_start_matches(' ').len()
    }
}

struct Lines<'a> {
    /// What was not looked at yet.
    rest: &'a str,
    /// The number of the line before that.
    number: u32,
    /// How many values and keys there were.
    values: usize,
    current: Option<Line<'a>>,
}

impl<'a> Lines<'a> {
    /// Goes to the next line that is neither blank nor a remark.
    fn advance(&mut self) {
        self.current = None;
        while !self.rest.is_empty() && self.current.is_none() {
            let (whole, rest) = self.rest.split_once('\n').unwrap_or((self.rest, ""));
            self.rest = rest;
            self.number += 1;
            let text = whole.trim_start_matches(' ');
            if !text.is_empty() && !text.starts_with('#') {
                self.current = Some(Line {
                    number: self.number,
                    indent: whole.len() - text.len(),
                    text: text.trim_end_matches(' '),
                    ascii: text.is_ascii(),
                });
            }
        }
    }

    fn count(&mut self) -> Option<()> {
        self.values += 1;
        (self.values <= MAX_VALUES).then_some(())
    }

    /// A list or a map that begins with the current line.
    fn block(&mut self, depth: usize) -> Option<Node<'a>> {
        let line = self.current?;
        match line.is_item() {
            true => self.list(line.indent, depth),
            false => self.map(line, 0, depth),
        }
    }

    fn list(&mut self, indent: usize, depth: usize) -> Option<Node<'a>> {
        let spot = self.current?.spot(0);
        self.count()?;
        let mut items = Vec::new();
        while let Some(line) = self.current
            && line.indent == indent
            && line.is_item()
        {
            let at = line.past_blanks(1);
            items.push(match key(line.from(at)) {
                Some(_) => self.map(line, at, deeper(depth)?)?,
                None => self.whole(line, at, depth, indent)?,
            });
        }
        Some(Node {
            spot,
            data: Data::List(items),
        })
    }

    /// A map whose first key stands at the byte `at` of a line; its other keys stand below that one.
    fn map(&mut self, first: Line<'a>, at: usize, depth: usize) -> Option<Node<'a>> {
        let (spot, indent) = (first.spot(at), first.indent + at);
        self.count()?;
        let mut entries: Vec<(Key<'a>, Node<'a>)> = Vec::new();
        let (mut line, mut at) = (first, at);
        loop {
            let (key, after) = self.key(line, at, &entries)?;
            let value = match line.ends(after) {
                false => self.whole(line, line.past_blanks(after), depth, indent)?,
                true => {
                    self.advance();
                    let next = self.current?;
                    match next.indent > indent {
                        true => self.block(deeper(depth)?)?,
                        // Not further in than its key: it begins where its first item does.
                        false if next.indent == indent && next.is_item() => Node {
                            spot: next.spot(next.past_blanks(1)),
                            ..self.list(indent, deeper(depth)?)?
                        },
                        false => return None,
                    }
                }
            };
            entries.push((key, value));
            match self.current {
                Some(next) if next.indent > indent => return None,
                Some(next) if next.indent == indent && !next.parts_documents() => {
                    (line, at) = (next, 0);
                }
                _ => break,
            }
        }
        Some(Node {
            spot,
            data: Data::Map(entries),
        })
    }

    /// A key that is new to its map, and where what follows its colon begins.
    fn key(
        &mut self,
        line: Line<'a>,
        at: usize,
        entries: &[(Key<'a>, Node<'a>)],
    ) -> Option<(Key<'a>, usize)> {
        self.count()?;
        let text = key(line.from(at))?;
        let known = entries.iter().any(|(other, _)| other.text == text);
        if known || entries.len() >= FEW_KEYS {
            return None;
        }
        let spot = line.spot(at);
        let key = Key {
            text: Cow::Borrowed(text),
            spot,
        };
        Some((key, at + text.len() + 1))
    }

    /// A value that takes the rest of its line; what follows may not stand further in than `indent`, or it would belong to it.
    fn whole(
        &mut self,
        line: Line<'a>,
        at: usize,
        depth: usize,
        indent: usize,
    ) -> Option<Node<'a>> {
        let (node, end) = self.value(line, at, depth, false)?;
        self.advance();
        let apart = self.current.is_none_or(|next| next.indent <= indent);
        (apart && line.ends(end)).then_some(node)
    }

    /// A value within a line, and where it ends.
    fn value(
        &mut self,
        line: Line<'a>,
        at: usize,
        depth: usize,
        in_brackets: bool,
    ) -> Option<(Node<'a>, usize)> {
        if !line.ascii && line.text.len() > SHORT_LINE {
            return None;
        }
        let rest = line.from(at);
        let spot = line.spot(at);
        let (data, end) = match rest.bytes().next()? {
            b'[' => self.bracket_list(line, at + 1, deeper(depth)?)?,
            b'{' => self.bracket_map(line, at + 1, deeper(depth)?)?,
            b'"' => {
                self.count()?;
                let text = rest.get(1..)?.split(['"', '\\']).next()?;
                let end = at + text.len() + 2;
                if line.text.as_bytes().get(end - 1) != Some(&b'"') {
                    return None;
                }
                (scalar(text, Meaning::Text)?, end)
            }
            _ => {
                self.count()?;
                let text = match in_brackets {
                    false => rest.split(" #").next()?.trim_end_matches(' '),
                    true => rest.split([',', ']', '}']).next()?.trim_end_matches(' '),
                };
                // What may be meant as a part of the text is looked at by the two readers.
                let behind = line.from(at + text.len()).trim_start_matches(' ');
                let behind = behind.strip_prefix('#').unwrap_or_default();
                if !in_brackets && !behind.is_empty() && !behind.starts_with([' ', '#']) {
                    return None;
                }
                // A dash before a comma or a bracket is refused by one of the two readers.
                if in_brackets && text.ends_with('-') {
                    return None;
                }
                (scalar(text, meaning(text)?)?, at + text.len())
            }
        };
        Some((Node { spot, data }, end))
    }

    fn bracket_list(
        &mut self,
        line: Line<'a>,
        from: usize,
        depth: usize,
    ) -> Option<(Data<'a>, usize)> {
        let mut items = Vec::new();
        let end = self.bracket(line, from, b']', |lines, at| {
            let (item, end) = lines.value(line, at, depth, true)?;
            items.push(item);
            Some(end)
        })?;
        Some((Data::List(items), end))
    }

    fn bracket_map(
        &mut self,
        line: Line<'a>,
        from: usize,
        depth: usize,
    ) -> Option<(Data<'a>, usize)> {
        let mut entries = Vec::new();
        let end = self.bracket(line, from, b'}', |lines, at| {
            let (key, after) = lines.key(line, at, &entries)?;
            let (value, end) = lines.value(line, line.past_blanks(after), depth, true)?;
            entries.push((key, value));
            Some(end)
        })?;
        Some((Data::Map(entries), end))
    }

    /// What stands in brackets, each read by `one`, which says where it ends; gives what follows the closing one.
    fn bracket(
        &mut self,
        line: Line<'a>,
        from: usize,
        close: u8,
        mut one: impl FnMut(&mut Self, usize) -> Option<usize>,
    ) -> Option<usize> {
        self.count()?;
        let bytes = line.text.as_bytes();
        let mut at = line.past_blanks(from);
        if bytes.get(at) == Some(&close) {
            return Some(at + 1);
        }
        loop {
            let end = one(self, at)?;
            let mark = line.past_blanks(end);
            match bytes.get(mark)? {
                b',' => at = line.past_blanks(mark + 1),
                byte if *byte == close => return Some(mark + 1),
                _ => return None,
            }
        }
    }
}

fn deeper(depth: usize) -> Option<usize> {
    (depth < MAX_DEPTH).then_some(depth + 1)
}

/// The key that a text begins with: a word, a colon, and then a blank or nothing.
fn key(text: &str) -> Option<&str> {
    let end = text
        .bytes()
        .position(|b| !b.is_ascii_alphanumeric() && b != b'_')?;
    let (key, rest) = text.split_at_checked(end)?;
    let first = key.bytes().next()?;
    let fits = (first.is_ascii_alphabetic() || first == b'_') && key.len() < 100;
    (fits && (rest == ":" || rest.starts_with(": "))).then_some(key)
}

fn scalar(text: &str, meaning: Meaning) -> Option<Data<'_>> {
    (text.len() <= MAX_TEXT).then_some(Data::Scalar(Cow::Borrowed(text), meaning))
}

/// What a text without quotes is, where that is beyond doubt.
fn meaning(text: &str) -> Option<Meaning> {
    let first = text.chars().next()?;
    let begins = first.is_alphanumeric() || matches!(first, '/' | '(' | '_' | '-');
    let plain = |c: char| c.is_alphanumeric() || " _-./()+%;=*,".contains(c);
    if !begins || !text.chars().all(plain) {
        return None;
    }
    match text {
        "null" | "Null" | "NULL" => return Some(Meaning::Nothing),
        "true" | "True" | "TRUE" | "false" | "False" | "FALSE" => return Some(Meaning::Truth),
        _ if is_decimal(text) => return Some(Meaning::Number),
        _ => {}
    }
    // What other readers may take for a number in some other form.
    let other = match first {
        '-' => true,
        '0' if text.starts_with("0x") || text.starts_with("0o") => true,
        // Digests begin so, and are no number of two digits.
        '0' if text.starts_with("0b") => text.bytes().skip(2).all(|b| b.is_ascii_digit()),
        '0'..='9' => text.parse::<f64>().is_ok(),
        _ => false,
    };
    match other {
        true => None,
        false if elsewhere(text).is_some() => Some(Meaning::Doubtful),
        false => Some(Meaning::Text),
    }
}

/// Digits without a leading zero, with or without a sign before and a point among them; few enough for every reader.
fn is_decimal(text: &str) -> bool {
    let bare = text.strip_prefix('-').unwrap_or(text);
    let (whole, part) = bare.split_once('.').unwrap_or((bare, "0"));
    let digits =
        |text: &str| (1..=18).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    digits(whole) && digits(part) && (whole == "0" || !whole.starts_with('0'))
}
