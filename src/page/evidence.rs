//! What stands behind the figures: joins, cycles, retention, instruments, deviations.

use super::{Book, Cell, Page, Section, Table, capital, figure::view, lists::page};
use crate::{chart::escape, record::kinds::Body};

fn figures_of_kind(book: &Book, path: &str, kind: &str) -> Vec<super::figure::FigureView> {
    let plant = &book.dossier.plant;
    let of_kind = plant.indexed().filter(|(_, record)| record.kind == kind);
    of_kind
        .flat_map(|(index, record)| {
            book.view
                .figures_at(index)
                .iter()
                .map(|computed| view(book, path, computed, &record.id))
        })
        .collect()
}

/// Seal runs, what was seen, and coupons.
pub fn joins(book: &Book) -> Page {
    let path = "joins.html";
    let plant = &book.dossier.plant;
    let mut runs = Table::new(
        "Seal runs",
        &[
            "run",
            "seal",
            "heating",
            "items",
            "inspections",
            "seen",
            "gaps or slits",
        ],
    );
    for (record, run) in plant.records().seal_runs() {
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
            Cell::text(run.seal_type.replace('_', " ")),
            Cell::text(run.heating.replace('_', " ")),
            Cell::text(run.items.len().to_string()),
            Cell::text(inspections.len().to_string()),
            Cell::text(seen.to_string()),
            Cell::text(gaps.to_string()),
        ]);
    }
    let mut coupons = Section::new("coupons", "Coupons by the sampling plan");
    coupons.figures = figures_of_kind(book, path, "seal_inspection");
    page(
        path,
        "Joins and inspections",
        "Every seal by run: what was set, seen and pulled.",
        vec![Section::new("runs", "Seal runs").table(runs), coupons],
    )
}

/// Cycles by element.
pub fn cycles(book: &Book) -> Page {
    let path = "cycles.html";
    let plant = &book.dossier.plant;
    let mut table = Table::new(
        "Claims",
        &[
            "claim",
            "treatment",
            "conditions",
            "claimed",
            "tested",
            "elements tested",
        ],
    );
    for (record, claim) in plant.records().cycle_claims() {
        for one in &claim.claims {
            table.rows.push(vec![
                Cell::link(
                    &*record.id.text,
                    book.place_href(path, &record.at(one.spot)),
                ),
                Cell::text(one.treatment.replace('_', " ")),
                Cell::text(super::service::conditions(one)),
                Cell::text(one.cycles_claimed.value.to_string()),
                Cell::text(one.cycles_tested.value.to_string()),
                Cell::text(one.elements_tested.value.to_string()),
            ]);
        }
    }
    let mut used = Section::new("used", "Cycles used, proven and left").say("Reported by the customer; the maker has verified none. Every cycle counts against life; only those with a whole trace prove anything.");
    used.figures = figures_of_kind(book, path, "cycle_log");
    for (_, log) in plant.records().cycle_logs() {
        for event in log.events.iter() {
            let title = format!(
                "{}, {} cycle {}",
                &*log.assembly_id,
                event.treatment.replace('_', " "),
                event.sequence.value
            );
            let file = event.trace.as_ref();
            used.drawings.extend(
                file.and_then(|file| super::tested::cycle_drawing(book, path, file, title)),
            );
        }
    }
    let mut sections = vec![
        Section::new("claims", "Claims").table(table),
        endurance(book, path),
    ];
    sections.extend(super::endurance::sections(book, path));
    sections.push(used);
    page(
        path,
        "Cycles",
        "What elements withstand, and what they have been through.",
        sections,
    )
}

