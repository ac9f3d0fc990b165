//! R78: Each record has exactly one current revision; superseded ones are present and marked.

use std::collections::BTreeMap;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Each record has exactly one current revision; superseded ones are present and marked.
pub static RULE: Rule = Rule {
    id: "R78",
    severity: Severity::Blocks,
    demands: "Each record has exactly one current revision; superseded ones are present and marked.",
    protects: "a revision that vanished, or two that both count",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

/// When a record says that it was written.
fn written(record: &crate::record::Record) -> Option<crate::ground::time::Time> {
    record.recorded_at.as_ref().map(|when| when.time)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("revised records and release statements"));
    let records = view.plant.records();
    for record in &records.all {
        let Some(old) = &record.supersedes else {
            continue;
        };
        out.look();
        if old.id.text != record.id.text {
            let current = records.find(record.kind, &old.id).is_some();
            if !current
                && records
                    .revision(record.kind, &old.id, old.revision.value)
                    .is_none()
            {
                out.find(
                    finding(say!(
                        "{id} supersedes {id2} revision {revision}, which is not in this folder.",
                        id = &*record.id,
                        id2 = &*old.id,
                        revision = old.revision.value
                    ))
                    .advise(say!(
                        "Add the superseded record as it was; nothing is ever taken away."
                    ))
                    .at(record.at(old.spot))
                    .about(&*record.id.text),
                );
            }
            if current {
                out.find(
                    finding(say!("{id} says that it supersedes {id2}, which has another id and is still current.", id = &*record.id, id2 = &*old.id))
                    .advise(say!("Give both one id, and this one the next revision."))
                    .at(record.at(old.spot))
                    .about(&*record.id.text)
                    .about(&*old.id.text),
                );
            }
            continue;
        }
        let number = old.revision.value;
        let before = records.revision(record.kind, &old.id, number);
        let earlier = before
            .and_then(written)
            .zip(written(record))
            .is_some_and(|(first, then)| then < first);
        let wrong = if number >= record.revision {
            Some((
                say!("which is not before it"),
                say!("A revision supersedes the one before it."),
            ))
        } else if number + 1 != record.revision {
            Some((
                say!("and the one between is passed over"),
                say!("Each revision supersedes the one before it; add what is between."),
            ))
        } else if before.is_none() {
            Some((
                say!("which is not in this folder"),
                say!("Add the superseded record as it was; nothing is ever taken away."),
            ))
        } else if earlier {
            Some((
                say!("which is dated after it"),
                say!("Find out which time is wrong."),
            ))
        } else {
            None
        };
        if let Some((how, advice)) = wrong {
            out.find(
                finding(say!(
                    "{id} revision {revision} supersedes revision {number}, {how}.",
                    id = &*record.id,
                    revision = record.revision,
                    number = number,
                    how = how
                ))
                .advise(advice)
                .at(record.at(old.spot))
                .about(&*record.id.text),
            );
        }
    }
    rebuilt(view, &mut out);
    let mut released: BTreeMap<&str, &crate::record::Record> = BTreeMap::new();
    for (record, release) in view.plant.releases() {
        out.look();
        for id in &release.object.assemblies {
            if let Some(other) = released
                .insert(id, record)
                .filter(|other| other.id.text != record.id.text)
            {
                out.find(
                    finding(say!(
                        "{id} is released by {id2} and by {id3}, which are both current.",
                        id = &**id,
                        id2 = &*other.id,
                        id3 = &*record.id
                    ))
                    .advise(say!("Withdraw one."))
                    .at(record.at(id.spot))
                    .about(&*id.text)
                    .about(&*record.id.text)
                    .about(&*other.id.text),
                );
            }
        }
    }
    if let Some((record, head)) = records.head()
        && let Some(old) = &head.supersedes
    {
        out.look();
        if old.digest.is_none() {
            out.find(
                Finding {
                    severity: Severity::Note,
                    ..finding(say!("this dossier supersedes {id} revision {revision} without naming its digest.", id = &*old.id, revision = old.revision.value))
                }
                .advise(say!("Name it if that revision was ever issued: an old copy is then told from any other."))
                .at(record.at(old.spot)),
            );
        }
    }
    if let Some((record, head)) = records.head()
        && record.revision > 1
        && head.supersedes.is_none()
    {
        out.look();
        out.find(
            finding(say!(
                "this dossier is revision {revision} and does not say which it supersedes.",
                revision = record.revision
            ))
            .advise(say!("Name under supersedes the id, revision and digest of the dossier before; compile with --supersedes shows what changed."))
            .at(record.place()),
        );
    }
    out
}

/// A build whose modules were changed after its assembly had been released.
fn rebuilt(view: &View, out: &mut Outcome) {
    for (record, build) in view.plant.records().assembly_builds() {
        if record.revision < 2 {
            continue;
        }
        let signed = view
            .plant
            .releases_of(&build.assembly_id)
            .find_map(|(_, release)| {
                // Whoever signed first signed what was there then.
                let times = release.signed_as("release").map(|one| one.signed_at.time);
                times.min()
            });
        let (Some(signed), Some(written)) =
            (signed, record.recorded_at.as_ref().map(|when| when.time))
        else {
            continue;
        };
        if written <= signed {
            continue;
        }
        let modules = |body: &crate::record::kinds::assembly_build::AssemblyBuild| {
            body.modules
                .iter()
                .map(|position| position.module_id.text.clone())
                .collect::<Vec<_>>()
        };
        let before = view
            .plant
            .earlier(record)
            .last()
            .and_then(|old| match &old.body {
                crate::record::kinds::Body::AssemblyBuild(old) => Some(modules(old)),
                _ => None,
            });
        if before.is_some_and(|before| before != modules(build)) {
            out.find(
                finding(say!("{id} revision {revision} of {written} lists other modules than before, and {assembly_id} was released {signed}.", id = &*record.id, revision = record.revision, written = written, assembly_id = &*build.assembly_id, signed = signed))
                    .advise(say!("Read the marks on the element; tell the customer which modules it holds, and release it anew."))
                    .at(record.place())
                    .about(&*build.assembly_id.text)
                    .about(&*record.id.text),
            );
        }
    }
}
