//! R29: The run numbers of a rig are continuous; every break is accounted for.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The run numbers of a rig are continuous; every break is accounted for.
pub static RULE: Rule = Rule {
    id: "R29",
    severity: Severity::Explain,
    demands: "The run numbers of a rig are continuous; every break is accounted for.",
    protects: "an unwanted result that was never exported",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("runs"));
    let mut runs: std::collections::BTreeMap<
        &str,
        std::collections::BTreeMap<u64, crate::plant::Test>,
    > = std::collections::BTreeMap::new();
    for test in view.plant.tests() {
        let digits = test
            .test
            .instrument_run_id
            .rsplit(|c: char| !c.is_ascii_digit())
            .next()
            .unwrap_or("");
        let Ok(number) = digits.parse::<u64>() else {
            out.find(
                finding(say!("{id}: the run {instrument_run_id} of {instrument_id} has no number; a gap could not be seen.", id = &*test.record.id, instrument_run_id = &*test.test.instrument_run_id, instrument_id = &*test.test.instrument_id))
                .advise(say!("Write the rig's own running number."))
                .at(test.record.at(test.test.instrument_run_id.spot))
                .about(&*test.record.id.text),
            );
            continue;
        };
        out.look();
        if let Some(other) = runs
            .entry(&test.test.instrument_id)
            .or_default()
            .insert(number, test)
        {
            out.find(
                finding(say!(
                    "{instrument_id}: {instrument_run_id} is the run of {id} and of {id2}.",
                    instrument_id = &*test.test.instrument_id,
                    instrument_run_id = &*test.test.instrument_run_id,
                    id = &*other.record.id,
                    id2 = &*test.record.id
                ))
                .advise(say!("Fetch both exports from the rig."))
                .at(test.record.at(test.test.instrument_run_id.spot))
                .about(&*test.record.id.text)
                .about(&*test.test.instrument_id.text),
            );
        }
    }
    for (rig, numbers) in runs {
        for ((before, first), (after, test)) in numbers.iter().zip(numbers.iter().skip(1)) {
            if *after != before + 1 {
                out.find(
                    finding(say!("{rig}: {instrument_run_id} is followed by {instrument_run_id2}; {n} not here.", rig = rig, instrument_run_id = &*first.test.instrument_run_id, instrument_run_id2 = &*test.test.instrument_run_id, n = match after - before - 1 {
                            1 => say!("1 run is").to_owned(),
                            n => say!("{n} runs are", n = n),
                        }))
                    .advise(say!("Export them, or give the reason: trial, leak check, other product."))
                    .at(test.record.at(test.test.instrument_run_id.spot))
                    .about(rig)
                    .about(&*test.record.id.text),
                );
            }
        }
    }
    out
}
