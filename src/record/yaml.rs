//! Text of a record file → trees whose every value knows its line and column.
//!
//! What can be read in one way only is read by `simple.rs`, in one pass. All else is seen by two readers. `serde_yaml`
//! says what a value means (text, number, true or false, nothing); `saphyr-parser` says where it stands and how
//! it was spelt, so that `8.40` keeps its last digit. They walk in step: where they disagree, the file is refused, never
//! guessed at.

use std::{borrow::Cow, fmt};

use saphyr_parser::{Event, Parser, ScalarStyle};
use serde::de::{self, DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};

use super::{behind::Behind, simple, text};
use crate::ground::{
    finding::{Finding, Severity},
    place::Spot,
};

/// The largest single text in a record, in bytes.
pub const MAX_TEXT: usize = 1 << 20;
/// How many values one file may have: memory grows with their number, not with the bytes of a file.
pub const MAX_VALUES: usize = 2_000_000;
/// How deep lists and maps may stand in one another.
pub const MAX_DEPTH: usize = 24;

/// A value and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Node<'a> {
    /// Where it begins.
    pub spot: Spot,
    /// What it is.
    pub data: Data<'a>,
}

/// The shapes of a value.
#[derive(Debug, Clone, PartialEq)]
pub enum Data<'a> {
    /// A text, number, truth value or nothing, as it was spelt.
    Scalar(Cow<'a, str>, Meaning),
    /// A list.
    List(Vec<Node<'a>>),
    /// A map, in the order of the file.
    Map(Vec<(Key<'a>, Node<'a>)>),
}

/// A key of a map.
#[derive(Debug, Clone, PartialEq)]
pub struct Key<'a> {
    /// As written.
    pub text: Cow<'a, str>,
    /// Where.
    pub spot: Spot,
}

/// What the typed reader takes a scalar for.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Text: quoted, or plain and nothing else.
    Text,
    /// A number without quotes.
    Number,
    /// `true` or `false` without quotes.
    Truth,
    /// Nothing: blank, `~` or `null`.
    Nothing,
    /// Text here, because it stands without quotes and this reader takes it so; other readers do not.
    Doubtful,
}

/// What readers of YAML 1.1 make of a text without quotes that this reader takes as it stands.
pub fn elsewhere(text: &str) -> Option<String> {
    // Most texts are none of all that, and their first letter says so.
    let first = text.bytes().next()?;
    if !first.is_ascii_digit() && !b"+-_yYnNoO".contains(&first) {
        return None;
    }
    let bare = text.trim_start_matches(['+', '-']).replace('_', "");
    let digits = !bare.is_empty() && bare.bytes().all(|b| b.is_ascii_digit());
    if digits && bare.len() > 1 && bare.starts_with('0') {
        return Some(match i64::from_str_radix(&bare, 8) {
            Ok(octal) => say!("the number {octal} (octal)", octal = octal),
            Err(_) => say!("a number without its leading zero").into(),
        });
    }
    if digits && text.contains('_') {
        return Some(say!("the number {bare}", bare = bare));
    }
    match text.to_ascii_lowercase().as_str() {
        "y" | "yes" | "on" => return Some("true".into()),
        "n" | "no" | "off" => return Some("false".into()),
        _ => {}
    }
    let parts: Vec<&str> = bare.split(':').collect();
    let sixties = parts.len() > 1
        && parts
            .iter()
            .all(|part| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit()))
        && parts
            .iter()
            .skip(1)
            .all(|part| part.parse::<u64>().is_ok_and(|n| n < 60));
    if sixties {
        let sum = parts.iter().try_fold(0_u64, |sum, part| {
            sum.checked_mul(60)?.checked_add(part.parse().ok()?)
        });
        return Some(sum.map_or(say!("a number in base 60").into(), |sum| {
            say!("the number {sum} (base 60)", sum = sum)
        }));
    }
    let day: Vec<&str> = text.splitn(3, '-').collect();
    let [year, month, day] = day[..] else {
        return None;
    };
    let date = year.len() == 4
        && year.bytes().all(|b| b.is_ascii_digit())
        && (1..=2).contains(&month.len())
        && month.bytes().all(|b| b.is_ascii_digit())
        && day.bytes().next().is_some_and(|b| b.is_ascii_digit())
        && day
            .trim_start_matches(|c: char| c.is_ascii_digit())
            .chars()
            .next()
            .is_none_or(|c| matches!(c, 'T' | 't' | ' '));
    date.then(|| say!("a moment, in a time zone of their own").into())
}

