//! Cycles that the results of one element support.

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

use super::bubble_point_decline::{bubble_points, cycles, studied, study};
use crate::record::kinds::product_specification::Stage;

/// Cycles supported by one element.
pub static FIGURE: Figure = Figure {
    id: "element-cycles-supported",
    name: "Cycles supported by one element",
    symbol: "n_e",
    unit: ONE,
    quantity: None,
    about: "Whole cycles up to which the lower confidence bound of the element's bubble-point line stays above the least that is allowed, and never more than it reached intact: nothing is said about cycles that nobody ran.",
    validity: "At least three checkpoints; the straight line speaks of the mean of this element.",
    sources: &[
        "Confidence bound of a least-squares line (textbook)",
        "No extrapolation beyond the cycles tested: in the manner of ICH Q1E (from memory)",
    ],
    subjects: studied,
    formula: || {
        call(
            &procedure::CYCLES_SUPPORTED,
            [CYCLE, BUBBLE, LEAST, CONFIDENCE, REACHED].map(Expr::Var),
        )
    },
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CYCLE, "0", "0"),
            (CYCLE, "20", "0"),
            (CYCLE, "40", "0"),
            (CYCLE, "60", "0"),
            (BUBBLE, "2.62 bar", "0.02 bar"),
            (BUBBLE, "2.57 bar", "0.02 bar"),
            (BUBBLE, "2.53 bar", "0.02 bar"),
            (BUBBLE, "2.46 bar", "0.02 bar"),
            (LEAST, "2.40 bar", "0 bar"),
            (CONFIDENCE, "0.95", "0"),
            (REACHED, "80", "0"),
        ],
        gives: "74",
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

const LEAST: Input = Input {
    symbol: "P_min",
    what: "the least bubble point allowed",
    unit: BAR,
    from: From::Records(|scope| {
        if let Some(least) = &study(scope)?.least_bubble_point {
            return Ok(vec![Datum::of(scope.record, least)]);
        }
        let (record, spec) = scope.spec()?;
        let demand = [Stage::InService, Stage::Module]
            .into_iter()
            .find_map(|stage| spec.limit(stage, Measured::BubblePoint))
            .map(|accepted| &accepted.limit);
        let low = demand.and_then(|demand| demand.low.map(|low| (demand, low)));
        let (demand, low) = low.ok_or(say!("the specification has no least bubble point"))?;
        Ok(vec![Datum::count(record, low, &demand.text, demand.spot)])
    }),
};

const CONFIDENCE: Input = Input {
    symbol: "1−α",
    what: "the one-sided confidence",
    unit: ONE,
    from: From::Records(confidence),
};

const REACHED: Input = Input {
    symbol: "n_r",
    what: "the cycles that the element reached intact",
    unit: ONE,
    from: From::Records(|scope| {
        let study = study(scope)?;
        let (reached, _) = study.reached(scope.part);
        let spot = study
            .of(scope.part)
            .iter()
            .find(|point| point.cycle.value == reached)
            .map_or(scope.record.spot, |point| point.cycle.spot);
        Ok(vec![Datum::count(
            scope.record,
            reached as f64,
            &reached.to_string(),
            spot,
        )])
    }),
};

/// The confidence of the study.
pub fn confidence(scope: &Scope) -> Drawn {
    Ok(vec![Datum::of(scope.record, &study(scope)?.confidence)])
}
