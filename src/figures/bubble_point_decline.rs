//! Change of an element's bubble point per cycle.

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

use crate::record::{
    Record,
    kinds::endurance_study::{Checkpoint, EnduranceStudy},
};

/// Decline of the bubble point per cycle.
pub static FIGURE: Figure = Figure {
    id: "bubble-point-decline",
    name: "Change of the bubble point per cycle",
    symbol: "β",
    unit: MBAR,
    quantity: None,
    about: "Slope of the straight line through the bubble points of one element against the cycles that it had: below zero it loses bubble point. Several results of one element are not independent of each other, so each element has a line of its own.",
    validity: "At least three checkpoints, all from before any failure.",
    sources: &["Least squares"],
    subjects: |plant| studied(plant),
    formula: || call(&procedure::SLOPE, [Expr::Var(CYCLE), Expr::Var(BUBBLE)]),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CYCLE, "0", "0"),
            (CYCLE, "25", "0"),
            (CYCLE, "50", "0"),
            (BUBBLE, "2.62 bar", "0.02 bar"),
            (BUBBLE, "2.61 bar", "0.02 bar"),
            (BUBBLE, "2.57 bar", "0.02 bar"),
        ],
        gives: "−1.00 ± 0.57 mbar",
    },
};

const CYCLE: Input = Input {
    symbol: "c",
    what: "the cycles before each test",
    unit: ONE,
    from: From::Records(cycles),
};

const BUBBLE: Input = Input {
    symbol: "P",
    what: "the bubble point of each test",
    unit: BAR,
    from: From::Records(bubble_points),
};

/// Every element of every study.
pub fn studied(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| -> Vec<Subject> {
        let Body::EnduranceStudy(study) = &body.body else {
            return Vec::new();
        };
        let one = |id: &crate::record::read::Id| Subject {
            record,
            part: id.to_string(),
        };
        study.elements.iter().map(one).collect()
    };
    plant.indexed().flat_map(of).collect()
}

/// The study of a scope.
pub fn study<'a>(scope: &Scope<'a>) -> Result<&'a EnduranceStudy, String> {
    match &scope.record.body {
        Body::EnduranceStudy(body) => Ok(body),
        _ => Err(say!("this record is no endurance_study").into()),
    }
}

/// The checkpoints of the element while it was intact, those with a bubble point.
fn measured<'a>(scope: &Scope<'a>) -> Result<Vec<&'a Checkpoint>, String> {
    let all = study(scope)?.of(scope.part);
    Ok(all
        .into_iter()
        .take_while(|point| point.intact.value)
        .filter(|point| point.bubble_point.is_some())
        .collect())
}

/// Cycles before each test.
pub fn cycles(scope: &Scope) -> Drawn {
    let one = |point: &&Checkpoint| {
        let count = point.cycle;
        Datum::count(
            scope.record,
            count.value as f64,
            &count.value.to_string(),
            count.spot,
        )
    };
    Ok(measured(scope)?.iter().map(one).collect())
}

/// Bubble point of each test.
pub fn bubble_points(scope: &Scope) -> Drawn {
    let points = measured(scope)?;
    let values = points
        .iter()
        .filter_map(|point| point.bubble_point.as_ref());
    Ok(values.map(|value| Datum::of(scope.record, value)).collect())
}