impl<'a> Node<'a> {
    /// In words, for a message.
    pub fn words(&self) -> String {
        match &self.data {
            Data::List(_) => say!("a list").into(),
            Data::Map(_) => say!("a map").into(),
            Data::Scalar(_, Meaning::Nothing) => say!("nothing").into(),
            Data::Scalar(text, Meaning::Text) => format!("\"{text}\""),
            Data::Scalar(text, Meaning::Number) => say!("the number {what}", what = text),
            Data::Scalar(text, Meaning::Truth) => say!("the truth value {what}", what = text),
            Data::Scalar(text, Meaning::Doubtful) => say!("{what} without quotes", what = text),
        }
    }

    /// The value of a key, when this is a map that has it.
    pub fn get(&self, key: &str) -> Option<&Node<'a>> {
        match &self.data {
            Data::Map(entries) => entries.iter().find(|(k, _)| k.text == key).map(|(_, v)| v),
            _ => None,
        }
    }

    /// The same, apart from the text that it was read from.
    pub fn owned(self) -> Node<'static> {
        let data = match self.data {
            Data::Scalar(text, meaning) => Data::Scalar(text.into_owned().into(), meaning),
            Data::List(items) => Data::List(items.into_iter().map(Node::owned).collect()),
            Data::Map(entries) => Data::Map(
                entries
                    .into_iter()
                    .map(|(key, value)| {
                        let key = Key {
                            text: key.text.into_owned().into(),
                            spot: key.spot,
                        };
                        (key, value.owned())
                    })
                    .collect(),
            ),
        };
        Node {
            spot: self.spot,
            data,
        }
    }

    /// The text of a scalar.
    pub fn text(&self) -> Option<&str> {
        match &self.data {
            Data::Scalar(text, _) => Some(text),
            _ => None,
        }
    }
}

/// What is wrong with a file, and where; the file's name is added by the caller.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Where.
    pub spot: Spot,
    /// The rule it breaks.
    pub rule: &'static str,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub advice: String,
}

impl Problem {
    /// A file that cannot be read as records (rule R01).
    pub fn new(spot: Spot, message: impl Into<String>, advice: impl Into<String>) -> Problem {
        Problem {
            spot,
            rule: "R01",
            message: message.into(),
            advice: advice.into(),
        }
    }

    /// As a finding that blocks.
    pub fn finding(self, file: &std::sync::Arc<str>) -> Finding {
        Finding::new(self.rule, Severity::Blocks, self.message)
            .advise(self.advice)
            .at(crate::ground::place::Place::new(file, self.spot))
    }
}

enum Step<'a> {
    /// A scalar, and whether it stands without quotes.
    Scalar(Cow<'a, str>, bool),
    List,
    Map,
}

/// The documents of a file, in order.
///
/// # Errors
/// The first problem that keeps the file from being read at all.
pub fn documents(bytes: &[u8]) -> Result<Vec<Node<'_>>, Problem> {
    let text = text::plain(bytes)?;
    simple::documents(text).map_or_else(|| by_two_readers(text), Ok)
}

/// The same of a text that was let in, whatever it may hold.
///
/// # Errors
/// The first problem that keeps it from being read at all.
pub fn by_two_readers(text: &str) -> Result<Vec<Node<'_>>, Problem> {
    let steps = steps(text)?;
    let mut nodes = Vec::new();
    let mut walk = Walk {
        steps: steps.into_iter(),
        failed: None,
    };
    for document in serde_yaml::Deserializer::from_str(text) {
        if walk.steps.len() == 0 {
            break;
        }
        match (&mut walk).deserialize(document) {
            Ok(node) => nodes.push(node),
            Err(error) => {
                return Err(walk.failed.take().unwrap_or_else(|| {
                    let spot = error.location().map_or(Spot::default(), |at| Spot {
                        line: at.line() as u32,
                        column: at.column() as u32,
                    });
                    Problem::new(
                        spot,
                        say!("cannot be read: {error}", error = error),
                        say!("Mend the line; the rest of the file is not used until then."),
                    )
                }));
            }
        }
    }
    if walk.steps.next().is_some() {
        let spot = Spot { line: 1, column: 1 };
        return Err(Problem::new(
            spot,
            say!("two readers do not agree on this file"),
            say!("Put quotes around unusual text."),
        ));
    }
    Ok(nodes)
}

