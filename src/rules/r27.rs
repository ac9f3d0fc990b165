//! R27: The clock of an instrument is within 60 s of a reference, or was corrected.

use std::collections::BTreeSet;

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
    let mut out = Outcome::of("instruments that stamp time");
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
        let check = checks
            .iter()
            .rev()
            .find_map(|(record, body)| body.clock_check.as_ref().map(|check| (record, check)));
        let Some((record, check)) = check else {
            out.find(
                finding(format!(
                    "{rig} stamps times, and no calibration record checks its clock."
                ))
                .advise("Compare its clock with a reference and record clock_check.")
                .at(last.place())
                .about(rig),
            );
            continue;
        };
        let off = check
            .instrument_clock
            .time
            .seconds_since(check.reference_clock.time);
        if off.abs() > 60.0 && !check.corrected.value {
            out.find(
                finding(format!("{rig}: clock {} s off at its last check, not corrected.", crate::ground::number::fixed(off, 0)))
                    .advise("Two tests may be in the wrong order; run numbers keep theirs. Correct the clock and record the check.")
                    .at(record.at(check.spot))
                    .about(rig),
            );
        }
    }
    out
}
