//! What pages say: one value a page, and one template to show each sort.

pub mod affected;
pub mod certificate;
pub mod changes;
mod counted;
pub mod customer;
pub mod cycles;
pub mod endurance;
pub mod evidence;
pub mod figure;
pub mod files;
pub mod find;
pub mod genealogy;
pub mod glossary;
pub mod lists;
pub mod lots;
pub mod methods;
mod open;
mod paged;
mod parts;
pub mod people;
pub mod product;
pub mod requirements;
pub mod rolls;
pub mod sampling;
pub mod service;
pub mod sheets;
pub mod source;
mod standing;
pub mod studies;
pub mod tested;
pub mod trend;
pub mod trends;

use std::{
    collections::{BTreeMap, BTreeSet, HashMap},
    sync::OnceLock,
};

pub use parts::{Cell, Making, Page, Section, Table};

use rayon::prelude::*;
use serde::Serialize;

use crate::{
    chart::escape,
    dossier::Dossier,
    figure::{Computed, Figure, FigureId},
    ground::{
        finding::Finding,
        name::{capital, safe},
        number,
        place::Place,
    },
    plant::Test,
    record::{folder::holds_records, kinds::Body},
    rule::View,
};

/// A finding on a page.
#[derive(Serialize)]
pub struct FindingView {
    rule: String,
    rule_href: String,
    severity: &'static str,
    key: &'static str,
    /// As HTML: every id in it leads to its thing.
    message: String,
    advice: String,
    place: Option<Cell>,
}

/// Everything that pages are made from, and where each thing is shown.
pub struct Book<'a> {
    /// The dossier.
    pub dossier: &'a Dossier,
    /// What rules see.
    pub view: View<'a>,
    /// The code of the root over all records, drawn once.
    root_code: OnceLock<String>,
    /// Every finding, the heaviest first.
    pub findings: Vec<&'a Finding>,
    /// Findings by what they are about, in the same order.
    about: HashMap<&'a str, Vec<usize>>,
    homes: HashMap<&'a FigureId, String>,
    /// Where all that has to do with a thing is shown.
    affected: BTreeMap<String, affected::Asked>,
    /// The formula of each definition that was computed.
    laws: BTreeMap<&'static str, figure::Law>,
    /// The page of each seal run.
    joins: BTreeMap<&'a str, String>,
    /// The page of each cycle log.
    logs: BTreeMap<&'a str, String>,
    /// The least log reduction of each product, looked for once.
    reductions: OnceLock<BTreeMap<&'a str, f64>>,
    /// What can be found by name, drawn up once.
    entries: OnceLock<Vec<find::Entry>>,
    /// Source file → its page and the prefix of its line anchors.
    sources: HashMap<&'a str, (String, String)>,
}

