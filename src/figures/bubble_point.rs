//! Bubble point of an element from a stepped pressure ramp.

use super::diffusive_flow::{column, gauge, reported};
use crate::ground::number;
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

/// Bubble point of an element.
pub static FIGURE: Figure = Figure {
    id: "bubble-point",
    name: "Bubble point of an element",
    symbol: "P_b",
    unit: BAR,
    quantity: Some(Measured::BubblePoint),
    about: "The gauge pressure at which the gas flow through the wetted element leaves its diffusive line by the multiple that the specification states. The line is fitted below the pressure that the specification states.",
    validity: "A ramp slow enough for the flow to settle at each step; readings on both sides of the crossing.",
    sources: &[
        "Criterion of the product specification",
        "Least-squares line (textbook)",
    ],
    subjects: |plant| measured_in(plant, Measured::BubblePoint, false),
    formula: || {
        call(
            &procedure::CROSSING,
            [
                Expr::Var(RAMP),
                Expr::Var(FLOW_OF),
                Expr::Var(FACTOR),
                Expr::Var(BELOW),
            ],
        )
    },
    limit: |scope| limit_of_specification(scope, Measured::BubblePoint),
    check: always,
    reported: |scope| reported(scope, Measured::BubblePoint),
    example: Example {
        given: &[
            (RAMP, "1.70 bar", "0.002 bar"),
            (RAMP, "1.90 bar", "0.002 bar"),
            (RAMP, "2.10 bar", "0.002 bar"),
            (RAMP, "2.40 bar", "0.002 bar"),
            (RAMP, "2.60 bar", "0.002 bar"),
            (RAMP, "2.65 bar", "0.002 bar"),
            (FLOW_OF, "8.1 mL/min", "0 mL/min"),
            (FLOW_OF, "9.2 mL/min", "0 mL/min"),
            (FLOW_OF, "10.0 mL/min", "0 mL/min"),
            (FLOW_OF, "12.0 mL/min", "0 mL/min"),
            (FLOW_OF, "15.7 mL/min", "0 mL/min"),
            (FLOW_OF, "23.0 mL/min", "0 mL/min"),
            (FACTOR, "1.5", "0"),
            (BELOW, "2.2 bar", "0 bar"),
        ],
        gives: "2.6214 ± 0.0015 bar",
    },
};

const RAMP: Input = Input {
    symbol: "p",
    what: "the gauge pressure of each row of the ramp",
    unit: BAR,
    from: From::Records(|scope| gauge(scope, Measured::BubblePoint)),
};

const FLOW_OF: Input = Input {
    symbol: "q",
    what: "the gas flow of each row of the ramp",
    unit: ML_PER_MIN,
    from: From::Records(|scope| column(scope, Measured::BubblePoint, "gas_flow")),
};

const FACTOR: Input = Input {
    symbol: "k",
    what: "the multiple of the diffusive line",
    unit: ONE,
    from: From::Records(|scope| criterion(scope).map(|(factor, _)| vec![factor])),
};

const BELOW: Input = Input {
    symbol: "p_fit",
    what: "the pressure below which the line is fitted",
    unit: BAR,
    from: From::Records(|scope| criterion(scope).map(|(_, below)| vec![below])),
};

/// The two numbers of the specification's words, such as "pressure at which flow exceeds 1.5 x the
/// diffusive line fitted below 2200 mbar".
pub fn criterion(scope: &Scope) -> Result<(Datum, Datum), String> {
    let (record, spec) = scope.spec()?;
    let words = spec.bubble_point_criterion.as_ref().ok_or(say!(
        "bubble_point_criterion is missing in the specification"
    ))?;
    let list: Vec<&str> = words.split_whitespace().collect();
    let factor = list
        .array_windows()
        .find(|[_, sign]| matches!(*sign, "x" | "×" | "times"))
        .and_then(|[n, _]| number::parse(n).ok());
    let below = list
        .array_windows()
        .find(|[word, _, _]| *word == "below")
        .and_then(|[_, n, unit]| {
            number::parse_with_unit(&format!("{n} {}", unit.trim_matches(','))).ok()
        });
    match (factor, below) {
        (Some(factor), Some((n, unit))) if unit.dim == PRESSURE && unit.pressure == Pressure::Plain => Ok((
            Datum::count(record, factor, &format!("{factor}"), words.spot),
            Datum::count(record, unit.to_si(n), &format!("{n} {}", unit.symbol), words.spot),
        )),
        _ => Err(say!("bubble_point_criterion does not say \"… exceeds N x the diffusive line fitted below N mbar\"").into()),
    }
}
