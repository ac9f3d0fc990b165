//! R67: The challenged supplier lot is the one in the product.

use super::r88;
use crate::{
    figures::log_reduction_bound,
    ground::finding::{Finding, Severity},
    record::Record,
    rule::{Outcome, Rule, View},
    verdict::Verdict,
};

/// The challenged supplier lot is the one in the product.
pub static RULE: Rule = Rule {
    id: "R67",
    severity: Severity::Blocks,
    demands: "The challenged supplier lot is the one in the product.",
    protects: "a claim that rests on another membrane",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

/// Whether a challenge has a run that counts and does not speak against the membrane.
fn shows(view: &View, challenge: &Record) -> bool {
    let runs = view.figures_of(challenge).iter();
    let mut runs = runs.filter(|own| own.id.figure == log_reduction_bound::FIGURE.id);
    runs.any(|own| {
        let against = matches!(
            own.verdict(),
            Verdict::DoesNotConform | Verdict::NotEvaluated
        );
        !against && r88::counts(view, own)
    })
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("rolls in the release"));
    let challenged: std::collections::BTreeSet<&str> = view
        .plant
        .records()
        .retention_challenges()
        .filter(|(record, _)| shows(view, record))
        .filter_map(|(_, body)| view.plant.material(&body.material_lot))
        .map(|(_, lot)| &*lot.supplier_lot.text)
        .collect();
    let rolls: std::collections::BTreeSet<&str> = view
        .modules
        .iter()
        .filter_map(|id| view.plant.pack(id))
        .map(|(_, _, pack)| &*pack.material_lot.text)
        .collect();
    for roll in rolls {
        let Some((record, lot)) = view.plant.material(roll) else {
            continue;
        };
        out.look();
        if !challenged.contains(&*lot.supplier_lot.text) {
            out.find(
                finding(say!("{roll} (supplier lot {supplier_lot}) has no challenge.", roll = roll, supplier_lot = &*lot.supplier_lot))
                    .advise(say!("Challenge a roll of that supplier lot, or take its elements out of the release."))
                    .at(record.place())
                    .about(roll),
            );
        }
    }
    out
}
