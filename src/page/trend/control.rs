//! The control chart of a characteristic, and what its order says.

use super::{Book, Figure, Section, Unit, chance, left_out, number_table};
use crate::{
    chart::{self, Chart, Event, Level, LevelKind, Look, Point},
    ground::{number, words::inside},
    trend::{
        Series, Standing,
        analysis::{Analysis, CONFIDENCE, Control, FIRM, LEAST, LEVEL_OF_ORDER, LOOKED_FOR, Shape},
    },
};

/// How each value of the picture looks, in order.
fn looks(series: &Series, control: Option<&Control>) -> Vec<Look> {
    let pointed_out: std::collections::BTreeSet<usize> = control
        .into_iter()
        .flat_map(|control| {
            let ends = control.patterns.iter().map(|(end, _)| *end);
            control.beyond.iter().copied().chain(ends)
        })
        .collect();
    let drawn = series.members.iter().enumerate().skip(left_out(series));
    drawn
        .map(|(i, member)| match () {
            () if member.standing != Standing::Counts => Look::Aside,
            () if pointed_out.contains(&i) => Look::Marked,
            () => Look::Plain,
        })
        .collect()
}

/// The course of the values in a line of the list; none where they are too few to speak of limits, since a line through
/// them would.
pub(super) fn course(series: &Series, analysis: &Analysis) -> String {
    let Some(control) = &analysis.control else {
        return String::new();
    };
    let window = window(series, Some(control));
    let drawn = series.members.iter().skip(left_out(series));
    let values: Vec<(f64, Look)> = drawn
        .map(|member| member.value)
        .zip(looks(series, Some(control)))
        .collect();
    let limits: Vec<f64> = [series.limits.lower, series.limits.upper]
        .into_iter()
        .flatten()
        .collect();
    chart::spark(&values, control.band, &limits, window)
}

fn points(book: &Book, path: &str, series: &Series, control: Option<&Control>) -> Vec<Point> {
    let unit = Unit::of_series(series);
    let window = window(series, control);
    series
        .members
        .iter()
        .enumerate()
        .skip(left_out(series))
        .zip(looks(series, control))
        .map(|((i, member), look)| Point {
            x: (i + 1) as f64,
            y: unit.of(member.value.clamp(window.0, window.1)),
            href: match member.past {
                Some(_) => String::new(),
                None => book.figure_href(path, &member.id),
            },
            title: format!(
                "{}: {}{}{}",
                member.of,
                member.shown,
                aside_words(&member.standing),
                match member.value < window.0 || member.value > window.1 {
                    true => say!(", drawn at the edge of the picture"),
                    false => "",
                }
            ),
            look,
        })
        .collect()
}

/// What the picture shows: the values that count and the limits of control. What stands aside far from
/// them is drawn at its edge, so that it does not flatten the others.
fn window(series: &Series, control: Option<&Control>) -> (f64, f64) {
    let counted = series.setting().map(|(_, member)| member.value);
    let band = control.map(|control| [control.band.0, control.band.1]);
    let (low, high) = counted
        .chain(band.into_iter().flatten())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
            (low.min(x), high.max(x))
        });
    match low <= high {
        true => (low - 0.25 * (high - low), high + 0.25 * (high - low)),
        false => (f64::NEG_INFINITY, f64::INFINITY),
    }
}

fn aside_words(standing: &Standing) -> String {
    match standing {
        Standing::Counts => String::new(),
        Standing::Repeated => say!(", measured again later").into(),
        Standing::NotAccepted => say!(", a repeated test that was not accepted").into(),
        Standing::Explained(deviation) => say!(", see {deviation}", deviation = deviation),
    }
}

