//! R35: The author was authorised for that record on that day.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The author was authorised for that record on that day.
pub static RULE: Rule = Rule {
    id: "R35",
    severity: Severity::Blocks,
    demands: "The author was authorised for that record on that day.",
    protects: "work by someone who was not trained for it",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R35", Severity::Blocks, message)
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
        out.blind = Some(say!("there is no personnel_authorisation").into());
        return out;
    }
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
