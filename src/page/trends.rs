//! The list of characteristics that are followed in the order of production, and a page for each.

use rayon::prelude::*;

use super::{Book, Cell, Making, Page, Section, Table, href, trend};

/// The list of characteristics and a page for each.
pub fn pages<'a>(book: &'a Book) -> Vec<Making<'a>> {
    vec![Making::of(|| all(book))]
}

fn all(book: &Book) -> Vec<Page> {
    let all = book.dossier.series();
    let mut table = Table::new(
        say!("Characteristics followed in the order of production"),
        &[
            say!("characteristic"),
            say!("conditions"),
            say!("values"),
            say!("course"),
            say!("what they say together"),
        ],
    );
    let paths = trend::paths(&all);
    let made: Vec<trend::Followed> = all
        .par_iter()
        .zip(&paths)
        .map(|(series, path)| trend::page(book, series, path))
        .collect();
    for (series, followed) in all.iter().zip(&made) {
        table.rows.push(vec![
            Cell::link(series.title(), href("trends.html", &followed.page.path)),
            Cell::text(series.conditions()),
            Cell::text(series.members.len().to_string()),
            Cell::drawing(followed.course.clone()),
            Cell::text(followed.said.clone()),
        ]);
    }
    let list = Page {
        path: "trends.html".into(),
        template: "sheet.html",
        title: say!("Trends").into(),
        lead: say!("Each characteristic in the order of production: limits, drift, capability, and how rolls, stations and operators compare. A value beyond control limits is no failure: it is a question.").into(),
        notice: String::new(),
        trail: Vec::new(),
        sections: vec![
            Section::new("characteristics", say!("Characteristics"))
                .table(table)
                .say(say!("Each characteristic is looked at by several tests at the level 0.05, its order by seven at a seventh of that: among so many, a few stand out by chance alone. What stands out is a reason to look, and no finding.")),
            stands_on(book),
        ],
    };
    let mut pages = vec![list];
    pages.extend(made.into_iter().map(|followed| followed.page));
    pages
}

/// Which dossiers the trends stand on.
fn stands_on(book: &Book) -> Section {
    let section = Section::new("history", say!("Which dossiers these stand on"));
    let history = &book.dossier.history;
    if book.dossier.copy.is_some() {
        return section.say(say!(
            "On the records of this customer's copy alone: its own lots, and no others."
        ));
    }
    if history.is_empty() {
        return section.say(say!("On the records of this dossier alone. With --history FOLDER older compiled dossiers join the trends, each named by its digest."));
    }
    let mut table = Table::new(
        say!("Older dossiers"),
        &[
            say!("dossier"),
            say!("revision"),
            say!("state"),
            say!("lots"),
            say!("values"),
            say!("digest (SHA-256)"),
        ],
    );
    for past in history {
        let values: usize = past.series.iter().map(|series| series.members.len()).sum();
        table.rows.push(vec![
            Cell::text(past.title.clone()),
            Cell::text(past.revision.to_string()),
            Cell::text(if past.draft {
                say!("draft: something blocks its release")
            } else {
                say!("complete")
            }),
            Cell::text(past.lots.join(", ")),
            Cell::text(values.to_string()),
            Cell::text(past.digest.clone()),
        ]);
    }
    section
        .say(say!("On the records of this dossier and, for trends alone, on older ones. Each was whole by its own manifest when it was read; its figures were computed again from its records, and the values used are sealed here in history.json."))
        .table(table)
}
