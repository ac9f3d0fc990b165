//! From a located tree to typed records: every problem of a record is collected, none is thrown.

use std::ops::Deref;

use serde_json::{Value, json};

use super::yaml::{Data, Meaning, Node, Problem};
pub use super::{any::*, quantity::*};
use crate::ground::{
    name::nearest,
    number,
    place::Spot,
    time::{self, Date, Time},
};

/// Collects what is wrong while a record is read.
#[derive(Default)]
pub struct Reader {
    /// The problems, in the order of the file.
    pub problems: Vec<Problem>,
}

impl Reader {
    /// Notes a problem; the value it concerns is then missing.
    pub fn refuse<T>(
        &mut self,
        spot: Spot,
        message: impl Into<String>,
        advice: impl Into<String>,
    ) -> Option<T> {
        self.problems.push(Problem::new(spot, message, advice));
        None
    }

    /// The same under a rule of its own.
    pub fn refuse_by<T>(
        &mut self,
        rule: &'static str,
        spot: Spot,
        message: impl Into<String>,
        advice: impl Into<String>,
    ) -> Option<T> {
        self.problems.push(Problem {
            rule,
            ..Problem::new(spot, message, advice)
        });
        None
    }
}

/// What can be read from a node.
pub trait Read: Sized {
    /// Whether a map must have it.
    const REQUIRED: bool = true;
    /// Reads it; `None` after noting what is wrong.
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self>;
    /// What stands for it when it is absent and not required.
    fn absent() -> Option<Self> {
        None
    }
    /// Its JSON Schema (2020-12).
    fn schema() -> Value;
}

/// One field of a map: what `schema` and the handbook print.
pub struct Field {
    /// The key.
    pub name: &'static str,
    /// What it says.
    pub about: &'static str,
    /// Whether it must be there.
    pub required: bool,
    /// Its JSON Schema.
    pub schema: fn() -> Value,
}

/// A map with named fields; written by the macro [`shape!`](crate::shape).
pub trait Shape: Sized {
    /// What it is.
    const ABOUT: &'static str;
    /// Its fields, in the order of the handbook.
    fn fields() -> Vec<Field>;
    /// Reads it from a map that may also have the keys of `extra`.
    fn read_map(node: &Node, reader: &mut Reader, extra: &[&str]) -> Option<Self>;
}

/// The schema of an object with these fields.
pub fn object_schema(about: &str, fields: &[Field]) -> Value {
    let mut properties = serde_json::Map::new();
    for field in fields {
        let mut schema = (field.schema)();
        if let Some(object) = schema.as_object_mut() {
            object.insert("description".into(), field.about.trim().into());
        }
        properties.insert(field.name.into(), schema);
    }
    let required: Vec<&str> = fields
        .iter()
        .filter(|f| f.required)
        .map(|f| f.name)
        .collect();
    json!({"type": "object", "description": about.trim(), "properties": properties, "required": required, "additionalProperties": false})
}

/// Says which keys of a map are not known, with the nearest that is.
pub fn unknown_keys(node: &Node, known: &[&str], extra: &[&str], reader: &mut Reader) {
    let Data::Map(entries) = &node.data else {
        return;
    };
    for (key, _) in entries {
        if known.contains(&&*key.text) || extra.contains(&&*key.text) {
            continue;
        }
        let near = nearest(&key.text, known.iter().chain(extra).copied());
        let hint = near.map_or(String::new(), |near| {
            say!(" (did you mean {near}?)", near = near)
        });
        reader.refuse::<()>(
            key.spot,
            say!(
                "key \"{key}\" is not known{hint}",
                key = key.text,
                hint = hint
            ),
            say!("Correct the key; nothing of what it says is used until then."),
        );
    }
}

