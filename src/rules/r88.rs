//! R88: Every requirement has evidence, and the evidence holds.

use crate::{figure::Computed, record::kinds::requirement::Requirement, verdict::Verdict};
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Every requirement has evidence, and the evidence holds.
pub static RULE: Rule = Rule {
    id: "R88",
    severity: Severity::Blocks,
    demands: "Every requirement has evidence, and the evidence holds.",
    protects: "a requirement that everybody believed somebody had shown",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("requirements"));
    for (record, body) in view.plant.records().requirements() {
        out.look();
        let flaws = flaws(view, body);
        if !flaws.is_empty() {
            out.find(
                finding(format!(
                    "{} ({}): {}.",
                    &*record.id,
                    &*body.requirement,
                    flaws.join("; ")
                ))
                .advise(say!(
                    "Bring the evidence, or say to whom the requirement is not met."
                ))
                .at(record.place())
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// Whether a value counts: no decided deviation leaves it out.
pub fn counts(view: &View, computed: &Computed) -> bool {
    view.decided(&format!("{}/{}", computed.id.record, computed.id.part))
        .is_none()
}

/// What a requirement lacks.
pub fn flaws(view: &View, body: &Requirement) -> Vec<String> {
    let (mut out, evidence) = (Vec::new(), &body.evidence);
    for kind in evidence.record_kinds.iter() {
        match crate::record::kinds::kind(kind) {
            None => out.push(say!("there is no kind of record {kind}", kind = &**kind)),
            Some(_) if kind.text.as_ref() == "dossier" => {
                out.push(say!("a dossier is no evidence of itself").into())
            }
            Some(_) if view.plant.records().of_kind(kind).next().is_none() => {
                out.push(say!("no {kind} is here", kind = &**kind))
            }
            Some(_) => {}
        }
    }
    for id in evidence.records.iter() {
        if view.plant.records().any(id).is_none() {
            out.push(say!("record {id} is missing", id = &**id));
        }
    }
    for figure in evidence.figures.iter() {
        if !crate::figures::ALL
            .iter()
            .any(|known| known.id == &*figure.text)
        {
            out.push(say!("there is no figure {figure}", figure = &**figure));
            continue;
        }
        let own = view.of_definition(figure);
        let bad: Vec<String> = own
            .iter()
            .filter(|computed| !matches!(computed.verdict(), Verdict::Conforms | Verdict::NoLimit))
            .filter(|computed| counts(view, computed))
            .map(|computed| format!("{} {}", computed.id, computed.verdict().said()))
            .collect();
        if own.is_empty() {
            out.push(say!("no {figure} is here", figure = &**figure));
        }
        out.extend(bad);
    }
    let chapters: Vec<&str> = view
        .plant
        .records()
        .head()
        .iter()
        .flat_map(|(_, head)| head.chapters.iter().map(|chapter| &*chapter.text))
        .collect();
    for chapter in evidence.chapters.iter() {
        if !chapters.contains(&&*chapter.text)
            || !view.plant.folder.files.contains_key(&*chapter.text)
        {
            out.push(say!("chapter {chapter} is missing", chapter = &**chapter));
        }
    }
    let nothing = evidence.record_kinds.is_empty()
        && evidence.records.is_empty()
        && evidence.figures.is_empty()
        && evidence.chapters.is_empty();
    if nothing {
        out.push(say!("it names no evidence").into());
    }
    out
}
