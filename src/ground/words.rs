//! What the program says, in the language of the dossier.
//!
//! The English sentence stands where it is said, in `say!`; it is the key to the same
//! sentence in the other languages, which are Project Fluent files under `locales/`. So a sentence
//! that is changed is at once a sentence without translation, and a test says so.
//!
//! One run speaks one language, as a program has one locale: it is set when a dossier is opened, and
//! everything is said in it from the first finding to the last page.

use std::{
    borrow::Cow,
    collections::HashMap,
    fmt::Display,
    sync::{
        OnceLock,
        atomic::{AtomicUsize, Ordering},
    },
};

use super::unit::{UNITS, Unit};
use fluent_bundle::{FluentArgs, FluentResource, FluentValue, concurrent::FluentBundle};
use fluent_syntax::{
    ast::{Entry, Expression, InlineExpression, PatternElement},
    unicode::unescape_unicode_to_string,
};

/// Says a sentence in the language of the run. Without anything to put in it is a `&'static str`;
/// with `name = value` pairs it is a `String`, and the sentence names each as `{name}`. Of anything
/// but a literal it says what stands there, which must be marked as `word!` or stand in
/// the tables of figures, rules and procedures.
#[macro_export]
macro_rules! say {
    ($english:literal) => {
        $crate::ground::words::of($english)
    };
    ($words:expr) => {
        $crate::ground::words::of($words)
    };
    ($english:literal, $($name:ident = $value:expr),+ $(,)?) => {
        match $crate::ground::words::foreign() {
            None => format!($english, $($name = $value),+),
            Some(catalogue) => catalogue.say(
                $english,
                &[$((stringify!($name), &$value as &dyn ::std::fmt::Display)),+],
            ),
        }
    };
}

/// Marks words of a table that are said later, by [`of`]; the value is the English.
#[macro_export]
macro_rules! word {
    ($english:literal) => {
        $english
    };
}

/// A language of the pages.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Language {
    /// The language in which everything is written.
    English,
    /// Italian.
    Italian,
    /// French.
    French,
    /// German.
    German,
    /// Spanish.
    Spanish,
    /// Portuguese.
    Portuguese,
}

impl Language {
    /// Every language.
    pub const ALL: [Language; 6] = [
        Language::English,
        Language::Italian,
        Language::French,
        Language::German,
        Language::Spanish,
        Language::Portuguese,
    ];

    /// Its code (ISO 639-1), as `dossier.yaml` writes it.
    pub fn code(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Italian => "it",
            Language::French => "fr",
            Language::German => "de",
            Language::Spanish => "es",
            Language::Portuguese => "pt",
        }
    }

    /// The language with this code.
    pub fn coded(code: &str) -> Option<Language> {
        Language::ALL
            .into_iter()
            .find(|language| language.code() == code)
    }

    /// The decimal sign.
    pub fn decimal(self) -> char {
        match self {
            Language::English => '.',
            _ => ',',
        }
    }

    /// The Fluent files.
    pub fn files(self) -> &'static [(&'static str, &'static str)] {
        macro_rules! files {
            ($code:literal) => {
                &[
                    (
                        "pages",
                        include_str!(concat!("../../locales/", $code, "/pages.ftl")),
                    ),
                    (
                        "figures",
                        include_str!(concat!("../../locales/", $code, "/figures.ftl")),
                    ),
                    (
                        "rules",
                        include_str!(concat!("../../locales/", $code, "/rules.ftl")),
                    ),
                    (
                        "records",
                        include_str!(concat!("../../locales/", $code, "/records.ftl")),
                    ),
                ]
            };
        }
        match self {
            Language::English => files!("en"),
            Language::Italian => files!("it"),
            Language::French => files!("fr"),
            Language::German => files!("de"),
            Language::Spanish => files!("es"),
            Language::Portuguese => files!("pt"),
        }
    }
}

static SPOKEN: AtomicUsize = AtomicUsize::new(0);
static CATALOGUES: [OnceLock<Catalogue>; 6] = [const { OnceLock::new() }; 6];

