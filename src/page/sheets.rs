//! The pages of physical things: lots, assemblies, rolls.

use std::collections::BTreeSet;

use super::standing::{held, status};
use super::tested::{test_table, trace_drawing};
use super::{
    Book, Cell, Making, Page, Section, Table, assembly_page, capital, counted, figure::view, href,
    lot_page, roll_page,
};
use crate::{
    chart::{self},
    figure::Computed,
    ground::words::spelt,
    plant::Test,
    record::Record,
    verdict::Verdict,
};

/// The judged figure of an assembly with the least room, in standard uncertainties.
pub fn weakest<'a>(book: &Book<'a>, assembly: &str) -> Option<(&'a Computed, f64)> {
    let judged = book
        .view
        .figures_of_assembly(assembly)
        .into_iter()
        .filter_map(|computed| Some((computed, computed.judgement.as_ref()?.margin?)));
    // Near zero is where a residual belongs: it has no room to lose, and counts where it is beyond its level.
    let margins =
        judged.filter(|(computed, margin)| computed.id.figure != "join-residual" || *margin < 0.0);
    margins.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The verdict on an assembly: the worst of all its figures.
pub fn verdict(book: &Book, assembly: &str) -> Verdict {
    let judged = book
        .view
        .figures_of_assembly(assembly)
        .into_iter()
        .filter(|computed| computed.judgement.is_some() || computed.undecidable.is_some());
    judged
        .map(|computed| computed.verdict())
        .min()
        .unwrap_or(Verdict::NotEvaluated)
}

pub(super) fn shown(book: &Book, from: &str, figure: &'static str, record: &Record) -> Cell {
    match book.dossier.graph.get(figure, &record.id, "") {
        Some(computed) => Cell::link(computed.shown(), book.figure_href(from, &computed.id)),
        None => Cell::text("–"),
    }
}

/// The figures of one module: its packs and every test, passed or not.
pub(super) fn module_figures(
    book: &Book,
    path: &str,
    module: &str,
) -> Vec<super::figure::FigureView> {
    let plant = &book.dossier.plant;
    let mut out = Vec::new();
    if let Some((record, _, _)) = plant.pack(module) {
        out.extend(
            book.view
                .figures_of(record)
                .iter()
                .filter(|computed| &*computed.id.part == module)
                .map(|computed| view(book, path, computed, module)),
        );
    }
    for index in plant
        .modules
        .get(module)
        .iter()
        .flat_map(|module| &module.tests)
    {
        out.extend(
            book.view
                .figures_at(*index)
                .iter()
                .map(|computed| view(book, path, computed, module)),
        );
    }
    out
}

/// One sheet an assembly.
pub fn assemblies<'a>(book: &'a Book) -> Vec<Making<'a>> {
    Making::each(book.dossier.plant.assemblies.keys(), |id| {
        assembly(book, id)
    })
}