/// Reads one field of a map.
pub fn field<T: Read>(node: &Node, name: &str, reader: &mut Reader) -> Option<T> {
    match node.get(name) {
        Some(Node {
            data: Data::Scalar(_, Meaning::Nothing),
            spot,
        }) if T::REQUIRED => reader.refuse_by(
            "R03",
            *spot,
            say!("{name} is blank", name = name),
            say!("Fill it in, or say why it is not there where the handbook allows that."),
        ),
        Some(value) => T::read(name, value, reader),
        None if T::REQUIRED => reader.refuse_by(
            "R03",
            node.spot,
            say!("required field {name} is missing", name = name),
            say!(
                "Add `{name}:`; the record is not used until then.",
                name = name
            ),
        ),
        None => T::absent(),
    }
}

/// Declares a map with named fields: the struct, its reader and its schema from one list.
#[macro_export]
macro_rules! shape {
    ($(#[doc = $about:expr])+ pub struct $name:ident { $( $(#[doc = $doc:expr])+ $field:ident : $ty:ty ),* $(,)? }) => {
        $(#[doc = $about])+
        #[derive(Debug, Clone)]
        pub struct $name {
            $( $(#[doc = $doc])+ pub $field: $ty, )*
            /// Where the map begins.
            pub spot: $crate::ground::place::Spot,
        }
        impl $crate::record::read::Shape for $name {
            const ABOUT: &'static str = concat!($($about),+);
            fn fields() -> Vec<$crate::record::read::Field> {
                vec![$( $crate::record::read::Field {
                    name: $crate::record::read::plain(stringify!($field)),
                    about: concat!($($doc),+),
                    required: <$ty as $crate::record::read::Read>::REQUIRED,
                    schema: <$ty as $crate::record::read::Read>::schema,
                } ),*]
            }
            fn read_map(node: &$crate::record::yaml::Node, reader: &mut $crate::record::read::Reader, extra: &[&str]) -> Option<Self> {
                const KNOWN: &[&str] = &[$($crate::record::read::plain(stringify!($field))),*];
                $crate::record::read::unknown_keys(node, KNOWN, extra, reader);
                $( let $field: Option<$ty> = $crate::record::read::field(node, $crate::record::read::plain(stringify!($field)), reader); )*
                Some($name { $( $field: $field?, )* spot: node.spot })
            }
        }
        impl $crate::record::read::Read for $name {
            fn read(name: &str, node: &$crate::record::yaml::Node, reader: &mut $crate::record::read::Reader) -> Option<Self> {
                match node.data {
                    $crate::record::yaml::Data::Map(_) => <Self as $crate::record::read::Shape>::read_map(node, reader, &[]),
                    _ => reader.refuse(node.spot, say!("{name} is {node}, and a map is due", name = name, node = node.words()), say!("Write its fields as `key: value`.")),
                }
            }
            fn schema() -> serde_json::Value {
                $crate::record::read::object_schema(<Self as $crate::record::read::Shape>::ABOUT, &<Self as $crate::record::read::Shape>::fields())
            }
        }
    };
}

/// Declares a closed set of words.
#[macro_export]
macro_rules! words {
    ($(#[doc = $about:expr])+ pub enum $name:ident { $( $(#[doc = $doc:expr])+ $variant:ident = $word:literal $(=> $said:literal)? ),* $(,)? }) => {
        $(#[doc = $about])+
        #[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $( $(#[doc = $doc])+ $variant ),* }
        impl $name {
            /// The words, as records write them.
            pub const WORDS: &[&str] = &[$($word),*];
            /// As records write it.
            pub fn word(self) -> &'static str {
                match self { $( $name::$variant => $word ),* }
            }
            /// As people read it, in the language of the run.
            pub fn said(self) -> String {
                let said = match self {
                    $( $name::$variant => { let [said, ..] = [$($said,)? $word]; said } ),*
                };
                say!(&said.replace('_', " ")).to_owned()
            }
        }
        impl $crate::record::read::Read for $name {
            fn read(name: &str, node: &$crate::record::yaml::Node, reader: &mut $crate::record::read::Reader) -> Option<Self> {
                match node.text() {
                    $( Some($word) => Some($name::$variant), )*
                    _ => $crate::record::read::not_a_word(name, node, Self::WORDS, reader),
                }
            }
            fn schema() -> serde_json::Value { serde_json::json!({"enum": Self::WORDS}) }
        }
    };
}

/// The message for a word that is not of a closed set.
pub fn not_a_word<T>(name: &str, node: &Node, words: &[&str], reader: &mut Reader) -> Option<T> {
    let hint = node
        .text()
        .and_then(|text| nearest(text, words.iter().copied()))
        .map_or(String::new(), |near| {
            say!(" (did you mean {near}?)", near = near)
        });
    reader.refuse(
        node.spot,
        say!(
            "{name} is {node}{hint}",
            name = name,
            node = node.words(),
            hint = hint
        ),
        say!("It is one of: {what}.", what = words.join(", ")),
    )
}

/// A text that is not blank.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Text {
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

/// Refuses a text without quotes that other readers take for something else.
fn doubtful<T>(name: &str, spot: Spot, text: &str, reader: &mut Reader) -> Option<T> {
    let other = super::yaml::elsewhere(text).unwrap_or_default();
    reader.refuse(
        spot,
        say!("{name} is written {what} without quotes; it is read as the text \"{what}\" here and as {other} elsewhere", name = name, what = text, other = other),
        say!("Write {name}: \"{what}\".", name = name, what = text),
    )
}

/// An id of a record, element, lot, person or instrument.
pub type Id = Text;

impl Deref for Text {
    type Target = str;
    fn deref(&self) -> &str {
        &self.text
    }
}

impl Read for Text {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.data {
            Data::Scalar(text, Meaning::Text) if !text.trim().is_empty() => {
                Some(Text { text: (&**text).into(), spot: node.spot })
            }
            Data::Scalar(text, Meaning::Number | Meaning::Truth) => reader.refuse(
                node.spot,
                say!("{name} is written {what} without quotes, which a reader may take for a number or a truth value", name = name, what = text),
                say!("Write {name}: \"{what}\".", name = name, what = text),
            ),
            Data::Scalar(text, Meaning::Doubtful) => doubtful(name, node.spot, text, reader),
            _ => reader.refuse(node.spot, say!("{name} is {node}, and a text is due", name = name, node = node.words()), say!("Write a text in quotes.")),
        }
    }
    fn schema() -> Value {
        json!({"type": "string", "minLength": 1})
    }
}

/// A whole number.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Count {
    /// The number.
    pub value: u64,
    /// Where.
    pub spot: Spot,
}

impl Read for Count {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let digits = |text: &str| {
            text.bytes().all(|b| b.is_ascii_digit()) && !(text.len() > 1 && text.starts_with('0'))
        };
        match &node.data {
            Data::Scalar(text, Meaning::Number) if digits(text) => {
                text.parse().ok().map(|value| Count {
                    value,
                    spot: node.spot,
                })
            }
            _ => None,
        }
        .or_else(|| {
            reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and a whole number is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write digits only, without quotes and without a leading zero."),
            )
        })
    }
    fn schema() -> Value {
        json!({"type": "integer", "minimum": 0})
    }
}

/// A pure number, kept as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// The number.
    pub value: f64,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

impl Read for Number {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.data {
            Data::Scalar(text, Meaning::Number | Meaning::Text) => match number::parse(text) {
                Ok(value) => Some(Number {
                    value,
                    text: (&**text).into(),
                    spot: node.spot,
                }),
                Err(why) => reader.refuse_by(
                    "R04",
                    node.spot,
                    format!("{name}: {why}"),
                    say!("Write a decimal number without a unit."),
                ),
            },
            _ => reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and a number is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write a decimal number."),
            ),
        }
    }
    fn schema() -> Value {
        json!({"type": "number"})
    }
}

