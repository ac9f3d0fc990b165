//! One control chart a characteristic, in production order.

use std::collections::BTreeMap;

use super::{Book, Cell, Page, Section, Table, href};
use crate::{
    chart::{self, Chart, Level, LevelKind, Point},
    figure::Computed,
    ground::{name::safe, number, time::Time},
    plant::Test,
    stats,
};

/// When, which figure, of what.
type Member<'a> = (Option<Time>, &'a Computed, String);

/// A series of one figure over one product.
struct Series<'a> {
    path: String,
    title: String,
    members: Vec<Member<'a>>,
}

/// Figures that are followed in time.
const FOLLOWED: &[&str] = &[
    "bubble-point",
    "bubble-point-drop",
    "diffusive-flow",
    "join-residual",
    "membrane-bubble-point",
    "slit-width",
];

fn series<'a>(book: &Book<'a>) -> Vec<Series<'a>> {
    let mut all: BTreeMap<(String, String), Vec<Member>> = BTreeMap::new();
    for computed in book
        .dossier
        .graph
        .computed
        .values()
        .filter(|computed| FOLLOWED.contains(&computed.id.figure))
    {
        if computed.quantity().is_none() {
            continue;
        }
        let record = book.dossier.plant.record(computed.subject.record);
        let test = Test::of(record);
        let product = book
            .dossier
            .plant
            .spec_of(record)
            .map_or("all", |(_, spec)| &*spec.product_code.text);
        let stage = match &test {
            Some(test) if test.assembly => {
                let length = book
                    .dossier
                    .plant
                    .build(test.element)
                    .map_or("unknown", |(_, build)| &build.nominal_length.text);
                format!("of assemblies of {length}")
            }
            Some(_) => "of modules".to_owned(),
            None => String::new(),
        };
        let name = test.map_or(record.id.to_string(), |test| test.element.to_owned());
        let title = format!("{} {stage}, {product}", computed.figure.name).replace(" ,", ",");
        all.entry((computed.id.figure.to_owned(), title))
            .or_default()
            .push((record.happened(), computed, name));
    }
    all.into_iter()
        .map(|((_, title), mut members)| {
            members.sort_by(|a, b| (a.0, &a.1.id).cmp(&(b.0, &b.1.id)));
            Series {
                path: format!(
                    "trends/{}.html",
                    safe(&title.to_ascii_uppercase().replace([',', ' '], "-"))
                ),
                title,
                members,
            }
        })
        .collect()
}

/// The list of characteristics and a page for each.
pub fn pages(book: &Book) -> Vec<Page> {
    let all = series(book);
    let mut table = Table::new(
        "Characteristics followed in production order",
        &["characteristic", "values", "beyond control limits"],
    );
    let mut pages = Vec::new();
    for series in &all {
        let (page, beyond) = page(book, series);
        let said = beyond.map_or("too few values for limits".into(), |beyond| {
            beyond.to_string()
        });
        table.rows.push(vec![
            Cell::link(series.title.clone(), href("trends.html", &series.path)),
            Cell::text(series.members.len().to_string()),
            Cell::text(said),
        ]);
        pages.push(page);
    }
    let list = Page {
        path: "trends.html".into(),
        template: "sheet.html",
        title: "Trends".into(),
        lead: "Each characteristic in production order, with control limits from its own moving ranges. A value beyond them is no failure: it is a question.".into(),
        trail: Vec::new(),
        sections: vec![Section::new("characteristics", "Characteristics").table(table)],
    };
    pages.insert(0, list);
    pages
}

/// Control limits from fewer values than this say nothing.
const LEAST: usize = 8;

fn page(book: &Book, series: &Series) -> (Page, Option<usize>) {
    let path = &series.path;
    let unit = &series.members[0].1.figure.unit;
    let values: Vec<f64> = series
        .members
        .iter()
        .filter_map(|(_, computed, _)| computed.quantity())
        .map(|quantity| unit.of_si(quantity.value))
        .collect();
    let control = stats::control::individuals(&values)
        .ok()
        .filter(|_| values.len() >= LEAST);
    let beyond = |i: usize| {
        control
            .as_ref()
            .is_some_and(|control| control.beyond.contains(&i))
    };
    let mut table = Table::new(
        "Values in production order",
        &["no.", "when", "what", "value", ""],
    );
    let mut points = Vec::new();
    for (i, (when, computed, name)) in series.members.iter().enumerate() {
        let link = book.figure_href(path, &computed.id);
        points.push(Point {
            x: (i + 1) as f64,
            y: values[i],
            href: link.clone(),
            title: format!("{name}: {}", computed.shown()),
            marked: beyond(i),
        });
        table.rows.push(vec![
            Cell::text((i + 1).to_string()),
            Cell::text(when.map_or(String::new(), |when| when.to_string())),
            Cell::link(name.clone(), link),
            Cell::text(computed.shown()),
            Cell::text(if beyond(i) {
                "beyond control limits"
            } else {
                ""
            }),
        ]);
    }
    let mut levels = Vec::new();
    if let Some(control) = &control {
        let label = |name: &str, y: f64| format!("{name} {}", number::significant(y, 4));
        levels.push(Level {
            y: control.centre,
            label: label("mean", control.centre),
            kind: LevelKind::Mean,
        });
        levels.push(Level {
            y: control.limits.1,
            label: label("upper", control.limits.1),
            kind: LevelKind::Control,
        });
        levels.push(Level {
            y: control.limits.0,
            label: label("lower", control.limits.0),
            kind: LevelKind::Control,
        });
    }
    let words = match &control {
        None => format!(
            "{} values: too few for control limits, which need {LEAST}.",
            values.len()
        ),
        Some(control) if control.beyond.is_empty() => format!(
            "All {} values lie within their control limits.",
            values.len()
        ),
        Some(control) => format!(
            "{} of {} values lie beyond the control limits.",
            control.beyond.len(),
            values.len()
        ),
    };
    let mut section = Section::new("chart", "Control chart").say(&words);
    let drawn = chart::svg(&Chart {
        id: "chart".into(),
        title: series.title.clone(),
        description: format!(
            "{words} Each point leads to its figure; the table below lists the same values."
        ),
        x_label: "production order".into(),
        y_label: number::with_unit(series.members[0].1.figure.symbol, unit),
        points,
        levels,
        joined: true,
        gaps: Vec::new(),
    });
    section.drawings.extend(drawn);
    if control.is_some() {
        section = section.say("Individual values and moving ranges: mean of the values and three times the mean moving range over 1.128 either side (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2).");
    }
    let page = Page {
        path: path.clone(),
        template: "sheet.html",
        title: series.title.clone(),
        lead: String::new(),
        trail: vec![Cell::link("trends", href(path, "trends.html"))],
        sections: vec![section, Section::new("values", "Values").table(table)],
    };
    (page, control.map(|control| control.beyond.len()))
}
