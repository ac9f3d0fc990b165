//! What studies of repeated treatment support: courses, lines, bounds, the claim.

use super::{Book, Cell, Section, Table};
use crate::{
    chart::{self, Chart, Curve, Event, Level, LevelKind, Look, Point},
    figure::Worked,
    ground::{name::safe, number, unit::BAR},
    record::{Record, kinds::endurance_study::EnduranceStudy},
    stats::{
        endurance::{self, Bounded, Course, Limit, Of, Pooling, Question},
        life, regression,
    },
};

/// A study with what its figures stand on.
struct Studied<'a> {
    record: &'a Record,
    study: &'a EnduranceStudy,
    courses: Vec<(String, Course)>,
    least: f64,
    confidence: f64,
    claimed: Option<f64>,
}

fn numbers(worked: &Worked, symbol: &str) -> Vec<f64> {
    let term = worked.terms.iter().find(|term| term.input.symbol == symbol);
    term.map_or(Vec::new(), |term| term.values.to_vec())
}

/// Reads back what the figures of a study used, so that a picture never shows other numbers than the figures.
fn studied<'a>(
    book: &Book<'a>,
    record: &'a Record,
    study: &'a EnduranceStudy,
) -> Option<Studied<'a>> {
    let graph = &book.dossier.graph;
    let mut courses = Vec::new();
    let (mut least, mut confidence) = (None, None);
    for element in study.elements.iter() {
        let computed = graph.get("element-cycles-supported", &record.id, element)?;
        let worked = computed.worked.as_ref().ok()?;
        least = least.or(numbers(worked, "P_min").first().copied());
        confidence = confidence.or(numbers(worked, "1−α").first().copied());
        courses.push((
            element.to_string(),
            Course {
                x: numbers(worked, "c"),
                y: numbers(worked, "P"),
            },
        ));
    }
    let claimed = graph
        .get("cycles-supported", &record.id, "")
        .and_then(|computed| computed.judgement.as_ref()?.limit.low);
    Some(Studied {
        record,
        study,
        courses,
        least: least?,
        confidence: confidence?,
        claimed,
    })
}

/// One section a study.
pub fn sections(book: &Book, path: &str) -> Vec<Section> {
    let studies = book.dossier.plant.records().endurance_studys();
    studies
        .map(|(record, study)| {
            let mut section = match studied(book, record, study) {
                Some(studied) => section(book, path, &studied),
                None => empty(record, study)
                    .say(say!(
                        "No line is laid: not every element has a number of supported cycles."
                    ))
                    .say(&failures(study, study.confidence.si)),
            };
            section.figures = book
                .view
                .figures_at(record.index)
                .iter()
                .map(|computed| super::figure::view(book, path, computed, &record.id))
                .collect();
            section
        })
        .collect()
}

fn empty(record: &Record, study: &EnduranceStudy) -> Section {
    let id = &*record.id;
    let title = format!("{id}: {}", super::usual(&study.treatment));
    Section::new(&format!("study-{id}", id = safe(id)), &title)
}

