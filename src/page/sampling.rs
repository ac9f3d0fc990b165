//! Sampling plans: what each protects against, and what was sampled by it.

use super::{Book, Cell, Page, Section, Table, capital, lists::page, percent};
use crate::{
    chart::{self, Chart, Curve, Event, LevelKind, Look, Point},
    ground::{name::safe, number},
    record::{
        Record,
        common::Said,
        kinds::{
            product_specification::{CountOrAll, SamplingPlan},
            seal_inspection::Visual,
        },
    },
    stats::{Refusal, control, proportion, sampling},
};

/// A plan that a curve can be drawn for.
enum Curved {
    Attributes(sampling::Plan),
    Variables { n: usize, k: f64 },
}

impl Curved {
    fn of(plan: &SamplingPlan) -> Result<Curved, String> {
        let CountOrAll::Count(n) = plan.sample_size else {
            return Err(
                say!("every unit is looked at: no unit escapes for not being sampled").into(),
            );
        };
        match (&plan.acceptability_constant, &plan.acceptance_number) {
            (Some(k), _) => Ok(Curved::Variables {
                n: n as usize,
                k: k.value,
            }),
            (None, Some(c)) => Ok(Curved::Attributes(sampling::Plan {
                n: n as f64,
                c: c.value as f64,
            })),
            (None, None) => Err(say!(
                "it names neither an acceptance number nor a constant: it decides nothing"
            )
            .into()),
        }
    }

    fn accepted(&self, share: f64) -> Result<f64, Refusal> {
        match self {
            Curved::Attributes(plan) => {
                sampling::acceptance(*plan, share, sampling::Model::Binomial)
            }
            Curved::Variables { n, k } => sampling::variables_acceptance(*n, *k, share),
        }
    }

    /// The share of failing units that is accepted with a probability.
    fn share_at(&self, accepted: f64) -> Option<f64> {
        match self {
            Curved::Attributes(plan) => sampling::quality_accepted_at(*plan, accepted).ok(),
            Curved::Variables { n, k } => {
                sampling::variables_quality_accepted_at(*n, *k, accepted).ok()
            }
        }
    }

    fn words(&self) -> String {
        match self {
            Curved::Attributes(plan) => {
                say!(
                    "accept with at most {c} failures of {n}",
                    c = plan.c,
                    n = plan.n
                )
            }
            Curved::Variables { n, k } => say!(
                "accept when the mean of {n} lies at least {k} of their standard deviations from the limit",
                n = n,
                k = number::significant(*k, 6)
            ),
        }
    }
}

/// Plans with their risks, and inspections of every unit.
pub fn sampling(book: &Book) -> Page {
    let path = "sampling.html";
    let mut sections = Vec::new();
    for (record, spec) in book.dossier.plant.records().product_specifications() {
        for plan in spec.sampling_plans.iter() {
            sections.push(of_plan(book, path, record, plan, &spec.product_code));
        }
    }
    if sections.is_empty() {
        sections.push(
            Section::new("none", say!("Plans"))
                .say(say!("No specification lays down a sampling plan.")),
        );
    }
    sections.push(seen(book, path));
    page(
        path,
        say!("Sampling"),
        say!(
            "What each plan lets through, what was sampled by it, and what looking at every unit proves."
        ),
        sections,
    )
}

fn of_plan(
    book: &Book,
    path: &str,
    record: &Record,
    plan: &SamplingPlan,
    product: &str,
) -> Section {
    let id = &*plan.id;
    let section = Section::new(
        &safe(&format!("{id}-{product}").to_ascii_uppercase()),
        &format!("{id}, {product}"),
    )
    .say(&format!(
        "{}. {}.",
        capital(&plan.applies_to),
        &*plan.standard
    ));
    let mut section = match Curved::of(plan) {
        Err(why) => section.say(&format!("{}.", capital(&why))),
        Ok(curved) => curve(
            section,
            plan,
            &curved,
            &safe(&format!("{id}-{product}").to_ascii_uppercase()),
        ),
    };
    section.html.push(format!(
        "<p class=\"source\"><a href=\"{}\">{}</a></p>",
        book.place_href(path, &record.at(plan.spot)),
        chart::escape(&record.at(plan.spot).to_string())
    ));
    let used = used(book, path, id, product);
    match used.rows.is_empty() {
        true => section.say(say!("Nothing was sampled by it here.")),
        false => section.table(used),
    }
}

