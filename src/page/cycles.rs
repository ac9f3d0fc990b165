//! What elements withstand, and what they have been through.

use std::collections::BTreeMap;

use super::{Book, Cell, Making, Section, Table, evidence::figures_of, lists::page, paged::Paged};
use crate::{
    dossier::Dossier,
    record::{Record, kinds::cycle_log::CycleLog},
};

/// Cycle logs with their figures and traces.
const LOGS: Paged = Paged {
    name: "cycles",
    size: 20,
};

/// The page of each cycle log.
pub fn pages_of_logs(dossier: &Dossier) -> BTreeMap<&str, String> {
    let logs = dossier.plant.records().cycle_logs();
    LOGS.homes(logs.map(|(record, _)| &*record.id.text))
}

/// What elements withstand, and their cycles by element.
pub fn cycles<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let logs: Vec<(&Record, &CycleLog)> = book.dossier.plant.records().cycle_logs().collect();
    LOGS.pages(&logs, move |n, own| {
        let path = &LOGS.path(n);
        let mut sections = match n {
            0 => supported(book, path),
            _ => Vec::new(),
        };
        sections.push(used(book, path, own));
        page(
            path,
            say!("Cycles"),
            say!("What elements withstand, and what they have been through."),
            sections,
        )
    })
}

/// What is claimed, and what studies support of it.
fn supported(book: &Book, path: &str) -> Vec<Section> {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Claims"),
        &[
            say!("claim"),
            say!("treatment"),
            say!("conditions"),
            say!("claimed"),
            say!("tested"),
            say!("elements tested"),
        ],
    );
    for (record, claim) in plant.records().cycle_claims() {
        for one in &claim.claims {
            table.rows.push(vec![
                Cell::link(
                    &*record.id.text,
                    book.place_href(path, &record.at(one.spot)),
                ),
                Cell::text(super::usual(&one.treatment)),
                Cell::text(super::service::conditions(one)),
                Cell::text(one.cycles_claimed.value.to_string()),
                Cell::text(one.cycles_tested.value.to_string()),
                Cell::text(one.elements_tested.value.to_string()),
            ]);
        }
    }
    let mut sections = vec![
        Section::new("claims", say!("Claims")).table(table),
        endurance(book, path),
    ];
    sections.extend(super::endurance::sections(book, path));
    sections
}

/// What elements have been through.
fn used(book: &Book, path: &str, logs: &[(&Record, &CycleLog)]) -> Section {
    let mut used = Section::new("used", say!("Cycles used, proven and left")).say(say!("Reported by the customer; the maker has verified none. Every cycle counts against life; only those with a whole trace prove anything."));
    let records = logs.iter().map(|(record, _)| (record.index, *record));
    used.figures = figures_of(book, path, records);
    for (_, log) in logs {
        for event in log.events.iter() {
            let title = say!(
                "{assembly_id}, {treatment} cycle {sequence}",
                assembly_id = &*log.assembly_id,
                treatment = super::usual(&event.treatment),
                sequence = event.sequence.value
            );
            let file = event.trace.as_ref();
            used.drawings.extend(
                file.and_then(|file| super::tested::cycle_drawing(book, path, file, title)),
            );
        }
    }
    used
}

/// What studies of repeated treatment support.
fn endurance(book: &Book, path: &str) -> Section {
    let mut table = Table::new(
        say!("Endurance studies"),
        &[
            say!("study"),
            say!("product"),
            say!("treatment"),
            say!("elements"),
            say!("reached intact"),
            say!("failed"),
            say!("supports"),
        ],
    );
    for (record, study) in book.dossier.plant.records().endurance_studys() {
        let reached: Vec<(u64, bool)> = study.elements.iter().map(|id| study.reached(id)).collect();
        let supports = book.dossier.graph.get("cycles-supported", &record.id, "");
        table.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(path, &record.place())),
            Cell::text(&*study.product_code.text),
            Cell::text(super::usual(&study.treatment)),
            Cell::text(reached.len().to_string()),
            Cell::text(
                reached
                    .iter()
                    .map(|(n, _)| n.to_string())
                    .collect::<Vec<_>>()
                    .join(", "),
            ),
            Cell::text(
                reached
                    .iter()
                    .filter(|(_, failed)| *failed)
                    .count()
                    .to_string(),
            ),
            supports.map_or(Cell::text("–"), |computed| {
                Cell::link(computed.shown(), book.figure_href(path, &computed.id))
            }),
        ]);
    }
    let section = Section::new("endurance", say!("What the data support"));
    if table.rows.is_empty() {
        return section.say(say!(
            "No endurance study is in this folder; the claims rest on their reports."
        ));
    }
    section.table(table)
}