fn section(book: &Book, path: &str, studied: &Studied) -> Section {
    let id = &*studied.record.id;
    let mut section = empty(studied.record, studied.study);
    let courses: Vec<Course> = studied
        .courses
        .iter()
        .map(|(_, course)| course.clone())
        .collect();
    let pool = endurance::poolability(&courses);
    let lines = match endurance::lines(&courses) {
        Ok(lines) => lines,
        Err(why) => return section.say(&say!("No line is laid: {why}.", why = why)),
    };
    let figure = book.dossier.graph.get("cycles-supported", id, "");
    let supports = figure
        .and_then(|computed| computed.quantity())
        .map(|quantity| quantity.value);
    let model = pool
        .as_ref()
        .map_or(Pooling::SeparateLines, |pool| pool.model);
    let words = words(studied, supports);
    section = section.say(&words);
    section
        .drawings
        .extend(drawing(book, path, studied, &lines, supports, &words));
    section = section.say(&match &pool {
        Ok(pool) => say!("May the elements share one line? Slopes: F = {slopes}, p = {slopes2}; starts: F = {starts}, p = {starts2}; level 0.25 after ICH Q1E (from memory): {model}. The figure stands on each element's own line whatever this test says, because repeated measurements of one element are not independent of each other; the other models stand beside it.", slopes = number::significant(pool.slopes.0, 3), slopes2 = number::fixed(pool.slopes.1, 3), starts = number::significant(pool.starts.0, 3), starts2 = number::fixed(pool.starts.1, 3), model = model.words()),
        Err(why) => say!("Whether the elements may share one line cannot be tested: {why}.", why = why),
    });
    if let Some(slope) = robust(studied) {
        section = section.say(&slope);
    }
    section = section.say(say!("A bound that meets its limit far beyond the cycles that were tested says that the data do not limit the number, and supports no claim out there: the figure stops at what was reached."));
    section = section.say(&failures(studied.study, studied.confidence));
    section.table(models(studied, &courses))
}

fn words(studied: &Studied, supports: Option<f64>) -> String {
    let least = number::with_unit(&number::significant(BAR.of_si(studied.least), 4), &BAR);
    let tested = longest(studied);
    let claim = studied
        .claimed
        .map_or(say!("nothing is claimed").to_owned(), |claim| {
            say!("{claim} are claimed", claim = number::fixed(claim, 0))
        });
    match supports {
        Some(n) => {
            let stopped = failed_elements(studied.study)
                .find(|(_, sound, _)| *sound as f64 == n)
                .map(|(element, _, found)| {
                    say!(
                        "because {element} was found failed at the next checkpoint, {found}",
                        element = element,
                        found = found
                    )
                });
            let why = match (stopped, n >= tested) {
                (Some(stopped), _) => stopped,
                (None, true) => say!("and no data reach further").into(),
                (None, false) => {
                    say!("where the bound of the weakest element meets the limit").into()
                }
            };
            say!(
                "The data support {n} cycles against a bubble point of at least {least} ({confidence} one-sided confidence for the mean of each element), {why}; {claim}.",
                n = number::fixed(n, 0),
                least = least,
                confidence = number::with_unit(
                    &number::fixed(100.0 * studied.confidence, 0),
                    &crate::ground::unit::PERCENT
                ),
                why = why,
                claim = claim
            )
        }
        None => say!(
            "The data support no number of cycles against {least}; {claim}.",
            least = least,
            claim = claim
        ),
    }
}

/// Elements that failed: the last checkpoint at which each was sound, and the one at which it was not.
fn failed_elements(study: &EnduranceStudy) -> impl Iterator<Item = (&str, u64, u64)> {
    study.elements.iter().filter_map(|id| {
        let own = study.of(id);
        let failed = own.iter().find(|point| !point.intact.value)?;
        let (sound, _) = study.reached(id);
        Some((&*id.text, sound, failed.cycle.value))
    })
}

fn longest(studied: &Studied) -> f64 {
    let reached = studied
        .study
        .elements
        .iter()
        .map(|id| studied.study.reached(id).0);
    reached.max().unwrap_or(0) as f64
}

fn question(studied: &Studied, of: Of) -> Question {
    Question {
        limit: Limit::Lower(studied.least),
        confidence: studied.confidence,
        of,
        // Looked for without an end; the page says that a crossing far beyond the data supports no claim.
        most: f64::INFINITY,
    }
}