fn curve(mut section: Section, plan: &SamplingPlan, curved: &Curved, id: &str) -> Section {
    let points = [
        (0.95, say!("almost always (95 %)")),
        (0.5, say!("half the time")),
        (0.10, say!("still in one of ten times")),
    ];
    let known: Vec<(f64, f64, &str)> = points
        .iter()
        .filter_map(|(accepted, words)| Some((curved.share_at(*accepted)?, *accepted, *words)))
        .collect();
    let [(good, ..), _, (bad, ..)] = &known[..] else {
        return section.say(say!("The plan rejects nothing: it decides nothing."));
    };
    let words = say!(
        "The plan is to {curved}. It accepts a process almost always (95 %) when {good} of its units fail, and still in one of ten times when {bad} fail.",
        curved = curved.words(),
        good = percent(*good),
        bad = percent(*bad)
    );
    let most = (1.6 * bad).min(0.999);
    let steps = (0..=60).filter_map(|i| {
        let share = (most * f64::from(i) / 60.0).max(1e-6);
        Some((100.0 * share, curved.accepted(share).ok()?))
    });
    let levels = [
        (
            say!("acceptable quality level"),
            &plan.acceptable_quality_level,
        ),
        (say!("limiting quality"), &plan.limiting_quality),
    ];
    let (mut events, mut said) = (Vec::new(), Vec::new());
    let mut drawn: Vec<Point> = known
        .iter()
        .map(|(share, accepted, words)| Point {
            x: 100.0 * share,
            y: *accepted,
            href: String::new(),
            title: say!(
                "{share} failing: accepted {words}",
                share = percent(*share),
                words = words
            ),
            look: Look::Plain,
        })
        .collect();
    for (name, level) in levels {
        let Some((level, accepted)) = level
            .as_ref()
            .and_then(|level| Some((level.si, curved.accepted(level.si).ok()?)))
        else {
            continue;
        };
        drawn.push(Point {
            x: 100.0 * level,
            y: accepted,
            href: String::new(),
            title: say!(
                "{name} {level}: accepted with probability {accepted}",
                name = name,
                level = percent(level),
                accepted = percent(accepted)
            ),
            look: Look::Marked,
        });
        events.push(Event {
            x: 100.0 * level,
            label: format!("{name} {}", percent(level)),
            kind: LevelKind::Event,
        });
        said.push(say!(
            "at the {name} of {level} the plan accepts with probability {accepted}",
            name = name,
            level = percent(level),
            accepted = percent(accepted)
        ));
    }
    let chart = chart::svg(&Chart {
        id: format!("plan-{id}", id = id),
        title: say!("Operating characteristic of {id}", id = &*plan.id),
        description: say!(
            "{words} Share of failing units across, probability of acceptance up.",
            words = words
        ),
        caption: words.clone(),
        x_label: say!("failing units in the process, %").into(),
        y_label: say!("probability of acceptance").into(),
        points: drawn,
        curves: vec![Curve {
            points: steps.collect(),
            label: String::new(),
            kind: LevelKind::Mean,
        }],
        events,
        ..Chart::default()
    });
    if let (Some(good), Some(bad)) = (&plan.acceptable_quality_level, &plan.limiting_quality) {
        said.extend(smallest(curved, good.si, bad.si));
    }
    section = section.say(&words);
    if !said.is_empty() {
        section = section.say(&format!("{}.", capital(&said.join("; "))));
    }
    section.drawings.extend(chart);
    section.say(match curved {
        Curved::Attributes(_) => say!("Binomial: the sample is a part of a process (type B). Each unit fails or not, whatever the distribution."),
        Curved::Variables { .. } => say!("Non-central t, s-method with one limit (ISO 3951-1, from memory). It holds for normal values of one population; a coupon force that is not normal voids it."),
    })
}

