//! Rolls of membrane: their tests, and where every part of them went.

use std::collections::BTreeSet;

use super::{
    Book, Cell, Making, Page, Section, Table, counted, figure::view, roll_page, standing::status,
};
use crate::record::kinds::Body;

/// One page a roll of membrane: its tests, and where every part of it went.
pub fn rolls<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let plant = &book.dossier.plant;
    let mut ids: BTreeSet<&str> = plant
        .records()
        .material_lots()
        .filter(|(_, lot)| &*lot.material_type == "membrane_roll")
        .map(|(record, _)| &*record.id.text)
        .collect();
    for (_, record) in plant.indexed() {
        match &record.body {
            Body::MembraneTest(body) => ids.insert(&body.material_lot),
            Body::SlittingRecord(body) => ids.insert(&body.material_lot),
            _ => false,
        };
    }
    Making::each(ids, |id| roll(book, id))
}

fn roll(book: &Book, id: &str) -> Page {
    let plant = &book.dossier.plant;
    let path = roll_page(id);
    let mut sections = Vec::new();
    let mut lead = say!("No material_lot record describes it.").to_owned();
    if let Some((record, lot)) = plant.material(id) {
        lead = say!(
            "{material_description}; supplier lot {supplier_lot} of {supplier_name}, received {time}.",
            material_description = &*lot.material_description,
            supplier_lot = &*lot.supplier_lot,
            supplier_name = &*lot.supplier_name,
            time = lot.received_at.time.date()
        );
        let mut papers = Table::new(
            say!("Declarations for food contact"),
            &[
                say!("regulation"),
                say!("document"),
                say!("issued"),
                say!("covers"),
            ],
        );
        for paper in lot.food_contact_documents.iter() {
            papers.rows.push(vec![
                Cell::text(&*paper.regulation.text),
                Cell::link(
                    &*paper.document.text,
                    book.place_href(&path, &record.at(paper.spot)),
                ),
                Cell::text(paper.issued.date.to_string()),
                Cell::text(paper.covers.as_deref().unwrap_or("")),
            ]);
        }
        sections.push(Section::new("papers", say!("Declarations")).table(papers));
    }
    let mut tests = Section::new("tests", say!("Flat membrane and slit width"));
    for index in plant.by_roll.get(id).into_iter().flatten() {
        let figures = book.view.figures_at(*index).iter();
        tests
            .figures
            .extend(figures.map(|computed| view(book, &path, computed, id)));
    }
    sections.insert(0, tests);
    sections.push(retention(book, &path, id));
    let mut table = Table::new(
        say!("Where every part of the roll went"),
        &[
            say!("module"),
            say!("metres"),
            say!("assembly"),
            say!("state"),
        ],
    );
    for (module, pack) in plant.modules_of_roll(id) {
        let assemblies = plant.assemblies_of(module);
        let assembly = assemblies.first();
        table.rows.push(vec![
            book.thing(&path, module),
            Cell::text(say!(
                "{from} to {to}",
                from = pack.from.text,
                to = pack.to.text
            )),
            assembly.map_or(Cell::text(say!("none")), |id| book.thing(&path, id)),
            Cell::text(assembly.map_or(say!("in no assembly").to_owned(), |id| status(book, id))),
        ]);
    }
    let mut forward = Section::new("forward", say!("Where it went"))
        .say(&format!("{}.", counted::modules(table.rows.len())))
        .table(table);
    forward
        .drawings
        .extend(super::genealogy::of_roll(book, &path, id));
    if plant.material(id).is_some() {
        forward
            .html
            .push(super::affected::sentence(book, &path, id));
    }
    sections.push(forward);
    Page {
        path,
        template: "sheet.html",
        title: say!("Roll {id}", id = id),
        lead,
        notice: String::new(),
        trail: Vec::new(),
        sections,
    }
}

/// Challenges of the roll's supplier lot: this roll itself, or another of the same lot.
fn retention(book: &Book, path: &str, id: &str) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Challenges of the supplier lot"),
        &[
            say!("challenge"),
            say!("roll"),
            say!("organism"),
            say!("claim under test"),
        ],
    );
    for (record, body) in plant.challenges(id) {
        table.rows.push(vec![
            Cell::link(&*record.id.text, super::href(path, "retention.html")),
            Cell::text(&*body.material_lot.text),
            Cell::text(&*body.organism.name.text),
            Cell::text(&*body.claim_under_test.text),
        ]);
    }
    let section = Section::new("retention", say!("Retention"));
    match table.rows.is_empty() {
        true if book.dossier.copy.is_some() => section.say(say!(
            "No challenge of this supplier lot is shown in this copy; the whole dossier was asked for one (rule R67)."
        )),
        true => section.say(say!("No roll of this supplier lot was challenged.")),
        false => section.table(table),
    }
}
