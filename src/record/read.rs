//! From a located tree to typed records: every problem of a record is collected, none is thrown.

use std::ops::Deref;

use serde_json::{Value, json};

use super::yaml::{Data, Meaning, Node, Problem};
use crate::ground::{name::nearest, number, place::Spot, time::{self, Date, Time}, unit::{self, Dim, Pressure, Unit}};

/// Collects what is wrong while a record is read.
#[derive(Default)]
pub struct Reader {
    /// The problems, in the order of the file.
    pub problems: Vec<Problem>,
}

impl Reader {
    /// Notes a problem; the value it concerns is then missing.
    pub fn refuse<T>(&mut self, spot: Spot, message: impl Into<String>, advice: impl Into<String>) -> Option<T> {
        self.problems.push(Problem::new(spot, message, advice));
        None
    }

    /// The same under a rule of its own.
    pub fn refuse_by<T>(&mut self, rule: &'static str, spot: Spot, message: impl Into<String>, advice: impl Into<String>) -> Option<T> {
        self.problems.push(Problem { rule, ..Problem::new(spot, message, advice) });
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
    let required: Vec<&str> = fields.iter().filter(|f| f.required).map(|f| f.name).collect();
    json!({"type": "object", "description": about.trim(), "properties": properties, "required": required, "additionalProperties": false})
}

/// Says which keys of a map are not known, with the nearest that is.
pub fn unknown_keys(node: &Node, known: &[&str], extra: &[&str], reader: &mut Reader) {
    let Data::Map(entries) = &node.data else { return };
    for (key, _) in entries {
        if known.contains(&key.text.as_str()) || extra.contains(&key.text.as_str()) {
            continue;
        }
        let near = nearest(&key.text, known.iter().chain(extra).copied());
        let hint = near.map_or(String::new(), |near| format!(" (did you mean {near}?)"));
        reader.refuse::<()>(
            key.spot,
            format!("key \"{}\" is not known{hint}", key.text),
            "Correct the key; the record is not used until then.",
        );
    }
}

/// Reads one field of a map.
pub fn field<T: Read>(node: &Node, name: &str, reader: &mut Reader) -> Option<T> {
    match node.get(name) {
        Some(Node { data: Data::Scalar(_, Meaning::Nothing), spot }) if T::REQUIRED => reader.refuse_by(
            "R03",
            *spot,
            format!("{name} is blank"),
            "Fill it in, or say why it is not there where the handbook allows that.",
        ),
        Some(value) => T::read(name, value, reader),
        None if T::REQUIRED => reader.refuse_by(
            "R03",
            node.spot,
            format!("required field {name} is missing"),
            format!("Add `{name}:`; the record is not used until then."),
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
                    _ => reader.refuse(node.spot, format!("{name} is {}, and a map is due", node.words()), "Write its fields as `key: value`."),
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
    ($(#[doc = $about:expr])+ pub enum $name:ident { $( $(#[doc = $doc:expr])+ $variant:ident = $word:literal ),* $(,)? }) => {
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
        .map_or(String::new(), |near| format!(" (did you mean {near}?)"));
    reader.refuse(node.spot, format!("{name} is {}{hint}", node.words()), format!("It is one of: {}.", words.join(", ")))
}

/// A text that is not blank.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Text {
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
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
                Some(Text { text: text.as_str().into(), spot: node.spot })
            }
            Data::Scalar(text, Meaning::Number | Meaning::Truth) => reader.refuse(
                node.spot,
                format!("{name} is written {text} without quotes, which a reader may take for a number or a truth value"),
                format!("Write {name}: \"{text}\"."),
            ),
            _ => reader.refuse(node.spot, format!("{name} is {}, and a text is due", node.words()), "Write a text in quotes."),
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
        let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit()) && !(text.len() > 1 && text.starts_with('0'));
        match &node.data {
            Data::Scalar(text, Meaning::Number) if digits(text) => {
                text.parse().ok().map(|value| Count { value, spot: node.spot })
            }
            _ => None,
        }
        .or_else(|| reader.refuse(node.spot, format!("{name} is {}, and a whole number is due", node.words()), "Write digits only, without quotes and without a leading zero."))
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
                Ok(value) => Some(Number { value, text: text.as_str().into(), spot: node.spot }),
                Err(why) => reader.refuse_by("R04", node.spot, format!("{name}: {why}"), "Write a decimal number without a unit."),
            },
            _ => reader.refuse(node.spot, format!("{name} is {}, and a number is due", node.words()), "Write a decimal number."),
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
            Data::Scalar(text, Meaning::Truth) => Some(Flag { value: text.eq_ignore_ascii_case("true"), spot: node.spot }),
            _ => reader.refuse(node.spot, format!("{name} is {}, and true or false is due", node.words()), "Write true or false without quotes; yes and no are texts."),
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
        let Some(text) = node.text() else {
            return reader.refuse(node.spot, format!("{name} is {}, and a time is due", node.words()), "Write \"2026-03-20T09:56:00+01:00\".");
        };
        match Time::parse(text) {
            Ok(time) => Some(When { time, text: text.into(), spot: node.spot }),
            Err(why) => reader.refuse_by(
                "R24",
                node.spot,
                format!("{name} \"{text}\" {why}"),
                "Write a time with its offset, such as 2026-03-20T10:24:00+01:00; a local time alone cannot be put in order.",
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
        match node.text().map(time::parse_date) {
            Some(Ok(date)) => Some(Day { date, spot: node.spot }),
            _ => reader.refuse(node.spot, format!("{name} is {}, and a date is due", node.words()), "Write \"2026-03-20\"."),
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
        T::schema()
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
            return reader.refuse(node.spot, format!("{name} is {}, and a list is due", node.words()), "Write its members in brackets or with a dash each.");
        };
        let read: Vec<Option<T>> = items.iter().map(|item| T::read(name, item, reader)).collect();
        read.into_iter().collect()
    }
    fn schema() -> Value {
        json!({"type": "array", "items": T::schema()})
    }
}

/// Anything: kept as the texts of its leaves, each with its path.
#[derive(Clone, Debug)]
pub struct Any {
    /// `module_id` → `M-1`, `items/0` → …, in the order of the file.
    pub leaves: Vec<(String, Text)>,
}

impl Any {
    /// The text of one leaf.
    pub fn get(&self, path: &str) -> Option<&Text> {
        self.leaves.iter().find(|(p, _)| p == path).map(|(_, text)| text)
    }

    /// Every leaf's text.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.leaves.iter().map(|(_, text)| text)
    }
}

impl Read for Any {
    fn read(_: &str, node: &Node, _: &mut Reader) -> Option<Self> {
        fn walk(path: String, node: &Node, out: &mut Vec<(String, Text)>) {
            let below = |key: &str| if path.is_empty() { key.to_owned() } else { format!("{path}/{key}") };
            match &node.data {
                Data::Scalar(text, _) => out.push((path, Text { text: text.as_str().into(), spot: node.spot })),
                Data::List(items) => items.iter().enumerate().for_each(|(i, item)| walk(below(&i.to_string()), item, out)),
                Data::Map(entries) => entries.iter().for_each(|(key, value)| walk(below(&key.text), value, out)),
            }
        }
        let mut leaves = Vec::new();
        walk(String::new(), node, &mut leaves);
        Some(Any { leaves })
    }
    fn schema() -> Value {
        json!({})
    }
}

/// What a quantity field measures: its dimension and what is believable there.
pub trait Measure: std::fmt::Debug + Clone + 'static {
    /// Its dimension.
    const DIM: Dim;
    /// What it is, in words.
    const NAME: &'static str;
    /// Units that people write here, the usual one first.
    const UNITS: &'static [&'static str];
    /// Smallest and largest believable value, in SI.
    const BELIEVABLE: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
    /// Whether a unit of the right dimension still does not fit, and why.
    fn misfit(_unit: &Unit, _si: f64) -> Option<&'static str> {
        None
    }
}

