//! R27: The clock of an instrument is within 60 s of a reference, or was corrected.

use std::collections::{BTreeMap, BTreeSet};

use crate::plant::Test;

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// The clock of an instrument is within 60 s of a reference, or was corrected.
pub static RULE: Rule = Rule {
    id: "R27",
    severity: Severity::Explain,
    demands: "The clock of an instrument is within 60 s of a reference, or was corrected.",
    protects: "tests in the wrong order",
    explained: "By a decided deviation of category calibration that names the instrument.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("instruments that stamp time"));
    let rigs: BTreeSet<&str> = view
        .plant
        .tests()
        .map(|test| &*test.test.instrument_id.text)
        .collect();
    for rig in rigs {
        let checks = view.plant.calibrations(rig);
        // An instrument without any certificate is the business of rule R30.
        let Some((last, _)) = checks.last() else {
            continue;
        };
        out.look();
        let own = checks
            .iter()
            .filter_map(|(record, body)| body.clock_check.as_ref().map(|check| (record, check)));
        let own: Vec<_> = own.collect();
        if own.is_empty() {
            out.find(
                finding(say!(
                    "{rig} stamps times, and no calibration record checks its clock.",
                    rig = rig
                ))
                .advise(say!(
                    "Compare its clock with a reference and record clock_check."
                ))
                .at(last.place())
                .about(rig),
            );
        }
        // A later check that is good says nothing of the tests before it.
        for (record, check) in own {
            let off = check
                .instrument_clock
                .time
                .seconds_since(check.reference_clock.time);
            if off.abs() > 60.0 && !check.corrected.value {
                out.find(
                    finding(say!("{rig}: clock {off} s off at its check of {day}, not corrected.", rig = rig, off = crate::ground::number::fixed(off, 0), day = check.reference_clock.time.date()))
                        .advise(say!("Two tests may be in the wrong order; run numbers keep theirs. Correct the clock and record the check."))
                        .at(record.at(check.spot))
                        .about(rig),
                );
            }
        }
    }
    backwards(view, &mut out);
    out
}

/// Run numbers keep the order of tests; where times contradict them, the clock was moved between.
fn backwards(view: &View, out: &mut Outcome) {
    let mut runs: BTreeMap<&str, BTreeMap<u64, Test>> = BTreeMap::new();
    for test in view.plant.tests() {
        let digits = test
            .test
            .instrument_run_id
            .rsplit(|c: char| !c.is_ascii_digit())
            .next();
        if let Some(number) = digits.and_then(|digits| digits.parse::<u64>().ok()) {
            runs.entry(&test.test.instrument_id)
                .or_default()
                .insert(number, test);
        }
    }
    for (rig, tests) in runs {
        let all: Vec<Test> = tests.into_values().collect();
        for (before, after) in all.iter().zip(all.iter().skip(1)) {
            let (Some(first), Some(second)) = (before.record.happened(), after.record.happened())
            else {
                continue;
            };
            if first > second {
                out.find(
                    finding(say!("{rig}: {instrument_run_id} is dated {second}, before {instrument_run_id2} ({first}), whose number is lower. Run numbers keep the order; times of {rig} are doubtful between its two clock checks.", rig = rig, instrument_run_id = &*after.test.instrument_run_id, second = second, instrument_run_id2 = &*before.test.instrument_run_id, first = first))
                    .advise(say!("Find out when its clock was moved. Nothing is sorted anew or corrected here."))
                    .at(after.record.place())
                    .about(rig)
                    .about(&*after.record.id.text)
                    .about(&*before.record.id.text),
                );
            }
        }
    }
}
