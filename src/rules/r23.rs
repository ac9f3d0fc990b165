//! R23: Things happened in order: received, membrane tested, pleated, sealed, module tested, built, assembly tested, released.

use crate::{
    ground::finding::{Finding, Severity},
    plant::{Test, lots_used},
    rule::{Outcome, Rule, View},
};

/// Things happened in order: received, membrane tested, pleated, sealed, module tested, built, assembly tested, released.
pub static RULE: Rule = Rule {
    id: "R23",
    severity: Severity::Blocks,
    demands: "Things happened in order: received, membrane tested, pleated, sealed, module tested, built, assembly tested, released.",
    protects: "a record that was written to fit",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R23", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("pairs of steps"));
    let plant = view.plant;
    let mut step = |before: (
        &crate::record::Record,
        &str,
        Option<crate::ground::time::Time>,
    ),
                    after: (
        &crate::record::Record,
        &str,
        Option<crate::ground::time::Time>,
    ),
                    id: &str| {
        let (Some(first), Some(second)) = (before.2, after.2) else {
            return;
        };
        out.look();
        if first > second {
            out.find(
                finding(say!(
                    "{id}: {after} {id2} on {second}, but {before} {id3} is dated {first}.",
                    id = id,
                    after = after.1,
                    id2 = &*after.0.id,
                    second = second,
                    before = before.1,
                    id3 = &*before.0.id,
                    first = first
                ))
                .advise(say!("Find out which time is wrong, or open a deviation."))
                .at(after.0.place())
                .about(id),
            );
        }
    };
    let when = |record: &crate::record::Record| record.happened();
    let run = |index: &usize| {
        let run = plant.record(*index);
        (run, say!("seal run"), when(run))
    };
    let mut rolls: std::collections::BTreeMap<&str, &crate::record::Record> =
        std::collections::BTreeMap::new();
    for (id, module) in &plant.modules {
        let Some((pleated, _, pack)) = plant.pack(id) else {
            continue;
        };
        let earliest = rolls.entry(&pack.material_lot).or_insert(pleated);
        if when(pleated) < when(earliest) {
            *earliest = pleated;
        }
        let before = (pleated, say!("pleating"), when(pleated));
        let runs: Vec<_> = module.seal_runs.iter().map(run).collect();
        for run in &runs {
            step(before, *run, id);
        }
        for test in module.tests.iter().map(|index| plant.record(*index)) {
            for before in runs.iter().chain([&before]) {
                step(*before, (test, say!("test"), when(test)), id);
            }
        }
    }
    for (lot, pleated) in &rolls {
        let own = plant.by_roll.get(*lot).into_iter().flatten();
        let own: Vec<_> = own.map(|index| plant.record(*index)).collect();
        for (kind, word) in [
            ("slitting_record", say!("slitting record")),
            ("membrane_test", say!("membrane test")),
        ] {
            let of_kind = own.iter().filter(|record| record.kind == kind);
            if let Some(first) = of_kind.min_by_key(|record| when(record)) {
                step(
                    (first, word, when(first)),
                    (pleated, say!("pleating"), when(pleated)),
                    lot,
                );
            }
        }
    }
    // What was used was there: of each lot the earliest use.
    let mut used: std::collections::BTreeMap<&str, &crate::record::Record> =
        std::collections::BTreeMap::new();
    let challenged = |record: &crate::record::Record| record.kind == "retention_challenge";
    for record in plant
        .records()
        .current()
        .filter(|record| !challenged(record))
    {
        for (lot, _) in lots_used(&record.body) {
            let earliest = used.entry(lot).or_insert(record);
            if when(record).is_some_and(|own| when(earliest).is_none_or(|other| own < other)) {
                *earliest = record;
            }
        }
    }
    for (lot, record) in used {
        if let Some((material, body)) = plant.material(lot) {
            let word = match record.kind {
                "pleating_record" => say!("pleating").to_owned(),
                kind => say!(&kind.replace('_', " ")).to_owned(),
            };
            step(
                (material, say!("receipt"), Some(body.received_at.time)),
                (record, &word, when(record)),
                lot,
            );
        }
    }
    for (id, assembly) in &plant.assemblies {
        // Joined modules are tested before adapter and end piece are on; the stages outrank the days.
        let tests = assembly.tests.iter().map(|index| plant.record(*index));
        let joined = |record: &&crate::record::Record| {
            Test::of(record).is_some_and(|own| own.stage == Some("joined_modules"))
        };
        let whole = tests.clone().filter(|record| !joined(record));
        let last = tests.filter(joined).max_by_key(|record| when(record));
        if let (Some(last), Some(first)) = (last, whole.min_by_key(|record| when(record))) {
            step(
                (last, say!("test of joined modules"), when(last)),
                (first, say!("test"), when(first)),
                id,
            );
        }
        let Some((built, _)) = plant.build(id) else {
            continue;
        };
        let runs = assembly.seal_runs.iter().map(run);
        let before = runs.chain([(built, say!("build"), when(built))]);
        for test in assembly.tests.iter().map(|index| plant.record(*index)) {
            for before in before.clone() {
                step(before, (test, say!("test"), when(test)), id);
            }
        }
        for release in assembly.releases.iter().map(|index| plant.record(*index)) {
            if let Some(last) = plant.last_test(id) {
                step(
                    (last.record, say!("test"), when(last.record)),
                    (release, say!("release"), when(release)),
                    id,
                );
            }
        }
    }
    for (record, _) in plant.records().seal_runs() {
        for index in plant
            .inspections
            .get(&*record.id.text)
            .into_iter()
            .flatten()
        {
            let seen = plant.record(*index);
            step(
                (record, say!("seal run"), when(record)),
                (seen, say!("inspection"), when(seen)),
                &record.id,
            );
        }
    }
    for (record, release) in plant.releases() {
        let tests = release.object.assemblies.iter();
        let tests = tests.filter_map(|id| plant.last_test(id));
        let last = tests
            .filter_map(|test| Some((test.record.day()?, test)))
            .max_by_key(|(day, _)| *day);
        if let (Some(issued), Some((day, test))) = (&release.issued_on, last)
            && issued.date < day
        {
            out.find(
                finding(say!(
                    "{id} is issued on {issued}, and {test} of what it releases was made on {day}.",
                    id = &*record.id,
                    issued = issued.date,
                    test = &*test.record.id,
                    day = day
                ))
                .advise(say!("Find out which time is wrong, or open a deviation."))
                .at(record.at(issued.spot))
                .about(&*record.id.text),
            );
        }
    }
    for (record, log) in plant.records().cycle_logs() {
        let released = plant.releases_of(&log.assembly_id).next();
        let signed = released.and_then(|(statement, release)| {
            let times = release.signed_as("release").map(|one| one.signed_at.time);
            Some((statement, times.max()?))
        });
        let Some((statement, signed)) = signed else {
            continue;
        };
        out.look();
        if log.installed_at.time < signed {
            out.find(
                Finding {
                    severity: Severity::Explain,
                    ..finding(say!("{assembly_id}: fitted {time} ({id}), released {signed} ({id2}).", assembly_id = &*log.assembly_id, time = log.installed_at.time, id = &*record.id, signed = signed, id2 = &*statement.id))
                }
                .advise(say!("Say in a deviation who allowed it to be used before it was released, and for what."))
                .at(record.at(log.installed_at.spot))
                .about(&*log.assembly_id.text)
                .about(&*record.id.text),
            );
        }
    }
    out
}