macro_rules! measures {
    ($($(#[doc = $doc:expr])+ $name:ident: $dim:expr, $words:literal, $units:expr, $low:expr => $high:expr, $misfit:ident;)*) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone)]
        pub struct $name;
        impl Measure for $name {
            const DIM: Dim = $dim;
            const NAME: &'static str = $words;
            const UNITS: &'static [&'static str] = &$units;
            const BELIEVABLE: (f64, f64) = ($low, $high);
            fn misfit(unit: &Unit, si: f64) -> Option<&'static str> {
                $misfit(unit, si)
            }
        }
    )*};
}

fn gauge_only(unit: &Unit, _: f64) -> Option<&'static str> {
    (unit.pressure == Pressure::Absolute).then_some("this field is a gauge pressure or a pressure difference")
}

fn scale(unit: &Unit, si: f64) -> Option<&'static str> {
    (unit.zero == 0.0 && si < 100.0).then_some("below 100 K: a Celsius value written as kelvin?")
}

fn difference(unit: &Unit, _: f64) -> Option<&'static str> {
    (unit.zero != 0.0).then_some("this field is a temperature difference; write it in K")
}

fn anything(_: &Unit, _: f64) -> Option<&'static str> {
    None
}

measures! {
    /// Gauge pressure or a pressure difference.
    Gauge: unit::PRESSURE, "a gauge pressure or a pressure difference", ["mbar", "bar", "kPa"], -1.1e5 => 3e6, gauge_only;
    /// Absolute pressure: `mbar` and `mbar_abs` mean the same here.
    Absolute: unit::PRESSURE, "an absolute pressure", ["mbar", "mbar_abs"], 1e2 => 3e6, anything;
    /// A temperature on a scale.
    Temperature: unit::TEMPERATURE, "a temperature", ["degC"], 200.0 => 1500.0, scale;
    /// A temperature difference.
    TemperatureDifference: unit::TEMPERATURE, "a temperature difference", ["K"], -500.0 => 500.0, difference;
    /// A volume flow of gas at reference conditions, or of liquid.
    Flow: unit::FLOW, "a volume flow", ["mL/min", "L/min", "L/h"], -1e-3 => 1.0, anything;
    /// A volume flow per membrane area.
    Flux: unit::FLUX, "a flow per area", ["mL/min/cm2"], 0.0 => 1.0, anything;
    /// A volume.
    Volume: unit::VOLUME, "a volume", ["L", "mL"], 0.0 => 100.0, anything;
    /// A length.
    Length: unit::LENGTH, "a length", ["mm", "um", "m", "in"], -1e4 => 1e5, anything;
    /// An area.
    Area: unit::AREA, "an area", ["m2", "cm2"], 0.0 => 1e4, anything;
    /// A duration.
    Duration: unit::TIME, "a duration", ["s", "min", "h", "d", "mo", "a"], 0.0 => 1e10, anything;
    /// A force.
    Force: unit::FORCE, "a force", ["N"], 0.0 => 1e6, anything;
    /// A surface tension.
    Tension: unit::TENSION, "a surface tension", ["mN/m"], 1e-3 => 0.2, anything;
    /// An electrical conductivity.
    Conductivity: unit::CONDUCTIVITY, "a conductivity", ["uS/cm"], 0.0 => 100.0, anything;
    /// Organisms.
    Colonies: unit::COLONIES, "a number of organisms", ["CFU"], 0.0 => 1e20, anything;
    /// Organisms per area.
    ColoniesPerArea: unit::COLONIES.over(unit::AREA), "organisms per area", ["CFU/cm2"], 0.0 => 1e25, anything;
    /// A mass concentration.
    Concentration: unit::DENSITY, "a concentration", ["mg/L"], 0.0 => 1e4, anything;
    /// A share.
    Share: Dim::NONE, "a share", ["%", "1"], -10.0 => 10.0, anything;
}

