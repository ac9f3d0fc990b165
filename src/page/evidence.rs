//! What stands behind the figures: joins, retention, instruments, deviations.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    Book, Cell, Making, Page, Section, Table, capital, figure::view, lists::page, paged::Paged,
};
use crate::{
    chart::escape,
    dossier::Dossier,
    ground::words::{self, spelt},
    record::{
        Record,
        kinds::{Body, seal_run::SealRun},
        read::Any,
    },
};

fn figures_of_kind(book: &Book, path: &str, kind: &str) -> Vec<super::figure::FigureView> {
    let plant = &book.dossier.plant;
    let of_kind = plant.indexed().filter(|(_, record)| record.kind == kind);
    figures_of(book, path, of_kind)
}

pub(super) fn figures_of<'a>(
    book: &Book,
    path: &str,
    records: impl Iterator<Item = (usize, &'a Record)>,
) -> Vec<super::figure::FigureView> {
    records
        .flat_map(|(index, record)| {
            book.view
                .figures_at(index)
                .iter()
                .map(|computed| view(book, path, computed, &record.id))
        })
        .collect()
}

/// Seal runs with what was seen of them.
const RUNS: Paged = Paged {
    name: "joins",
    size: 100,
};

/// The page of each seal run.
pub fn pages_of_runs(dossier: &Dossier) -> BTreeMap<&str, String> {
    let runs = dossier.plant.records().seal_runs();
    RUNS.homes(runs.map(|(record, _)| &*record.id.text))
}

/// Seal runs, what was seen, and coupons.
pub fn joins<'a>(book: &'a Book) -> Vec<Making<'a>> {
    let runs: Vec<(&Record, &SealRun)> = book.dossier.plant.records().seal_runs().collect();
    RUNS.pages(&runs, move |n, own| joins_of(book, own, n))
}

/// Page `n`.
fn joins_of(book: &Book, all: &[(&Record, &SealRun)], n: usize) -> Page {
    let path = &RUNS.path(n);
    let plant = &book.dossier.plant;
    let mut runs = Table::new(
        say!("Weld runs"),
        &[
            say!("run"),
            say!("seal"),
            say!("heating"),
            say!("items"),
            say!("inspections"),
            say!("seen"),
            say!("gaps or slits"),
        ],
    );
    for (record, run) in all {
        let inspections = plant
            .inspections
            .get(&*record.id.text)
            .cloned()
            .unwrap_or_default();
        let (mut seen, mut gaps) = (0, 0);
        for index in &inspections {
            if let Body::SealInspection(body) = &plant.record(*index).body {
                seen += body.visual.len();
                gaps += body
                    .visual
                    .iter()
                    .filter(|seal| {
                        seal.gap_or_slit
                            .as_ref()
                            .is_some_and(|gap| &**gap != "none")
                    })
                    .count();
            }
        }
        runs.rows.push(vec![
            book.thing(path, &record.id),
            Cell::text(run.seal_type.said()),
            Cell::text(run.heating.said()),
            Cell::text(run.items.len().to_string()),
            Cell::text(inspections.len().to_string()),
            Cell::text(seen.to_string()),
            Cell::text(gaps.to_string()),
        ]);
    }
    let mut coupons = Section::new("coupons", say!("Coupons by the sampling plan"));
    let own = all
        .iter()
        .filter_map(|(record, _)| plant.inspections.get(&*record.id.text));
    let mut inspections: BTreeSet<usize> = own.flatten().copied().collect();
    if n == 0 {
        // An inspection of a run that nobody recorded stands on the first page.
        let lost = plant
            .inspections
            .iter()
            .filter(|(run, _)| plant.seal_run(run).is_none());
        inspections.extend(lost.flat_map(|(_, own)| own));
    }
    let inspections = inspections
        .into_iter()
        .map(|index| (index, plant.record(index)));
    coupons.figures = figures_of(book, path, inspections);
    let sections = vec![Section::new("runs", say!("Weld runs")).table(runs), coupons];
    page(
        path,
        say!("Joins and inspections"),
        say!("Every weld by run: what was set, seen and pulled."),
        sections,
    )
}

