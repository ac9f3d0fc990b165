//! A cell → the text of a value, as records write it. What could mean two things is refused.

use jiff::{
    civil::{Date, DateTime},
    fmt::strtime,
    tz::{AmbiguousOffset, Offset, TimeZone},
};
use serde_json::Value as Schema;

use crate::{
    ground::{number, seen::unseen, time::Time},
    record::{
        kinds::intake_mapping::{IntakeField, IntakeMapping},
        read::{Day, Read as _, When},
    },
};

/// Message and advice.
pub type Why = (String, String);

/// What a field takes.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// A text or an id.
    Text,
    /// A number, a blank, a unit.
    Quantity,
    /// Digits, without quotes.
    Integer,
    /// A number, without quotes.
    Number,
    /// True or false, without quotes.
    Truth,
    /// A moment with its offset.
    Time,
    /// A day.
    Date,
    /// One of some words.
    Word(Vec<String>),
    /// A file of readings.
    Trace,
}

impl Target {
    /// What a field with this schema takes; nothing where it is a map or a list.
    pub fn of(schema: &Schema) -> Option<Target> {
        if *schema == When::schema() {
            return Some(Target::Time);
        }
        if *schema == Day::schema() {
            return Some(Target::Date);
        }
        if let Some(words) = schema["enum"].as_array() {
            let words = words.iter().filter_map(|word| word.as_str());
            return Some(Target::Word(words.map(str::to_owned).collect()));
        }
        let has = |way| schema.pointer(way).is_some_and(Schema::is_object);
        if has("/properties/sha256") && has("/properties/decimal_separator") {
            return Some(Target::Trace);
        }
        match &schema["type"] {
            Schema::String(kind) => match kind.as_str() {
                "integer" => Some(Target::Integer),
                "number" => Some(Target::Number),
                "boolean" => Some(Target::Truth),
                "string"
                    if schema["pattern"]
                        .as_str()
                        .is_some_and(|own| own.starts_with(r"^[+-]?\d+")) =>
                {
                    Some(Target::Quantity)
                }
                "string" => Some(Target::Text),
                _ => None,
            },
            Schema::Array(_) => Some(Target::Quantity),
            _ => schema
                .as_object()
                .is_some_and(|own| own.is_empty())
                .then_some(Target::Text),
        }
    }

    /// Whether records write it without quotes.
    pub fn bare(&self) -> bool {
        matches!(self, Target::Integer | Target::Number | Target::Truth)
    }
}

/// The value that a text of the export stands for; nothing where it is blank.
///
/// # Errors
/// In words, where it cannot be read or could mean two things.
pub fn value(
    raw: &str,
    field: &IntakeField,
    mapping: &IntakeMapping,
    target: &Target,
) -> Result<Option<String>, Why> {
    if raw.is_empty() || mapping.blank.iter().any(|word| **word == *raw) {
        return Ok(None);
    }
    if let Some(at) = unseen(raw, false) {
        let c = raw[at..].chars().next().unwrap_or(' ');
        return Err((
            say!(
                "has the unseen character U+{u32} here",
                u32 = format_args!("{:04X}", c as u32)
            ),
            say!("Delete it where the export comes from, and export again.").into(),
        ));
    }
    let said = match &field.words {
        None => raw,
        Some(words) => match words.get(raw) {
            Some(word) => &**word,
            None => {
                let known: Vec<&str> = words.leaves.iter().map(|(word, _)| word.as_str()).collect();
                return Err((
                    say!("\"{raw}\" is none of the words of the mapping", raw = raw),
                    say!(
                        "It knows {known}; add the word to `words`, or have it put right where it was written.",
                        known = known.join(", ")
                    ),
                ));
            }
        },
    };
    if let Some(pattern) = &field.pattern
        && !fits(said, pattern)
    {
        return Err((
            say!("\"{said}\" does not look like {pattern}", said = said, pattern = &**pattern),
            say!("# is a digit and @ a capital letter. Find out what was tested; mend the pattern only if it is wrong.").into(),
        ));
    }
    let number = |text: &str| plain_number(text, mapping);
    let value = match target {
        Target::Time => moment(said, field, mapping)?,
        Target::Date => day(said, field)?,
        Target::Integer | Target::Number => number(said)?,
        Target::Quantity => match (&field.unit, said.split_once(' ')) {
            (Some(unit), None) => format!("{} {}", number(said)?, &**unit),
            (Some(unit), Some((_, own))) => {
                return Err((
                    say!(
                        "\"{said}\" brings the unit {own}, and the mapping gives it {unit}",
                        said = said,
                        own = own,
                        unit = &**unit
                    ),
                    say!("Leave `unit` out of the mapping where the export writes units.").into(),
                ));
            }
            (None, Some((value, unit))) => format!("{} {unit}", number(value)?),
            (None, None) => said.to_owned(),
        },
        Target::Truth | Target::Word(_) | Target::Text | Target::Trace => said.to_owned(),
    };
    Ok(Some(value))
}