/// A measured value as written: number, blank, unit; perhaps with its uncertainty.
#[derive(Debug, Clone)]
pub struct Q<M> {
    /// The value, in SI.
    pub si: f64,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// The standard uncertainty stated beside it, in SI.
    pub u: Option<f64>,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
    measure: std::marker::PhantomData<M>,
}

/// A quantity with its stated uncertainty: value, unit, standard uncertainty in SI.
///
/// Reads `2.42 bar` and `2.42 bar ± 0.05 bar (k = 2)`.
fn quantity(text: &str) -> Result<(f64, &'static Unit, Option<f64>), String> {
    let Some((value, doubt)) = text.split_once('±') else {
        let (n, unit) = number::parse_with_unit(text)?;
        return Ok((unit.to_si(n), unit, None));
    };
    let (n, unit) = number::parse_with_unit(value)?;
    let (doubt, factor) = doubt.split_once('(').ok_or("an uncertainty needs its coverage factor: ± 0.05 bar (k = 2)")?;
    let factor = factor.trim().trim_end_matches(')').split_once('=').filter(|(k, _)| k.trim() == "k").ok_or("the coverage factor is written (k = 2)")?;
    let factor = number::parse(factor.1.trim())?;
    let (u, u_unit) = number::parse_with_unit(doubt)?;
    if u_unit.dim != unit.dim || u < 0.0 || factor <= 0.0 || u_unit.zero != 0.0 {
        return Err("the uncertainty is not a positive difference of the same kind as the value".into());
    }
    Ok((unit.to_si(n), unit, Some(u * u_unit.factor / factor)))
}