/// Where lots, rolls and dossiers change, and where instruments were calibrated.
fn events(book: &Book, series: &Series) -> Vec<Event> {
    let mut events = Vec::new();
    let by = match series
        .members
        .iter()
        .any(|member| member.by.get("lot").is_some())
    {
        true => "lot",
        false => "roll",
    };
    let mut last: Option<&str> = None;
    for (i, member) in series.members.iter().enumerate() {
        let own = member.by.get(by);
        if own != last {
            events.push(Event {
                x: i as f64 + 0.5,
                label: own.unwrap_or_default().to_owned(),
                kind: LevelKind::Event,
            });
            last = own;
        }
    }
    // Every unit a roll or a lot of its own: then lines would say nothing.
    if events.len() > 12 || events.len() == series.members.len() {
        events.clear();
    }
    for (when, station) in &series.calibrated {
        let after = series
            .members
            .iter()
            .position(|member| member.tested.is_some_and(|tested| tested >= *when));
        if let Some(after) = after.filter(|after| *after > 0) {
            events.push(Event {
                x: after as f64 + 0.5,
                label: say!("{station} calibrated", station = station),
                kind: LevelKind::Event,
            });
        }
    }
    let pairs = || (1..).zip(series.members.array_windows());
    for (n, [before, now]) in pairs() {
        let laid_down = [before, now].map(|member| member.by.get("specification"));
        if let [Some(before), Some(now)] = laid_down
            && before != now
        {
            events.push(Event {
                x: f64::from(n) + 0.5,
                label: now.to_owned(),
                kind: LevelKind::Event,
            });
        }
    }
    for (n, [before, now]) in pairs() {
        if now.past != before.past {
            let name = match now.past.and_then(|past| book.dossier.history.get(past)) {
                Some(past) => past.title.clone(),
                None => say!("this dossier").into(),
            };
            events.push(Event {
                x: f64::from(n) + 0.5,
                label: name,
                kind: LevelKind::Limit,
            });
        }
    }
    let from = left_out(series) as f64;
    events.retain(|event| event.x >= from);
    events
}

fn level(unit: &Unit, name: &str, si: f64, kind: LevelKind) -> Level {
    Level {
        y: unit.of(si),
        label: format!("{name} {}", unit.bare(si)),
        kind,
    }
}

pub(super) fn control(book: &Book, path: &str, series: &Series, analysis: &Analysis) -> Section {
    let unit = Unit::of_series(series);
    let n = analysis.values.len();
    let mut levels = Vec::new();
    let mut figures = Vec::new();
    let words = match &analysis.control {
        None => say!(
            "{n} values: too few for control limits, which need {what} that differ.",
            n = n,
            what = LEAST
        ),
        Some(control) => {
            levels.push(level(
                &unit,
                say!("centre"),
                control.centre,
                LevelKind::Mean,
            ));
            levels.push(level(
                &unit,
                say!("upper"),
                control.band.1,
                LevelKind::Control,
            ));
            levels.push(level(
                &unit,
                say!("lower"),
                control.band.0,
                LevelKind::Control,
            ));
            control_words(series, analysis, control)
        }
    };
    let limits = [
        (say!("limit"), series.limits.lower),
        (say!("limit"), series.limits.upper),
    ];
    // A limit far away would flatten the chart: it is named in words instead.
    let mut far = String::new();
    match &analysis.control {
        // A few values say something beside their limit only.
        None => {
            let known = limits.into_iter();
            let known = known.filter_map(|(name, limit)| Some((name, limit?)));
            levels.extend(known.map(|(name, limit)| level(&unit, name, limit, LevelKind::Limit)));
        }
        Some(control) => {
            let room = 1.5 * (control.band.1 - control.band.0);
            let seen = window(series, Some(control));
            for (name, limit) in limits {
                match limit {
                    Some(limit)
                        if (limit - control.centre).abs() <= room
                            || (seen.0..=seen.1).contains(&limit) =>
                    {
                        levels.push(level(&unit, name, limit, LevelKind::Limit));
                    }
                    Some(limit) => {
                        far = say!(
                            " The limit of {limit} lies outside the picture.",
                            limit = unit.show(limit)
                        )
                    }
                    None => {}
                }
            }
        }
    }
    if let Some((mean, sd)) = analysis.mean_and_sd {
        figures.push(Figure {
            anchor: "number-mean",
            name: say!("mean").into(),
            value: unit.show(mean),
            bounds: crate::stats::summary::mean_interval(&analysis.values, CONFIDENCE)
                .map_or(String::new(), |span| unit.span(span)),
            n,
            method: say!("Student's t (NIST/SEMATECH e-Handbook 1.3.5.2)"),
        });
        figures.push(Figure {
            anchor: "number-sd",
            name: say!("standard deviation of all").into(),
            value: unit.width(sd),
            // One value far out makes them of whatever size.
            bounds: match analysis.shape {
                Shape::NotNormal(_) => say!("none holds: not normal").into(),
                _ => crate::stats::summary::sd_interval(&analysis.values, CONFIDENCE).map_or(
                    String::new(),
                    |(low, high)| {
                        say!(
                            "{low} to {high}",
                            low = unit.width(low),
                            high = unit.width(high)
                        )
                    },
                ),
            },
            n,
            method: say!("chi-squared, for normal values (e-Handbook 1.3.5.8)"),
        });
    }
    if let Some(chart) = &analysis.individuals {
        let setting = series.setting().count();
        figures.push(Figure {
            anchor: "number-range",
            name: say!("mean moving range; its upper limit").into(),
            value: format!(
                "{}; {}",
                unit.width(chart.mean_range),
                unit.width(chart.range_limit)
            ),
            bounds: String::new(),
            n: setting,
            method: say!("moving ranges of two (e-Handbook 6.3.2.2)"),
        });
        figures.push(Figure {
            anchor: "number-limits",
            name: say!("control limits of these values").into(),
            value: unit.span(chart.limits),
            bounds: String::new(),
            n: setting,
            method: say!("mean ± 3 × mean moving range / d₂, d₂ = 2/√π"),
        });
    }
    if let Some(frozen) = &series.frozen {
        figures.push(Figure {
            anchor: "number-frozen",
            name: say!("control limits laid down").into(),
            value: unit.span(frozen.band),
            bounds: String::new(),
            n: 0,
            method: say!("phase 2: earlier data, as the specification lays them down"),
        });
    }
    let words = format!("{words}{far}");
    let section = section(book, path, series, analysis, (levels, words));
    match figures.is_empty() {
        true => section,
        false => section.table(number_table(say!("Numbers of the control chart"), figures)),
    }
}

