//! Where everything is that has to do with one thing: one page a roll, lot of material, run of seals,
//! instrument and person.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::OnceLock,
};

use super::{Book, Cell, Making, Page, Section, Table, counted, href, lists::page};
use crate::{
    chart::escape,
    dossier::Dossier,
    ground::{name::safe, number},
    plant::recall::{self, Period, Recall},
};

/// So many things of which each lot has its own stand on one page: a small file costs a stick as much as a large one.
const ON_ONE_PAGE: usize = 20;

/// So many assemblies and modules are listed of one thing; a page of all that a plant made would open on no machine.
const LISTED: usize = 500;

/// What the list of things says of one.
struct Line {
    what: &'static str,
    modules: usize,
    assemblies: usize,
    told: String,
    agree: bool,
}

impl Asked {
    /// All that has to do with it; nothing where no record knows it.
    fn recall(&self, book: &Book) -> Option<Recall> {
        let recall = recall::recall(&book.dossier.plant, &self.id, Period::default());
        self.line.get_or_init(|| recall.as_ref().map(Line::of));
        recall
    }

    fn line(&self, book: &Book) -> Option<&Line> {
        if self.line.get().is_none() {
            self.recall(book);
        }
        self.line.get()?.as_ref()
    }
}

impl Line {
    fn of(recall: &Recall) -> Line {
        let told: BTreeSet<String> = recall.told().into_iter().map(|to| to.customer).collect();
        Line {
            what: recall.what,
            modules: recall.modules.len(),
            assemblies: recall.assemblies.len(),
            told: told.into_iter().collect::<Vec<_>>().join(", "),
            agree: recall.disagreements.is_empty(),
        }
    }
}

/// A thing that somebody may ask about.
pub struct Asked {
    /// Where it stands in the list of things.
    place: usize,
    /// Its line there, once its page or the list was made: either has to look at all that has to do with it.
    line: OnceLock<Option<Line>>,
    /// Its id.
    pub id: String,
    /// Its page.
    pub page: String,
    /// Where on that page; empty when it has the page for itself.
    pub anchor: String,
}