/// Challenges with organisms.
pub fn retention(book: &Book) -> Page {
    let path = "retention.html";
    let mut table = Table::new(
        say!("Challenges"),
        &[
            say!("challenge"),
            say!("organism"),
            say!("roll"),
            say!("claim under test"),
            say!("runs"),
        ],
    );
    for (record, body) in book.dossier.plant.records().retention_challenges() {
        table.rows.push(vec![
            book.thing(path, &record.id),
            Cell::text(&*body.organism.name.text),
            book.thing(path, &body.material_lot),
            Cell::text(&*body.claim_under_test.text),
            Cell::text(body.runs.len().to_string()),
        ]);
    }
    let mut made = Table::new(
        say!("Runs as recorded"),
        &[
            say!("run"),
            say!("sample"),
            say!("area"),
            say!("organisms"),
            say!("pressure difference"),
            say!("filtrate"),
            say!("share counted"),
            say!("colonies"),
            say!("note"),
        ],
    );
    let mut how = Section::new("how", say!("Laboratory, method and controls"));
    for (record, body) in book.dossier.plant.records().retention_challenges() {
        let words = |all: &Any| {
            let all = all.leaves.iter().map(|(_, text)| text.to_string());
            all.collect::<Vec<_>>().join(", ")
        };
        let strain = body.organism.strain.as_ref();
        let controls = body.controls.as_ref();
        how = how.say(&format!(
            "{}: {}",
            &*record.id,
            say!(
                "{laboratory}; method: {method}; {organism}; controls: {controls}.",
                laboratory = words(&body.laboratory),
                method = &*body.method,
                organism = strain.map_or(body.organism.name.to_string(), |strain| {
                    format!("{}, {}", &*body.organism.name, &**strain)
                }),
                controls = controls.map_or(say!("none recorded").to_owned(), |all| {
                    let named = all.leaves.iter();
                    let named = named.map(|(key, text)| {
                        format!(
                            "{}: {}",
                            key.replace('_', " ").replace('/', ", "),
                            spelt(text)
                        )
                    });
                    named.collect::<Vec<_>>().join(", ")
                })
            )
        ));
        for run in &body.runs {
            let text = |text: Option<&str>| Cell::text(text.map_or("–".into(), spelt));
            let day = run.performed_on.as_ref().map(|day| day.date.to_string());
            let note = run.note.as_ref().map(|note| note.to_string());
            let note: Vec<String> = day.into_iter().chain(note).collect();
            made.rows.push(vec![
                Cell::link(
                    format!("{}/run-{}", &*record.id, run.run.value),
                    book.place_href(path, &record.at(run.spot)),
                ),
                text(run.sample.as_deref()),
                text(Some(&run.exposed_area.text)),
                text(Some(&run.challenge_total.text)),
                text(run.differential_pressure.as_ref().map(|q| &*q.text)),
                text(run.filtrate_volume.as_ref().map(|q| &*q.text)),
                Cell::text(words::decimal(&run.fraction_assayed.text)),
                Cell::text(run.colonies.value.to_string()),
                Cell::text(note.join("; ")),
            ]);
        }
    }
    let mut runs = Section::new("runs", say!("Runs")).table(made).say(say!(
        "A run without a colony shows a lower bound, never complete retention."
    ));
    runs.figures = figures_of_kind(book, path, "retention_challenge");
    page(
        path,
        say!("Retention"),
        say!("What was challenged, with what, and what the count can show."),
        vec![
            Section::new("challenges", say!("Challenges")).table(table),
            how,
            runs,
        ],
    )
}