impl<M: Measure> Read for Q<M> {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let example = || format!("Write {} with its unit, such as \"… {}\".", M::NAME, M::UNITS[0]);
        let Data::Scalar(text, meaning) = &node.data else {
            return reader.refuse_by("R04", node.spot, format!("{name} is {}, and {} is due", node.words(), M::NAME), example());
        };
        if *meaning == Meaning::Number {
            return reader.refuse_by("R04", node.spot, format!("{name} {text} has no unit"), example());
        }
        let (si, unit, u) = match quantity(text) {
            Ok(read) => read,
            Err(why) => return reader.refuse_by("R04", node.spot, format!("{name}: {why}"), example()),
        };
        if unit.dim != M::DIM {
            return reader.refuse_by("R04", node.spot, format!("{name} \"{text}\" is not {}", M::NAME), example());
        }
        if let Some(why) = M::misfit(unit, si) {
            return reader.refuse_by("R04", node.spot, format!("{name} \"{text}\": {why}"), example());
        }
        if !(M::BELIEVABLE.0..=M::BELIEVABLE.1).contains(&si) {
            return reader.refuse_by("R04", node.spot, format!("{name} \"{text}\" is not believable for this field"), "Check the number and its unit.");
        }
        Some(Q { si, unit, u, text: text.as_str().into(), spot: node.spot, measure: std::marker::PhantomData })
    }
    fn schema() -> Value {
        let units: Vec<&str> = unit::UNITS.iter().filter(|unit| unit.dim == M::DIM && M::misfit(unit, 293.0).is_none()).map(|unit| unit.symbol).collect();
        let alternatives = units.join("|").replace('.', r"\.");
        json!({"type": "string", "pattern": format!(r"^[+-]?\d+(\.\d+)?([eE][+-]?\d+)? ({alternatives})( ± .+ \(k = .+\))?$"), "examples": [format!("1.0 {}", M::UNITS[0])]})
    }
}

