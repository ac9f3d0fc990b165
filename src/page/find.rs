//! Finding a thing by its id, its lot, its roll, its day or a word: an index for the script, and lists from
//! A to Z for those who have none.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::{Book, Cell, Page, Section, Table, capital, counted, href};
use crate::{
    chart::escape,
    figures,
    ground::name::safe,
    plant::Test,
    record::{Record, kinds::Body},
    rules,
};

const PATH: &str = "find.html";
/// So many names stand on one page before the next begins.
const ON_ONE_LIST: usize = 1500;

/// One thing that can be found.
pub(super) struct Entry {
    name: String,
    kind: String,
    href: String,
    words: Vec<String>,
}

fn entry(name: &str, kind: &str, href: String, words: Vec<String>) -> Entry {
    Entry {
        name: name.into(),
        kind: kind.into(),
        href,
        words,
    }
}

/// Everything, the most asked for first.
///
/// Two cores may ask at once, and one then waits: so nothing in it is shared out among cores, or it might wait for itself.
fn entries<'a>(book: &'a Book) -> &'a [Entry] {
    book.entries.get_or_init(|| listed(book))
}

fn listed(book: &Book) -> Vec<Entry> {
    let mut all = things(book);
    all.extend(records(book));
    for rule in rules::ALL {
        let anchor = format!("rules.html#{id}", id = rule.id.to_lowercase());
        all.push(entry(
            rule.id,
            say!("rule"),
            anchor,
            vec![say!(rule.demands).into()],
        ));
    }
    for figure in figures::ALL {
        let page = format!("methods/{id}.html", id = figure.id);
        all.push(entry(
            figure.id,
            say!("method"),
            page,
            vec![say!(figure.name).into()],
        ));
    }
    all
}

fn link(book: &Book, id: &str) -> String {
    let cell = book.thing(PATH, id);
    match &*cell.href {
        "" => href(PATH, "records.html"),
        href => href.to_owned(),
    }
}

fn things(book: &Book) -> Vec<Entry> {
    let plant = &book.dossier.plant;
    let mut all = Vec::new();
    for id in plant.assemblies.keys() {
        let mut words = Vec::new();
        words.extend(plant.lot_of(id).map(str::to_owned));
        if let Some((record, build)) = plant.build(id) {
            words.push(build.nominal_length.text.to_string());
            words.extend(record.day().map(|day| day.to_string()));
            words.extend(
                build
                    .modules
                    .iter()
                    .map(|place| place.module_id.to_string()),
            );
        }
        all.push(entry(id, say!("assembly"), link(book, id), words));
        if book.view.release.contains(&**id) {
            let service = super::service::service_page(id);
            all.push(entry(id, say!("element in service"), service, Vec::new()));
        }
    }
    for id in plant.modules.keys() {
        let mut words = Vec::new();
        words.extend(plant.lot_of(id).map(str::to_owned));
        if let Some((record, _, pack)) = plant.pack(id) {
            words.push(pack.material_lot.to_string());
            words.extend(record.day().map(|day| day.to_string()));
        }
        words.extend(plant.assemblies_of(id).into_iter().map(str::to_owned));
        all.push(entry(id, say!("module"), link(book, id), words));
    }
    for (id, lot) in &plant.lots {
        let words = vec![counted::modules(lot.modules.len())];
        all.push(entry(id, say!("lot"), link(book, id), words));
    }
    for (record, lot) in plant.records().material_lots() {
        let words = vec![super::usual(&lot.material_type)];
        let id = &*record.id;
        all.push(entry(id, say!("material"), link(book, id), words));
    }
    let instruments: std::collections::BTreeSet<&str> = plant
        .records()
        .calibration_records()
        .map(|(_, body)| &*body.instrument_id.text)
        .collect();
    for id in instruments {
        let page = format!("instruments.html#{id}", id = safe(id));
        all.push(entry(id, say!("instrument"), page, Vec::new()));
    }
    for (record, body) in plant.records().personnel_authorisations() {
        for person in &body.persons {
            let words = vec![
                person.printed_name.to_string(),
                super::usual(&person.function),
            ];
            let line = book.place_href(PATH, &record.at(person.spot));
            all.push(entry(&person.person_id, say!("person"), line, words));
        }
    }
    all
}