/// Every thing that somebody may ask about, and where it is shown: what all lots share on a page of its own.
pub fn asked(dossier: &Dossier) -> Vec<Asked> {
    let mut counts: BTreeMap<&'static str, usize> = BTreeMap::new();
    let asked = |(place, (id, sort)): (usize, (String, &'static str))| {
        let line = OnceLock::new();
        if sort.is_empty() {
            let page = format!("affected/{id}.html", id = safe(&id));
            return Asked {
                place,
                line,
                id,
                page,
                anchor: String::new(),
            };
        }
        let n = counts.entry(sort).or_default();
        *n += 1;
        Asked {
            place,
            line,
            // A folder of its own: an instrument may be called ROLLS-001.
            page: format!(
                "affected/lots/{sort}-{:03}.html",
                (*n - 1) / ON_ONE_PAGE + 1
            ),
            anchor: safe(&id),
            id,
        }
    };
    things(dossier).into_iter().enumerate().map(asked).collect()
}

/// Every id once, with what it is listed under; nothing for what all lots share.
fn things(dossier: &Dossier) -> Vec<(String, &'static str)> {
    let records = dossier.plant.records();
    let mut out: Vec<(String, &'static str)> = Vec::new();
    let mut suppliers = BTreeSet::new();
    for (record, lot) in records.material_lots() {
        let what = match &*lot.material_type.text {
            "membrane_roll" => "rolls",
            _ => "material-lots",
        };
        out.push((record.id.to_string(), what));
        suppliers.insert(lot.supplier_lot.to_string());
    }
    out.extend(suppliers.into_iter().map(|id| (id, "supplier-lots")));
    out.extend(
        records
            .seal_runs()
            .map(|(record, _)| (record.id.to_string(), "seal-runs")),
    );
    let mut instruments: BTreeSet<&str> = BTreeSet::new();
    let mut persons: BTreeSet<&str> = BTreeSet::new();
    for record in records.current() {
        let used = recall::instruments(record);
        if !used.is_empty() || !recall::elements(&dossier.plant, record).is_empty() {
            persons.extend(record.recorded_by.as_deref());
        }
        instruments.extend(used);
    }
    let shared = instruments.into_iter().chain(persons);
    out.extend(shared.map(|id| (id.to_owned(), "")));
    // One id may name two things; it has one page.
    let mut seen = BTreeSet::new();
    out.retain(|(id, _)| seen.insert(id.clone()));
    out
}

/// The pages of things.
pub fn pages<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let mut by_page: BTreeMap<&str, Vec<&'a Asked>> = BTreeMap::new();
    for asked in book.affected.values() {
        by_page.entry(&asked.page).or_default().push(asked);
    }
    let of = |all: Vec<&'a Asked>| Making::of(move || together(book, &all).into_iter().collect());
    by_page.into_values().map(of).collect()
}

/// One thing on a page of its own, or several on one.
fn together(book: &Book, all: &[&Asked]) -> Option<Page> {
    let first = all.first()?;
    if first.anchor.is_empty() {
        return Some(one(book, &first.recall(book)?, &first.page));
    }
    let path = &first.page;
    let mut sections = Vec::new();
    for asked in all {
        let Some(recall) = asked.recall(book) else {
            continue;
        };
        let mut own = self::sections(book, path, &recall);
        for (i, section) in own.iter_mut().enumerate() {
            section.heading = format!("{}: {}", recall.about, section.heading);
            section.id = match i {
                0 => asked.anchor.clone(),
                // No id of a thing has a point in it.
                _ => format!("{}.{}", asked.anchor, section.id),
            };
        }
        if let Some(section) = own.first_mut() {
            let lead = format!("<p>{}</p>", escape(&lead(&recall)));
            section.html.insert(0, lead);
        }
        sections.extend(own);
    }
    let (from, to) = (&first.id, &all.last()?.id);
    Some(Page {
        path: path.clone(),
        template: "sheet.html",
        title: say!("All that has to do with {about}", about = say!("{name} to {name2}", name = from, name2 = to)),
        lead: say!("Thing by thing: every module and assembly that has to do with it, and where each is now.").into(),
        notice: String::new(),
        trail: vec![Cell::link(say!("things"), href(path, "affected.html"))],
        sections,
    })
}

fn lead(recall: &Recall) -> String {
    say!(
        "{what}; to do with it: {modules}, {assemblies}.",
        what = super::capital(recall.what),
        modules = counted::modules(recall.modules.len()),
        assemblies = counted::assemblies(recall.assemblies.len())
    )
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
    let mut all: Vec<&Asked> = book.affected.values().collect();
    all.sort_by_key(|asked| asked.place);
    for asked in all {
        let Some(line) = asked.line(book) else {
            continue;
        };
        table.rows.push(vec![
            Cell::link(asked.id.clone(), book.affected_href(path, &asked.id)),
            Cell::text(line.what),
            Cell::text(line.modules.to_string()),
            Cell::text(line.assemblies.to_string()),
            Cell::text(line.told.clone()),
            Cell::text(match line.agree {
                true => say!("yes"),
                false if book.dossier.copy.is_some() => say!("not to be said of a copy"),
                false => say!("no"),
            }),
        ]);
    }
    page(
        path,
        say!("Recall"),
        say!("For each roll, lot of material, run of seals, instrument, machine and person who recorded something: every module and assembly that has to do with it, and where each is now."),
        vec![
            Section::new("things", say!("Things")).table(table).say(say!("For a period, ask the program: sealfolio review FOLDER --affected-by ID --from 2026-03-01 --to 2026-03-31.")),
        ],
    )
}

fn one(book: &Book, recall: &Recall, path: &str) -> Page {
    Page {
        title: say!("All that has to do with {about}", about = recall.about),
        lead: lead(recall),
        notice: String::new(),
        trail: vec![
            Cell::link(say!("things"), href(path, "affected.html")),
            book.thing(path, &recall.about),
        ],
        sections: sections(book, path, recall),
        path: path.to_owned(),
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
        false if book.dossier.copy.is_some() => first.say(say!(
            "Whether the totals agree is not to be said of a copy, which does not show every record."
        )),
        false => first.say(&say!(
            "The totals do not agree: {disagreements}.",
            disagreements = recall.disagreements.join("; ")
        )),
    };
    let told: Vec<String> = recall.told().iter().map(|to| to.words()).collect();
    first = match told.is_empty() {
        true => first.say(recall.nobody_told()),
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
    for assembly in recall.assemblies.iter().take(LISTED) {
        assemblies.rows.push(vec![
            book.thing(path, &assembly.id),
            Cell::text(assembly.because.clone()),
            Cell::text(assembly.state.words()),
            Cell::text(assembly.in_service.clone().unwrap_or_default()),
        ]);
    }
    const METRES: usize = 2;
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
    for module in recall.modules.iter().take(LISTED) {
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
    // Metres are of a roll; of anything else there is nothing to say in that column.
    if recall.metres.is_none() {
        modules.head.remove(METRES);
        modules
            .rows
            .iter_mut()
            .for_each(|row| drop(row.remove(METRES)));
    }
    let rest = |section: Section, all: usize| {
        match all > LISTED {
        true => section.say(&say!("The first {n} of {all} are listed here; the totals count them all. The whole list: sealfolio review FOLDER --affected-by {id}.", n = LISTED, all = all, id = recall.about)),
        false => section,
    }
    };
    let assemblies = Section::new("assemblies", say!("Assemblies")).table(assemblies);
    let mut out = vec![first, rest(assemblies, recall.assemblies.len())];
    if !recall.modules.is_empty() {
        let modules = Section::new("modules", say!("Modules")).table(modules);
        out.push(rest(modules, recall.modules.len()));
    }
    out
}

/// A sentence with the link to the page of a thing.
pub fn sentence(book: &Book, path: &str, id: &str) -> String {
    say!(
        "<p><a href=\"{id}\">all that has to do with {id2}, and where it is now</a></p>",
        id = book.affected_href(path, id),
        id2 = escape(id)
    )
}