/// The smallest plan of the same sort that accepts the one quality but for 5 % and lets the other through in at
/// most 10 %.
fn smallest(curved: &Curved, good: f64, bad: f64) -> Option<String> {
    let points = sampling::Points {
        good,
        bad,
        producer: 0.05,
        consumer: 0.10,
    };
    let plan = match curved {
        Curved::Attributes(_) => {
            let plan = sampling::design(points, sampling::Model::Binomial).ok()?;
            say!(
                "{n} units with at most {c} failures",
                n = plan.n,
                c = plan.c
            )
        }
        Curved::Variables { .. } => {
            let (n, least, most) = sampling::variables_design(points).ok()?;
            say!(
                "{n} units with a constant between {least} and {most}",
                n = n,
                least = number::fixed(least, 3),
                most = number::fixed(most, 3)
            )
        }
    };
    Some(say!(
        "the smallest plan that accepts the one 95 times of 100 and the other at most 10 times takes {plan}",
        plan = plan
    ))
}

/// What was sampled by a plan.
fn used(book: &Book, path: &str, id: &str, product: &str) -> Table {
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        say!("Sampled by it"),
        &[
            say!("inspection"),
            say!("seal run"),
            say!("coupons that count"),
            say!("quality statistic"),
            say!("verdict"),
        ],
    );
    for (record, body) in plant.records().seal_inspections() {
        let of_product = plant
            .spec_of(record)
            .is_some_and(|(_, spec)| &*spec.product_code.text == product);
        let (Some(test), Some(plan)) = (&body.destructive, &body.sampling_plan) else {
            continue;
        };
        if &*plan.text != id || !of_product {
            continue;
        }
        let count = test
            .results
            .iter()
            .filter(|coupon| coupon.valid.is_none_or(|valid| valid.value))
            .count();
        let quality = ["peel-force-quality", "pull-force-quality"]
            .iter()
            .find_map(|figure| book.dossier.graph.get(figure, &record.id, ""));
        table.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(path, &record.place())),
            book.thing(path, &body.seal_run),
            Cell::text(count.to_string()),
            quality.map_or(Cell::text("–"), |computed| {
                Cell::link(computed.shown(), book.figure_href(path, &computed.id))
            }),
            quality.map_or(Cell::text(""), |computed| Cell::verdict(computed.verdict())),
        ]);
    }
    table
}

/// One seal run with what was seen of it.
struct Looked<'a> {
    record: &'a Record,
    station: String,
    kind: String,
    seen: f64,
    failed: f64,
}

fn failed(seal: &Visual) -> bool {
    seal.verdict == Said::Fail
}

fn looked<'a>(book: &Book<'a>) -> Vec<Looked<'a>> {
    let plant = &book.dossier.plant;
    let mut all: Vec<Looked> = Vec::new();
    for (record, body) in plant.records().seal_inspections() {
        if body.visual.is_empty() {
            continue;
        }
        let run = plant.seal_run(&body.seal_run);
        let station = run.and_then(|(_, run)| run.equipment_id.as_ref());
        all.push(Looked {
            record,
            station: station.map_or(say!("no station named").into(), |id| id.to_string()),
            kind: run.map_or(String::new(), |(_, run)| run.seal_type.said()),
            seen: body.visual.len() as f64,
            failed: body.visual.iter().filter(|seal| failed(seal)).count() as f64,
        });
    }
    all.sort_by_key(|one| (one.record.happened(), one.record.id.to_string()));
    all
}

