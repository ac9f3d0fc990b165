//! A characteristic by roll, lot, station and operator.

use super::{Book, Cell, Section, Table, Unit, capital, chance, left_out, percent};
use crate::{
    chart::{self, Chart, Curve, Event, LevelKind, Look, Point},
    ground::number,
    trend::{
        Series,
        groups::{Comparison, Group},
    },
};

pub(super) fn beside(
    book: &Book,
    path: &str,
    series: &Series,
    comparisons: &[Comparison],
) -> Section {
    let mut section = Section::new("groups", say!("By roll, lot, station, operator"));
    if comparisons.is_empty() {
        return section.say(say!(
            "All values come from one of each: there is nothing to compare."
        ));
    }
    let mut table = Table::new(
        say!("Groups"),
        &[
            say!("by"),
            say!("group"),
            "n",
            say!("mean"),
            say!("bounds of the mean (95 %)"),
            say!("standard deviation"),
        ],
    );
    let unit = Unit::of_series(series);
    for comparison in comparisons {
        let words = comparison_words(&unit, comparison);
        section = section.say(&words);
        section
            .drawings
            .extend(group_chart(book, path, series, comparison, &words));
        for group in &comparison.groups {
            let mut row = vec![
                Cell::text(comparison.by),
                book.thing(path, &group.name),
                Cell::text(group.values.len().to_string()),
            ];
            row.extend(match group.summary() {
                Some((mean, sd, bounds)) => {
                    [unit.show(mean), unit.span(bounds), unit.width(sd)].map(Cell::text)
                }
                None => [
                    group
                        .values
                        .first()
                        .map_or(String::new(), |x| unit.show(*x)),
                    say!("one value").into(),
                    String::new(),
                ]
                .map(Cell::text),
            });
            table.rows.push(row);
        }
    }
    section.table(table)
}

fn comparison_words(unit: &Unit, comparison: &Comparison) -> String {
    let by = capital(say!(comparison.by));
    let (how, test) = match &comparison.test {
        Ok(found) => found,
        Err(why) => return say!("{by}: not compared, {why}.", by = by, why = why),
    };
    let split = comparison.components.map_or(String::new(), |components| {
        let all = components.within + components.between();
        let weak = match comparison.groups.len() < 5 {
            true => say!(", hardly determined by so few groups"),
            false => "",
        };
        say!(
            " {all} of the variance lies between them{weak}.",
            all = percent(components.between() / all),
            weak = weak
        )
    });
    let widest = comparison.extremes().map_or(String::new(), |(low, high)| {
        let mean = |group: &Group| group.values.iter().sum::<f64>() / group.values.len() as f64;
        say!(
            " Lowest mean {low} ({name}), highest {high} ({name2}).",
            low = unit.show(mean(low)),
            name = low.name,
            high = unit.show(mean(high)),
            name2 = high.name
        )
    });
    let rough = match comparison.rough() {
        true => say!(" A group has fewer than five values: the probability is rough."),
        false => "",
    };
    let said = match comparison.differs() {
        true => say!("the groups differ by more than chance"),
        false => {
            say!("no difference stands out from chance, which does not prove that there is none")
        }
    };
    say!(
        "{by}: {said} ({p}).{widest}{split} Method: {how}.{rough}",
        by = by,
        said = said,
        p = chance(test.p),
        widest = widest,
        split = split,
        how = how.words(),
        rough = rough
    )
}

fn group_chart(
    book: &Book,
    path: &str,
    series: &Series,
    comparison: &Comparison,
    words: &str,
) -> Option<String> {
    if left_out(series) > 0
        || comparison.groups.len() > 12
        || comparison.groups.iter().all(|group| group.values.len() < 2)
    {
        return None;
    }
    let unit = Unit::of_series(series);
    let mut points = Vec::new();
    let (mut curves, mut events) = (Vec::new(), Vec::new());
    for (i, group) in comparison.groups.iter().enumerate() {
        let x = i as f64 + 1.0;
        events.push(Event {
            x: x - 0.45,
            label: group.name.clone(),
            kind: LevelKind::Event,
        });
        for (value, index) in group.values.iter().zip(&group.indices) {
            let member = series.member(*index);
            points.push(Point {
                x,
                y: unit.of(*value),
                href: match member.past {
                    Some(_) => String::new(),
                    None => book.figure_href(path, &member.id),
                },
                title: format!("{}: {}", member.of, member.shown),
                look: Look::Plain,
            });
        }
        if let Some((mean, _, (low, high))) = group.summary() {
            for (si, kind) in [
                (mean, LevelKind::Mean),
                (low, LevelKind::Control),
                (high, LevelKind::Control),
            ] {
                curves.push(Curve {
                    points: vec![(x - 0.2, unit.of(si)), (x + 0.2, unit.of(si))],
                    label: String::new(),
                    kind,
                });
            }
        }
    }
    chart::svg(&Chart {
        id: format!("groups-{by}", by = comparison.by.replace(' ', "-")),
        title: say!(
            "{name} by {by}",
            name = say!(series.figure.name),
            by = comparison.by
        ),
        description: say!("{words} Strokes: mean and its 95 % bounds.", words = words),
        caption: say!(
            "{name} by {by}: each point a value; strokes are the mean and its 95 % bounds.",
            name = say!(series.figure.name),
            by = comparison.by
        ),
        x_label: comparison.by.into(),
        named: true,
        y_label: number::with_unit(series.figure.symbol, &series.figure.unit),
        points,
        curves,
        events,
        ..Chart::default()
    })
    .ok()
}
