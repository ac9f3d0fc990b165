//! Whether a characteristic holds its limits with room to spare.

use super::{Figure, Section, Unit, number_table, percent};
use crate::{
    chart::{self, Chart, Curve, Event, LevelKind, Look, Point},
    ground::number,
    stats::capability::Capability,
    trend::{
        Series,
        analysis::{self, Analysis, COVERAGE, LEAST, Shape},
    },
};

pub(super) fn population(series: &Series, analysis: &Analysis) -> Section {
    let unit = Unit::of_series(series);
    let n = analysis.all.len();
    let section = Section::new("capability", say!("Capability"));
    let limits: Vec<f64> = series
        .limits
        .lower
        .into_iter()
        .chain(series.limits.upper)
        .collect();
    if limits.is_empty() {
        return section.say(say!(
            "No limit is laid down for it: there is nothing to be capable of."
        ));
    }
    let (Some(result), Some((beyond, elements, bound))) =
        (&analysis.capability, analysis.beyond_limit)
    else {
        return section.say(&say!(
            "{n} values: too few; {what} are needed.",
            n = n,
            what = LEAST
        ));
    };
    let mut figures = vec![Figure {
        anchor: "number-beyond",
        name: say!("elements of which any test, the first or a later one, was beyond the limit")
            .into(),
        value: say!(
            "{beyond} of {elements}",
            beyond = beyond,
            elements = elements
        ),
        bounds: say!("at most {bound} of the population", bound = percent(bound)),
        n: elements,
        method: say!("Clopper and Pearson, one-sided; no distribution assumed"),
    }];
    let words = match result {
        Err(why) => {
            let free = analysis.free.map_or(String::new(), |share| {
                say!(" What holds without any distribution: with 95 % confidence at least {share} of the population lie {series}.", share = percent(share), series = inside(series))
            });
            say!("No index is given: {why}.{free}", why = why, free = free)
        }
        Ok(capability) => {
            index_figures(capability, n, &mut figures);
            capability_words(series, analysis, capability)
        }
    };
    if let Some(interval) = analysis.tolerance {
        let ends: Vec<String> = [(say!("from"), interval.lower), (say!("to"), interval.upper)]
            .iter()
            .filter_map(|(word, end)| Some(format!("{word} {}", unit.show((*end)?))))
            .collect();
        figures.push(Figure {
            anchor: "number-tolerance",
            name: say!(
                "{percent} of the population lie",
                percent = percent(COVERAGE)
            ),
            value: ends.join(" "),
            bounds: format!("k = {}", number::fixed(interval.k, 3)),
            n,
            method: say!(
                "tolerance interval of normal values, 95 % confidence (e-Handbook 7.2.6.3)"
            ),
        });
    }
    if let Some(share) = analysis.free {
        figures.push(Figure {
            anchor: "number-free",
            name: say!("share of the population {series}", series = inside(series)),
            value: say!("at least {share}", share = percent(share)),
            bounds: String::new(),
            n,
            method: say!("order statistics, no distribution assumed (Wilks 1941)"),
        });
    }
    let mut section = section.say(&words);
    section.drawings.extend(histogram(series, analysis, &words));
    section.drawings.extend(probability_plot(series, analysis));
    section.table(number_table(say!("Numbers of capability"), figures))
}

/// Which ends of the sample the statement without a distribution speaks of: those on the side of a limit.
fn inside(series: &Series) -> &'static str {
    match (series.limits.lower, series.limits.upper) {
        (Some(_), None) => say!("not below the smallest value found"),
        (None, _) => say!("not above the largest value found"),
        (Some(_), Some(_)) => say!("between the smallest and the largest value found"),
    }
}

fn index_figures(capability: &Capability, n: usize, figures: &mut Vec<Figure>) {
    let index = |n: f64| number::fixed(n, 2);
    if let (Some(both), Some((low, high))) = (capability.indices.both, capability.both) {
        figures.push(Figure {
            anchor: "number-pp",
            name: say!("Pp").into(),
            value: index(both),
            bounds: say!("{low} to {high}", low = index(low), high = index(high)),
            n,
            method: say!("chi-squared, exact for normal values (ISO 22514-2, from memory)"),
        });
    }
    figures.push(Figure {
        anchor: "number-ppk",
        name: say!("Ppk").into(),
        value: index(capability.indices.nearest),
        bounds: say!(
            "{nearest} to {nearest2}; one-sided at least {proven}",
            nearest = index(capability.nearest.0),
            nearest2 = index(capability.nearest.1),
            proven = index(capability.proven)
        ),
        n,
        method: say!(
            "two-sided after Bissell 1990 (from memory); one-sided exact by the non-central t"
        ),
    });
}