/// From now on everything is said in this language.
pub fn speak(language: Language) {
    SPOKEN.store(language as usize, Ordering::Relaxed);
}

/// The language in which everything is said.
pub fn spoken() -> Language {
    let index = SPOKEN.load(Ordering::Relaxed);
    let found = Language::ALL.get(index).copied();
    found.unwrap_or(Language::English)
}

/// A number as the program or a record writes it, with the decimal sign of the language.
pub fn decimal(text: &str) -> String {
    match spoken() {
        Language::English => text.to_owned(),
        language => text.replace('.', language.decimal().encode_utf8(&mut [0; 4])),
    }
}

/// Text of a record as pages spell it: every number before a unit gets the decimal sign of the language, since in a page with
/// decimal commas `2.500 bar` would read as two and a half thousand; and a unit that a keyboard lacks is spelt out, `20.5 degC` as
/// `20.5 °C`. Every digit stays.
pub fn spelt(text: &str) -> Cow<'_, str> {
    let comma = spoken() != Language::English && text.contains('.');
    let typed = |(number, word): (&str, &str)| {
        number.ends_with(|c: char| c.is_ascii_digit())
            && (bare(word) == MONTHS || typed(bare(word)).is_some())
    };
    let mut pairs = text.split(' ').zip(text.split(' ').skip(1));
    let signs = text.contains(">=") || text.contains("<=");
    if !comma && !signs && !pairs.any(typed) {
        return Cow::Borrowed(text);
    }
    let words: Vec<&str> = text.split(' ').collect();
    let before = std::iter::once("").chain(words.iter().copied());
    let spelt = words
        .iter()
        .zip(before)
        .enumerate()
        .map(|(i, (word, before))| {
            let number = comma
                && word.contains('.')
                && word
                    .trim_start_matches(['(', '−', '-'])
                    .parse::<f64>()
                    .is_ok();
            if number && words.get(i + 1).is_some_and(|next| is_unit(bare(next))) {
                return decimal(word);
            }
            match (typed((before, word)), *word) {
                (true, _) => typed_out(word),
                (false, ">=") => "≥".to_owned(),
                (false, "<=") => "≤".to_owned(),
                (false, word) => word.to_owned(),
            }
        });
    Cow::Owned(spelt.collect::<Vec<_>>().join(" "))
}

/// How records write months, which pages write out.
const MONTHS: &str = "mo";

/// A word without the marks behind it.
fn bare(word: &str) -> &str {
    let marks = word.trim_end_matches([',', ';', ')', '.']);
    // A bracket that the word itself opens is its own: `mbar/(L/min)`.
    let open = marks
        .matches('(')
        .count()
        .saturating_sub(marks.matches(')').count());
    let rest = word.get(marks.len()..).unwrap_or_default();
    match rest.bytes().take_while(|byte| *byte == b')').count() >= open {
        true => word.get(..marks.len() + open).unwrap_or(marks),
        false => marks,
    }
}

/// Whether two words that follow each other are a number and its unit.
pub fn measured(number: &str, unit: &str) -> bool {
    let unit = bare(unit);
    let known = || {
        UNITS
            .iter()
            .any(|known| known.symbol == unit || known.print == unit)
    };
    number.ends_with(|c: char| c.is_ascii_digit()) && (unit == "%" || (!unit.is_empty() && known()))
}

fn is_unit(word: &str) -> bool {
    let known = |unit: &Unit| unit.symbol == word || (!word.is_empty() && unit.print == word);
    ["±", "..", "to"].contains(&word) || UNITS.iter().any(known)
}

/// The unit whose symbol stands for letters and marks that a keyboard lacks.
fn typed(symbol: &str) -> Option<&'static Unit> {
    let stands_in = |unit: &&Unit| unit.symbol == symbol && !unit.print.is_ascii();
    UNITS
        .iter()
        .find(stands_in)
        .filter(|unit| unit.print != symbol)
}

fn typed_out(word: &str) -> String {
    let symbol = bare(word);
    let print = match symbol {
        MONTHS => say!("months"),
        symbol => typed(symbol).map_or(symbol, |unit| unit.print),
    };
    format!("{print}{}", word.strip_prefix(symbol).unwrap_or_default())
}

