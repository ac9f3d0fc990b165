//! Share of elements that survive the cycles of a study.

#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

use super::{
    bubble_point_decline::study, cycles_supported::studies, element_cycles_supported::confidence,
};

/// Reliability shown by a study.
pub static FIGURE: Figure = Figure {
    id: "cycle-reliability",
    name: "Reliability shown by a study",
    symbol: "R_L",
    unit: PERCENT,
    quantity: None,
    about: "The share of elements that at least survives the cycles of the study, with its confidence: three elements without a failure show no more than 37 % at 95 %. The number is small because the study is, and it is shown for that reason.",
    validity: "Elements that stand for the product; one that was taken out early for another reason counts neither as tested nor as failed.",
    sources: &["Exact binomial bound, Clopper and Pearson 1934"],
    subjects: studies,
    formula: || {
        call(
            &procedure::SURVIVORS,
            [TESTED, FAILED, CONFIDENCE].map(Expr::Var),
        )
    },
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (TESTED, "30", "0"),
            (FAILED, "1", "0"),
            (CONFIDENCE, "0.95", "0"),
        ],
        gives: "85.14 %",
    },
};

const TESTED: Input = Input {
    symbol: "n",
    what: "the elements tested to the end or to failure",
    unit: ONE,
    from: From::Records(|scope| counted(scope, |_| true)),
};

const FAILED: Input = Input {
    symbol: "n_f",
    what: "the elements that failed",
    unit: ONE,
    from: From::Records(|scope| counted(scope, |failed| failed)),
};

const CONFIDENCE: Input = Input {
    symbol: "1−α",
    what: "the one-sided confidence",
    unit: ONE,
    from: From::Records(confidence),
};

/// Elements that were not taken out early, those of which a predicate says so by whether they failed.
fn counted(scope: &Scope, counts: fn(bool) -> bool) -> Drawn {
    let study = study(scope)?;
    let left = |id: &str| study.censoring.iter().any(|one| &*one.element.text == id);
    let n = study
        .elements
        .iter()
        .map(|id| (study.reached(id).1, left(id)))
        .filter(|(failed, left)| (*failed || !left) && counts(*failed))
        .count();
    Ok(vec![Datum::count(
        scope.record,
        n as f64,
        &n.to_string(),
        study.spot,
    )])
}