fn capability_words(series: &Series, analysis: &Analysis, capability: &Capability) -> String {
    let unit = Unit::of_series(series);
    let limit = match capability.indices.upper {
        Some(upper) if upper <= capability.indices.nearest => series.limits.upper,
        _ => series.limits.lower,
    };
    let limit = limit.map_or(String::new(), |limit| unit.show(limit));
    let few = match analysis.all.len() {
        n if n < 30 => say!(
            " With {n} values the bound is what counts, not the index (30 and more are usual; common practice, no source).",
            n = n
        ),
        _ => String::new(),
    };
    let unstable = match analysis
        .control
        .as_ref()
        .is_some_and(|control| !control.beyond.is_empty())
        || analysis.drifts()
    {
        true => {
            say!(
                " The values are not shown to be stable: the index describes what was made, and promises nothing."
            )
        }
        false => "",
    };
    say!(
        "The limit of {limit} lies {nearest} standard deviations from the mean (Ppk {nearest2}); with 95 % confidence Ppk is at least {proven}.{few}{unstable}",
        limit = limit,
        nearest = number::fixed(3.0 * capability.indices.nearest, 1),
        nearest2 = number::fixed(capability.indices.nearest, 2),
        proven = number::fixed(capability.proven, 2),
        few = few,
        unstable = unstable
    )
}

/// Values in classes, the limits, and a normal curve where nothing speaks against it.
fn histogram(series: &Series, analysis: &Analysis, words: &str) -> Option<String> {
    let unit = Unit::of_series(series);
    let (mean, sd) = crate::stats::summary::mean_and_sd(&analysis.all)
        .ok()
        .filter(|(_, sd)| *sd > 0.0)?;
    let shown: Vec<f64> = analysis.all.iter().map(|x| unit.of(*x)).collect();
    let (low, high) = shown
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
            (low.min(*x), high.max(*x))
        });
    let classes = libm::ceil(libm::sqrt(shown.len() as f64)).clamp(4.0, 24.0);
    let width = (high - low) / classes;
    let mut outline = vec![(low, 0.0)];
    for i in 0..classes as usize {
        let from = low + i as f64 * width;
        let last = i + 1 == classes as usize;
        let inside = |x: &&f64| **x >= from && (**x < from + width || last);
        let count = shown.iter().filter(inside).count() as f64;
        outline.extend([(from, count), (from + width, count)]);
    }
    outline.push((high, 0.0));
    let mut curves = vec![Curve {
        points: outline,
        label: String::new(),
        kind: LevelKind::Course,
    }];
    if analysis.shape != Shape::Unknown && !matches!(analysis.shape, Shape::NotNormal(_)) {
        let factor = series.figure.unit.factor;
        curves.push(Curve {
            points: analysis::bell(unit.of(mean), sd / factor, shown.len() as f64 * width),
            label: say!("normal").into(),
            kind: LevelKind::Mean,
        });
    }
    let events = series
        .limits
        .lower
        .into_iter()
        .chain(series.limits.upper)
        .map(|limit| Event {
            x: unit.of(limit),
            label: say!("limit {limit}", limit = unit.bare(limit)),
            kind: LevelKind::Limit,
        })
        .collect();
    chart::svg(&Chart {
        id: "capability-picture".into(),
        title: say!("{series}: values in classes", series = series.title()),
        description: say!(
            "{words} The values are listed in the table at the end of the page.",
            words = words
        ),
        caption: words.into(),
        x_label: number::with_unit(series.figure.symbol, &series.figure.unit),
        y_label: say!("values").into(),
        curves,
        events,
        ..Chart::default()
    })
    .ok()
}

/// Values against the quantiles of a normal distribution: straight where they are normal.
fn probability_plot(series: &Series, analysis: &Analysis) -> Option<String> {
    let unit = Unit::of_series(series);
    let (mean, sd) = crate::stats::summary::mean_and_sd(&analysis.all)
        .ok()
        .filter(|(_, sd)| *sd > 0.0)?;
    let plotted = analysis::probability_plot(&analysis.all);
    let reach = plotted.last()?.0;
    let points = plotted
        .into_iter()
        .map(|(z, value)| Point {
            x: z,
            y: unit.of(value),
            href: String::new(),
            title: unit.show(value),
            look: Look::Plain,
        })
        .collect();
    let caption = match analysis.shape {
        Shape::NotNormal(_) => {
            say!(
                "Normal probability plot: the values bend away from the line of a normal distribution."
            )
        }
        _ => say!("Normal probability plot: values of a normal distribution lie along the line."),
    };
    chart::svg(&Chart {
        id: "probability-plot".into(),
        title: say!("{series}: normal probability plot", series = series.title()),
        description: caption.into(),
        caption: caption.into(),
        x_label: say!("standard deviations of a normal distribution").into(),
        y_label: number::with_unit(series.figure.symbol, &series.figure.unit),
        points,
        curves: vec![Curve {
            points: vec![
                (-reach, unit.of(mean - reach * sd)),
                (reach, unit.of(mean + reach * sd)),
            ],
            label: say!("normal").into(),
            kind: LevelKind::Mean,
        }],
        ..Chart::default()
    })
    .ok()
}