fn drawing(
    book: &Book,
    path: &str,
    studied: &Studied,
    lines: &endurance::Lines,
    supports: Option<f64>,
    words: &str,
) -> Option<String> {
    let last = longest(studied);
    let reach = 1.5 * last.max(studied.claimed.unwrap_or(0.0));
    let mut points = Vec::new();
    let mut curves = Vec::new();
    for (element, course) in &studied.courses {
        curves.push(Curve {
            points: course
                .x
                .iter()
                .zip(&course.y)
                .map(|(x, y)| (*x, BAR.of_si(*y)))
                .collect(),
            label: String::new(),
            kind: LevelKind::Course,
        });
        for checkpoint in studied.study.of(element) {
            let Some(pressure) = &checkpoint.bubble_point else {
                continue;
            };
            points.push(Point {
                x: checkpoint.cycle.value as f64,
                y: BAR.of_si(pressure.si),
                href: book.place_href(path, &studied.record.at(checkpoint.spot)),
                title: say!(
                    "{element} after {cycle} cycles: {pressure}",
                    element = element,
                    cycle = checkpoint.cycle.value,
                    pressure = pressure.text
                ),
                look: match checkpoint.intact.value {
                    true => Look::Plain,
                    false => Look::Marked,
                },
            });
        }
    }
    let along = |line: &Bounded, f: &dyn Fn(&Bounded, f64) -> Option<f64>| -> Vec<(f64, f64)> {
        (0..=40)
            .filter_map(|i| {
                let x = reach * f64::from(i) / 40.0;
                Some((x, BAR.of_si(f(line, x)?)))
            })
            .collect()
    };
    curves.push(Curve {
        points: along(&lines.common_line, &|line, x| {
            Some(line.y + line.slope * (x - line.x))
        }),
        label: say!("mean of all").into(),
        kind: LevelKind::Mean,
    });
    // The element whose own bound is lowest at the end of the picture decides.
    let mean = question(studied, Of::Mean);
    let weakest = lines.separate.iter().min_by(|a, b| {
        let at = |line: &Bounded| line.bound(reach, mean).unwrap_or(f64::INFINITY);
        at(a).total_cmp(&at(b))
    })?;
    curves.push(Curve {
        points: along(weakest, &|line, x| line.bound(x, mean).ok()),
        label: say!("bound, weakest").into(),
        kind: LevelKind::Control,
    });
    let mut events = Vec::new();
    let mut mark = |x: Option<f64>, name: &str, kind: LevelKind| {
        if let Some(x) = x {
            events.push(Event {
                x,
                label: format!("{name} {}", number::fixed(x, 0)),
                kind,
            });
        }
    };
    match supports == studied.claimed {
        true => mark(supports, say!("claimed and supported"), LevelKind::Limit),
        false => {
            mark(studied.claimed, say!("claimed"), LevelKind::Event);
            mark(supports, say!("supported"), LevelKind::Limit);
        }
    }
    chart::svg(&Chart {
        id: format!("endurance-{id}", id = safe(&studied.record.id)),
        title: say!("Bubble point over cycles, {id}", id = &*studied.record.id),
        description: say!(
            "{words} Thin lines are elements; each point leads to its record.",
            words = words
        ),
        caption: words.into(),
        x_label: say!("cycles").into(),
        y_label: say!("bubble point, bar").into(),
        points,
        levels: vec![Level {
            y: BAR.of_si(studied.least),
            label: say!("least allowed").into(),
            kind: LevelKind::Limit,
        }],
        curves,
        events,
        ..Chart::default()
    })
    .ok()
}

/// The slope of each element that no single point can tilt, beside the fitted one.
fn robust(studied: &Studied) -> Option<String> {
    let show = |si: f64| number::significant(1000.0 * BAR.of_si(si), 3);
    let slopes: Vec<String> = studied
        .courses
        .iter()
        .filter_map(|(element, course)| {
            let found = regression::theil_sen(&course.x, &course.y, studied.confidence).ok()?;
            let fit = regression::line(&course.x, &course.y).ok()?;
            Some(format!(
                "{element} {} ({})",
                show(fit.slope),
                show(found.slope)
            ))
        })
        .collect();
    (!slopes.is_empty()).then(|| {
        say!("Fitted slope of each, mbar a cycle, and in brackets the median of the slopes of all its pairs, which no single point can tilt: {slopes}.", slopes = slopes.join(", "))
    })
}