/// The picture, with what is said of it.
fn section(
    book: &Book,
    path: &str,
    series: &Series,
    analysis: &Analysis,
    (levels, words): (Vec<Level>, String),
) -> Section {
    let unit = &series.figure.unit;
    let heading = match &analysis.control {
        Some(_) => say!("Control chart"),
        None => say!("Values in the order of production"),
    };
    let mut section = Section::new("chart", heading);
    if let Some(frozen) = &series.frozen {
        section.html.push(say!(
            "<p>Limits are {basis}: <a href=\"{at}\">{at2}</a>.</p>",
            basis = chart::escape(&frozen.basis),
            at = book.place_href(path, &frozen.at),
            at2 = chart::escape(&frozen.at.to_string())
        ));
    }
    let drawn = chart::svg(&Chart {
        id: "control-chart".into(),
        title: series.title(),
        description: say!(
            "{words} Each point leads to its figure; the table at the end of the page lists the same values.",
            words = words
        ),
        caption: words.clone(),
        x_label: say!("place in the order of production").into(),
        y_label: match unit.print {
            "" => inside(say!(series.figure.name)),
            print => format!("{}, {print}", inside(say!(series.figure.name))),
        },
        points: points(book, path, series, analysis.control.as_ref()),
        levels,
        events: events(book, series),
        joined: true,
        ..Chart::default()
    });
    // The picture says it below itself.
    match drawn {
        Ok(drawn) => section.drawings.push(drawn),
        Err(_) => section = section.say(&words),
    }
    section
}

fn control_words(series: &Series, analysis: &Analysis, control: &Control) -> String {
    let n = analysis.values.len();
    let name = |i: &usize| series.member(*i).of.clone();
    let kind = match (control.frozen, series.setting().count() < FIRM) {
        (true, _) => say!("frozen control limits"),
        (false, true) => say!("control limits, provisional with fewer than 20 values"),
        (false, false) => say!("control limits"),
    };
    let mut said = match &control.beyond[..] {
        [] => say!("All {n} values lie within the {kind}", n = n, kind = kind),
        [one] => say!(
            "One of {n} values lies beyond the {kind}: {beyond}",
            n = n,
            kind = kind,
            beyond = name(one)
        ),
        several => {
            let m = several.len();
            let names: Vec<String> = several.iter().take(6).map(name).collect();
            say!(
                "{m} of {n} values lie beyond the {kind}: {names}",
                m = m,
                n = n,
                kind = kind,
                names = names.join(", ")
            )
        }
    };
    for pattern in LOOKED_FOR {
        let found = control
            .patterns
            .iter()
            .filter(|(_, own)| *own == pattern && pattern.length() > 1);
        if let Some((first, _)) = found.clone().next() {
            said.push_str(&say!(
                "; {pattern} ({found} times, first ending at {first})",
                pattern = pattern.words(),
                found = found.count(),
                first = name(first)
            ));
        }
    }
    format!("{said}.")
}

