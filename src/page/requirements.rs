//! What was asked, where the evidence is, and what is not in this dossier.

use super::{Book, Cell, Page, Section, Table, href, lists::page};
use crate::{chart::escape, record::kinds::KINDS, rules::r88, verdict::Verdict};

/// Requirement by requirement: where the evidence is, and whether it holds.
pub fn evidence(book: &Book) -> Page {
    let path = "evidence.html";
    let records = book.dossier.plant.records();
    let mut table = Table::new("Requirements", &["requirement", "asked by", "holds"]);
    let mut sections = Vec::new();
    for (record, body) in records.requirements() {
        let flaws = r88::flaws(&book.view, body);
        let anchor = crate::ground::name::safe(&record.id);
        table.rows.push(vec![
            Cell::link(
                format!("{}: {}", &*record.id, &*body.requirement),
                format!("#{anchor}"),
            ),
            Cell::text(&*body.basis.text),
            Cell::verdict(if flaws.is_empty() {
                Verdict::Conforms
            } else {
                Verdict::DoesNotConform
            }),
        ]);
        let mut list = Table::new("Evidence", &["what it needs", "what is here", "holds"]);
        for kind in body.evidence.record_kinds.iter() {
            let n = records.of_kind(kind).count();
            list.rows.push(vec![
                Cell::text(format!("records of kind {}", &**kind)),
                Cell::link(format!("{n} records"), href(path, "records.html")),
                Cell::verdict(if n > 0 {
                    Verdict::Conforms
                } else {
                    Verdict::NotEvaluated
                }),
            ]);
        }
        for id in body.evidence.records.iter() {
            let there = records.any(id).is_some();
            list.rows.push(vec![
                Cell::text(format!("record {}", &**id)),
                book.thing(path, id),
                Cell::verdict(if there {
                    Verdict::Conforms
                } else {
                    Verdict::NotEvaluated
                }),
            ]);
        }
        for figure in body.evidence.figures.iter() {
            let mut own = r88::deciding(&book.view, figure);
            let all = own.len();
            own.retain(|computed| r88::counts(&book.view, computed));
            let worst = own
                .iter()
                .map(|computed| computed.verdict())
                .filter(|verdict| *verdict != Verdict::NoLimit)
                .min();
            let weakest = own.iter().min_by_key(|computed| computed.verdict());
            let words = match all - own.len() {
                0 => format!("{} that decide", own.len()),
                n => format!("{} that decide, {n} left out by a deviation", own.len()),
            };
            list.rows.push(vec![
                match crate::figures::ALL
                    .iter()
                    .find(|known| known.id == &*figure.text)
                {
                    Some(known) => Cell::link(
                        format!("figure {}", known.name.to_lowercase()),
                        format!("methods/{}.html", known.id),
                    ),
                    None => Cell::text(format!("figure {}, which is not known", &**figure)),
                },
                weakest.map_or(Cell::text("none"), |computed| {
                    Cell::link(
                        format!("{words}; {}", computed.id),
                        book.figure_href(path, &computed.id),
                    )
                }),
                Cell::verdict(worst.unwrap_or(if own.is_empty() {
                    Verdict::NotEvaluated
                } else {
                    Verdict::NoLimit
                })),
            ]);
        }
        for chapter in body.evidence.chapters.iter() {
            let there = book.dossier.plant.folder.files.contains_key(&*chapter.text);
            list.rows.push(vec![
                Cell::text(format!("chapter {}", &**chapter)),
                match there {
                    true => Cell::link("chapter", super::source::chapter_page(chapter)),
                    false => Cell::text("missing"),
                },
                Cell::verdict(if there {
                    Verdict::Conforms
                } else {
                    Verdict::NotEvaluated
                }),
            ]);
        }
        let words = match flaws.is_empty() {
            true => "The evidence is here, and it holds.".to_owned(),
            false => format!("Not met: {}.", flaws.join("; ")),
        };
        let mut section =
            Section::new(&anchor, &format!("{}: {}", &*record.id, &*body.requirement))
                .say(&words)
                .table(list);
        section.html.push(format!(
            "<p><a href=\"{}\">record</a></p>",
            book.place_href(path, &record.place())
        ));
        sections.push(section);
    }
    let first = Section::new("requirements", "Requirements");
    sections.insert(
        0,
        match table.rows.is_empty() {
            true => first.say("No requirement is recorded. What a customer or a regulation asks for is then shown by nothing but the rules."),
            false => first.table(table),
        },
    );
    page(
        path,
        "Evidence",
        "What was asked for, where the evidence is, and whether it holds.",
        sections,
    )
}

/// Studies and subjects that a reader may look for, each with the kind of record that would show it.
const LOOKED_FOR: &[(&str, &str)] = &[
    ("endurance_study", "how many cycles the data support"),
    ("measurement_study", "how well a test repeats"),
    ("flow_test", "water flow, new and after regeneration"),
    (
        "element_geometry",
        "clearances when hot and cold, strength of core and cage",
    ),
    ("layer_stack", "the layers of the pack"),
    ("retention_challenge", "retention of organisms"),
    ("cycle_log", "what happened to elements in service"),
    ("requirement", "what customers and regulations ask for"),
    ("signature_policy", "who must sign what"),
];