fn steps(text: &str) -> Result<Vec<(Spot, Step<'_>)>, Problem> {
    let mut out = Vec::new();
    let mut depth = 0;
    let mut behind = Behind::of(text);
    for event in Parser::new_from_str(text) {
        let (event, span) = event.map_err(|error| {
            let spot = Spot {
                line: error.marker().line() as u32,
                column: error.marker().col() as u32 + 1,
            };
            Problem::new(
                spot,
                say!("is not YAML: {error}", error = error.info()),
                say!("Mend the line; the rest of the file is not used until then."),
            )
        })?;
        let spot = Spot {
            line: span.start.line() as u32,
            column: span.start.col() as u32 + 1,
        };
        let refuse = |what: &str| {
            Problem::new(
                spot,
                say!("uses {what}, which records leave out", what = what),
                say!("Write the value out where it is needed."),
            )
        };
        let marks = match &event {
            Event::Alias(_) => return Err(refuse(say!("an alias (*name)"))),
            Event::Scalar(_, _, anchor, tag) => (*anchor, tag.is_some()),
            Event::SequenceStart(anchor, tag) | Event::MappingStart(anchor, tag) => {
                (*anchor, tag.is_some())
            }
            _ => (0, false),
        };
        if marks.0 != 0 {
            return Err(refuse(say!("an anchor (&name)")));
        }
        if marks.1 {
            return Err(refuse(say!("a tag (!name)")));
        }
        if out.len() >= MAX_VALUES {
            return Err(Problem::new(
                spot,
                say!("has more than {what} values", what = MAX_VALUES),
                say!(
                    "Split it into several files; how records are spread over files means nothing."
                ),
            ));
        }
        match event {
            Event::Scalar(text, ..) if text.len() > MAX_TEXT => {
                return Err(Problem::new(
                    spot,
                    say!("has a text of more than {what} KiB", what = MAX_TEXT >> 10),
                    say!("Put it into an attachment."),
                ));
            }
            Event::Scalar(text, style, ..) => {
                let plain = style == ScalarStyle::Plain;
                let end = (span.end.line(), span.end.col());
                if let Some(lost) = plain.then(|| behind.cut_off(end)).flatten() {
                    return Err(Problem::new(
                        spot,
                        say!(
                            "{text} ends before {lost}: what follows a blank and a # is a remark",
                            text = text,
                            lost = lost
                        ),
                        say!(
                            "Put quotes around the whole text; or, if it is a remark, a blank behind the #."
                        ),
                    ));
                }
                out.push((spot, Step::Scalar(text, plain)));
            }
            Event::SequenceStart(..) | Event::MappingStart(..) => {
                depth += 1;
                if depth > MAX_DEPTH {
                    return Err(Problem::new(
                        spot,
                        say!("is nested more than {what} deep", what = MAX_DEPTH),
                        say!("No record needs that; look for a stray bracket."),
                    ));
                }
                out.push((
                    spot,
                    if matches!(event, Event::MappingStart(..)) {
                        Step::Map
                    } else {
                        Step::List
                    },
                ));
            }
            Event::SequenceEnd | Event::MappingEnd => depth -= 1,
            _ => {}
        }
    }
    Ok(out)
}

struct Walk<'a> {
    steps: std::vec::IntoIter<(Spot, Step<'a>)>,
    failed: Option<Problem>,
}

impl<'a> Walk<'a> {
    fn disagree<E: de::Error>(&mut self, spot: Spot) -> E {
        self.failed.get_or_insert_with(|| {
            Problem::new(
                spot,
                say!("two readers do not agree on what is written here"),
                say!("Put quotes around the text."),
            )
        });
        E::custom(say!("readers disagree"))
    }

    fn scalar<E: de::Error>(
        &mut self,
        meaning: Meaning,
        same: impl Fn(&str) -> bool,
    ) -> Result<Node<'a>, E> {
        match self.steps.next() {
            Some((spot, Step::Scalar(text, plain))) if same(&text) => {
                let doubtful = plain && meaning == Meaning::Text && elsewhere(&text).is_some();
                let meaning = if doubtful { Meaning::Doubtful } else { meaning };
                Ok(Node {
                    spot,
                    data: Data::Scalar(text, meaning),
                })
            }
            Some((spot, _)) => Err(self.disagree(spot)),
            None => Err(self.disagree(Spot::default())),
        }
    }
}

