//! Dates and times as records write them: ISO 8601, a time always with its offset.

use std::{fmt, ops::Deref};

use jiff::{Timestamp, ToSpan, civil, tz::Offset};

use super::words::{self, Language};

/// A moment with the offset and the spelling it was written with.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Time {
    /// The moment.
    pub moment: Timestamp,
    offset: Offset,
}

/// A calendar day.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date(civil::Date);

impl Date {
    /// As a record writes it: ISO 8601.
    pub fn written(self) -> String {
        self.0.to_string()
    }

    /// The next day.
    pub fn next(self) -> Date {
        Date(self.0.saturating_add(1.day()))
    }

    /// Days from an earlier day to this one.
    pub fn days_since(self, earlier: Date) -> i32 {
        (self.0 - earlier.0).get_days()
    }
}

impl Deref for Date {
    type Target = civil::Date;

    fn deref(&self) -> &civil::Date {
        &self.0
    }
}

/// In the order that readers of the language expect. In English it stays as a record writes it: the
/// countries that read English do not agree on which of day and month comes first.
impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = (self.0.year(), self.0.month(), self.0.day());
        match words::spoken() {
            Language::English => write!(f, "{}", self.0),
            Language::German => write!(f, "{day:02}.{month:02}.{year:04}"),
            _ => write!(f, "{day:02}/{month:02}/{year:04}"),
        }
    }
}

impl Time {
    /// Reads `2026-03-20T09:56:00+01:00` (or `Z`); the reason in words when it cannot.
    pub fn parse(text: &str) -> Result<Time, String> {
        let shape = text.is_ascii()
            && text.len() >= 16
            && matches!(
                text.as_bytes(),
                [_, _, _, _, b'-', _, _, b'-', _, _, b'T' | b' ', ..]
            );
        if !shape {
            return Err(say!("is not a time of the form 2026-03-20T09:56:00+01:00").into());
        }
        let zone =
            text[16..].trim_start_matches(|c: char| c == ':' || c == '.' || c.is_ascii_digit());
        if zone.is_empty() {
            return Err(say!("has no offset").into());
        }
        if text.as_bytes().get(10) == Some(&b' ') {
            return Err(say!("has a blank where a T is due").into());
        }
        let offset = match zone {
            "Z" => Offset::UTC,
            _ => Self::read_offset(zone)
                .ok_or(say!("has an offset that is not of the form +01:00"))?,
        };
        if text.get(17..19) == Some("60") {
            return Err(say!("has a second 60, which cannot be ordered").into());
        }
        let moment: Timestamp = text
            .parse()
            .map_err(|_| say!("is not a moment of the calendar"))?;
        Ok(Time { moment, offset })
    }

    fn read_offset(zone: &str) -> Option<Offset> {
        let (sign, rest) = zone.split_at_checked(1)?;
        let (hours, minutes) = rest.split_once(':')?;
        if hours.len() != 2 || minutes.len() != 2 {
            return None;
        }
        let (hours, minutes) = (hours.parse::<i32>().ok()?, minutes.parse::<i32>().ok()?);
        // No clock of the world stands further from UTC than 14 hours.
        let seconds = hours * 3600 + minutes * 60;
        if minutes > 59 || !(-50_400..=50_400).contains(&seconds) {
            return None;
        }
        match sign {
            "+" => Offset::from_seconds(seconds).ok(),
            "-" => Offset::from_seconds(-seconds).ok(),
            _ => None,
        }
    }

    /// How far its clock stood from UTC.
    pub fn offset(&self) -> Offset {
        self.offset
    }

    /// Now, in UTC. Only who signs needs a clock: everything else comes from records.
    pub fn now() -> Time {
        Time {
            moment: Timestamp::now(),
            offset: Offset::UTC,
        }
    }

    /// The day at the place where it was written.
    pub fn date(&self) -> Date {
        Date(self.offset.to_datetime(self.moment).date())
    }

    /// As a record writes it: to the second, with its offset.
    pub fn written(&self) -> String {
        let local = self.offset.to_datetime(self.moment);
        let minutes = self.offset.seconds() / 60;
        let sign = if minutes < 0 { '-' } else { '+' };
        format!(
            "{}T{:02}:{:02}:{:02}{sign}{:02}:{:02}",
            local.date(),
            local.hour(),
            local.minute(),
            local.second(),
            minutes.abs() / 60,
            minutes.abs() % 60
        )
    }

    /// Seconds from an earlier moment to this one.
    pub fn seconds_since(&self, earlier: Time) -> f64 {
        self.moment.duration_since(earlier.moment).as_secs_f64()
    }
}

/// To the minute, with the offset, as a person reads it.
impl fmt::Display for Time {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let local = self.offset.to_datetime(self.moment);
        write!(
            f,
            "{} {:02}:{:02}",
            self.date(),
            local.hour(),
            local.minute()
        )?;
        let minutes = self.offset.seconds() / 60;
        let sign = if minutes < 0 { '−' } else { '+' };
        write!(
            f,
            " {sign}{:02}:{:02}",
            minutes.abs() / 60,
            minutes.abs() % 60
        )
    }
}

/// Reads `2026-03-20`; the reason in words when it cannot.
pub fn parse_date(text: &str) -> Result<Date, String> {
    let shape = matches!(text.as_bytes(), [_, _, _, _, b'-', _, _, b'-', _, _]);
    if !shape {
        return Err(say!("is not a date of the form 2026-03-20").into());
    }
    text.parse()
        .map(Date)
        .map_err(|_| say!("is not a day of the calendar").into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_night_of_the_clock_change_runs_forward() {
        let before = Time::parse("2026-10-25T02:40:00+02:00").unwrap();
        let after = Time::parse("2026-10-25T02:20:00+01:00").unwrap();
        assert_eq!(after.seconds_since(before), 2400.0);
    }

    #[test]
    fn a_time_is_written_as_it_was_read() {
        for text in ["2026-10-25T02:40:07+02:00", "2026-01-01T00:00:00-03:30"] {
            assert_eq!(Time::parse(text).unwrap().written(), text);
        }
    }

    #[test]
    fn a_time_without_an_offset_is_refused() {
        for (text, why) in [
            ("2026-03-20T10:24:00", "has no offset"),
            (
                "2026-03-20T;00+\u{626}:01",
                "is not a time of the form 2026-03-20T09:56:00+01:00",
            ),
            ("2026-03-20 10:24", "has no offset"),
            ("2026-03-20 10:24:00+01:00", "has a blank where a T is due"),
            (
                "20.03.2026",
                "is not a time of the form 2026-03-20T09:56:00+01:00",
            ),
            (
                "2026-02-30T10:24:00+01:00",
                "is not a moment of the calendar",
            ),
            (
                "2026-03-20T23:59:60+01:00",
                "has a second 60, which cannot be ordered",
            ),
        ] {
            assert_eq!(Time::parse(text).unwrap_err(), why, "{text}");
        }
        assert!(Time::parse("2026-03-20T10:24:00Z").is_ok());
        assert!(parse_date("2026-02-30").is_err());
    }
}