/// True or false.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub struct Flag {
    /// Which.
    pub value: bool,
    /// Where.
    pub spot: Spot,
}

impl Read for Flag {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        match &node.data {
            Data::Scalar(text, Meaning::Truth) => Some(Flag {
                value: text.eq_ignore_ascii_case("true"),
                spot: node.spot,
            }),
            _ => reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and true or false is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write true or false without quotes; yes and no are texts."),
            ),
        }
    }
    fn schema() -> Value {
        json!({"type": "boolean"})
    }
}

/// A moment.
#[derive(Clone, Debug, PartialEq)]
pub struct When {
    /// The moment with its offset.
    pub time: Time,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

impl Read for When {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        if let Data::Scalar(text, Meaning::Doubtful) = &node.data
            && Time::parse(text).is_ok()
        {
            return doubtful(name, node.spot, text, reader);
        }
        let Some(text) = node.text() else {
            return reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and a time is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write day, time and offset from UTC, as in \"2026-03-20T09:56:00+01:00\"."),
            );
        };
        match Time::parse(text) {
            Ok(time) => Some(When { time, text: text.into(), spot: node.spot }),
            Err(why) => reader.refuse_by(
                "R24",
                node.spot,
                format!("{name} \"{text}\" {why}"),
                say!("Write a time with its offset, such as 2026-03-20T10:24:00+01:00; a local time alone cannot be put in order."),
            ),
        }
    }
    fn schema() -> Value {
        json!({"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$"})
    }
}

