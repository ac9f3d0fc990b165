//! People: who may do what, who did what, who signed what and in which order.

use super::{Book, Cell, Page, Section, Table, lists::page};
use crate::ground::name::safe;

/// Persons with what they may do and what they did, and the signatures.
pub fn people(book: &Book) -> Page {
    let path = "people.html";
    let records = book.dossier.plant.records();
    let mut made: std::collections::BTreeMap<&str, std::collections::BTreeMap<&str, usize>> =
        std::collections::BTreeMap::new();
    for record in records.current() {
        if let Some(by) = &record.recorded_by {
            *made.entry(by).or_default().entry(record.kind).or_insert(0) += 1;
        }
    }
    let mut sections = Vec::new();
    for (record, body) in records.personnel_authorisations() {
        let mut table = Table::new(
            &say!("Persons, by {id}", id = &*record.id),
            &[
                say!("person"),
                say!("name"),
                say!("function"),
                say!("may"),
                say!("from"),
                say!("until"),
                say!("recorded"),
            ],
        );
        for person in &body.persons {
            let id = &*person.person_id.text;
            let own = made.get(id);
            let words: Vec<String> = own
                .into_iter()
                .flatten()
                .map(|(kind, n)| format!("{}: {n}", say!(&kind.replace('_', " "))))
                .collect();
            let may: Vec<String> = person.may.iter().map(|act| act.replace('_', " ")).collect();
            table.rows.push(vec![
                Cell::link(id, book.place_href(path, &record.at(person.spot))),
                Cell::text(&*person.printed_name.text),
                Cell::text(super::usual(&person.function)),
                Cell::text(may.join(", ")),
                Cell::text(person.valid_from.date.to_string()),
                Cell::text(person.valid_until.date.to_string()),
                match book.is_asked(id) {
                    true => Cell::link(words.join(", "), book.affected_href(path, id)),
                    false => Cell::text(words.join(", ")),
                },
            ]);
        }
        sections.push(
            Section::new(
                &safe(&record.id),
                &format!(
                    "{}: {}",
                    say!("Who may do what, and who did what"),
                    &*record.id
                ),
            )
            .table(table),
        );
    }
    let mut signatures = Table::new(
        say!("Signatures named in release statements, in order of time"),
        &[
            say!("statement"),
            say!("meaning"),
            say!("name"),
            say!("function"),
            say!("when"),
            say!("digest"),
        ],
    );
    let mut all: Vec<_> = book
        .dossier
        .plant
        .releases()
        .flat_map(|(record, release)| release.signatures.iter().map(move |one| (record, one)))
        .collect();
    all.sort_by_key(|(record, one)| (one.signed_at.time, &record.id.text));
    for (record, one) in all {
        signatures.rows.push(vec![
            Cell::link(
                &*record.id.text,
                book.place_href(path, &record.at(one.spot)),
            ),
            Cell::text(&*one.meaning.text),
            Cell::text(&*one.printed_name.text),
            Cell::text(super::usual(&one.function)),
            Cell::text(one.signed_at.time.to_string()),
            Cell::text(one.signed_digest.as_deref().unwrap_or(say!(
                "none: signed by hand on the certificate, or in the seal"
            ))),
        ]);
    }
    let mut policy = Table::new(
        say!("Signature policy"),
        &[
            say!("meaning"),
            say!("functions"),
            say!("not the same person as"),
        ],
    );
    for (_, body) in records.signature_policys() {
        for one in &body.meanings {
            let list = |all: &[crate::record::read::Text]| {
                all.iter()
                    .map(|text| text.replace('_', " "))
                    .collect::<Vec<_>>()
                    .join(", ")
            };
            policy.rows.push(vec![
                Cell::text(&*one.meaning.text),
                Cell::text(list(&one.functions)),
                Cell::text(list(&one.not_with)),
            ]);
        }
    }
    sections.push(Section::new("policy", say!("Who must sign")).table(policy));
    sections.push(
        Section::new("signatures", say!("Signatures"))
            .table(signatures)
            .say(say!(
                "A name in a record is no electronic signature and identifies nobody."
            )),
    );
    page(
        path,
        say!("People"),
        say!("Who may do what, who did what, and who signed."),
        sections,
    )
}