impl<'de, 'a> DeserializeSeed<'de> for &mut Walk<'a> {
    type Value = Node<'a>;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node<'a>, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de, 'a> Visitor<'de> for &mut Walk<'a> {
    type Value = Node<'a>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(say!("a value"))
    }
    fn visit_bool<E: de::Error>(self, _: bool) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Truth, |_| true)
    }
    fn visit_i64<E: de::Error>(self, _: i64) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Number, |_| true)
    }
    fn visit_u64<E: de::Error>(self, _: u64) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Number, |_| true)
    }
    fn visit_f64<E: de::Error>(self, _: f64) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Number, |_| true)
    }
    fn visit_unit<E: de::Error>(self) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Nothing, |_| true)
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<Node<'a>, E> {
        self.scalar(Meaning::Text, |spelt| spelt == text)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node<'a>, A::Error> {
        let (spot, step) = self
            .steps
            .next()
            .ok_or_else(|| de::Error::custom(say!("readers disagree")))?;
        if !matches!(step, Step::List) {
            return Err(self.disagree(spot));
        }
        let mut items = Vec::new();
        while let Some(item) = list.next_element_seed(&mut *self)? {
            items.push(item);
        }
        Ok(Node {
            spot,
            data: Data::List(items),
        })
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Node<'a>, A::Error> {
        let (spot, step) = self
            .steps
            .next()
            .ok_or_else(|| de::Error::custom(say!("readers disagree")))?;
        if !matches!(step, Step::Map) {
            return Err(self.disagree(spot));
        }
        let mut entries: Vec<(Key<'a>, Node<'a>)> = Vec::new();
        while let Some(key) = map.next_key_seed(&mut *self)? {
            let Data::Scalar(text, _) = key.data else {
                self.failed = Some(Problem::new(
                    key.spot,
                    say!("has a key that is not a word"),
                    say!("Keys are the words of the handbook."),
                ));
                return Err(de::Error::custom("key"));
            };
            let value = map.next_value_seed(&mut *self)?;
            entries.push((
                Key {
                    text,
                    spot: key.spot,
                },
                value,
            ));
        }
        if let Some((first, second)) = twice(&entries) {
            let message = say!(
                "key \"{what}\" stands twice (first in line {first})",
                what = second.text,
                first = first.spot.line
            );
            self.failed = Some(Problem::new(
                second.spot,
                message,
                say!("Keep the one that is true; the record is not used until then."),
            ));
            return Err(de::Error::custom("key"));
        }
        Ok(Node {
            spot,
            data: Data::Map(entries),
        })
    }
}

/// The first key that stands a second time, and where it stood before.
fn twice<'n, 'a>(entries: &'n [(Key<'a>, Node<'a>)]) -> Option<(&'n Key<'a>, &'n Key<'a>)> {
    let mut keys: Vec<(&str, usize)> = (0..)
        .zip(entries)
        .map(|(i, (key, _))| (&*key.text, i))
        .collect();
    keys.sort_unstable();
    let doubled = keys.array_windows().filter(|[a, b]| a.0 == b.0);
    let [(_, first), (_, second)] = doubled.min_by_key(|[_, second]| second.1)?;
    Some((&entries.get(*first)?.0, &entries.get(*second)?.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_keeps_its_spelling_and_its_place() {
        let nodes =
            documents(b"kind: a\nvalue: 8.40\nlist: [{x: \"1\"}, no]\n---\nkind: b\n").unwrap();
        assert_eq!(nodes.len(), 2);
        let value = nodes[0].get("value").unwrap();
        assert_eq!(
            (value.text(), value.spot.line, value.spot.column),
            (Some("8.40"), 2, 8)
        );
        let Data::List(list) = &nodes[0].get("list").unwrap().data else {
            panic!()
        };
        assert_eq!(list[1].words(), "no without quotes");
        assert_eq!(nodes[1].spot.line, 5);
    }

    /// YAML 1.1, as other readers have it: octal, base 60, yes and no, underscores, dates.
    #[test]
    fn what_other_readers_take_for_something_else_is_known() {
        for (text, other) in [
            ("03107", Some("the number 1607 (octal)")),
            ("03108", Some("a number without its leading zero")),
            ("no", Some("false")),
            ("On", Some("true")),
            ("12:30", Some("the number 750 (base 60)")),
            ("1_000", Some("the number 1000")),
            ("2026-03-20", Some("a moment, in a time zone of their own")),
            ("M-26-3101", None),
            ("none", None),
            ("8.40 mL/min", None),
            ("2026-03-A", None),
        ] {
            assert_eq!(elsewhere(text).as_deref(), other, "{text}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_named_with_its_line() {
        for (text, line, part) in [
            (&b"a: 1\na: 2\n"[..], 2, "stands twice"),
            (b"a: 1\n\tb: 2\n", 2, "tab"),
            (b"a: &x 1\nb: *x\n", 1, "anchor"),
            (b"a: !t 1\n", 1, "tag"),
            (b"a: [1, 2\n", 2, "is not YAML"),
            (b"a: \xff\n", 1, "UTF-8"),
            (b"a: b\n\x07", 2, "U+0007"),
            (b"[a]: 1\n", 1, "key"),
        ] {
            let problem = documents(text).unwrap_err();
            assert!(problem.message.contains(part), "{problem:?}");
            assert_eq!(problem.spot.line, line, "{problem:?}");
        }
        assert!(documents("[".repeat(100_000).as_bytes()).is_err());
        assert!(documents(b"# only a remark\n").unwrap().is_empty());
        assert!(documents(b"").unwrap().is_empty());
    }
}
