//! Record files with numbered lines, and chapters.

use std::{
    collections::{BTreeMap, HashMap},
    sync::Arc,
};

use super::{Book, Cell, Making, Page, Section, has_lines, href};
use crate::{
    chart::escape,
    dossier::Dossier,
    figure::{FigureId, Origin},
    ground::{
        name::safe,
        words::{self, Language},
    },
    prose,
    record::{kinds::dossier::Tongue, text::visible},
};

/// Files of one folder stand together on a page until it holds so many bytes of them: a small file costs a stick as much as a
/// large one.
const ON_ONE_PAGE: usize = 48 * 1024;

/// Source file → its page and the prefix of its anchors. A file at the top has a page for itself.
pub fn pages(dossier: &Dossier) -> HashMap<&str, (String, String)> {
    let mut folders: BTreeMap<&str, Vec<(&str, usize)>> = BTreeMap::new();
    let mut out = HashMap::new();
    let shown = dossier.plant.folder.files.iter();
    for (name, file) in shown.filter(|(name, _)| has_lines(name)) {
        match name.rsplit_once('/') {
            Some((folder, _)) => {
                let own = folders.entry(folder).or_default();
                own.push((name, file.bytes.len()));
            }
            None => {
                let stem = safe(&name.to_ascii_uppercase());
                out.insert(&**name, (format!("lines/{stem}.html"), String::new()));
            }
        }
    }
    for (folder, files) in folders {
        let stem = safe(&folder.to_ascii_uppercase());
        let (mut page, mut held, mut number) = (1, 0, 0);
        for (name, bytes) in files {
            if held > 0 && held + bytes > ON_ONE_PAGE {
                (page, held, number) = (page + 1, 0, 0);
            }
            held += bytes;
            number += 1;
            let path = format!("lines/{stem}-{page:03}.html");
            out.insert(name, (path, format!("f{number}")));
        }
    }
    out
}

/// The lines of each file that figures used, with those figures: in the order of figures, a line as often as it was used.
type Uses<'a> = HashMap<&'a str, Vec<(u32, &'a FigureId)>>;

/// Which figures used which line of which file.
fn uses(dossier: &Dossier) -> Uses<'_> {
    let mut out = Uses::new();
    for computed in dossier.graph.computed.values() {
        let mut note = |file, line| out.entry(file).or_default().push((line, &computed.id));
        if let Ok(worked) = &computed.worked {
            for term in &worked.terms {
                match &term.origin {
                    Origin::Readings(readings) => readings
                        .iter()
                        .for_each(|(_, at)| note(&at.file, at.spot.line)),
                    // A trace is used as a whole: its figures stand at its head.
                    Origin::Rows { first, .. } => note(&first.file, 1),
                    Origin::Contribution { at, .. } => note(&at.file, at.spot.line),
                    _ => {}
                }
            }
            worked
                .direct
                .iter()
                .for_each(|(_, at)| note(&at.file, at.spot.line));
        }
        for at in computed
            .judgement
            .iter()
            .filter_map(|judgement| judgement.limit.at.as_ref())
            .chain(computed.reported.iter().map(|reported| &reported.at))
        {
            note(&at.file, at.spot.line);
        }
    }
    out
}

/// How many figures are named beside a line before the rest is only counted.
const NAMED: usize = 12;

/// The pages with numbered lines.
pub fn line_pages<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let uses = Arc::new(uses(book.dossier));
    let mut pages: BTreeMap<&str, Vec<&'a str>> = BTreeMap::new();
    for name in book.dossier.plant.folder.files.keys() {
        if let Some((path, _)) = book.source_page(name) {
            pages.entry(path).or_default().push(name);
        }
    }
    let of = |files: Vec<&'a str>| {
        let uses = uses.clone();
        Making::of(move || lines(book, &uses, &files).into_iter().collect())
    };
    pages.into_values().map(of).collect()
}

/// The page on which these files stand together.
fn lines(book: &Book, uses: &Uses, files: &[&str]) -> Option<Page> {
    let mut page: Option<Page> = None;
    for name in files {
        let (path, prefix) = book.source_page(name)?;
        let (name, file) = book.dossier.plant.folder.files.get_key_value(*name)?;
        let text = String::from_utf8_lossy(&file.bytes);
        let text = visible(&text);
        let mut figures = uses.get(&**name).cloned().unwrap_or_default();
        // What stands on no line is shown beside none; figures stay in their order.
        figures.retain(|(line, _)| *line > 0);
        figures.sort_by_key(|(line, _)| *line);
        figures.dedup();
        let lines = numbered(book, path, prefix, &text, &figures);
        let section = Section {
            id: format!("{prefix}top", prefix = prefix),
            heading: name.to_string(),
            html: vec![say!(
                "<p>SHA-256 <code>{digest}</code></p>",
                digest = file.digest
            )],
            lines,
            ..Section::default()
        };
        let page = page.get_or_insert_with(|| Page {
            path: path.clone(),
            template: "sheet.html",
            title: match name.rsplit_once('/') {
                Some((folder, _)) => format!("{folder}/"),
                None => name.to_string(),
            },
            lead: say!("As read, byte for byte, with numbered lines. Beside a line stand the figures that used it.").into(),
            notice: String::new(),
            trail: vec![Cell::link(say!("records"), href(path, "records.html"))],
            sections: Vec::new(),
        });
        page.sections.push(section);
    }
    page
}