/// What a record is about, where one thing is: a search for a module finds its tests and deviations.
fn subjects(record: &Record) -> Vec<String> {
    match &record.body {
        Body::Deviation(body) => body.subject.texts().map(|text| text.to_string()).collect(),
        Body::MembraneTest(body) => vec![body.material_lot.to_string()],
        Body::SlittingRecord(body) => vec![body.material_lot.to_string()],
        Body::RetentionChallenge(body) => vec![body.material_lot.to_string()],
        Body::FlowTest(body) => vec![body.element_id.to_string()],
        Body::AssemblyBuild(body) => vec![body.assembly_id.to_string()],
        Body::CycleLog(body) => vec![body.assembly_id.to_string()],
        Body::CalibrationRecord(body) => vec![body.instrument_id.to_string()],
        _ => Test::of(record)
            .map(|test| test.element.to_owned())
            .into_iter()
            .collect(),
    }
}

fn records(book: &Book) -> Vec<Entry> {
    let current = book.dossier.plant.records().current();
    current
        .map(|record| {
            let mut words: Vec<String> = record
                .day()
                .map(|day| day.to_string())
                .into_iter()
                .collect();
            words.extend(record.recorded_by.as_ref().map(|by| by.to_string()));
            words.extend(subjects(record));
            let line = book.place_href(PATH, &record.place());
            let kind = say!(&record.kind.replace('_', " ")).to_owned();
            entry(&record.id, &kind, line, words)
        })
        .collect()
}

/// The index that the script of the page reads.
pub fn index(book: &Book) -> Vec<u8> {
    let rows: Vec<Value> = entries(book)
        .iter()
        .map(|entry| json!([entry.name, entry.kind, entry.href, entry.words.join(" ")]))
        .collect();
    // The sequences that end a script or begin markup never stand in it.
    let text = Value::from(rows)
        .to_string()
        .replace('<', "\\u003c")
        .replace('\u{2028}', "\\u2028")
        .replace('\u{2029}', "\\u2029");
    format!("\"use strict\";\nvar things = {what};\n", what = text).into_bytes()
}

/// The page, and the lists.
pub fn pages(book: &Book) -> Vec<Page> {
    let mut by_kind: BTreeMap<&str, Vec<&Entry>> = BTreeMap::new();
    for entry in entries(book) {
        by_kind.entry(&entry.kind).or_default().push(entry);
    }
    let mut table = Table::new(
        say!("Lists from A to Z"),
        &[say!("what"), say!("how many"), say!("list")],
    );
    let (mut lists, mut room): (Vec<Page>, usize) = (Vec::new(), 0);
    for (kind, mut entries) in by_kind {
        entries.sort_by(|a, b| a.name.cmp(&b.name));
        for chunk in entries.chunks(ON_ONE_LIST) {
            if chunk.len() > room || lists.is_empty() {
                lists.push(list(lists.len() + 1));
                room = ON_ONE_LIST;
            }
            room -= chunk.len();
            let (Some(page), [first, ..], [.., last]) = (lists.last_mut(), chunk, chunk) else {
                continue;
            };
            let anchor = format!("list-{sections}", sections = page.sections.len() + 1);
            table.rows.push(vec![
                Cell::text(kind),
                Cell::text(chunk.len().to_string()),
                Cell::link(
                    say!("{name} to {name2}", name = first.name, name2 = last.name),
                    format!("{}#{anchor}", page.path),
                ),
            ]);
            page.sections.push(names(&anchor, kind, chunk));
        }
    }
    let find = Page {
        notice: String::new(),
        path: PATH.into(),
        template: "find.html",
        title: say!("Find").into(),
        lead: say!("By id, lot, roll, day or word. Without a script the lists below do the same.")
            .into(),
        trail: Vec::new(),
        sections: vec![Section::new("lists", say!("Lists")).table(table)],
    };
    lists.insert(0, find);
    lists
}

fn list(number: usize) -> Page {
    Page {
        path: format!("a-to-z-{number}.html", number = number),
        template: "sheet.html",
        title: say!("From A to Z").into(),
        lead: say!("Everything that has a name, by what it is.").into(),
        notice: String::new(),
        trail: vec![Cell::link(say!("find"), PATH.into())],
        sections: Vec::new(),
    }
}

fn names(anchor: &str, kind: &str, entries: &[&Entry]) -> Section {
    let links: Vec<String> = entries
        .iter()
        .map(|entry| {
            format!(
                "<li><a href=\"{}\">{}</a></li>",
                escape(&entry.href),
                escape(&entry.name)
            )
        })
        .collect();
    let mut section = Section::new(anchor, &capital(kind));
    section
        .html
        .push(format!("<ul class=\"names\">{}</ul>", links.concat()));
    section
}
