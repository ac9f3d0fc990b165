//! R35: The author was authorised for that record on that day.

use std::collections::BTreeMap;

use crate::{
    ground::{
        finding::{Finding, Severity},
        time::Date,
    },
    record::kinds::Body,
    rule::{Outcome, Rule, View},
};

/// The author was authorised for that record on that day.
pub static RULE: Rule = Rule {
    id: "R35",
    severity: Severity::Blocks,
    demands: "The author was authorised for that record on that day.",
    protects: "work by someone who was not trained for it",
    explained: "A right that was recorded afterwards by a decided deviation of category data that names the record; otherwise never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R35", Severity::Blocks, message)
}

/// When each person's right to write a kind of record was first recorded, in whatever revision.
fn granted<'a>(view: &View<'a>) -> BTreeMap<(&'a str, &'a str), Date> {
    let mut out: BTreeMap<(&str, &str), Date> = BTreeMap::new();
    for record in &view.plant.records().all {
        let (Body::PersonnelAuthorisation(body), Some(when)) = (&record.body, &record.recorded_at)
        else {
            continue;
        };
        let day = when.time.date();
        for person in &body.persons {
            for word in person.may.iter() {
                let first = out
                    .entry((&person.person_id.text, &word.text))
                    .or_insert(day);
                *first = day.min(*first);
            }
        }
    }
    out
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("records"));
    let persons: Vec<_> = view
        .plant
        .records()
        .personnel_authorisations()
        .flat_map(|(_, body)| body.persons.iter())
        .collect();
    if persons.is_empty() {
        let head = view
            .plant
            .records()
            .head()
            .map(|(record, _)| record.place());
        let mut found = finding(say!("there is no personnel_authorisation: nobody's right to write or to sign these records is shown.").into())
            .advise(say!("Add the record that says who may do what, from when until when."));
        found.severity = Severity::Explain;
        found.place = head;
        out.look();
        out.find(found);
        return out;
    }
    let granted = granted(view);
    for record in view.plant.records().current() {
        // The day on which this very revision was written.
        let written = record.recorded_at.as_ref().map(|when| when.time.date());
        let (Some(author), Some(day)) = (&record.recorded_by, written) else {
            continue;
        };
        out.look();
        let may = |word: &str| word == record.kind;
        let own: Vec<_> = persons
            .iter()
            .filter(|person| person.person_id.text == author.text)
            .collect();
        let good = own.iter().any(|person| {
            person.may.iter().any(|word| may(word))
                && person.valid_from.date <= day
                && day <= person.valid_until.date
        });
        if good {
            let first = granted.get(&(&*author.text, record.kind));
            if let Some(since) = first.filter(|since| **since > day) {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!(
                            "{id} of {day} is by {author}, whose right to write it was recorded on {since}.",
                            id = &*record.id,
                            day = day,
                            author = &**author,
                            since = since
                        ))
                    }
                    .advise(say!(
                        "Say in a deviation who had authorised them on that day, and what shows it; a right that is written afterwards is none by itself."
                    ))
                    .at(record.at(author.spot))
                    .about(&*record.id.text)
                    .about(&*author.text),
                );
            }
            continue;
        }
        let why = match own.first() {
            None => say!("who is in no personnel_authorisation").to_owned(),
            Some(person) if person.may.iter().any(|word| may(word)) => say!(
                "whose authorisation runs from {date} to {date2}",
                date = person.valid_from.date,
                date2 = person.valid_until.date
            ),
            Some(person) => say!(
                "who is authorised for {collect} only",
                collect = person
                    .may
                    .iter()
                    .map(|word| &**word)
                    .collect::<Vec<_>>()
                    .join(", ")
            ),
        };
        out.find(
            finding(say!(
                "{id} of {day} is by {author}, {why}.",
                id = &*record.id,
                day = day,
                author = &**author,
                why = why
            ))
            .advise(say!(
                "Check who did the work; repeat it if it was done without authorisation."
            ))
            .at(record.at(author.spot))
            .about(&*record.id.text)
            .about(&*author.text),
        );
    }
    out
}