/// The lines of a text as items of a list, each with the figures that used it; those are named once for lines that follow each other
/// and are used by the same ones. It is put together here because most of a dossier's bytes that no figure needs are these.
fn numbered(
    book: &Book,
    path: &str,
    prefix: &str,
    text: &str,
    figures: &[(u32, &FigureId)],
) -> String {
    let mut out = String::with_capacity(3 * text.len());
    let mut rest = figures;
    let mut before: (u32, &[(u32, &FigureId)]) = (0, &[]);
    for (number, line) in (1..).zip(text.lines()) {
        out.push_str(&format!("<li id=\"{prefix}L{number}\">"));
        for letter in line.chars() {
            match letter {
                '&' => out.push_str("&amp;"),
                '<' => out.push_str("&lt;"),
                '>' => out.push_str("&gt;"),
                _ => out.push(letter),
            }
        }
        let (used, after) = rest.split_at(rest.partition_point(|(at, _)| *at <= number));
        rest = after;
        let (first, known) = before;
        let alike = used.len() > 1 && used.iter().map(|u| u.1).eq(known.iter().map(|u| u.1));
        if alike {
            let words = say!("as line {first}", first = first);
            out.push_str(&format!(
                "<span class=\"used\"><a href=\"#{prefix}L{first}\">{words}</a></span>"
            ));
        } else if !used.is_empty() {
            out.push_str("<span class=\"used\">");
            out.push_str(&named(book, path, used));
            out.push_str("</span>");
            before = (number, used);
        }
        out.push('\n');
    }
    out
}

/// The figures beside a line.
fn named(book: &Book, path: &str, used: &[(u32, &FigureId)]) -> String {
    let mut words: Vec<String> = used
        .iter()
        .take(NAMED)
        .map(|(_, id)| {
            let href = escape(&book.figure_href(path, id));
            format!("<a href=\"{href}\">{}</a>", escape(&id.to_string()))
        })
        .collect();
    let rest = used.len().saturating_sub(NAMED);
    if rest > 0 {
        words.push(escape(&say!("and {rest} more", rest = rest)));
    }
    words.join(", ")
}

/// The chapters, in the order of the dossier.
pub fn chapters(book: &Book) -> Vec<Page> {
    let plant = &book.dossier.plant;
    let Some((_, head)) = plant.records().head() else {
        return Vec::new();
    };
    let mut pages = Vec::new();
    for chapter in head.chapters.iter() {
        let Some(file) = plant.folder.files.get(&*chapter.text) else {
            continue;
        };
        let text = String::from_utf8_lossy(&file.bytes);
        let text = visible(&text);
        let path = chapter_page(chapter);
        let show = |id: &str| {
            book.dossier.graph.named(id).map_or_else(
                || format!("<mark>{}</mark>", escape(id)),
                |computed| {
                    format!(
                        "<a class=\"live\" href=\"{}\">{}</a>",
                        book.figure_href(&path, &computed.id),
                        escape(&computed.shown())
                    )
                },
            )
        };
        let title = text
            .lines()
            .find_map(|line| line.strip_prefix("# "))
            .unwrap_or(chapter)
            .to_owned();
        let body: String = text.replacen(&format!("# {title}"), "", 1);
        let section = Section {
            html: vec![passage(book, &scrolling(&prose::html(&body, &show)))],
            ..Section::default()
        };
        let source = Cell::link(
            say!("source"),
            book.source_page(chapter)
                .map_or(String::new(), |(page, _)| href(&path, page)),
        );
        pages.push(Page {
            path: path.clone(),
            template: "sheet.html",
            title,
            lead: String::new(),
            notice: String::new(),
            trail: vec![source],
            sections: vec![section],
        });
    }
    pages
}

/// The page of a chapter.
pub fn chapter_page(file: &str) -> String {
    let stem = file.rsplit('/').next().unwrap_or(file);
    let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem);
    format!(
        "chapters/{stem}.html",
        stem = safe(&stem.to_ascii_uppercase())
    )
}

/// A table of a chapter scrolls by itself on a narrow screen, as the program's own tables do.
/// The code of the language of records and chapters; nothing where it is that of the pages.
pub fn written(dossier: &Dossier) -> &'static str {
    let head = dossier.plant.records().head();
    let said = head.and_then(|(_, head)| head.written());
    let code = said.map_or(Language::English.code(), Tongue::word);
    match code == words::spoken().code() {
        true => "",
        false => code,
    }
}

/// A passage in the language of the records, said where it is not that of the pages.
fn passage(book: &Book, html: &str) -> String {
    match written(book.dossier) {
        "" => html.to_owned(),
        code => format!("<div lang=\"{code}\">{html}</div>"),
    }
}

fn scrolling(html: &str) -> String {
    let begin = format!(
        "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"{}\"><table>",
        say!("Table")
    );
    html.replace("<table>", &begin)
        .replace("</table>", "</table></div>")
}