/// A calendar day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// The day.
    pub date: Date,
    /// Where.
    pub spot: Spot,
}

impl Read for Day {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        if let Data::Scalar(text, Meaning::Doubtful) = &node.data
            && time::parse_date(text).is_ok()
        {
            return doubtful(name, node.spot, text, reader);
        }
        match node.text().map(time::parse_date) {
            Some(Ok(date)) => Some(Day {
                date,
                spot: node.spot,
            }),
            _ => reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and a date is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write year, month and day, as in \"2026-03-20\"."),
            ),
        }
    }
    fn schema() -> Value {
        json!({"type": "string", "format": "date", "pattern": r"^\d{4}-\d{2}-\d{2}$"})
    }
}

impl<T: Read> Read for Option<T> {
    const REQUIRED: bool = false;
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        match node.data {
            Data::Scalar(_, Meaning::Nothing) => Some(None),
            _ => T::read(name, node, reader).map(Some),
        }
    }
    fn absent() -> Option<Self> {
        Some(None)
    }
    fn schema() -> Value {
        // Nothing may be written as null too.
        json!({"anyOf": [T::schema(), {"type": "null"}]})
    }
}

/// A list; absent and empty are the same.
#[derive(Clone, Debug)]
pub struct List<T>(pub Vec<T>);

impl<T> Deref for List<T> {
    type Target = [T];
    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<T: Read> Read for List<T> {
    const REQUIRED: bool = false;
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        Vec::read(name, node, reader).map(List)
    }
    fn absent() -> Option<Self> {
        Some(List(Vec::new()))
    }
    fn schema() -> Value {
        json!({"type": "array", "items": T::schema()})
    }
}

/// A list with at least one member.
impl<T: Read> Read for Vec<T> {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let Data::List(items) = &node.data else {
            return reader.refuse(
                node.spot,
                say!(
                    "{name} is {node}, and a list is due",
                    name = name,
                    node = node.words()
                ),
                say!("Write its members in brackets or with a dash each."),
            );
        };
        let read: Vec<Option<T>> = items
            .iter()
            .map(|item| T::read(name, item, reader))
            .collect();
        read.into_iter().collect()
    }
    fn schema() -> Value {
        json!({"type": "array", "items": T::schema()})
    }
}

/// The keys of a map.
pub fn keys<'n>(node: &'n Node<'_>) -> Vec<&'n str> {
    match &node.data {
        Data::Map(entries) => entries.iter().map(|(key, _)| &*key.text).collect(),
        _ => Vec::new(),
    }
}

/// A field's name without the mark that Rust wants before its own words (`r#type`).
pub const fn plain(name: &'static str) -> &'static str {
    match name.as_bytes() {
        [b'r', b'#', ..] => name.split_at(2).1,
        _ => name,
    }
}
