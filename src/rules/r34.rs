//! R34: A certificate names an accredited laboratory or a chain of traceability.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// A certificate names an accredited laboratory or a chain of traceability.
pub static RULE: Rule = Rule {
    id: "R34",
    severity: Severity::Explain,
    demands: "A certificate names an accredited laboratory or a chain of traceability.",
    protects: "a claim of traceability that rests on nothing",
    explained: "By a decided deviation that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("calibrations"));
    for (record, body) in view.plant.records().calibration_records() {
        out.look();
        if body.accreditation.is_none() && body.reference_standard_traceability.is_none() {
            out.find(
                finding(say!(
                    "{id} names no accreditation and no reference standard.",
                    id = &*record.id
                ))
                .advise(say!(
                    "Ask the laboratory; metrological traceability is otherwise a claim."
                ))
                .at(record.place())
                .about(&*record.id.text),
            );
        }
    }
    out
}
