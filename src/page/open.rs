//! What is open: findings, and figures that did not pass.

use super::{Book, Cell, Page, Section, Table, lists};
use crate::{figure::Computed, ground::finding::Severity, plant::Test, record::kinds::Body};

/// Every finding, and every figure that does not conform or is undecided.
pub fn open_points(book: &Book) -> Page {
    let path = "open-points.html";
    let mut sections = Vec::new();
    for severity in [Severity::Blocks, Severity::Explain, Severity::Note] {
        let mut section = Section::new(
            severity.key(),
            &say!("Findings: {severity}", severity = severity.said()),
        );
        section.findings = book
            .findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .map(|finding| book.finding(path, finding))
            .collect();
        if section.findings.is_empty() {
            section = section.say(say!("None."));
        }
        sections.push(section);
    }
    let mut table = Table::new(
        say!("Figures that did not pass, failed tests that were repeated included"),
        &[
            say!("figure"),
            say!("value"),
            say!("limit"),
            say!("verdict"),
            say!("decides"),
        ],
    );
    for computed in not_passed(book) {
        let mut row = lists::judged(book, path, computed);
        row.extend([
            Cell::verdict(computed.verdict()),
            Cell::text(match Weight::of(book, computed) {
                Weight::Decides => say!("yes").to_owned(),
                Weight::Unreleased(id) => say!("yes, of {id}, which is not released", id = id),
                Weight::Excluded(id) => say!("no, excluded by {id}", id = id),
                Weight::Repeated => say!("no, another test does").to_owned(),
            }),
        ]);
        table.rows.push(row);
    }
    let figures = Section::new("figures", say!("Figures that did not pass"));
    sections.insert(
        2,
        match table.rows.is_empty() {
            true => figures.say(say!("None.")),
            false => figures.table(table),
        },
    );
    lists::page(
        path,
        say!("Open points"),
        say!(
            "What a person must look at, the heaviest first, with the next step where one is left."
        ),
        sections,
    )
}

/// Figures that do not conform or are undecided.
fn not_passed<'a>(book: &Book<'a>) -> impl Iterator<Item = &'a Computed> {
    let all = book.dossier.graph.computed.values().map(Box::as_ref);
    all.filter(|computed| crate::rule::not_a_pass(computed))
}

/// What a figure that did not pass means for the release.
enum Weight<'a> {
    /// It decides.
    Decides,
    /// It decides about an element that is not released: which.
    Unreleased(&'a str),
    /// A decided deviation leaves it out.
    Excluded(&'a str),
    /// Another test of the element decides.
    Repeated,
}

impl<'a> Weight<'a> {
    fn of(book: &Book<'a>, computed: &Computed) -> Weight<'a> {
        let plant = &book.dossier.plant;
        let part = format!("{}/{}", computed.id.record, computed.id.part);
        if let Some(deviation) = book.view.decided(&part) {
            return Weight::Excluded(&deviation.id.text);
        }
        let record = plant.record(computed.subject.record);
        let test = Test::of(record);
        if test.as_ref().is_some_and(|test| !book.view.decides(test)) {
            return Weight::Repeated;
        }
        let element = match (&record.body, test) {
            (_, Some(test)) => test.element,
            (Body::AssemblyBuild(build), _) => &build.assembly_id,
            (Body::FlowTest(flow), _) => &flow.element_id,
            _ => return Weight::Decides,
        };
        let wholes = match plant.assemblies.contains_key(element) {
            true => vec![element],
            false => plant.assemblies_of(element).to_vec(),
        };
        match wholes.iter().any(|id| book.view.release.contains(id)) {
            true => Weight::Decides,
            false => Weight::Unreleased(element),
        }
    }
}

/// Why figures that did not pass do not stand against a release; nothing where there are none.
pub(super) fn why_not_passed(book: &Book) -> String {
    let (mut all, mut unreleased, mut excluded, mut repeated) = (0, 0, 0, 0);
    for computed in not_passed(book) {
        all += 1;
        match Weight::of(book, computed) {
            Weight::Decides => {}
            Weight::Unreleased(_) => unreleased += 1,
            Weight::Excluded(_) => excluded += 1,
            Weight::Repeated => repeated += 1,
        }
    }
    let decide = all - unreleased - excluded - repeated;
    match all {
        0 => String::new(),
        _ => say!(
            "Figures that did not pass: {all}. Of elements that are not released: {unreleased}; followed by another test that decides: {repeated}; left out by a decided deviation: {excluded}; that decide about what is released: {decide}.",
            all = all,
            unreleased = unreleased,
            repeated = repeated,
            excluded = excluded,
            decide = decide
        ),
    }
}