fn assembly(book: &Book, id: &str) -> Page {
    let plant = &book.dossier.plant;
    let path = assembly_page(id);
    let mut trail = Vec::new();
    if let Some(lot) = plant.lot_of(id) {
        trail.push(Cell::link(
            say!("lot {lot}", lot = lot),
            href(&path, &lot_page(lot)),
        ));
    }
    let mut sections = Vec::new();
    let (mut ids, mut lead) = (BTreeSet::from([id]), String::new());
    if let Some((record, build)) = plant.build(id) {
        let rolls: BTreeSet<&str> = build
            .modules
            .iter()
            .filter_map(|position| plant.pack(&position.module_id))
            .map(|(_, _, pack)| &*pack.material_lot.text)
            .collect();
        for roll in rolls {
            trail.push(Cell::link(
                say!("roll {roll}", roll = roll),
                href(&path, &roll_page(roll)),
            ));
        }
        lead = say!(
            "{nominal_length}, {modules}, built {day}. {id}.",
            nominal_length = spelt(&build.nominal_length.text),
            modules = counted::modules(build.modules.len()),
            day = record.day().map_or(String::new(), |day| day.to_string()),
            id = capital(&status(book, id))
        );
        ids.extend(
            build
                .modules
                .iter()
                .map(|position| &*position.module_id.text),
        );
        let mut table = Table::new(
            say!("Both test stages side by side: each module alone, and the whole"),
            &[
                say!("position"),
                say!("element"),
                say!("roll"),
                say!("metres"),
                say!("tests"),
                say!("diffusive flow"),
                say!("bubble point"),
                say!("verdict"),
            ],
        );
        for position in &build.modules {
            let module = &*position.module_id.text;
            let pack = plant.pack(module);
            let last = plant.last_test(module);
            let figure = |name: &'static str| {
                last.map_or(Cell::text("–"), |test| {
                    shown(book, &path, name, test.record)
                })
            };
            let worst = book
                .view
                .deciding(module)
                .iter()
                .map(|computed| computed.verdict())
                .filter(|verdict| *verdict != Verdict::NoLimit)
                .min();
            table.rows.push(vec![
                Cell::text(position.position.value.to_string()),
                Cell::link(
                    module,
                    book.place_href(&path, &record.at(position.module_id.spot)),
                ),
                pack.map_or(Cell::text("–"), |(_, _, pack)| {
                    book.thing(&path, &pack.material_lot)
                }),
                pack.map_or(Cell::text("–"), |(record, _, pack)| {
                    Cell::link(
                        say!(
                            "{from} to {to}",
                            from = &*pack.from.text,
                            to = &*pack.to.text
                        ),
                        book.place_href(&path, &record.at(pack.spot)),
                    )
                }),
                Cell::text(
                    plant
                        .modules
                        .get(module)
                        .map_or(0, |module| module.tests.len())
                        .to_string(),
                ),
                figure("diffusive-flow"),
                figure("bubble-point"),
                worst.map_or(Cell::text("–"), Cell::verdict),
            ]);
        }
        if let Some(last) = plant.last_test(id) {
            table.rows.push(vec![
                Cell::text(say!("whole")),
                Cell::text(id),
                Cell::text(""),
                Cell::text(""),
                Cell::text(
                    plant
                        .assemblies
                        .get(id)
                        .map_or(0, |assembly| assembly.tests.len())
                        .to_string(),
                ),
                shown(book, &path, "diffusive-flow", last.record),
                shown(book, &path, "bubble-point", last.record),
                Cell::verdict(verdict(book, id)),
            ]);
            table.rows.push(vec![
                Cell::text(say!("over the sum")),
                Cell::text(""),
                Cell::text(""),
                Cell::text(""),
                Cell::text(""),
                shown(book, &path, "join-residual", last.record),
                Cell::text(""),
                book.dossier
                    .graph
                    .get("join-residual", &last.record.id, "")
                    .map_or(Cell::text("–"), |computed| {
                        Cell::verdict(computed.verdict())
                    }),
            ]);
        }
        let mut genealogy = Section::new("genealogy", say!("Genealogy and tests")).table(table);
        if plant.retested(id) {
            genealogy = genealogy.say(say!("This assembly, or a module in it, was tested again; every test is shown below, passed or not."));
        }
        if let Some(said) = plant
            .last_test(id)
            .and_then(|test| super::tested::joins_seen(book, &test))
        {
            genealogy = genealogy.say(&said);
        }
        genealogy
            .drawings
            .extend(super::genealogy::of_assembly(book, &path, id));
        sections.push(genealogy);
        sections.push(fittings(book, &path, record, build));
    }
    let mut tests = Section::new("tests", say!("Tests of the assembly"));
    tests.table = Some(test_table(book, &path, id));
    for index in plant
        .assemblies
        .get(id)
        .iter()
        .flat_map(|assembly| &assembly.builds)
    {
        let own = book.view.figures_at(*index).iter();
        tests
            .figures
            .extend(own.map(|computed| view(book, &path, computed, id)));
    }
    for index in plant
        .assemblies
        .get(id)
        .iter()
        .flat_map(|assembly| &assembly.tests)
    {
        let record = plant.record(*index);
        tests.figures.extend(
            book.view
                .figures_at(*index)
                .iter()
                .map(|computed| view(book, &path, computed, id)),
        );
        if let Some(test) = Test::of(record) {
            use crate::record::common::Measured;
            tests.drawings.extend(
                [Measured::DiffusiveFlow, Measured::BubblePoint]
                    .into_iter()
                    .filter_map(|quantity| trace_drawing(book, &path, &test, quantity)),
            );
        }
    }
    let parts = plant.build(id).into_iter().flat_map(|(_, build)| {
        let ids = build
            .modules
            .iter()
            .map(|position| &*position.module_id.text);
        ids.filter(|module| plant.assemblies_of(module).first() == Some(&id))
    });
    let mut flows: Vec<_> = std::iter::once(id)
        .chain(parts)
        .flat_map(|element| plant.flow_tests(element))
        .collect();
    flows.sort_by(|a, b| a.0.id.text.cmp(&b.0.id.text));
    for (record, flow) in flows {
        let own = book.view.figures_of(record).iter();
        tests
            .figures
            .extend(own.map(|computed| view(book, &path, computed, &flow.element_id)));
    }
    if book.view.release.contains(id) || plant.logs(id).next().is_some() {
        tests.ways(say!(
            "<p><a href=\"{id}\">the sheet for the plant that uses it</a></p>",
            id = href(&path, &super::service::service_page(id))
        ));
    }
    sections.push(tests);
    sections.push(made_from(book, &path, id));
    if let Some((_, build)) = plant.build(id) {
        let mut modules = Section::new("modules", say!("Modules, each tested alone"));
        // A module that two builds list is shown once, on the first of its sheets.
        for position in build
            .modules
            .iter()
            .filter(|position| plant.assemblies_of(&position.module_id).first() == Some(&id))
        {
            modules
                .figures
                .extend(module_figures(book, &path, &position.module_id));
        }
        sections.push(modules);
    }
    let mut service = Section::new("service", say!("In service"));
    for (record, log) in plant.logs(id) {
        let mut table = Table::new(
            say!("Cycles by treatment, reported by the customer"),
            &[
                say!("treatment"),
                say!("used"),
                say!("with a whole trace, carried forward included"),
                say!("left of the claim"),
            ],
        );
        for computed in book
            .view
            .figures_of(record)
            .iter()
            .filter(|computed| computed.id.figure == "cycles-used")
        {
            let part = &computed.id.part;
            let cell = |name: &'static str| {
                book.dossier
                    .graph
                    .get(name, &record.id, part)
                    .map_or(Cell::text("–"), |computed| {
                        Cell::link(computed.shown(), book.figure_href(&path, &computed.id))
                    })
            };
            table.rows.push(vec![
                Cell::text(super::usual(part)),
                cell("cycles-used"),
                cell("cycles-proven"),
                cell("cycles-left"),
            ]);
        }
        let site: Vec<String> = log
            .site
            .leaves
            .iter()
            .map(|(_, text)| text.to_string())
            .collect();
        service = service
            .say(&say!(
                "Fitted {time} at {site}. The maker has verified none of these counts.",
                time = log.installed_at.time,
                site = site.join(", ")
            ))
            .table(table);
    }
    if service.table.is_some() {
        sections.push(service);
    }
    let mut findings = Section::new("findings", say!("Findings about this assembly"));
    findings.findings = book.findings_about(&path, &ids);
    if findings.findings.is_empty() {
        findings = findings.say(say!("None."));
    }
    sections.push(findings);
    Page {
        path,
        template: "sheet.html",
        title: say!("Assembly {id}", id = id),
        lead,
        notice: held(book, id),
        trail,
        sections,
    }
}