/// Instruments, their calibrations and their uses.
pub fn instruments(book: &Book) -> Page {
    let path = "instruments.html";
    let plant = &book.dossier.plant;
    let mut uses: std::collections::BTreeMap<&str, Vec<&crate::record::Record>> =
        std::collections::BTreeMap::new();
    for record in plant.records().current() {
        for instrument in crate::rules::r30::instruments(record) {
            uses.entry(instrument).or_default().push(record);
        }
    }
    for (_, body) in plant.records().calibration_records() {
        uses.entry(&body.instrument_id).or_default();
    }
    let mut sections = Vec::new();
    for (instrument, records) in uses {
        let mut table = Table::new(
            say!("Calibrations"),
            &[
                say!("record"),
                say!("valid"),
                say!("by"),
                say!("worst error as found"),
                say!("limit"),
            ],
        );
        let calibrations = plant.calibrations(instrument);
        for (record, body) in &calibrations {
            let worst = body.points.iter().max_by(|a, b| {
                (a.as_found_error.si / a.maximum_permissible_error.si)
                    .abs()
                    .total_cmp(&(b.as_found_error.si / b.maximum_permissible_error.si).abs())
            });
            table.rows.push(vec![
                book.thing(path, &record.id),
                Cell::text(say!(
                    "{date} to {date2}",
                    date = body.valid_from.date,
                    date2 = body.valid_until.date
                )),
                Cell::text(&*body.performed_by.text),
                Cell::text(worst.map_or(String::new(), |point| {
                    say!(
                        "{as_found_error} at {nominal}",
                        as_found_error = point.as_found_error.text,
                        nominal = point.nominal.text
                    )
                })),
                Cell::text(worst.map_or(String::new(), |point| {
                    point.maximum_permissible_error.text.to_string()
                })),
            ]);
        }
        let days: Vec<_> = records.iter().filter_map(|record| record.day()).collect();
        let span = days.iter().min().zip(days.iter().max()).map_or(
            say!("not used in this dossier").to_owned(),
            |(first, last)| {
                say!(
                    "used {count} times, {first} to {last}",
                    count = days.len(),
                    first = first,
                    last = last
                )
            },
        );
        let uncovered = records
            .iter()
            .filter(|record| {
                record
                    .day()
                    .is_some_and(|day| !calibrations.iter().any(|(_, body)| body.in_force(day)))
            })
            .count();
        let said = if uncovered == 0 {
            say!("Every use lies inside the dates of a calibration; rule R31 checks that its points cover the values used.").to_owned()
        } else {
            say!(
                "{uncovered} uses lie outside the dates of every calibration.",
                uncovered = uncovered
            )
        };
        let measures = calibrations.first().map(|(_, body)| {
            let all = body.measured_quantities.iter();
            let all: Vec<String> = all
                .map(|what| say!(&what.replace('_', " ")).to_owned())
                .collect();
            all.join(", ")
        });
        let heading = match measures {
            Some(measures) => format!("{instrument}: {measures}"),
            None => instrument.to_owned(),
        };
        let mut section = Section::new(&crate::ground::name::safe(instrument), &heading)
            .say(&format!("{}. {said}", capital(&span)))
            .table(table);
        let links: Vec<String> = records
            .iter()
            .take(60)
            .map(|record| {
                format!(
                    "<a href=\"{}\">{}</a>",
                    book.place_href(path, &record.place()),
                    escape(&record.id)
                )
            })
            .collect();
        let rest = if records.len() > 60 {
            say!(" and {records} more", records = records.len() - 60)
        } else {
            String::new()
        };
        let files: Vec<String> = calibrations
            .iter()
            .filter_map(|(_, body)| body.certificate.as_ref()?.file.as_ref())
            .filter(|file| plant.folder.files.contains_key(&*file.text))
            .map(|file| {
                say!(
                    "<a href=\"{file}\">certificate {file2}</a>",
                    file = crate::ground::name::copy_path(file),
                    file2 = escape(file.rsplit('/').next().unwrap_or(file))
                )
            })
            .collect();
        if !files.is_empty() {
            section.html.push(format!("<p>{}</p>", files.join(" · ")));
        }
        if !links.is_empty() {
            section.html.push(say!(
                "<p>Used in {links}{rest}.</p>",
                links = links.join(", "),
                rest = rest
            ));
        }
        sections.push(section);
    }
    sections.extend(rejudged(book, path));
    let mut studies = Section::new("studies", say!("Measurement studies"));
    for words in super::studies::words(book) {
        studies = studies.say(&words);
    }
    studies.figures = figures_of_kind(book, path, "measurement_study");
    if studies.figures.is_empty() {
        studies = studies.say(say!(
            "None: the repeatability in the uncertainty budget rests on the maker's word."
        ));
    }
    sections.push(studies);
    page(
        path,
        say!("Instruments"),
        say!("Which instrument, calibrated when, used for what."),
        sections,
    )
}

/// Figures judged again with the error of an instrument that was found out of tolerance.
fn rejudged(book: &Book, path: &str) -> Vec<Section> {
    let all = crate::rejudge::rejudged(&book.dossier.plant, &book.dossier.graph);
    let one = |again: &crate::rejudge::Rejudged| {
        let mut table = Table::new(
            say!("Before, and with the error applied"),
            &[
                say!("figure"),
                say!("before"),
                say!("verdict"),
                say!("after"),
                say!("verdict"),
                say!("limit"),
            ],
        );
        for moved in &again.moved {
            let unit = &moved.before.figure.unit;
            table.rows.push(vec![
                Cell::link(
                    moved.before.id.to_string(),
                    book.figure_href(path, &moved.before.id),
                ),
                Cell::text(moved.before.shown()),
                Cell::verdict(moved.before.verdict()),
                Cell::text(moved.after.show(unit)),
                Cell::verdict(moved.judgement.verdict),
                Cell::text(moved.judgement.limit.text.clone()),
            ]);
        }
        let told: Vec<String> = again.told.iter().map(|to| to.words()).collect();
        let instrument = &*again.calibration.instrument_id;
        Section::new(
            &format!("again-{id}", id = crate::ground::name::safe(&again.record.id)),
            &say!("{instrument} was found out of tolerance", instrument = instrument),
        )
        .say(&say!("{as_found_error} off at {nominal}, limit {maximum_permissible_error}, on {time}. {since}", as_found_error = spelt(&again.point.as_found_error.text), nominal = spelt(&again.point.nominal.text), maximum_permissible_error = spelt(&again.point.maximum_permissible_error.text), time = again.calibration.calibration_performed_at.time.date(), since = again.since.map_or(say!("No earlier calibration is here: every use before that day is affected.").to_owned(), |since| say!("Every use since the calibration of {since} is affected: when the drift began is not known.", since = since.date()))))
        .table(table)
        .say(&match told.is_empty() {
            true => say!("Nothing of it was consigned.").to_owned(),
            false => say!("To be told: {told}.", told = told.join("; ")),
        })
    };
    all.iter().map(one).collect()
}