/// What studies of repeated treatment support.
fn endurance(book: &Book, path: &str) -> Section {
    let mut table = Table::new(
        "Endurance studies",
        &[
            "study",
            "product",
            "treatment",
            "elements",
            "reached intact",
            "failed",
            "supports",
        ],
    );
    for (record, study) in book.dossier.plant.records().endurance_studys() {
        let reached: Vec<(u64, bool)> = study.elements.iter().map(|id| study.reached(id)).collect();
        let supports = book.dossier.graph.get("cycles-supported", &record.id, "");
        table.rows.push(vec![
            Cell::link(&*record.id.text, book.place_href(path, &record.place())),
            Cell::text(&*study.product_code.text),
            Cell::text(study.treatment.replace('_', " ")),
            Cell::text(reached.len().to_string()),
            Cell::text(
                reached
                    .iter()
                    .map(|(n, _)| n.to_string())
                    .collect::<Vec<_>>()
                    .join(", "),
            ),
            Cell::text(
                reached
                    .iter()
                    .filter(|(_, failed)| *failed)
                    .count()
                    .to_string(),
            ),
            supports.map_or(Cell::text("–"), |computed| {
                Cell::link(computed.shown(), book.figure_href(path, &computed.id))
            }),
        ]);
    }
    let section = Section::new("endurance", "What the data support");
    if table.rows.is_empty() {
        return section
            .say("No endurance study is in this folder; the claims rest on their reports.");
    }
    section.table(table)
}

/// Challenges with organisms.
pub fn retention(book: &Book) -> Page {
    let path = "retention.html";
    let mut table = Table::new(
        "Challenges",
        &["challenge", "organism", "roll", "claim under test", "runs"],
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
    let mut runs = Section::new("runs", "Runs")
        .say("A run without a colony shows a lower bound, never complete retention.");
    runs.figures = figures_of_kind(book, path, "retention_challenge");
    page(
        path,
        "Retention",
        "What was challenged, with what, and what the count can show.",
        vec![Section::new("challenges", "Challenges").table(table), runs],
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
            "Calibrations",
            &["record", "valid", "by", "worst error as found", "limit"],
        );
        for (record, body) in plant.calibrations(instrument) {
            let worst = body.points.iter().max_by(|a, b| {
                (a.as_found_error.si / a.maximum_permissible_error.si)
                    .abs()
                    .total_cmp(&(b.as_found_error.si / b.maximum_permissible_error.si).abs())
            });
            table.rows.push(vec![
                book.thing(path, &record.id),
                Cell::text(format!(
                    "{} to {}",
                    body.valid_from.date, body.valid_until.date
                )),
                Cell::text(&*body.performed_by.text),
                Cell::text(worst.map_or(String::new(), |point| {
                    format!("{} at {}", point.as_found_error.text, point.nominal.text)
                })),
                Cell::text(worst.map_or(String::new(), |point| {
                    point.maximum_permissible_error.text.to_string()
                })),
            ]);
        }
        let days: Vec<_> = records.iter().filter_map(|record| record.day()).collect();
        let span = days
            .iter()
            .min()
            .zip(days.iter().max())
            .map_or("not used in this dossier".to_owned(), |(first, last)| {
                format!("used {} times, {first} to {last}", days.len())
            });
        let uncovered = records
            .iter()
            .filter(|record| {
                record.day().is_some_and(|day| {
                    !plant.calibrations(instrument).iter().any(|(_, body)| {
                        body.valid_from.date <= day && day <= body.valid_until.date
                    })
                })
            })
            .count();
        let said = if uncovered == 0 {
            "Every use lies inside the dates of a calibration; rule R31 looks whether its points cover the values used.".to_owned()
        } else {
            format!("{uncovered} uses lie outside the dates of every calibration.")
        };
        let mut section = Section::new(&crate::ground::name::safe(instrument), instrument)
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
            format!(" and {} more", records.len() - 60)
        } else {
            String::new()
        };
        let files: Vec<String> = plant
            .calibrations(instrument)
            .iter()
            .filter_map(|(_, body)| body.certificate.as_ref()?.file.as_ref())
            .filter(|file| plant.folder.files.contains_key(&*file.text))
            .map(|file| {
                format!(
                    "<a href=\"{}\">certificate {}</a>",
                    crate::ground::name::copy_path(file),
                    escape(file.rsplit('/').next().unwrap_or(file))
                )
            })
            .collect();
        if !files.is_empty() {
            section.html.push(format!("<p>{}</p>", files.join(" · ")));
        }
        if !links.is_empty() {
            section
                .html
                .push(format!("<p>Used in {}{rest}.</p>", links.join(", ")));
        }
        sections.push(section);
    }
    sections.extend(rejudged(book, path));
    let mut studies = Section::new("studies", "Measurement studies");
    for words in super::studies::words(book) {
        studies = studies.say(&words);
    }
    studies.figures = figures_of_kind(book, path, "measurement_study");
    if studies.figures.is_empty() {
        studies = studies
            .say("None: the repeatability in the uncertainty budget rests on the maker's word.");
    }
    sections.push(studies);
    page(
        path,
        "Instruments",
        "Which instrument, calibrated when, used for what.",
        sections,
    )
}