/// The text of a limit as every language writes it, for comparing; [`local`] turns it back.
pub fn neutral(text: &str) -> String {
    match spoken() {
        Language::English => text.to_owned(),
        _ => text
            .replace(&format!(" {} ", say!("to")), " to ")
            .replace(',', "."),
    }
}

/// The text of a limit in the language of the run.
pub fn local(text: &str) -> String {
    spelt(text).replace(" to ", &format!(" {} ", say!("to")))
}

/// A name that begins with a capital letter, as it stands inside a sentence.
pub fn inside(name: &str) -> String {
    match spoken() {
        Language::English => name.to_lowercase(),
        // Nouns keep their capital letters.
        Language::German => name.to_owned(),
        _ => {
            let mut letters = name.chars();
            let first = letters.next().map(char::to_lowercase);
            let rest = letters.as_str();
            // F0 and the like stay.
            match rest.starts_with(|c: char| c.is_ascii_digit() || c.is_uppercase()) {
                true => name.to_owned(),
                false => first.into_iter().flatten().chain(rest.chars()).collect(),
            }
        }
    }
}

/// The catalogue of the language, unless it is English, which needs none.
pub fn foreign() -> Option<&'static Catalogue> {
    match spoken() {
        Language::English => None,
        language => {
            let catalogue = CATALOGUES.get(language as usize)?;
            Some(catalogue.get_or_init(|| Catalogue::of(language)))
        }
    }
}

/// Words without anything to put in, in the language of the run; English where there are none.
pub fn of(english: &str) -> &str {
    match foreign().and_then(|catalogue| catalogue.said.get(english)) {
        Some(Said::Plain(text)) => text,
        _ => english,
    }
}

/// The sentences of one language.
pub struct Catalogue {
    /// By the English sentence itself: what a record brings must never meet a sentence by its hash.
    said: HashMap<String, Said>,
    bundle: FluentBundle<FluentResource>,
}

enum Said {
    /// Nothing is put in.
    Plain(String),
    /// The id of a message with something to put in.
    Pattern(String),
}

impl Catalogue {
    fn of(language: Language) -> Catalogue {
        let code = language.code().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![code]);
        // Marks of direction round each value would be copied along with an id.
        bundle.set_use_isolating(false);
        let english = sentences();
        let mut said = HashMap::new();
        for (_, text) in language.files() {
            // Held by a test: every file is read without an error.
            let resource = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(it, _)| it);
            for entry in resource.entries() {
                let Entry::Message(message) = entry else {
                    continue;
                };
                let (id, Some(pattern)) = (message.id.name, &message.value) else {
                    continue;
                };
                let Some(english) = english.get(id) else {
                    continue;
                };
                let plain: Option<String> = pattern.elements.iter().map(text_of).collect();
                said.insert(
                    english.clone(),
                    match plain {
                        Some(text) => Said::Plain(text),
                        None => Said::Pattern(id.to_owned()),
                    },
                );
            }
            bundle.add_resource_overriding(resource);
        }
        Catalogue { said, bundle }
    }

    /// A sentence with something put in; English where there is none.
    pub fn say(&self, english: &str, put: &[(&'static str, &dyn Display)]) -> String {
        let mut args = FluentArgs::with_capacity(put.len());
        for (name, value) in put {
            let text = spelt(&value.to_string()).into_owned();
            // A whole number may choose between singular and plural; it is printed as it came.
            args.set(
                *name,
                match text.parse::<u32>() {
                    Ok(n) if n.to_string() == text => FluentValue::from(n),
                    _ => FluentValue::from(text),
                },
            );
        }
        let pattern = match self.said.get(english) {
            Some(Said::Plain(text)) => return text.clone(),
            Some(Said::Pattern(id)) => self.bundle.get_message(id),
            None => None,
        };
        match pattern.and_then(|message| message.value()) {
            Some(pattern) => self
                .bundle
                .format_pattern(pattern, Some(&args), &mut Vec::new())
                .into_owned(),
            None => put.iter().fold(english.to_owned(), |text, (name, value)| {
                text.replace(&format!("{{{name}}}"), &value.to_string())
            }),
        }
    }
}

/// The English sentences by their ids, as the sources write them.
fn sentences() -> HashMap<String, String> {
    let mut all = HashMap::new();
    for (_, text) in Language::English.files() {
        let resource = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(it, _)| it);
        for entry in resource.entries() {
            if let Entry::Message(message) = entry
                && let Some(pattern) = &message.value
            {
                let sentence = pattern.elements.iter().map(|element| match element {
                    PatternElement::Placeable {
                        expression: Expression::Inline(InlineExpression::VariableReference { id }),
                    } => format!("{{{}}}", id.name),
                    other => text_of(other).unwrap_or_default(),
                });
                all.insert(message.id.name.to_owned(), sentence.collect());
            }
        }
    }
    all
}