/// Whether a text looks like a pattern: `#` a digit, `@` a capital letter, anything else itself.
fn fits(text: &str, pattern: &str) -> bool {
    let mut letters = text.chars();
    let all = pattern.chars().all(|sign| {
        letters.next().is_some_and(|c| match sign {
            '#' => c.is_ascii_digit(),
            '@' => c.is_ascii_uppercase(),
            sign => c == sign,
        })
    });
    all && letters.next().is_none()
}

/// A number with a decimal point and nothing else, its digits as they were.
fn plain_number(text: &str, mapping: &IntakeMapping) -> Result<String, Why> {
    let one = |word: &Option<crate::record::read::Text>| {
        word.as_ref().and_then(|word| word.chars().next())
    };
    let decimal = one(&mapping.decimal_separator).unwrap_or('.');
    let thousands = one(&mapping.thousands_separator);
    let mut plain = text.to_owned();
    if let Some(sign) = thousands.filter(|sign| text.contains(*sign)) {
        let whole = text.split(decimal).next().unwrap_or(text);
        let mut groups = whole.trim_start_matches(['+', '-']).split(sign);
        let first = groups
            .next()
            .is_some_and(|group| (1..=3).contains(&group.len()));
        let grouped =
            first && groups.all(|group| group.len() == 3) && !text[whole.len()..].contains(sign);
        if !grouped {
            return Err((
                say!(
                    "\"{text}\" has {sign}, and not between groups of three digits",
                    text = text,
                    sign = sign
                ),
                say!("Look at decimal_separator and thousands_separator of the mapping.").into(),
            ));
        }
        plain.retain(|c| c != sign);
    }
    let other = plain
        .chars()
        .find(|c| matches!(c, '.' | ',' | '\'' | ' ' | '\u{a0}' | '\u{202f}') && *c != decimal);
    if let Some(other) = other {
        return Err((
            say!("\"{text}\" has {sign} although the decimal sign is {decimal}: it could mean two numbers", text = text, sign = other, decimal = decimal),
            say!("State decimal_separator and thousands_separator in the mapping as this export writes them; nothing is guessed.").into(),
        ));
    }
    let plain = plain.replace(decimal, ".");
    match number::parse(&plain) {
        Ok(_) => Ok(plain),
        Err(why) => Err((why, say!("Find the right value where it was measured, and export again; add a word to `blank` only where it means that nothing was measured.").into())),
    }
}

/// A day in the form that the field states; ISO 8601 without one.
fn day(text: &str, field: &IntakeField) -> Result<String, Why> {
    let read: Option<Date> = match &field.form {
        Some(form) => strtime::parse(&**form, text)
            .and_then(|parts| parts.to_date())
            .ok(),
        None => (text.len() == 10).then(|| text.parse().ok()).flatten(),
    };
    let date = read.ok_or_else(|| not_in_form(text, field))?;
    likely(date, text)?;
    Ok(date.to_string())
}