/// Figures judged again with the error of an instrument that was found out of tolerance.
fn rejudged(book: &Book, path: &str) -> Vec<Section> {
    let all = crate::rejudge::rejudged(&book.dossier.plant, &book.dossier.graph);
    let one = |again: &crate::rejudge::Rejudged| {
        let mut table = Table::new(
            "Before, and with the error applied",
            &["figure", "before", "verdict", "after", "verdict", "limit"],
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
            &format!("again-{}", crate::ground::name::safe(&again.record.id)),
            &format!("{instrument} was found out of tolerance"),
        )
        .say(&format!(
            "{} off at {}, limit {}, on {}. {}",
            again.point.as_found_error.text,
            again.point.nominal.text,
            again.point.maximum_permissible_error.text,
            again.calibration.calibration_performed_at.time.date(),
            again.since.map_or("No earlier calibration is here: every use before that day is affected.".to_owned(), |since| format!("Every use since the calibration of {} is affected: when the drift began is not known.", since.date()))
        ))
        .table(table)
        .say(&match told.is_empty() {
            true => "Nothing of it was consigned.".to_owned(),
            false => format!("To be told: {}.", told.join("; ")),
        })
    };
    all.iter().map(one).collect()
}

/// Deviations: what happened, what was decided, by whom, on what.
pub fn deviations(book: &Book) -> Page {
    let path = "deviations.html";
    let mut sections = Vec::new();
    for (record, deviation) in book.dossier.plant.records().deviations() {
        let mut table = Table::new("Decision", &["decision", "by", "when", "concerns"]);
        let subjects: Vec<String> = deviation
            .subject
            .texts()
            .map(|text| text.to_string())
            .collect();
        table.rows.push(vec![
            Cell::text(
                deviation
                    .decision
                    .map_or("none yet".to_owned(), |decision| {
                        decision.word().replace('_', " ")
                    }),
            ),
            Cell::text(deviation.approved_by.as_deref().unwrap_or("nobody yet")),
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
            .say(&format!(
                "Found {}; category {}.",
                deviation.detected_at.time,
                deviation.category.word().replace('_', " ")
            ));
        if let Some(cause) = &deviation.cause {
            let said: Vec<String> = cause
                .leaves
                .iter()
                .map(|(key, text)| format!("{} {}", key.replace('_', " "), &**text))
                .collect();
            section = section.say(&format!("Cause: {}.", said.join("; ")));
        }
        if let Some(by) = &deviation.retest_allowed_by {
            let when = deviation.retest_authorised_at.as_ref();
            section = section.say(&format!(
                "Retest allowed by {} {}.",
                &**by,
                when.map_or("at no stated time".to_owned(), |when| when.time.to_string())
            ));
        }
        if let Some(impact) = &deviation.impact {
            section = section.say(&format!("Effect: {}.", &**impact));
        }
        if let Some(next) = &deviation.next_step {
            section = section.say(&format!("Next: {}.", &**next));
        }
        let links: Vec<String> = deviation
            .subject
            .texts()
            .map(|text| book.thing(path, text))
            .filter(|cell| !cell.href.is_empty())
            .map(|cell| format!("<a href=\"{}\">{}</a>", cell.href, escape(&cell.text)))
            .collect();
        section.html.push(format!(
            "<p>{}</p>",
            [
                vec![format!(
                    "<a href=\"{}\">record</a>",
                    book.place_href(path, &record.place())
                )],
                links
            ]
            .concat()
            .join(" · ")
        ));
        sections.push(section);
    }
    if sections.is_empty() {
        sections.push(
            Section::new("none", "None")
                .say("No deviation is recorded. A lot without one is itself worth a question."),
        );
    }
    page(
        path,
        "Deviations",
        "What failed, was repeated or left out, and who decided.",
        sections,
    )
}
