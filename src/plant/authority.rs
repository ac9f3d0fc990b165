//! Who may do what, and whether a deviation was decided by someone who may.

use super::Plant;
use crate::{
    ground::time::Date,
    record::{
        Record,
        kinds::{Body, deviation::Deviation},
    },
};

impl Plant {
    /// Whether a person may do an act on a day. Where no personnel_authorisation is recorded nobody is
    /// known, and rule R35 says so.
    pub fn may(&self, person: &str, act: &str, day: Date) -> bool {
        let mut persons = self
            .records()
            .personnel_authorisations()
            .flat_map(|(_, body)| body.persons.iter())
            .peekable();
        persons.peek().is_none()
            || persons.any(|one| {
                *one.person_id.text == *person
                    && one.may.iter().any(|word| **word == *act)
                    && one.valid_from.date <= day
                    && day <= one.valid_until.date
            })
    }

    /// Why a deviation that bears a decision is not decided; nothing when it is.
    pub fn unsettled(&self, record: &Record, deviation: &Deviation) -> Option<String> {
        let (Some(_), Some(when)) = (deviation.decision, &deviation.approved_at) else {
            return Some(say!("it has no decision with an approval").into());
        };
        let Some(by) = &deviation.approved_by else {
            return Some(say!("nobody is named who approved it").into());
        };
        if when.time < deviation.detected_at.time {
            return Some(say!(
                "it was approved {time}, before it was found {time2}",
                time = when.time,
                time2 = deviation.detected_at.time
            ));
        }
        if !self.may(by, "approve_deviation", when.time.date()) {
            return Some(say!(
                "{by} approved it, who may not approve deviations on {time}",
                by = &**by,
                time = when.time.date()
            ));
        }
        if record
            .recorded_by
            .as_ref()
            .is_some_and(|author| author.text == by.text)
        {
            return Some(say!("{by} both wrote and approved it", by = &**by));
        }
        let head = self.records().head().map(|(_, head)| head.compiled_on.date);
        if head.is_some_and(|today| when.time.date() > today) {
            return Some(say!(
                "it is said to be approved {time}, after the date of this dossier",
                time = when.time
            ));
        }
        None
    }

    /// A deviation's record and contents, when it was decided by someone who may.
    pub fn settled<'a>(&'a self, id: &str) -> impl Iterator<Item = (&'a Record, &'a Deviation)> {
        self.deviations_about(id)
            .filter(|(record, deviation)| self.unsettled(record, deviation).is_none())
    }

    /// The earlier revisions of a record, the first first.
    pub fn earlier(&self, record: &Record) -> impl Iterator<Item = &Record> {
        let last = record.revision;
        self.records()
            .revisions(record.kind, &record.id)
            .filter(move |other| other.revision < last)
    }

    /// Whether a record's contents are a deviation.
    pub fn deviation<'a>(&'a self, id: &str) -> Option<(&'a Record, &'a Deviation)> {
        let record = self.records().find("deviation", id)?;
        match &record.body {
            Body::Deviation(body) => Some((record, body)),
            _ => None,
        }
    }
}