impl<'a> Book<'a> {
    /// Decides where each thing is shown.
    pub fn new(dossier: &'a Dossier) -> Book<'a> {
        let findings = dossier.findings();
        let mut about: HashMap<&str, Vec<usize>> = HashMap::new();
        for (index, finding) in findings.iter().enumerate() {
            for id in finding.about.iter().collect::<BTreeSet<_>>() {
                about.entry(id).or_default().push(index);
            }
        }
        let mut book = Book {
            dossier,
            view: dossier.view(),
            root_code: OnceLock::new(),
            reductions: OnceLock::new(),
            entries: OnceLock::new(),
            findings,
            about,
            homes: HashMap::new(),
            laws: BTreeMap::new(),
            joins: evidence::pages_of_runs(dossier),
            logs: cycles::pages_of_logs(dossier),
            affected: affected::asked(dossier)
                .into_iter()
                .map(|asked| (asked.id.clone(), asked))
                .collect(),
            sources: source::pages(dossier),
        };
        let homes: HashMap<&FigureId, String> = dossier
            .graph
            .computed
            .par_iter()
            .map(|(id, computed)| (id, book.home_of(computed)))
            .collect();
        book.homes = homes;
        let computed = dossier.graph.computed.values();
        for computed in computed {
            let figure = computed.figure;
            book.laws
                .entry(figure.id)
                .or_insert_with(|| figure::Law::of(figure));
        }
        book
    }

    /// The formula of a definition.
    fn law(&self, figure: &Figure) -> figure::Law {
        let known = self.laws.get(figure.id).cloned();
        known.unwrap_or_else(|| figure::Law::of(figure))
    }

    fn home_of(&self, computed: &Computed) -> String {
        let record = self.dossier.plant.record(computed.subject.record);
        match &record.body {
            Body::PleatingRecord(_) => self.element_page(&computed.id.part),
            Body::AssemblyBuild(body) => assembly_page(&body.assembly_id),
            Body::MembraneTest(body) => roll_page(&body.material_lot),
            Body::SlittingRecord(body) => roll_page(&body.material_lot),
            Body::SealInspection(body) => self.joins_page(&body.seal_run).to_owned(),
            Body::RetentionChallenge(_) => "retention.html".into(),
            Body::CycleLog(_) => {
                let page = self.logs.get(&*record.id.text);
                page.map_or("cycles.html", |page| page).into()
            }
            Body::EnduranceStudy(_) => "cycles.html".into(),
            Body::LayerStack(_) | Body::ElementGeometry(_) => "product.html".into(),
            Body::MeasurementStudy(_) => "instruments.html".into(),
            Body::FlowTest(body) => self.element_page(&body.element_id),
            _ => Test::of(record).map_or_else(
                || "records.html".into(),
                |test| self.element_page(test.element),
            ),
        }
    }

    /// The page of a module or an assembly: its assembly's sheet, or else its lot's page.
    pub fn element_page(&self, id: &str) -> String {
        let plant = &self.dossier.plant;
        if plant.assemblies.contains_key(id) {
            return assembly_page(id);
        }
        match plant.assemblies_of(id).first() {
            Some(assembly) => assembly_page(assembly),
            None => plant
                .lot_of(id)
                .map_or_else(|| "records.html".into(), lot_page),
        }
    }

    /// The address of a figure, seen from a page.
    pub fn figure_href(&self, from: &str, id: &FigureId) -> String {
        let home = self.homes.get(id).map_or("index.html", |home| home);
        format!("{}#{}", href(from, home), id.anchor())
    }

    /// The address of a record's line, seen from a page.
    pub fn place_href(&self, from: &str, place: &Place) -> String {
        match self.sources.get(&*place.file) {
            Some((page, prefix)) if place.spot.line > 0 => {
                format!("{}#{prefix}L{}", href(from, page), place.spot.line)
            }
            Some((page, prefix)) => format!(
                "{page}#{prefix}top",
                page = href(from, page),
                prefix = prefix
            ),
            None => href(from, "records.html"),
        }
    }

    /// The page of a seal run and its inspections.
    pub fn joins_page(&self, run: &str) -> &str {
        self.joins.get(run).map_or("joins.html", |page| page)
    }

    /// Whether somebody may ask for all that has to do with a thing.
    pub fn is_asked(&self, id: &str) -> bool {
        self.affected.contains_key(id)
    }

    /// The address of all that has to do with a thing, seen from a page.
    pub fn affected_href(&self, from: &str, id: &str) -> String {
        match self.affected.get(id) {
            Some(asked) if asked.anchor.is_empty() => href(from, &asked.page),
            Some(asked) => format!("{}#{}", href(from, &asked.page), asked.anchor),
            None => href(from, "affected.html"),
        }
    }

    /// A source mark: file and line, with the link.
    pub fn place(&self, from: &str, place: &Place) -> Cell {
        Cell::link(place.to_string(), self.place_href(from, place))
    }

    /// A link to whatever an id names.
    pub fn thing(&self, from: &str, id: &str) -> Cell {
        let plant = &self.dossier.plant;
        let page = if plant.assemblies.contains_key(id) || plant.modules.contains_key(id) {
            self.element_page(id)
        } else if plant.lots.contains_key(id) {
            lot_page(id)
        } else if plant
            .material(id)
            .is_some_and(|(_, lot)| &*lot.material_type == "membrane_roll")
        {
            roll_page(id)
        } else if let Some(record) = plant.records().any(id) {
            return Cell::link(id, self.place_href(from, &record.place()));
        } else {
            return Cell::text(id);
        };
        Cell::link(id, href(from, &page))
    }

    /// A finding, seen from a page.
    pub fn finding(&self, from: &str, finding: &Finding) -> FindingView {
        FindingView {
            rule: finding.rule.into(),
            rule_href: format!(
                "{}#{}",
                href(from, "rules.html"),
                finding.rule.to_lowercase()
            ),
            severity: finding.severity.said(),
            key: finding.severity.key(),
            message: self.linked(from, &finding.message),
            advice: finding.advice.clone(),
            place: finding.place.as_ref().map(|place| self.place(from, place)),
        }
    }

    /// Plain text as HTML in which the ids of things are links.
    fn linked(&self, from: &str, text: &str) -> String {
        let mut out = String::new();
        let inside = |c: char| c.is_alphanumeric() || "-_".contains(c);
        let mut rest = text;
        while let Some(begin) = rest.find(inside) {
            let (before, word) = rest.split_at(begin);
            let (word, after) = word.split_at(word.find(|c| !inside(c)).unwrap_or(word.len()));
            out.push_str(&escape(before));
            // Ids that stand in a sentence bear a hyphen and a digit; other words are not looked up.
            let may_name = word.contains('-') && word.contains(|c: char| c.is_ascii_digit());
            let cell = match may_name {
                true => self.thing(from, word),
                false => Cell::default(),
            };
            match &*cell.href {
                "" => out.push_str(&escape(word)),
                href => out.push_str(&format!(
                    "<a href=\"{}\">{}</a>",
                    escape(href),
                    escape(word)
                )),
            }
            rest = after;
        }
        out + &escape(rest)
    }

    /// Findings about something.
    pub fn findings_about(&self, from: &str, ids: &BTreeSet<&str>) -> Vec<FindingView> {
        let all: BTreeSet<usize> = ids
            .iter()
            .filter_map(|id| self.about.get(id))
            .flatten()
            .copied()
            .collect();
        all.into_iter()
            .filter_map(|index| self.findings.get(index))
            .map(|finding| self.finding(from, finding))
            .collect()
    }

    /// The page of a source file.
    pub fn source_page(&self, file: &str) -> Option<&(String, String)> {
        self.sources.get(file)
    }

    /// Every page, the large ones first, so that none is waited for at the end.
    pub fn pages(&'a self) -> Vec<Making<'a>> {
        let fixed: [fn(&Book) -> Page; 12] = [
            evidence::instruments,
            sampling::sampling,
            lists::release,
            open::open_points,
            requirements::evidence,
            requirements::not_here,
            product::product,
            evidence::retention,
            evidence::deviations,
            people::people,
            lists::rules,
            changes::changes,
        ];
        let mut all = vec![Making::of(|| find::pages(self))];
        all.extend(trends::pages(self));
        all.extend(fixed.map(|make| Making::one(move || make(self))));
        all.push(Making::of(|| methods::methods(self)));
        all.push(Making::of(|| source::chapters(self)));
        all.push(Making::of(|| customer::copy(self).into_iter().collect()));
        all.extend([methods::cautions, methods::check, glossary::glossary].map(Making::one));
        all.push(Making::of(|| files::records(self)));
        all.extend(evidence::joins(self));
        all.extend(cycles::cycles(self));
        all.extend(lots::lots(self));
        all.extend(sheets::assemblies(self));
        all.extend(rolls::rolls(self));
        all.extend(certificate::certificates(self));
        all.extend(service::elements(self));
        all.extend(affected::pages(self));
        // By then most of its lines are known.
        all.push(Making::one(|| affected::list(self)));
        all.extend(source::line_pages(self));
        all
    }
}

/// A share in percent, three digits.
fn percent(share: f64) -> String {
    format!("{} %", number::significant(100.0 * share, 3))
}

/// The page of an assembly.
pub fn assembly_page(id: &str) -> String {
    format!("assemblies/{id}.html", id = safe(id))
}

/// The page of a lot.
pub fn lot_page(id: &str) -> String {
    format!("lots/{id}.html", id = safe(id))
}

/// The page of a roll.
pub fn roll_page(id: &str) -> String {
    format!("rolls/{id}.html", id = safe(id))
}

/// A relative address from one page to another, both below `data/`.
pub fn href(from: &str, to: &str) -> String {
    let (from_folder, to_folder) = (
        from.rsplit_once('/').map_or("", |x| x.0),
        to.rsplit_once('/').map_or("", |x| x.0),
    );
    if from_folder == to_folder {
        return to.rsplit_once('/').map_or(to, |x| x.1).to_owned();
    }
    let up = if from_folder.is_empty() {
        0
    } else {
        from_folder.matches('/').count() + 1
    };
    format!("{}{to}", "../".repeat(up))
}

/// Whether a file is shown with numbered lines.
pub fn has_lines(name: &str) -> bool {
    holds_records(name) || name.ends_with(".csv") || name.ends_with(".md")
}

/// Words of records that stand on sheets for the plant, as people write them.
const USUAL: [&str; 18] = [
    word!("steam in place"),
    word!("hot water"),
    word!("back flush"),
    word!("caustic"),
    word!("cold rinse"),
    word!("chemical regeneration"),
    word!("nitrogen"),
    word!("air"),
    word!("water"),
    word!("after steam"),
    word!("before run"),
    word!("end of run"),
    word!("authorship"),
    word!("quality manager"),
    word!("quality reviewer"),
    word!("validation engineer"),
    word!("membrane roll"),
    word!("o ring"),
];

/// A word of a record in the language of the pages, where it is a usual one; else as it was written, with blanks.
fn usual(word: &str) -> String {
    let plain = word.replace('_', " ");
    match USUAL.contains(&&*plain) {
        true => say!(&plain).to_owned(),
        false => plain,
    }
}

#[cfg(test)]
mod tests {
    use super::href;

    #[test]
    fn addresses_are_relative() {
        assert_eq!(href("index.html", "lots/a.html"), "lots/a.html");
        assert_eq!(href("lots/a.html", "lots/b.html"), "b.html");
        assert_eq!(href("lots/a.html", "index.html"), "../index.html");
        assert_eq!(href("lots/a.html", "rolls/c.html"), "../rolls/c.html");
    }
}
