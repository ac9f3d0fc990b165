//! Lots: their assemblies, the weakest first, and modules that stand in none.

use std::collections::BTreeSet;

use super::{
    Book, Cell, Making, Page, Section, Table, assembly_page, counted, href, lot_page,
    sheets::{module_figures, shown, verdict, weakest},
    standing::status,
};
use crate::{ground::number, plant::Lot};

/// One page a lot: its assemblies, the weakest first, and modules that stand in none.
pub fn lots<'a>(book: &'a Book) -> Vec<Making<'a>> {
    Making::each(&book.dossier.plant.lots, |(id, lot)| one(book, id, lot))
}

fn one(book: &Book, id: &str, lot: &Lot) -> Page {
    let plant = &book.dossier.plant;
    let path = lot_page(id);
    let mut rows: Vec<(f64, Vec<Cell>)> = Vec::new();
    for assembly in &lot.assemblies {
        let Some((_, build)) = plant.build(assembly) else {
            continue;
        };
        let weakest = weakest(book, assembly);
        let test = plant.last_test(assembly);
        let figure = |name: &'static str| {
            test.map_or(Cell::text("–"), |test| {
                shown(book, &path, name, test.record)
            })
        };
        rows.push((
            weakest
                .as_ref()
                .map_or(f64::INFINITY, |(_, margin)| *margin),
            vec![
                Cell::link(&**assembly, href(&path, &assembly_page(assembly))),
                Cell::text(&*build.nominal_length.text),
                figure("diffusive-flow"),
                figure("join-residual"),
                figure("bubble-point"),
                weakest.map_or(Cell::text("–"), |(computed, margin)| {
                    Cell::link(
                        format!(
                            "{} u: {}",
                            number::fixed(margin, 1),
                            crate::ground::words::inside(say!(computed.figure.name))
                        ),
                        book.figure_href(&path, &computed.id),
                    )
                }),
                Cell::verdict(verdict(book, assembly)),
                Cell::text(status(book, assembly)),
            ],
        ));
    }
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut table = Table::new(
        say!("Assemblies of the lot, the one with the least room first"),
        &[
            say!("assembly"),
            say!("length"),
            say!("diffusive flow"),
            say!("join residual"),
            say!("bubble point"),
            say!("least room"),
            say!("verdict"),
            say!("state"),
        ],
    );
    table.rows = rows.into_iter().map(|(_, row)| row).collect();
    let loose: Vec<&str> = lot
        .modules
        .iter()
        .map(|id| &**id)
        .filter(|id| plant.assemblies_of(id).is_empty())
        .collect();
    let mut rest =
        Section::new("other-modules", say!("Modules in no assembly")).say(if loose.is_empty() {
            say!("None: every module of the lot stands in an assembly.")
        } else {
            say!("Tested, and not built in.")
        });
    for module in &loose {
        rest.figures.extend(module_figures(book, &path, module));
    }
    let rolls: BTreeSet<&str> = lot
        .modules
        .iter()
        .filter_map(|id| plant.pack(id))
        .map(|(_, _, pack)| &*pack.material_lot.text)
        .collect();
    let mut from = Table::new(
        say!("Rolls of the lot"),
        &[say!("roll"), say!("modules of this lot")],
    );
    for roll in rolls {
        let count = lot
            .modules
            .iter()
            .filter(|id| {
                plant
                    .pack(id)
                    .is_some_and(|(_, _, pack)| &*pack.material_lot.text == roll)
            })
            .count();
        from.rows
            .push(vec![book.thing(&path, roll), Cell::text(count.to_string())]);
    }
    let mut balance = Section::new("balance", say!("Where every module went"));
    for (record, body) in plant.reconciliations(id) {
        let mut table = Table::new(
            say!("Every module of the lot, once"),
            &[
                say!("state"),
                say!("assembly"),
                say!("modules"),
                say!("which"),
                say!("why"),
            ],
        );
        for state in &body.disposition {
            let modules: Vec<&str> = state.modules.iter().map(|id| &*id.text).collect();
            table.rows.push(vec![
                Cell::text(state.state.said()),
                state
                    .assembly_id
                    .as_ref()
                    .map_or(Cell::text(""), |id| book.thing(&path, id)),
                Cell::text(modules.len().to_string()),
                Cell::text(modules.join(", ")),
                Cell::text(
                    state
                        .reason
                        .as_deref()
                        .or(state.location.as_deref())
                        .unwrap_or(""),
                ),
            ]);
        }
        let listed: usize = body
            .disposition
            .iter()
            .map(|state| state.modules.len())
            .sum();
        balance = balance
            .say(&say!(
                "Started {modules_started}, accounted for {listed}.",
                modules_started = body.modules_started.value,
                listed = listed
            ))
            .table(table);
        balance.ways(say!(
            "<p><a href=\"{record}\">reconciliation</a></p>",
            record = book.place_href(&path, &record.place())
        ));
    }
    if balance.table.is_none() {
        balance = balance.say(say!("No lot_reconciliation says where every module went."));
    }
    Page {
        notice: String::new(),
        path: path.clone(),
        template: "sheet.html",
        title: say!("Lot {id}", id = id),
        lead: format!(
            "{}, {}.",
            counted::modules(lot.modules.len()),
            counted::assemblies(lot.assemblies.len())
        ),
        trail: Vec::new(),
        sections: vec![
            Section::new("assemblies", say!("Assemblies")).table(table),
            balance,
            Section::new("rolls", say!("Membrane")).table(from),
            rest,
        ],
    }
}