/// The text of a part of a message, unless something is put in there.
fn text_of(element: &PatternElement<&'_ str>) -> Option<String> {
    match element {
        PatternElement::TextElement { value } => Some((*value).to_owned()),
        // A blank at an end, or a line break.
        PatternElement::Placeable {
            expression: Expression::Inline(InlineExpression::StringLiteral { value }),
        } => Some(unescape_unicode_to_string(value).into_owned()),
        PatternElement::Placeable { .. } => None,
    }
}

/// The id of a sentence in the Fluent files: its first words, to be recognised by, and its hash.
pub fn id(english: &str) -> String {
    let mut out = String::new();
    let bare: String = strip_placeholders(english);
    let words = bare
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| word.chars().any(|c| c.is_ascii_alphabetic()))
        .take(5);
    for word in words {
        out += &word.to_ascii_lowercase();
        out.push('-');
    }
    if !out.starts_with(|c: char| c.is_ascii_alphabetic()) {
        out.insert_str(0, "m-");
    }
    format!("{out}{:08x}", hash(english))
}

fn strip_placeholders(english: &str) -> String {
    let mut depth = 0;
    english
        .chars()
        .map(|c| {
            match c {
                '{' | '<' => depth += 1,
                '}' | '>' => depth -= 1,
                _ => {}
            }
            if depth > 0 { ' ' } else { c }
        })
        .collect()
}

/// FNV-1a of 32 bits; a test holds that no two sentences share one.
fn hash(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| {
        (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193)
    })
}

#[cfg(test)]
mod tests {
    use super::{Language, hash, id, spelt};

    #[test]
    fn units_that_a_keyboard_lacks_are_spelt_out() {
        for (written, shown) in [
            ("20.50 degC", "20.50 °C"),
            (
                "at most 123 degC, 35 min a cycle",
                "at most 123 °C, 35 min a cycle",
            ),
            ("0.45 um", "0.45 µm"),
            ("2.42 bar ± 0.05 bar (k = 2)", "2.42 bar ± 0.05 bar (k = 2)"),
            (">= 35 mL/min/cm2", "≥ 35 mL/min/cm²"),
            ("a um and 24 mo.", "a um and 24 months."),
            ("um", "um"),
            ("4.7 uS/cm), or", "4.7 µS/cm), or"),
            ("", ""),
        ] {
            assert_eq!(spelt(written), shown);
        }
    }

    #[test]
    fn hash_is_fnv_1a() {
        // Test vectors of the FNV reference (RFC 9923, appendix C): "", "a", "foobar".
        assert_eq!(hash(""), 0x811c_9dc5);
        assert_eq!(hash("a"), 0xe40c_292c);
        assert_eq!(hash("foobar"), 0xbf9c_f968);
    }

    #[test]
    fn ids_are_read_by_people() {
        assert!(
            id("{id}: the window \"{window}\" of {key} cannot be read.")
                .starts_with("the-window-of-cannot-be-")
        );
        assert!(id("1 case").starts_with("case-"));
    }

    #[test]
    fn codes_find_their_language() {
        for language in Language::ALL {
            assert_eq!(Language::coded(language.code()), Some(language));
        }
        assert_eq!(Language::coded("xx"), None);
    }
}