/// What failures, or their absence, prove.
fn failures(study: &EnduranceStudy, confidence: f64) -> String {
    let failed: Vec<String> = failed_elements(study)
        .map(|(element, sound, found)| {
            say!(
                "{element} was sound after {sound} cycles and failed at {found}",
                element = element,
                sound = sound,
                found = found
            )
        })
        .collect();
    let count = study.elements.len();
    if !failed.is_empty() {
        return say!(
            "{count} of {count2} elements failed: {failed}. The reading at which an element failed is no part of its line. Each of these lives is known only to lie between two checkpoints, and so few fit no distribution: none is given.",
            count = failed.len(),
            count2 = count,
            failed = failed.join("; ")
        );
    }
    let times: Vec<f64> = study
        .elements
        .iter()
        .map(|id| study.reached(id).0 as f64)
        .collect();
    let lives: Vec<String> = [1.0, 1.5, 2.0, 3.0]
        .iter()
        .filter_map(|shape| {
            let known = life::known_shape(&times, 0.0, *shape, confidence).ok()?;
            let life = known.life_lower(0.1).ok()?;
            Some(say!(
                "{life} (shape {shape})",
                life = number::fixed(libm::floor(life), 0),
                shape = number::significant(*shape, 2)
            ))
        })
        .collect();
    match lives.is_empty() {
        true => say!("No element failed; one was not tested beyond zero cycles.").into(),
        false => say!(
            "No element failed. If lives follow a Weibull distribution, 90 % of elements reach at least so many cycles, with {confidence} % confidence: {lives}. The shape is an assumption with no record behind it; this is shown to say how little {count} elements without a failure prove, and is no figure.",
            confidence = number::fixed(100.0 * confidence, 0),
            lives = lives.join(", "),
            count = count
        ),
    }
}

/// Cycles under each model, for the mean and for one further element.
fn models(studied: &Studied, courses: &[Course]) -> Table {
    let mut table = Table::new(
        say!("Where the bound meets the limit, before rounding and before what was reached"),
        &[
            say!("model"),
            say!("bound of the mean"),
            say!("bound of one further measurement"),
        ],
    );
    let of = |of| endurance::supported(courses, question(studied, of));
    let (mean, further) = (of(Of::Mean), of(Of::Prediction));
    let say = |found: &Result<endurance::Supported, crate::stats::Refusal>,
               pick: &dyn Fn(&endurance::Supported) -> Option<f64>| match found {
        Err(why) => why.to_string(),
        Ok(found) => pick(found).map_or(say!("never").to_owned(), |x| number::significant(x, 4)),
    };
    let id = safe(&studied.record.id);
    let mut row = |i: usize, name: String, pick: &dyn Fn(&endurance::Supported) -> Option<f64>| {
        table.rows.push(vec![
            Cell::anchored(&format!("number-{id}-{i}", id = id, i = i), name),
            Cell::text(say(&mean, pick)),
            Cell::text(say(&further, pick)),
        ]);
    };
    let named = |element: &str| match failed_elements(studied.study).find(|one| one.0 == element) {
        Some((_, _, found)) => {
            say!(
                "{element} alone, which failed at {found}: its line does not know",
                element = element,
                found = found
            )
        }
        None => say!("{element} alone", element = element),
    };
    for (i, (element, _)) in studied.courses.iter().enumerate() {
        row(i, named(element), &|found| {
            found.each.get(i).copied().flatten()
        });
    }
    let n = studied.courses.len();
    row(n, say!("the weakest alone").into(), &|found| found.separate);
    row(n + 1, say!("own lines, scatter of all").into(), &|found| {
        found.separate_pooled
    });
    row(
        n + 2,
        say!("common slope, weakest start").into(),
        &|found| found.common_slope,
    );
    row(n + 3, say!("common line").into(), &|found| {
        found.common_line
    });
    table
}
