//! What was asked, where the evidence is, and what is not in this dossier.

use std::collections::BTreeMap;

use super::{Book, Cell, Page, Section, Table, counted, href, lists::page};
use crate::{chart::escape, figure::Computed, record::kinds::KINDS, rules::r88, verdict::Verdict};

/// Requirement by requirement: where the evidence is, and whether it holds.
pub fn evidence(book: &Book) -> Page {
    let path = "evidence.html";
    let records = book.dossier.plant.records();
    let mut table = Table::new(
        say!("Requirements"),
        &[say!("requirement"), say!("asked by"), say!("holds")],
    );
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
        let mut list = Table::new(
            say!("Evidence"),
            &[say!("what it needs"), say!("what is here"), say!("holds")],
        );
        for kind in body.evidence.record_kinds.iter() {
            let n = records.of_kind(kind).count();
            list.rows.push(vec![
                Cell::text(say!(
                    "records of kind {kind}",
                    kind = say!(&kind.replace('_', " "))
                )),
                Cell::link(counted::records(n), href(path, "records.html")),
                present(n > 0),
            ]);
        }
        for id in body.evidence.records.iter() {
            let there = records.any(id).is_some();
            list.rows.push(vec![
                Cell::text(say!("record {id}", id = &**id)),
                book.thing(path, id),
                present(there),
            ]);
        }
        for figure in body.evidence.figures.iter() {
            let mut own = book.view.of_definition(figure).to_vec();
            let all = own.len();
            own.retain(|computed| r88::counts(&book.view, computed));
            let worst = own
                .iter()
                .map(|computed| computed.verdict())
                .filter(|verdict| *verdict != Verdict::NoLimit)
                .min();
            // In uncertainties where they are known, else as a share of the limit.
            let room = |computed: &&Computed| {
                let judged = computed.judgement.as_ref()?;
                let value = computed.quantity()?.value;
                let share = |end: f64| (value - end) / end.abs().max(f64::MIN_POSITIVE);
                let low = judged.limit.low.map(share);
                let high = judged.limit.high.map(|end| -share(end));
                let shares = low.into_iter().chain(high);
                judged.margin.or_else(|| shares.reduce(f64::min))
            };
            let judged = own.iter().filter(|computed| computed.judgement.is_some());
            let weakest = judged.min_by(|a, b| {
                let least = a.verdict().cmp(&b.verdict());
                let (room_a, room_b) = (room(a), room(b));
                least.then(
                    room_a
                        .unwrap_or(f64::INFINITY)
                        .total_cmp(&room_b.unwrap_or(f64::INFINITY)),
                )
            });
            let words = match all - own.len() {
                0 => say!(
                    "{count} that decide about what is released",
                    count = own.len()
                ),
                n => say!(
                    "{count} that decide about what is released, {n} left out by a deviation",
                    count = own.len(),
                    n = n
                ),
            };
            list.rows.push(vec![
                match crate::figures::ALL
                    .iter()
                    .find(|known| known.id == &*figure.text)
                {
                    Some(known) => Cell::link(
                        say!(
                            "figure {name}",
                            name = crate::ground::words::inside(say!(known.name))
                        ),
                        format!("methods/{id}.html", id = known.id),
                    ),
                    None => Cell::text(say!(
                        "figure {figure}, which is not known",
                        figure = &**figure
                    )),
                },
                weakest.map_or(
                    Cell::text(if own.is_empty() {
                        say!("none").to_owned()
                    } else {
                        words.clone()
                    }),
                    |computed| {
                        Cell::link(
                            say!(
                                "{words}; the least of them {id}",
                                words = words,
                                id = computed.id
                            ),
                            book.figure_href(path, &computed.id),
                        )
                    },
                ),
                match (worst, own.is_empty()) {
                    (Some(worst), _) => Cell::verdict(worst),
                    (None, true) => Cell::verdict(Verdict::NotEvaluated),
                    (None, false) => Cell::text(say!("reported only")),
                },
            ]);
        }
        for chapter in body.evidence.chapters.iter() {
            let there = book.dossier.plant.folder.files.contains_key(&*chapter.text);
            list.rows.push(vec![
                Cell::text(say!("chapter {chapter}", chapter = &**chapter)),
                match there {
                    true => Cell::link(say!("chapter"), super::source::chapter_page(chapter)),
                    false => Cell::text(say!("missing")),
                },
                present(there),
            ]);
        }
        let words = match flaws.is_empty() {
            true => say!("The evidence is here, and it holds.").to_owned(),
            false => say!("Not met: {flaws}.", flaws = flaws.join("; ")),
        };
        let mut section =
            Section::new(&anchor, &format!("{}: {}", &*record.id, &*body.requirement))
                .say(&words)
                .table(list);
        section.ways(say!(
            "<p><a href=\"{record}\">record</a></p>",
            record = book.place_href(path, &record.place())
        ));
        sections.push(section);
    }
    let first = Section::new("requirements", say!("Requirements"));
    sections.insert(
        0,
        match table.rows.is_empty() {
            true => first.say(say!("No requirement is recorded. What a customer or a regulation asks for is then shown by nothing but the rules.")),
            false => first.table(table),
        },
    );
    page(
        path,
        say!("Evidence"),
        say!("What was asked for, where the evidence is, and whether it holds."),
        sections,
    )
}

/// Whether evidence that bears no verdict is here.
fn present(there: bool) -> Cell {
    Cell::text(match there {
        true => say!("present"),
        false => say!("missing"),
    })
}