/// What is not in this dossier.
pub fn not_here(book: &Book) -> Page {
    let path = "not-here.html";
    let dossier = book.dossier;
    let records = dossier.plant.records();
    let mut blind = Table::new("Rules that could not look", &["rule", "demands", "why"]);
    for checked in &dossier.checked {
        let why = match (&checked.outcome.blind, checked.outcome.looked) {
            (Some(why), _) => why.clone(),
            (None, 0) => format!("there were no {} to look at", checked.outcome.things),
            _ => continue,
        };
        blind.rows.push(vec![
            Cell::link(
                checked.rule.id,
                format!("rules.html#{}", checked.rule.id.to_lowercase()),
            ),
            Cell::text(checked.rule.demands),
            Cell::text(why),
        ]);
    }
    let mut kinds = Table::new(
        "Kinds of record of which none is here",
        &["kind", "what it would show"],
    );
    for kind in KINDS
        .iter()
        .filter(|kind| records.of_kind(kind.name).next().is_none())
    {
        let what = LOOKED_FOR
            .iter()
            .find(|(name, _)| *name == kind.name)
            .map_or(kind.about.trim(), |(_, what)| what);
        kinds
            .rows
            .push(vec![Cell::text(kind.name), Cell::text(what)]);
    }
    let mut figures = Table::new("Figures that have no number", &["figure", "why"]);
    for computed in dossier.graph.computed.values() {
        if let Err(why) = &computed.worked {
            figures.rows.push(vec![
                Cell::link(
                    computed.id.to_string(),
                    book.figure_href(path, &computed.id),
                ),
                Cell::text(why.clone()),
            ]);
        }
    }
    let mut claims = Table::new(
        "Claims that rest on a report alone",
        &["claim", "treatment", "claimed"],
    );
    for (record, body) in records.cycle_claims() {
        for claim in &body.claims {
            let studied = records.endurance_studys().any(|(_, study)| {
                study.product_code.text == body.product_code.text
                    && study.treatment.text == claim.treatment.text
            });
            if !studied {
                claims.rows.push(vec![
                    book.thing(path, &record.id),
                    Cell::text(claim.treatment.replace('_', " ")),
                    Cell::text(claim.cycles_claimed.value.to_string()),
                ]);
            }
        }
    }
    let part = |id: &str, heading: &str, table: Table, none: &str| match table.rows.is_empty() {
        true => Section::new(id, heading).say(none),
        false => Section::new(id, heading).table(table),
    };
    let mut words = Section::new("words", "Words that no record supports");
    words.findings = dossier
        .findings()
        .into_iter()
        .filter(|finding| finding.rule == "R64")
        .map(|finding| book.finding(path, finding))
        .collect();
    let nothing = words.findings.is_empty();
    words = words.say(match nothing {
        true => "Every word on label and certificate is supported. Never supported by a rating alone: sterile, sterilising grade, absolute, complete retention.",
        false => "These words stand on a label or a certificate and nothing here supports them.",
    });
    let always = Section::new("always", "What a folder of records cannot show")
        .say("That a record was never made: run numbers without gaps and the metres of the roll are what speaks against it.")
        .say("That a person is who they say: a name in a record is no signature.")
        .say("Retention in any one wine: it is shown with a test organism, on flat membrane unless a record says otherwise.")
        .say("Extractables, and migration after repeated steaming, unless a chapter or an attachment reports them.");
    let mut chapters = Section::new("chapters", "What the maker says is not shown");
    let named: Vec<String> = records
        .head()
        .iter()
        .flat_map(|(_, head)| head.chapters.iter())
        .filter(|chapter| chapter.contains("not"))
        .map(|chapter| {
            format!(
                "<li><a href=\"{}\">{}</a></li>",
                super::source::chapter_page(chapter),
                escape(chapter)
            )
        })
        .collect();
    chapters = match named.is_empty() {
        true => chapters.say("No chapter speaks of it."),
        false => {
            chapters.html.push(format!("<ul>{}</ul>", named.concat()));
            chapters
        }
    };
    page(
        path,
        "What is not in this dossier",
        "Said by the program from what it did not find, so that silence is not taken for a pass.",
        vec![
            part(
                "rules",
                "Rules that could not look",
                blind,
                "Every rule looked at something.",
            ),
            part(
                "kinds",
                "Kinds of record",
                kinds,
                "Every kind of record is here.",
            ),
            part(
                "figures",
                "Figures without a number",
                figures,
                "Every figure has a number.",
            ),
            part(
                "claims",
                "Claims without data",
                claims,
                "Every claim of cycles has a study.",
            ),
            words,
            chapters,
            always,
        ],
    )
}
