//! Where everything is that has to do with one thing: one page a roll, lot of material, run of seals,
//! instrument and person.

use std::collections::BTreeSet;

use super::{Book, Cell, Making, Page, Section, Table, href, lists::page};
use crate::{
    chart::escape,
    ground::{name::safe, number},
    plant::recall::{self, Period, Recall},
};

/// The page of a thing.
pub fn affected_page(id: &str) -> String {
    format!("affected/{id}.html", id = safe(id))
}

/// Every id that has a page, with what it is.
pub fn asked(book: &Book) -> Vec<(String, &'static str)> {
    let records = book.dossier.plant.records();
    let mut out: Vec<(String, &'static str)> = Vec::new();
    let mut suppliers = BTreeSet::new();
    for (record, lot) in records.material_lots() {
        let what = match &*lot.material_type.text {
            "membrane_roll" => say!("roll"),
            _ => say!("material lot"),
        };
        out.push((record.id.to_string(), what));
        suppliers.insert(lot.supplier_lot.to_string());
    }
    out.extend(suppliers.into_iter().map(|id| (id, say!("supplier lot"))));
    out.extend(
        records
            .seal_runs()
            .map(|(record, _)| (record.id.to_string(), say!("run of seals"))),
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
            .map(|id| (id.to_owned(), say!("instrument"))),
    );
    out.extend(
        persons
            .into_iter()
            .map(|id| (id.to_owned(), say!("person"))),
    );
    // One id may name two things; it has one page.
    let mut seen = BTreeSet::new();
    out.retain(|(id, _)| seen.insert(id.clone()));
    out
}

/// A page for each thing.
pub fn pages<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let of = |id: String| {
        Making::of(move || {
            let recall = recall::recall(&book.dossier.plant, &id, Period::default());
            recall.iter().map(|recall| one(book, recall)).collect()
        })
    };
    asked(book).into_iter().map(|(id, _)| of(id)).collect()
}

/// The list of things.
pub fn list(book: &Book) -> Page {
    let path = "affected.html";
    let mut table = Table::new(
        say!("What would be affected"),
        &[
            say!("thing"),
            say!("what it is"),
            say!("modules"),
            say!("assemblies"),
            say!("consigned to"),
            say!("totals agree"),
        ],
    );
    for (id, _) in asked(book) {
        let Some(recall) = recall::recall(&book.dossier.plant, &id, Period::default()) else {
            continue;
        };
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
                say!("yes")
            } else {
                say!("no")
            }),
        ]);
    }
    page(
        path,
        say!("Recall"),
        say!("For each roll, lot of material, run of seals, instrument and person: every module and assembly that has to do with it, and where each is now."),
        vec![
            Section::new("things", say!("Things")).table(table).say(say!("For a period, ask the program: sealfolio review FOLDER --affected-by ID --from 2026-03-01 --to 2026-03-31.")),
        ],
    )
}

fn one(book: &Book, recall: &Recall) -> Page {
    let path = affected_page(&recall.about);
    Page {
        title: say!("All that has to do with {about}", about = recall.about),
        lead: say!(
            "{what}; {count} modules and {assemblies} assemblies have to do with it.",
            what = super::capital(recall.what),
            count = recall.modules.len(),
            assemblies = recall.assemblies.len()
        ),
        trail: vec![
            Cell::link(say!("things"), href(&path, "affected.html")),
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
    let mut totals = Table::new(
        say!("Totals"),
        &[say!("what"), say!("where"), say!("how many")],
    );
    for (what, list, sum) in [
        (say!("assemblies"), &of_assemblies, recall.assemblies.len()),
        (say!("modules"), &of_modules, recall.modules.len()),
    ] {
        for (place, n) in list {
            totals.rows.push(vec![
                Cell::text(what),
                Cell::text(place.clone()),
                Cell::text(n.to_string()),
            ]);
        }
        totals.rows.push(vec![
            Cell::text(say!("all {what}", what = what)),
            Cell::text(""),
            Cell::text(sum.to_string()),
        ]);
    }
    let mut first = Section::new("totals", say!("Totals")).table(totals);
    if let Some(metres) = recall.metres {
        first = first.say(&metres.words());
    }
    first = match recall.disagreements.is_empty() {
        true => first.say(say!("The totals agree.")),
        false => first.say(&say!(
            "The totals do not agree: {disagreements}.",
            disagreements = recall.disagreements.join("; ")
        )),
    };
    let told: Vec<String> = recall.told().iter().map(|to| to.words()).collect();
    first = match told.is_empty() {
        true => first.say(say!(
            "Nothing of it was consigned: nobody outside need be told."
        )),
        false => first.say(&say!("To be told: {told}.", told = told.join("; "))),
    };
    let mut assemblies = Table::new(
        say!("Assemblies; an element is affected as a whole"),
        &[
            say!("assembly"),
            say!("why"),
            say!("where it is"),
            say!("in service"),
        ],
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
        say!("Modules"),
        &[
            say!("module"),
            say!("by record"),
            say!("metres"),
            say!("assembly"),
            say!("where it is"),
        ],
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
                .map_or(Cell::text(say!("none")), |id| book.thing(path, id)),
            Cell::text(module.state.words()),
        ]);
    }
    let mut out = vec![
        first,
        Section::new("assemblies", say!("Assemblies")).table(assemblies),
    ];
    if !recall.modules.is_empty() {
        out.push(Section::new("modules", say!("Modules")).table(modules));
    }
    out
}

/// A sentence with the link to the page of a thing.
pub fn sentence(path: &str, id: &str) -> String {
    say!(
        "<p><a href=\"{id}\">all that has to do with {id2}, and where it is now</a></p>",
        id = href(path, &affected_page(id)),
        id2 = escape(id)
    )
}