/// Studies and subjects that a reader may look for, each with the kind of record that would show it.
const LOOKED_FOR: &[(&str, &str)] = &[
    ("endurance_study", word!("how many cycles the data support")),
    ("measurement_study", word!("how well a test repeats")),
    ("flow_test", word!("water flow, new and after regeneration")),
    (
        "element_geometry",
        word!("clearances when hot and cold, strength of core and cage"),
    ),
    ("layer_stack", word!("the layers of the pack")),
    ("retention_challenge", word!("retention of organisms")),
    ("cycle_log", word!("what happened to elements in service")),
    (
        "requirement",
        word!("what customers and regulations ask for"),
    ),
    ("signature_policy", word!("who must sign what")),
];

/// What is not in this dossier.
pub fn not_here(book: &Book) -> Page {
    let path = "not-here.html";
    let dossier = book.dossier;
    let records = dossier.plant.records();
    let mut blind = Table::new(
        say!("Rules that could not look"),
        &[say!("rule"), say!("demands"), say!("why")],
    );
    for checked in &dossier.checked {
        let why = match (&checked.outcome.blind, checked.outcome.looked) {
            (Some(why), _) => why.clone(),
            (None, 0) => say!(
                "there were no {things} to look at",
                things = checked.outcome.things
            ),
            _ => continue,
        };
        blind.rows.push(vec![
            Cell::link(
                checked.rule.id,
                format!("rules.html#{id}", id = checked.rule.id.to_lowercase()),
            ),
            Cell::text(say!(checked.rule.demands)),
            Cell::text(why),
        ]);
    }
    let mut kinds = Table::new(
        say!("Kinds of record of which none is here"),
        &[say!("kind"), say!("what it would show")],
    );
    for kind in KINDS
        .iter()
        .filter(|kind| records.of_kind(kind.name).next().is_none())
    {
        let what = LOOKED_FOR
            .iter()
            .find(|(name, _)| *name == kind.name)
            .map_or(kind.about.trim(), |(_, what)| say!(*what));
        kinds.rows.push(vec![
            Cell::text(say!(&kind.name.replace('_', " "))),
            Cell::text(what),
        ]);
    }
    let mut figures = Table::new(
        say!("Figures that have no number"),
        &[say!("figure"), say!("why")],
    );
    let lacking = dossier.graph.computed.values().filter_map(|computed| {
        let why = computed.worked.as_ref().err()?;
        Some((why, computed))
    });
    let mut lacking: Vec<_> = lacking.collect();
    // What is lacking once may matter more than what is lacking everywhere.
    let mut often: BTreeMap<&str, usize> = BTreeMap::new();
    for (why, _) in &lacking {
        *often.entry(why).or_default() += 1;
    }
    lacking.sort_by_key(|(why, _)| (often.get(&***why).copied(), *why));
    for (why, computed) in lacking {
        figures.rows.push(vec![
            Cell::link(
                computed.id.to_string(),
                book.figure_href(path, &computed.id),
            ),
            Cell::text(why.clone()),
        ]);
    }
    let mut claims = Table::new(
        say!("Claims that rest on a report alone"),
        &[say!("claim"), say!("treatment"), say!("claimed")],
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
                    Cell::text(super::usual(&claim.treatment)),
                    Cell::text(claim.cycles_claimed.value.to_string()),
                ]);
            }
        }
    }
    let part = |id: &str, heading: &str, table: Table, none: &str| match table.rows.is_empty() {
        true => Section::new(id, heading).say(none),
        false => Section::new(id, heading).table(table),
    };
    let mut words = Section::new("words", say!("Words that no record supports"));
    words.findings = book
        .findings
        .iter()
        .filter(|finding| finding.rule == "R64")
        .map(|finding| book.finding(path, finding))
        .collect();
    let nothing = words.findings.is_empty();
    words = words.say(match nothing {
        true => say!("No word on label or certificate is one of those that rule R64 looks for: sterile, sterilising grade, absolute, complete retention and their like, in English. What else they promise, a person must read."),
        false => say!("These words stand on a label or a certificate and nothing here supports them."),
    });
    let always = Section::new("always", say!("What a folder of records cannot show"))
        .say(say!("That a record was never made: run numbers without gaps and the metres of the roll are what speaks against it."))
        .say(say!("That a person is who they say: a name in a record is no signature."))
        .say(say!("Retention in any one wine: it is shown with a test organism, on flat membrane unless a record says otherwise."))
        .say(say!("Extractables, and migration after repeated steaming, unless a chapter or an attachment reports them."));
    let mut chapters = Section::new("chapters", say!("What the maker says is not shown"));
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
        true => chapters.say(say!("No chapter speaks of it.")),
        false => {
            chapters.html.push(format!("<ul>{}</ul>", named.concat()));
            chapters
        }
    };
    page(
        path,
        say!("What is not in this dossier"),
        say!(
            "Said by the program from what it did not find, so that silence is not taken for a pass."
        ),
        vec![
            part(
                "rules",
                say!("Rules that could not look"),
                blind,
                say!("Every rule looked at something."),
            ),
            part(
                "kinds",
                say!("Kinds of record"),
                kinds,
                say!("Every kind of record is here."),
            ),
            part(
                "figures",
                say!("Figures without a number"),
                figures,
                say!("Every figure has a number."),
            ),
            part(
                "claims",
                say!("Claims without data"),
                claims,
                say!("Every claim of cycles has a study."),
            ),
            words,
            chapters,
            always,
        ],
    )
}