/// What is said of a cause: whether it is known, what it is, what shows it.
fn cause_in_words(cause: &Any) -> String {
    let own = |wanted: &[&str]| {
        let own = cause.leaves.iter();
        own.filter(|(key, _)| wanted.contains(&&**key))
            .map(|(_, text)| text.replace('_', " "))
            .collect::<Vec<_>>()
    };
    let known = own(&["known"]);
    let others = cause.leaves.iter();
    let others = others.filter(|(key, _)| !["known", "reason_code", "text"].contains(&&**key));
    let mut said = own(&["reason_code", "text"]);
    said.extend(
        others.map(|(key, text)| format!("{}: {}", key.replace('_', " "), text.replace('_', " "))),
    );
    let said = said.join("; ");
    match known.first().map(String::as_str) {
        Some("true" | "yes") => say!("The cause is known: {said}.", said = said),
        Some("false" | "no") => say!("The cause is not known: {said}.", said = said),
        _ => say!("Cause: {said}.", said = said),
    }
}

/// Deviations: what happened, what was decided, by whom, on what.
pub fn deviations(book: &Book) -> Page {
    let path = "deviations.html";
    let mut sections = Vec::new();
    for (record, deviation) in book.dossier.plant.records().deviations() {
        let mut table = Table::new(
            say!("Decision"),
            &[say!("decision"), say!("by"), say!("when"), say!("concerns")],
        );
        let subjects: Vec<String> = deviation
            .subject
            .texts()
            .map(|text| text.to_string())
            .collect();
        table.rows.push(vec![
            Cell::text(
                deviation
                    .decision
                    .map_or(say!("none yet").to_owned(), |decision| decision.said()),
            ),
            Cell::text(
                deviation
                    .approved_by
                    .as_deref()
                    .unwrap_or(say!("nobody yet")),
            ),
            Cell::text(
                deviation
                    .approved_at
                    .as_ref()
                    .map_or(String::new(), |when| when.time.to_string()),
            ),
            Cell::text(subjects.join(", ")),
        ]);
        let mut section = Section::new(&crate::ground::name::safe(&record.id), &record.id)
            .say(&deviation.description)
            .table(table)
            .say(&say!(
                "Found {time}; category {category}.",
                time = deviation.detected_at.time,
                category = deviation.category.said()
            ));
        if let Some(cause) = &deviation.cause {
            section = section.say(&cause_in_words(cause));
        }
        if let Some(by) = &deviation.retest_allowed_by {
            let when = deviation.retest_authorised_at.as_ref();
            section = section.say(&say!(
                "Retest allowed by {by} {time}.",
                by = &**by,
                time = when.map_or(say!("at no stated time").to_owned(), |when| when
                    .time
                    .to_string())
            ));
        }
        if let Some(impact) = &deviation.impact {
            section = section.say(&say!("Effect: {impact}.", impact = &**impact));
        }
        if let Some(next) = &deviation.next_step {
            section = section.say(&say!("Next: {next}.", next = &**next));
        }
        let links: Vec<String> = deviation
            .subject
            .texts()
            .map(|text| book.thing(path, text))
            .filter(|cell| !cell.href.is_empty())
            .map(|cell| format!("<a href=\"{}\">{}</a>", cell.href, escape(&cell.text)))
            .collect();
        section.ways(format!(
            "<p>{}</p>",
            [
                vec![say!(
                    "<a href=\"{record}\">record</a>",
                    record = book.place_href(path, &record.place())
                )],
                links
            ]
            .concat()
            .join(" · ")
        ));
        sections.push(section);
    }
    if sections.is_empty() {
        sections.push(Section::new("none", say!("None")).say(say!(
            "No deviation is recorded. A lot without one is itself worth a question."
        )));
    }
    page(
        path,
        say!("Deviations"),
        say!("What failed, was repeated or left out, and who decided."),
        sections,
    )
}