/// Seals that were all looked at: what that proves of those made under the same conditions.
fn seen(book: &Book, path: &str) -> Section {
    let all = looked(book);
    let section = Section::new("seen", say!("Seals that were looked at"));
    if all.is_empty() {
        return section.say(say!("No seal was looked at, as far as is recorded."));
    }
    let mut groups: std::collections::BTreeMap<(String, String), (f64, f64, usize)> =
        std::collections::BTreeMap::new();
    for one in &all {
        let group = groups
            .entry((one.kind.clone(), one.station.clone()))
            .or_default();
        group.0 += one.failed;
        group.1 += one.seen;
        group.2 += 1;
    }
    let mut table = Table::new(
        say!("Failing seals by kind and station"),
        &[
            say!("seal"),
            say!("station"),
            say!("runs"),
            say!("looked at"),
            say!("failed"),
            say!("share that may fail (95 %, one-sided)"),
        ],
    );
    for (i, ((kind, station), (failed, seen, runs))) in groups.iter().enumerate() {
        let bound = proportion::share_upper(*failed, *seen, 0.95);
        table.rows.push(vec![
            Cell::anchored(&format!("number-seals-{i}", i = i + 1), kind.clone()),
            Cell::text(station.clone()),
            Cell::text(runs.to_string()),
            Cell::text(number::fixed(*seen, 0)),
            Cell::text(number::fixed(*failed, 0)),
            Cell::text(bound.map_or("–".into(), |bound| {
                say!("at most {bound}", bound = percent(bound))
            })),
        ]);
    }
    let (failed, seen): (f64, f64) = all.iter().fold((0.0, 0.0), |(failed, seen), one| {
        (failed + one.failed, seen + one.seen)
    });
    let bound = |failed: f64, seen: f64| proportion::share_upper(failed, seen, 0.95).unwrap_or(1.0);
    let worst = groups
        .iter()
        .map(|((kind, station), (failed, seen, _))| (kind, station, bound(*failed, *seen)))
        .max_by(|a, b| a.2.total_cmp(&b.2));
    let least_known = worst.map_or(String::new(), |(kind, station, bound)| {
        say!(
            " Least is known of {kind} at {station}: up to {bound} may fail.",
            kind = kind,
            station = station,
            bound = percent(bound)
        )
    });
    let words = say!(
        "{failed} of {seen} seals failed when looked at.{least_known} For all kinds in this mixture together the bound is {seen2}.",
        failed = number::fixed(failed, 0),
        seen = number::fixed(seen, 0),
        least_known = least_known,
        seen2 = percent(bound(failed, seen))
    );
    let mut section = section.say(&words);
    section.drawings.extend(p_chart(book, path, &all, &words));
    section
        .say(say!("Bound of Clopper and Pearson: no distribution of a measured value is assumed, but that seals fail independently and all with one probability. A look finds what can be seen: what it misses is the business of the tests with gas."))
        .table(table)
}

/// The share that failed, run by run.
fn p_chart(book: &Book, path: &str, all: &[Looked], words: &str) -> Option<String> {
    let d: Vec<f64> = all.iter().map(|one| one.failed).collect();
    let n: Vec<f64> = all.iter().map(|one| one.seen).collect();
    let chart = control::shares(&d, &n).ok()?;
    if chart.centre <= 0.0 {
        return None;
    }
    let few = all.iter().any(|one| chart.centre * one.seen < 5.0);
    let upper = (1..)
        .zip(&chart.limits)
        .map(|(n, limits)| (f64::from(n), 100.0 * limits.1))
        .collect();
    let points = all
        .iter()
        .enumerate()
        .map(|(i, one)| Point {
            x: (i + 1) as f64,
            y: 100.0 * one.failed / one.seen,
            href: book.place_href(path, &one.record.place()),
            title: say!(
                "{id}: {failed} of {seen} failed",
                id = &*one.record.id,
                failed = one.failed,
                seen = one.seen
            ),
            look: match chart.beyond.contains(&i) {
                true => Look::Marked,
                false => Look::Plain,
            },
        })
        .collect();
    let caution = match few {
        true => {
            say!(
                " Fewer than five failures are expected in a run: the limits are rough, and a single failure may lie beyond them."
            )
        }
        false => "",
    };
    chart::svg(&Chart {
        id: "seals-by-run".into(),
        title: say!("Share of seals that failed, run by run").into(),
        description: format!("{words}{caution}"),
        caption: say!(
            "Share of seals that failed, run by run, with the upper limit of each.{caution}",
            caution = caution
        ),
        x_label: say!("inspection in order of time").into(),
        y_label: say!("failed, %").into(),
        points,
        curves: vec![Curve {
            points: upper,
            label: say!("upper limit").into(),
            kind: LevelKind::Control,
        }],
        joined: true,
        ..Chart::default()
    })
    .ok()
}