/// A demand on a quantity: `<= x`, `>= x`, `A .. B`, `target ± tol`, perhaps `per module`.
#[derive(Debug, Clone)]
pub struct Demand {
    /// Least allowed, in SI.
    pub low: Option<f64>,
    /// Most allowed, in SI.
    pub high: Option<f64>,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// Whether it counts for each module of an assembly.
    pub per_module: bool,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

impl Demand {
    /// Reads the text; the reason in words when it cannot.
    pub fn parse(text: &str, spot: Spot) -> Result<Demand, String> {
        let (body, per_module) = match text.trim().strip_suffix("per module") {
            Some(body) => (body.trim(), true),
            None => (text.trim(), false),
        };
        let one = |text: &str| -> Result<(f64, &'static Unit), String> {
            match number::parse(text.trim()) {
                Ok(n) => Ok((n, &unit::ONE)),
                Err(_) => number::parse_with_unit(text).map(|(n, unit)| (unit.to_si(n), unit)),
            }
        };
        let (low, high, unit) = if let Some(rest) = body.strip_prefix("<=") {
            let (n, unit) = one(rest)?;
            (None, Some(n), unit)
        } else if let Some(rest) = body.strip_prefix(">=") {
            let (n, unit) = one(rest)?;
            (Some(n), None, unit)
        } else if let Some((a, b)) = body.split_once("..") {
            let (low, unit) = one(a)?;
            let (high, other) = one(b)?;
            if unit.dim != other.dim {
                return Err(format!("the two ends of \"{text}\" are different kinds of quantity"));
            }
            if low > high {
                return Err(format!("the interval \"{text}\" ends before it begins"));
            }
            (Some(low), Some(high), unit)
        } else if let Some((target, tolerance)) = body.split_once('±') {
            let (target, unit) = one(target)?;
            let (width, other) = number::parse_with_unit(tolerance)?;
            if unit.dim != other.dim || other.zero != 0.0 || width < 0.0 {
                return Err(format!("the tolerance of \"{text}\" is not a width of the same kind"));
            }
            (Some(target - width * other.factor), Some(target + width * other.factor), unit)
        } else {
            return Err(format!("\"{text}\" is not a limit"));
        };
        Ok(Demand { low, high, unit, per_module, text: text.into(), spot })
    }

    /// Whether a value lies inside, ends included.
    pub fn holds(&self, si: f64) -> bool {
        // A limit and a value that were written alike may differ in the last bit after conversion.
        let slack = 1e-12 * si.abs();
        self.low.is_none_or(|low| si >= low - slack) && self.high.is_none_or(|high| si <= high + slack)
    }
}

impl Read for Demand {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let text = node.text().unwrap_or("");
        Demand::parse(text, node.spot).map_or_else(
            |why| reader.refuse_by("R04", node.spot, format!("{name}: {why}"), "Write \"<= x\", \">= x\", \"A .. B\" or \"target ± tolerance\", each with units."),
            Some,
        )
    }
    fn schema() -> Value {
        json!({"type": "string", "examples": ["<= 14.0 mL/min", ">= 2.40 bar", "110 um .. 150 um", "52.0 mm ± 0.1 mm"]})
    }
}

/// A quantity of any dimension: what its field means decides which is right.
#[derive(Debug, Clone)]
pub struct AnyQ {
    /// The value, in SI (a pure number without a unit is taken as it is).
    pub si: f64,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// As written.
    pub text: Box<str>,
    /// Where.
    pub spot: Spot,
}

impl Read for AnyQ {
    fn read(name: &str, node: &Node, reader: &mut Reader) -> Option<Self> {
        let text = node.text().unwrap_or("").trim();
        // A force is sometimes stated per strip width, a cycle or a piece: a longer unit first.
        let read = number::parse(text).map(|n| (n, &unit::ONE)).or_else(|_| number::parse_with_unit(text));
        match read {
            Ok((n, unit)) => Some(AnyQ { si: unit.to_si(n), unit, text: text.into(), spot: node.spot }),
            Err(why) => reader.refuse_by("R04", node.spot, format!("{name}: {why}"), "Write a number, a blank and a unit."),
        }
    }
    fn schema() -> Value {
        json!({"type": ["string", "number"]})
    }
}

/// The keys of a map.
pub fn keys(node: &Node) -> Vec<&str> {
    match &node.data {
        Data::Map(entries) => entries.iter().map(|(key, _)| key.text.as_str()).collect(),
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