fn fittings(
    book: &Book,
    path: &str,
    record: &Record,
    build: &crate::record::kinds::assembly_build::AssemblyBuild,
) -> Section {
    let mut table = Table::new(
        say!("Joins and fittings"),
        &[
            say!("what"),
            say!("record"),
            say!("material lot"),
            say!("seen"),
        ],
    );
    let yes = |flag: Option<crate::record::read::Flag>, good: &str, bad: &str| {
        flag.map_or(say!("not stated").to_owned(), |flag| {
            if flag.value {
                good.to_owned()
            } else {
                bad.to_owned()
            }
        })
    };
    for joint in build.joints.iter() {
        table.rows.push(vec![
            Cell::text(say!("join {joint}", joint = joint.joint.value)),
            book.thing(path, &joint.seal_run),
            Cell::text(""),
            Cell::text(""),
        ]);
    }
    if let Some(adapter) = &build.adapter {
        table.rows.push(vec![
            Cell::text(say!("adapter, {r}", r = &*adapter.r#type)),
            adapter
                .seal_run
                .as_ref()
                .map_or(Cell::text("–"), |run| book.thing(path, run)),
            book.thing(path, &adapter.material_lot),
            Cell::text(yes(
                adapter.ring_turns_freely,
                say!("ring turns freely"),
                say!("ring does not turn"),
            )),
        ]);
        if let Some(ring) = &adapter.stainless_ring_lot {
            table.rows.push(vec![
                Cell::text(say!("stainless ring, kept apart from the plastic")),
                Cell::text(""),
                book.thing(path, ring),
                Cell::text(
                    adapter
                        .ring_radial_clearance
                        .as_ref()
                        .map_or(String::new(), |play| {
                            say!("radial clearance {play}", play = play.text)
                        }),
                ),
            ]);
        }
    }
    if let Some(piece) = &build.end_piece {
        table.rows.push(vec![
            Cell::text(say!("end piece, {r}", r = piece.r#type.replace('_', " "))),
            piece
                .seal_run
                .as_ref()
                .map_or(Cell::text("–"), |run| book.thing(path, run)),
            book.thing(path, &piece.material_lot),
            Cell::text(yes(
                piece.drain_path_clear,
                say!("drains"),
                say!("does not drain"),
            )),
        ]);
    }
    if let Some(rings) = &build.o_rings {
        table.rows.push(vec![
            Cell::text(say!(
                "{quantity} o-rings, {material}",
                quantity = rings.quantity.value,
                material = &*rings.material
            )),
            Cell::text(""),
            book.thing(path, &rings.material_lot),
            Cell::text(""),
        ]);
    }
    for joint in build.joints.iter() {
        if let Some(apart) = &joint.alignment {
            table.rows.push(vec![
                Cell::text(say!("axes at join {joint}", joint = joint.joint.value)),
                Cell::text(""),
                Cell::text(""),
                Cell::text(say!("{apart} apart", apart = apart.text)),
            ]);
        }
    }
    let length = build
        .overall_length
        .as_ref()
        .map_or(String::new(), |length| {
            say!("Overall length {length}", length = spelt(&length.text))
        });
    let straight = build.straightness.as_ref().map_or(String::new(), |off| {
        say!(", out of straight by {off}", off = spelt(&off.text))
    });
    let mut section = Section::new("fittings", say!("Joins and fittings"));
    if !table.rows.is_empty() {
        section = section.table(table);
    }
    let measured = format!("{length}{straight}");
    if !measured.is_empty() {
        section = section.say(&format!("{}.", capital(measured.trim_start_matches(", "))));
    }
    section.ways(say!(
        "<p><a href=\"{record}\">build record {id}</a></p>",
        record = book.place_href(path, &record.place()),
        id = chart::escape(&record.id)
    ));
    section
}

/// The ways down: runs and inspections of seals, material lots, marks, certificate; and who recorded each.
fn made_from(book: &Book, path: &str, id: &str) -> Section {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Records that speak of the assembly and its modules"),
        &[
            say!("record"),
            say!("kind"),
            say!("material lots"),
            say!("by"),
            say!("when"),
        ],
    );
    let mut indices: BTreeSet<usize> = BTreeSet::new();
    let mut elements: BTreeSet<&str> = BTreeSet::from([id]);
    if let Some((build, body)) = plant.build(id) {
        indices.insert(build.index);
        elements.extend(
            body.modules
                .iter()
                .map(|position| &*position.module_id.text),
        );
    }
    for element in &elements {
        let runs = plant.modules.get(*element).map(|module| &module.seal_runs);
        let runs = runs.or(plant
            .assemblies
            .get(*element)
            .map(|assembly| &assembly.seal_runs));
        for run in runs.into_iter().flatten() {
            indices.insert(*run);
            let run = &*plant.record(*run).id.text;
            indices.extend(plant.inspections.get(run).into_iter().flatten());
        }
        indices.extend(
            plant
                .modules
                .get(*element)
                .and_then(|module| module.pack)
                .map(|(index, _)| index),
        );
    }
    let marks = elements.iter().flat_map(|element| plant.marks_of(element));
    indices.extend(marks.map(|record| record.index));
    indices.extend(
        plant
            .assemblies
            .get(id)
            .into_iter()
            .flat_map(|assembly| &assembly.releases),
    );
    for index in indices {
        let record = plant.record(index);
        let lots: Vec<&str> = crate::plant::lots_used(&record.body)
            .into_iter()
            .map(|(lot, _)| &*lot.text)
            .collect::<BTreeSet<_>>()
            .into_iter()
            .collect();
        let by = record.recorded_by.as_deref().unwrap_or("");
        table.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(path, &record.place())),
            Cell::text(say!(&record.kind.replace('_', " "))),
            Cell::text(lots.join(", ")),
            Cell::link(by, href(path, "people.html")),
            Cell::text(when(record)),
        ]);
    }
    let mut section = Section::new("made-from", say!("Records behind it")).table(table);
    if let Some((release, _)) = plant.releases_of(id).next() {
        let page = super::certificate::certificate_page(&release.id);
        section.ways(say!(
            "<p><a href=\"{page}\">certificate</a></p>",
            page = href(path, &page)
        ));
    }
    section
}

/// When it happened, and when it was corrected.
fn when(record: &Record) -> String {
    let happened = record
        .happened()
        .map_or(String::new(), |when| when.to_string());
    match &record.recorded_at {
        Some(written) if record.revision > 1 => say!(
            "{happened}; revision {revision} of {day}",
            happened = happened,
            revision = record.revision,
            day = written.time.date()
        ),
        _ => happened,
    }
}
