//! Readings within each unit of a series: means and spreads of subgroups.

use super::{Book, Figure, Section, Unit, number_table};
use crate::{
    chart::{self, Chart, Level, LevelKind, Look, Point},
    figure::Origin,
    ground::number,
    stats::control,
    trend::{Series, Standing},
};

/// Readings of one member.
struct Readings<'a> {
    index: usize,
    of: &'a str,
    href: String,
    values: Vec<f64>,
}

/// The readings behind each figure that is a mean of several readings of its own kind.
fn readings<'a>(book: &Book, path: &str, series: &'a Series) -> Vec<Readings<'a>> {
    let dimension = series.figure.unit.dim;
    let own = |(index, member): (usize, &'a crate::trend::Member)| {
        if member.past.is_some() || member.standing != Standing::Counts {
            return None;
        }
        let computed = book.dossier.graph.computed.get(&member.id)?;
        let worked = computed.worked.as_ref().ok()?;
        let [term] = &worked.terms[..] else {
            return None;
        };
        let read = matches!(term.origin, Origin::Readings(_)) && term.input.unit.dim == dimension;
        (read && term.values.len() > 1).then(|| Readings {
            index,
            of: &member.of,
            href: book.figure_href(path, &member.id),
            values: term.values.to_vec(),
        })
    };
    series.members.iter().enumerate().filter_map(own).collect()
}

/// A section on the readings within units; nothing where figures are no means of readings.
pub(super) fn within(book: &Book, path: &str, series: &Series) -> Option<Section> {
    let all = readings(book, path, series);
    if all.is_empty() {
        return None;
    }
    let section = Section::new("within", say!("Readings within each"));
    let groups: Vec<Vec<f64>> = all.iter().map(|one| one.values.clone()).collect();
    let chart = match control::subgroups(&groups, control::Spread::Deviation) {
        Ok(chart) if chart.sigma > 0.0 => chart,
        Ok(_) => return Some(section.say(say!("All readings within each are equal: the resolution of the instrument hides their spread."))),
        Err(why) => return Some(section.say(&say!("Not charted: {why}.", why = why))),
    };
    let unit = Unit::of_series(series);
    let (m, size) = (groups.len(), groups.first().map_or(0, Vec::len));
    let name = |found: &[usize]| match found {
        [] => say!("none").to_owned(),
        some => some
            .iter()
            .filter_map(|i| all.get(*i))
            .map(|one| one.of)
            .collect::<Vec<_>>()
            .join(", "),
    };
    let provisional = match m < 20 {
        true => say!(
            " {m} groups give provisional limits; 20 and more are usual (ISO 7870-2, from memory).",
            m = m
        ),
        false => String::new(),
    };
    let words = say!(
        "{m} groups of {size} readings scatter by {sigma} within each; spread beyond its limits: {spread_beyond}; mean beyond its limits: {beyond}.{provisional}",
        m = m,
        size = size,
        sigma = unit.width(chart.sigma),
        spread_beyond = name(&chart.spread_beyond),
        beyond = name(&chart.beyond),
        provisional = provisional
    );
    let figures = vec![
        Figure {
            anchor: "number-within",
            name: say!("standard deviation within").into(),
            value: unit.width(chart.sigma),
            bounds: String::new(),
            n: m * size,
            method: say!("mean standard deviation of the groups over c₄"),
        },
        Figure {
            anchor: "number-spread-limits",
            name: say!("limits of the standard deviation of one group").into(),
            value: say!(
                "{spread_limits} to {spread_limits2}",
                spread_limits = unit.width(chart.spread_limits.0),
                spread_limits2 = unit.width(chart.spread_limits.1)
            ),
            bounds: String::new(),
            n: m,
            method: say!("B₃, B₄ (ISO 7870-2, from memory; e-Handbook 6.3.2.1)"),
        },
        Figure {
            anchor: "number-mean-limits",
            name: say!("limits of the mean of one group").into(),
            value: unit.span(chart.limits),
            bounds: String::new(),
            n: m,
            method: say!("A₃; they hold where groups differ by no more than readings do"),
        },
    ];
    let mut section = section.say(&words);
    section
        .drawings
        .extend(drawing(series, &all, &chart, &words));
    Some(section.table(number_table(say!("Numbers of the readings"), figures)))
}

fn drawing(
    series: &Series,
    all: &[Readings],
    chart: &control::Subgroups,
    words: &str,
) -> Option<String> {
    let factor = series.figure.unit.factor;
    let unit = Unit::of_series(series);
    let points = all
        .iter()
        .enumerate()
        .map(|(i, one)| {
            let (_, sd) = crate::stats::summary::mean_and_sd(&one.values).ok()?;
            Some(Point {
                x: (one.index + 1) as f64,
                y: sd / factor,
                href: one.href.clone(),
                title: format!("{}: {}", one.of, unit.width(sd)),
                look: match chart.spread_beyond.contains(&i) {
                    true => Look::Marked,
                    false => Look::Plain,
                },
            })
        })
        .collect::<Option<Vec<_>>>()?;
    let level = |label: &str, y: f64, kind| Level {
        y: y / factor,
        label: format!("{label} {}", number::significant(y / factor, 3)),
        kind,
    };
    chart::svg(&Chart {
        id: "within-chart".into(),
        title: say!("{series}: spread within each", series = series.title()),
        description: words.into(),
        caption: words.into(),
        x_label: say!("place in the order of production").into(),
        y_label: number::with_unit("s", &series.figure.unit),
        points,
        levels: vec![
            level(say!("mean"), chart.spread, LevelKind::Mean),
            level(say!("upper"), chart.spread_limits.1, LevelKind::Control),
        ],
        joined: true,
        ..Chart::default()
    })
    .ok()
}
