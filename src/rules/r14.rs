//! R14: Each module used has an accepted last test before the build.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View, not_a_pass},
};

/// Each module used has an accepted last test before the build.
pub static RULE: Rule = Rule {
    id: "R14",
    severity: Severity::Blocks,
    demands: "Each module used has an accepted last test before the build.",
    protects: "a module that was built in before it passed",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R14", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("modules built in"));
    for (record, build) in view.plant.records().assembly_builds() {
        for position in &build.modules {
            out.look();
            let id = &*position.module_id.text;
            let at = record.at(position.module_id.spot);
            let mut found = |message: String, advice: &str| {
                out.find(Finding {
                    severity: view.weight(&build.assembly_id),
                    ..finding(message)
                        .advise(advice)
                        .at(at.clone())
                        .about(id)
                        .about(&*build.assembly_id.text)
                })
            };
            let Some(last) = view.plant.last_test(id) else {
                found(
                    say!(
                        "{id} is in {assembly_id} and has no test.",
                        id = id,
                        assembly_id = &*build.assembly_id
                    ),
                    say!("Add its test; a module is never joined untested."),
                );
                continue;
            };
            let late = last
                .record
                .happened_at
                .as_ref()
                .zip(record.happened_at.as_ref())
                .filter(|(test, built)| test.time > built.time);
            if let Some((test, built)) = late {
                found(
                    say!(
                        "{id}: its last test is dated after the build ({time} against {time2}).",
                        id = id,
                        time = test.time,
                        time2 = built.time
                    ),
                    say!("Check the clock of the rig and the time of the build."),
                );
            }
            let bad: Vec<String> = view
                .deciding(id)
                .into_iter()
                .filter(|computed| not_a_pass(computed))
                .map(View::phrase)
                .collect();
            if !bad.is_empty() {
                found(
                    say!(
                        "{id} is in {assembly_id} and the test that decides about it is no pass: {bad}.",
                        id = id,
                        assembly_id = &*build.assembly_id,
                        bad = bad.join("; ")
                    ),
                    say!("Quarantine the assembly; a module that did not pass is never joined."),
                );
            }
        }
    }
    out
}
