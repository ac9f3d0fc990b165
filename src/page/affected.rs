//! Where everything is that has to do with one thing: one page a roll, lot of material, run of seals,
//! instrument and person.

use std::collections::BTreeSet;

use super::{Book, Cell, Page, Section, Table, href, lists::page};
use crate::{
    chart::escape,
    ground::{name::safe, number},
    plant::recall::{self, Period, Recall},
};

/// The page of a thing.
pub fn affected_page(id: &str) -> String {
    format!("affected/{}.html", safe(id))
}

/// Every id that has a page, with what it is.
pub fn asked(book: &Book) -> Vec<(String, &'static str)> {
    let records = book.dossier.plant.records();
    let mut out: Vec<(String, &'static str)> = Vec::new();
    let mut suppliers = BTreeSet::new();
    for (record, lot) in records.material_lots() {
        let what = match &*lot.material_type.text {
            "membrane_roll" => "roll",
            _ => "material lot",
        };
        out.push((record.id.to_string(), what));
        suppliers.insert(lot.supplier_lot.to_string());
    }
    out.extend(suppliers.into_iter().map(|id| (id, "supplier lot")));
    out.extend(
        records
            .seal_runs()
            .map(|(record, _)| (record.id.to_string(), "run of seals")),
    );
    let mut instruments: BTreeSet<&str> = BTreeSet::new();
    let mut persons: BTreeSet<&str> = BTreeSet::new();
    for record in records.current() {
        let used = recall::instruments(record);
        if !used.is_empty() || !recall::elements(&book.dossier.plant, record).is_empty() {
            persons.extend(record.recorded_by.as_deref());
        }
        instruments.extend(used);
    }
    out.extend(
        instruments
            .into_iter()
            .map(|id| (id.to_owned(), "instrument")),
    );
    out.extend(persons.into_iter().map(|id| (id.to_owned(), "person")));
    // One id may name two things; it has one page.
    let mut seen = BTreeSet::new();
    out.retain(|(id, _)| seen.insert(id.clone()));
    out
}

/// The list of things, and a page for each.
pub fn pages(book: &Book) -> Vec<Page> {
    use rayon::prelude::*;
    let path = "affected.html";
    let list: Vec<Recall> = asked(book)
        .par_iter()
        .filter_map(|(id, _)| recall::recall(&book.dossier.plant, id, Period::default()))
        .collect();
    let mut table = Table::new(
        "What would be affected",
        &[
            "thing",
            "what it is",
            "modules",
            "assemblies",
            "consigned to",
            "totals agree",
        ],
    );
    for recall in &list {
        let told: BTreeSet<String> = recall.told().into_iter().map(|to| to.customer).collect();
        table.rows.push(vec![
            Cell::link(
                recall.about.clone(),
                href(path, &affected_page(&recall.about)),
            ),
            Cell::text(recall.what),
            Cell::text(recall.modules.len().to_string()),
            Cell::text(recall.assemblies.len().to_string()),
            Cell::text(told.into_iter().collect::<Vec<_>>().join(", ")),
            Cell::text(if recall.disagreements.is_empty() {
                "yes"
            } else {
                "no"
            }),
        ]);
    }
    let mut pages = vec![page(
        path,
        "Recall",
        "For each roll, lot of material, run of seals, instrument and person: every module and assembly that has to do with it, and where each is now.",
        vec![
            Section::new("things", "Things").table(table).say("For a period, ask the program: sealfolio review FOLDER --affected-by ID --from 2026-03-01 --to 2026-03-31."),
        ],
    )];
    pages.extend(
        list.par_iter()
            .map(|recall| one(book, recall))
            .collect::<Vec<_>>(),
    );
    pages
}

fn one(book: &Book, recall: &Recall) -> Page {
    let path = affected_page(&recall.about);
    Page {
        title: format!("All that has to do with {}", recall.about),
        lead: format!(
            "{}; {} modules and {} assemblies have to do with it.",
            super::capital(recall.what),
            recall.modules.len(),
            recall.assemblies.len()
        ),
        trail: vec![
            Cell::link("things", href(&path, "affected.html")),
            book.thing(&path, &recall.about),
        ],
        sections: sections(book, &path, recall),
        path,
        template: "sheet.html",
    }
}

/// What is affected, where it is, and whether the totals agree.
pub fn sections(book: &Book, path: &str, recall: &Recall) -> Vec<Section> {
    let (of_modules, of_assemblies) = recall.totals();
    let mut totals = Table::new("Totals", &["what", "where", "how many"]);
    for (what, list, sum) in [
        ("assemblies", &of_assemblies, recall.assemblies.len()),
        ("modules", &of_modules, recall.modules.len()),
    ] {
        for (place, n) in list {
            totals.rows.push(vec![
                Cell::text(what),
                Cell::text(place.clone()),
                Cell::text(n.to_string()),
            ]);
        }
        totals.rows.push(vec![
            Cell::text(format!("all {what}")),
            Cell::text(""),
            Cell::text(sum.to_string()),
        ]);
    }
    let mut first = Section::new("totals", "Totals").table(totals);
    if let Some(metres) = recall.metres {
        first = first.say(&metres.words());
    }
    first = match recall.disagreements.is_empty() {
        true => first.say("The totals agree."),
        false => first.say(&format!(
            "The totals do not agree: {}.",
            recall.disagreements.join("; ")
        )),
    };
    let told: Vec<String> = recall.told().iter().map(|to| to.words()).collect();
    first = match told.is_empty() {
        true => first.say("Nothing of it was consigned: nobody outside need be told."),
        false => first.say(&format!("To be told: {}.", told.join("; "))),
    };
    let mut assemblies = Table::new(
        "Assemblies; an element is affected as a whole",
        &["assembly", "why", "where it is", "in service"],
    );
    for assembly in &recall.assemblies {
        assemblies.rows.push(vec![
            book.thing(path, &assembly.id),
            Cell::text(assembly.because.clone()),
            Cell::text(assembly.state.words()),
            Cell::text(assembly.in_service.clone().unwrap_or_default()),
        ]);
    }
    let mut modules = Table::new(
        "Modules",
        &["module", "by record", "metres", "assembly", "where it is"],
    );
    for module in &recall.modules {
        modules.rows.push(vec![
            book.thing(path, &module.id),
            book.thing(path, &module.because),
            Cell::text(
                module
                    .metres
                    .map_or(String::new(), |metres| number::fixed(metres, 1)),
            ),
            module
                .assembly
                .as_ref()
                .map_or(Cell::text("none"), |id| book.thing(path, id)),
            Cell::text(module.state.words()),
        ]);
    }
    let mut out = vec![
        first,
        Section::new("assemblies", "Assemblies").table(assemblies),
    ];
    if !recall.modules.is_empty() {
        out.push(Section::new("modules", "Modules").table(modules));
    }
    out
}

/// A sentence with the link to the page of a thing.
pub fn sentence(path: &str, id: &str) -> String {
    format!(
        "<p><a href=\"{}\">all that has to do with {}, and where it is now</a></p>",
        href(path, &affected_page(id)),
        escape(id)
    )
}