pub(super) fn in_order(series: &Series, analysis: &Analysis) -> Section {
    let unit = Unit::of_series(series);
    let n = analysis.values.len();
    let section = Section::new("drift", say!("Drift and shifts"));
    let (Some((trend, slope)), Some((rank, shift))) = (&analysis.trend, &analysis.shift) else {
        return section.say(&say!(
            "{n} values: too few, or all equal; {what} that differ are needed.",
            n = n,
            what = LEAST
        ));
    };
    let per = |si: f64| unit.width(si);
    let trend_words = match trend.p < LEVEL_OF_ORDER {
        false => say!("No steady rise or fall stands out from chance").to_owned(),
        true => say!(
            "The values {slope} from one to the next by {slope2} ({bounds} to {bounds2}): {slope3} over the {n} values",
            slope = if slope.slope > 0.0 {
                say!("rise")
            } else {
                say!("fall")
            },
            slope2 = per(slope.slope.abs()),
            bounds = per(slope.bounds.0.abs().min(slope.bounds.1.abs())),
            bounds2 = per(slope.bounds.0.abs().max(slope.bounds.1.abs())),
            slope3 = per(slope.slope.abs() * (n as f64 - 1.0)),
            n = n
        ),
    };
    let at = analysis.indices.get(rank.after).or(analysis.indices.last());
    let first = at.map_or("", |i| &series.member(*i).of);
    let shift_words = match rank.counted < LEVEL_OF_ORDER {
        false => say!("no single shift stands out").to_owned(),
        true => say!(
            "the level changes most at {first}, from {means} to {means2}",
            first = first,
            means = unit.show(shift.means.0),
            means2 = unit.show(shift.means.1)
        ),
    };
    let mut figures = vec![
        Figure {
            anchor: "number-trend",
            name: say!("slope from one to the next").into(),
            value: unit.width(slope.slope),
            bounds: say!(
                "{bounds} to {bounds2}",
                bounds = unit.width(slope.bounds.0),
                bounds2 = unit.width(slope.bounds.1)
            ),
            n,
            method: say!("median of the slopes of all pairs (Theil and Sen)"),
        },
        Figure {
            anchor: "number-trend-chance",
            name: say!("rise or fall by chance").into(),
            value: chance(trend.p),
            bounds: String::new(),
            n,
            method: say!("signs of all pairs (Mann and Kendall)"),
        },
        Figure {
            anchor: "number-shift",
            name: say!("shift by chance").into(),
            value: chance(rank.counted),
            bounds: String::new(),
            n,
            method: say!("ranks (Pettitt 1979)"),
        },
    ];
    if let Some(r) = analysis.neighbours {
        figures.push(Figure {
            anchor: "number-neighbours",
            name: say!("correlation of neighbours").into(),
            value: number::fixed(r, 2),
            bounds: say!(
                "±{what} is chance",
                what = number::fixed(1.96 / libm::sqrt(n as f64), 2)
            ),
            n,
            method: say!("lag 1 autocorrelation"),
        });
    }
    let signals = |found: &Option<Vec<usize>>| match found.as_deref() {
        None => "–".to_owned(),
        Some([]) => say!("none").to_owned(),
        Some(all @ [first, ..]) => say!(
            "{count}, first at {of}",
            count = all.len(),
            of = series.member(*first).of
        ),
    };
    figures.push(Figure {
        anchor: "number-weighted",
        name: say!("weighted means beyond their limits").into(),
        value: signals(&analysis.weighted),
        bounds: String::new(),
        n,
        method: say!("weight 0.2, limits at 3 (e-Handbook 6.3.2.4), values clipped at the control limits: slow drift"),
    });
    figures.push(Figure {
        anchor: "number-cumulative",
        name: say!("cumulative sums above their limit, without a new start").into(),
        value: signals(&analysis.cumulative),
        bounds: String::new(),
        n,
        method: say!("slack 0.5, limit 5 (e-Handbook 6.3.2.3), values clipped at the control limits: small lasting shifts"),
    });
    let together = match analysis.together {
        1 => String::new(),
        n => say!(
            " Rise, fall and shift were looked for in means of {n} neighbours.",
            n = n
        ),
    };
    section
        .say(&format!("{trend_words}; {shift_words}.{together}"))
        .table(number_table(say!("Numbers of the drift"), figures))
}
