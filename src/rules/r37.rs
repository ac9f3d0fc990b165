//! R37: Signatures are in order: authorship, review, release.

use crate::{
    ground::finding::{Finding, Severity},
    record::{Record, kinds::release_statement::ReleaseStatement},
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
        for (before, after) in [("authorship", "review"), ("review", "release")] {
            // Of several the last goes before the first.
            let first = release
                .signed_as(before)
                .max_by_key(|own| own.signed_at.time);
            let second = release
                .signed_as(after)
                .min_by_key(|own| own.signed_at.time);
            if let (Some(first), Some(second)) = (first, second)
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
        let last = stands_on(view, release);
        let last = last.into_iter().filter_map(|on| Some((on.happened()?, on)));
        let last = last.max_by_key(|(when, _)| *when);
        let early = release.signatures.iter().find_map(|signature| {
            let (when, on) = last.filter(|(when, _)| signature.signed_at.time < *when)?;
            Some((signature, when, on))
        });
        if let Some((signature, when, on)) = early {
            out.find(
                finding(say!(
                    "{id}: {person_id} signed {time}, before {on} of {when}.",
                    id = &*record.id,
                    person_id = &*signature.person_id,
                    time = signature.signed_at.time,
                    on = &*on.id,
                    when = when
                ))
                .advise(say!("Sign what exists; sign again."))
                .at(record.at(signature.spot))
                .about(&*record.id.text)
                .about(&*on.id.text),
            );
        }
        let released = release
            .signed_as("release")
            .max_by_key(|own| own.signed_at.time);
        if let (Some(issued), Some(signed)) = (&release.issued_on, released)
            && issued.date < signed.signed_at.time.date()
        {
            out.find(
                finding(say!(
                    "{id}: issued {issued}, and signed for release {time}.",
                    id = &*record.id,
                    issued = issued.date,
                    time = signed.signed_at.time
                ))
                .advise(say!("A statement is issued when it is signed: correct the date, as the next revision."))
                .at(record.at(issued.spot))
                .about(&*record.id.text),
            );
        }
    }
    out
}

/// What a release stands on: the deciding tests, builds, runs, inspections and marks of what it names, the count of its lot.
fn stands_on<'a>(view: &View<'a>, release: &ReleaseStatement) -> Vec<&'a Record> {
    let plant = view.plant;
    let mut out: Vec<&Record> = Vec::new();
    for assembly in &release.object.assemblies {
        let build = plant.build(assembly);
        let modules = build
            .into_iter()
            .flat_map(|(_, build)| build.modules.iter());
        let modules: Vec<&str> = modules.map(|position| &*position.module_id.text).collect();
        out.extend(build.map(|(record, _)| record));
        let runs = plant.assemblies.get(&*assembly.text).into_iter();
        let mut runs: Vec<usize> = runs.flat_map(|own| own.seal_runs.iter().copied()).collect();
        let of_modules = modules.iter().filter_map(|id| plant.modules.get(*id));
        runs.extend(of_modules.flat_map(|module| module.seal_runs.iter().copied()));
        for run in runs {
            let run = plant.record(run);
            let seen = plant.inspections.get(&*run.id.text).into_iter().flatten();
            out.push(run);
            out.extend(seen.map(|index| plant.record(*index)));
        }
        for id in modules.into_iter().chain([&*assembly.text]) {
            out.extend(plant.last_test(id).map(|test| test.record));
            out.extend(plant.marks_of(id));
        }
    }
    out.extend(
        plant
            .reconciliations(&release.object.lot_id)
            .map(|(record, _)| record),
    );
    out
}