/// A moment with its offset, in the form that the field states.
fn moment(text: &str, field: &IntakeField, mapping: &IntakeMapping) -> Result<String, Why> {
    if field.form.is_none() && Time::parse(text).is_ok() {
        return Ok(text.to_owned());
    }
    let (local, own): (DateTime, Option<Offset>) = match &field.form {
        Some(form) => {
            let parts = strtime::parse(&**form, text).map_err(|_| not_in_form(text, field))?;
            let local = parts.to_datetime().map_err(|_| not_in_form(text, field))?;
            (local, parts.offset())
        }
        None => (text.parse().map_err(|_| not_in_form(text, field))?, None),
    };
    likely(local.date(), text)?;
    let offset = match (own, &mapping.time_zone) {
        (Some(offset), _) => offset,
        (None, Some(zone)) => {
            let Some(named) = self::zone(zone) else {
                return Err(not_in_form(text, field));
            };
            match named.to_ambiguous_timestamp(local).offset() {
                AmbiguousOffset::Unambiguous { offset } => offset,
                AmbiguousOffset::Gap { .. } => {
                    return Err((
                        say!(
                            "\"{text}\" never was in {zone}: clocks were put forward",
                            text = text,
                            zone = &**zone
                        ),
                        say!("Find out in which zone the clock of the instrument stood.").into(),
                    ));
                }
                AmbiguousOffset::Fold { .. } => {
                    return Err((
                        say!("\"{text}\" was twice in {zone}: clocks were put back", text = text, zone = &**zone),
                        say!("Export times with their offset, or find out which of the two it was and write that record by hand.").into(),
                    ));
                }
            }
        }
        (None, None) => {
            return Err((
                say!("\"{text}\" has no offset", text = text),
                say!("State time_zone in the mapping: where the clock of the instrument stood.")
                    .into(),
            ));
        }
    };
    let seconds = offset.seconds();
    let sign = if seconds < 0 { '-' } else { '+' };
    let part = match local.subsec_nanosecond() {
        0 => String::new(),
        nano => format!(".{}", format!("{nano:09}").trim_end_matches('0')),
    };
    Ok(format!(
        "{}T{:02}:{:02}:{:02}{part}{sign}{:02}:{:02}",
        local.date(),
        local.hour(),
        local.minute(),
        local.second(),
        seconds.abs() / 3600,
        seconds.abs() / 60 % 60
    ))
}

/// The time zone of an offset or a name.
pub fn zone(zone: &str) -> Option<TimeZone> {
    match zone.starts_with(['+', '-']) {
        true => Time::parse(&format!("2000-01-01T00:00:00{zone}"))
            .ok()
            .map(|time| TimeZone::fixed(time.offset())),
        false => TimeZone::get(zone).ok(),
    }
}

/// Refuses a year in which nothing of this trade was exported: mostly `%Y` where two digits stand.
fn likely(date: Date, text: &str) -> Result<(), Why> {
    match (1980..=2100).contains(&date.year()) {
        true => Ok(()),
        false => Err((
            say!(
                "\"{text}\" would be in the year {year}",
                text = text,
                year = date.year()
            ),
            say!("Look at the form: %Y reads four digits of a year, %y two.").into(),
        )),
    }
}

fn not_in_form(text: &str, field: &IntakeField) -> Why {
    match &field.form {
        Some(form) => (
            say!("\"{text}\" is not of the form {form}", text = text, form = &**form),
            say!("Mend the form in the mapping if it is wrong; the signs are those of strftime.").into(),
        ),
        None => (
            say!("\"{text}\" is not of ISO 8601, and could mean two days", text = text),
            say!("State in the mapping in which form it is written, such as form: \"%d.%m.%Y %H:%M\".").into(),
        ),
    }
}
