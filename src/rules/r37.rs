//! R37: Signatures are in order: authorship, review, release.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Signatures are in order: authorship, review, release.
pub static RULE: Rule = Rule {
    id: "R37",
    severity: Severity::Blocks,
    demands: "Signatures are in order: authorship, review, release.",
    protects: "a release that was signed before it was reviewed",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("release statements"));
    for (record, release) in view.plant.releases() {
        out.look();
        let of = |meaning: &str| {
            release
                .signatures
                .iter()
                .find(|signature| &*signature.meaning == meaning)
        };
        for (before, after) in [("authorship", "review"), ("review", "release")] {
            if let (Some(first), Some(second)) = (of(before), of(after))
                && first.signed_at.time > second.signed_at.time
            {
                out.find(
                    finding(say!(
                        "{id}: {after} signed {time}, {before} signed {time2}.",
                        id = &*record.id,
                        after = after,
                        time = second.signed_at.time,
                        before = before,
                        time2 = first.signed_at.time
                    ))
                    .advise(say!("Review again, then release as the next revision."))
                    .at(record.at(second.spot))
                    .about(&*record.id.text),
                );
            }
        }
        let last = release
            .object
            .assemblies
            .iter()
            .filter_map(|id| view.plant.last_test(id))
            .filter_map(|test| test.record.happened_at.as_ref())
            .map(|when| when.time)
            .max();
        if let Some(signature) = release
            .signatures
            .iter()
            .find(|signature| last.is_some_and(|last| signature.signed_at.time < last))
        {
            out.find(
                finding(say!(
                    "{id}: {person_id} signed {time}, before the last test of its elements.",
                    id = &*record.id,
                    person_id = &*signature.person_id,
                    time = signature.signed_at.time
                ))
                .advise(say!("Sign what exists; sign again."))
                .at(record.at(signature.spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}
