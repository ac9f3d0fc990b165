//! What changed against the dossier that this one supersedes.

use super::{Book, Cell, Page, Section, Table, lists::page};
use crate::changes::{Changes, Difference, Moved, Said, Succession};

const PATH: &str = "changes.html";

/// The page.
pub fn changes(book: &Book) -> Page {
    let lead = say!(
        "Against the dossier that this one supersedes: records, figures, verdicts, findings, what is released, who signs."
    );
    let sections = match &book.dossier.previous {
        Some(old) => {
            let new = book.dossier.state(None);
            let found = Changes::between(old, &new);
            let mut sections = vec![against(book)];
            sections.extend(said(book, &found));
            sections
        }
        None => vec![alone(book)],
    };
    page(PATH, say!("Changes"), lead, sections)
}

/// Nothing to compare with.
fn alone(book: &Book) -> Section {
    let section = Section::new("against", say!("Against which dossier"));
    let head = book.dossier.plant.records().head();
    match head.and_then(|(_, head)| head.supersedes.as_ref()) {
        None => section.say(say!("This dossier does not say that it supersedes another.")),
        Some(old) => section.say(&say!(
            "It supersedes {id} revision {revision}, which was not at hand when this was compiled. Whoever has both sees what changed with: sealfolio compare OLDER THIS.",
            id = &*old.id,
            revision = old.revision.value
        )),
    }
}

fn against(book: &Book) -> Section {
    let section = Section::new("against", say!("Against which dossier"));
    let Some(old) = &book.dossier.previous else {
        return section;
    };
    section
        .say(&say!(
            "{id} revision {revision}, digest (SHA-256) {digest}. It was whole by its own manifest when it was read, and its figures were computed again from its records; what was used of it is sealed here in previous.json. All of that is the word of whoever compiled this dossier; sealfolio compare OLDER THIS asks the older one itself.",
            id = old.id,
            revision = old.revision,
            digest = old.digest.as_deref().unwrap_or("–")
        ))
        .say(Succession::of(&book.dossier.plant, old).said())
}

fn said(book: &Book, found: &Changes) -> Vec<Section> {
    let figure = |id: &str| -> Cell {
        let computed = &book.dossier.graph.computed;
        match computed.keys().find(|key| key.to_string() == id) {
            Some(key) => Cell::link(id, book.figure_href(PATH, key)),
            None => Cell::text(id),
        }
    };
    let record = |id: &str| -> Cell {
        let name = id.split_once(' ').map_or(id, |(_, name)| name);
        let thing = book.thing(PATH, name);
        Cell::link(id, thing.href)
    };
    let plain = |id: &str| Cell::text(id);
    let mut verdicts = Section::new("verdicts", say!("Verdicts"));
    verdicts = match found.verdicts.is_empty() {
        true => verdicts.say(say!("Verdicts changed: none.")),
        false => verdicts.table(moved(
            say!("Figures with another verdict"),
            &found.verdicts,
            &figure,
            &|verdict| say!(verdict).to_owned(),
        )),
    };
    let mut altered = Section::new("altered", say!("Altered under the same revision"));
    altered = match found.altered.is_empty() {
        true => altered.say(say!("None: whatever was changed has a new revision.")),
        false => altered
            .say(say!(
                "Their lines differ, and their revision does not say so. Ask why."
            ))
            .table(list(say!("Records"), &found.altered, &record)),
    };
    let mut sections = vec![verdicts, altered];
    for (id, heading, difference, cell) in [
        (
            "released",
            say!("Released assemblies"),
            &found.released,
            &plain as &dyn Fn(&str) -> Cell,
        ),
        (
            "signed",
            say!("Signatures named in statements"),
            &found.signed,
            &plain,
        ),
        (
            "records",
            say!("Records by revision"),
            &found.records,
            &record,
        ),
        (
            "figures",
            say!("Figures and their limits"),
            &found.figures,
            &figure,
        ),
        (
            "files",
            say!("Traces, attachments and chapters, by digest"),
            &found.files,
            &plain,
        ),
    ] {
        sections.extend(differences(id, heading, difference, cell));
    }
    let mut findings = Section::new("findings", say!("Findings"));
    for (caption, all) in [
        (say!("Findings that came"), &found.findings.0),
        (say!("Findings that went"), &found.findings.1),
    ] {
        match all.is_empty() {
            true => findings = findings.say(&format!("{caption}: {}.", say!("none"))),
            false => sections.push(
                Section::new(
                    if caption == say!("Findings that came") {
                        "came"
                    } else {
                        "went"
                    },
                    caption,
                )
                .table(finding_list(caption, all)),
            ),
        }
    }
    sections.push(findings);
    sections.retain(|section| !section.html.is_empty() || section.table.is_some());
    sections
}

fn differences(
    id: &str,
    heading: &str,
    difference: &Difference,
    cell: &dyn Fn(&str) -> Cell,
) -> Vec<Section> {
    let first = Section::new(id, heading);
    if difference.none() {
        return vec![first.say(say!("Nothing changed."))];
    }
    let mut table = Table::new(
        heading,
        &[say!("what"), say!("how"), say!("before"), say!("after")],
    );
    for one in &difference.came {
        table.rows.push(vec![
            cell(one),
            Cell::text(say!("came")),
            Cell::text("–"),
            Cell::text("–"),
        ]);
    }
    for one in &difference.went {
        table.rows.push(vec![
            Cell::text(one),
            Cell::text(say!("went")),
            Cell::text("–"),
            Cell::text("–"),
        ]);
    }
    for one in &difference.moved {
        table.rows.push(vec![
            cell(&one.id),
            Cell::text(say!("became another")),
            Cell::text(&one.before),
            Cell::text(&one.after),
        ]);
    }
    vec![first.table(table)]
}

fn moved(
    caption: &str,
    all: &[Moved],
    cell: &dyn Fn(&str) -> Cell,
    show: &dyn Fn(&str) -> String,
) -> Table {
    let mut table = Table::new(caption, &[say!("figure"), say!("before"), say!("after")]);
    for one in all {
        table.rows.push(vec![
            cell(&one.id),
            Cell::text(show(&one.before)),
            Cell::text(show(&one.after)),
        ]);
    }
    table
}

fn list(caption: &str, all: &[String], cell: &dyn Fn(&str) -> Cell) -> Table {
    let mut table = Table::new(caption, &[say!("record")]);
    table.rows.extend(all.iter().map(|id| vec![cell(id)]));
    table
}

fn finding_list(caption: &str, all: &[Said]) -> Table {
    let mut table = Table::new(
        caption,
        &[say!("rule"), say!("weight"), say!("what it says")],
    );
    for one in all {
        table.rows.push(vec![
            Cell::link(
                &*one.rule,
                format!("rules.html#{}", one.rule.to_lowercase()),
            ),
            Cell::text(say!(&one.severity)),
            Cell::text(&*one.message),
        ]);
    }
    table
}
