//! Water flow of an element at 20 °C and the stated pressure difference.

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
    flow_resistance::{self, flow_test, flow_tests},
    flow_resistance_quadratic,
    join_residual::itself,
};

/// Water flow at 20 °C.
pub static FIGURE: Figure = Figure {
    id: "water-flow",
    name: "Water flow at 20 °C",
    symbol: "Q_20",
    unit: L_PER_MIN,
    quantity: Some(Measured::WaterFlow),
    about: "The flow of water at 20 °C that the stated pressure difference drives through the element alone: the root of ΔP = a·Q + b·Q², written so that a vanishing b does no harm.",
    validity: "Water; the stated pressure difference inside the range of the points.",
    sources: &["Darcy and Forchheimer (textbook)"],
    subjects: flow_tests,
    formula: || 2.0 * STATED / (LINEAR + sqrt(square(LINEAR) + 4.0 * QUADRATIC * STATED)),
    limit: |scope| limit_of_specification(scope, Measured::WaterFlow),
    check: |given| {
        let linear = given.iter().find(|(input, _)| *input == LINEAR);
        match linear {
            Some((_, a)) if a.value <= 0.0 => {
                Err(say!("the linear part of the resistance is not above zero").into())
            }
            _ => Ok(()),
        }
    },
    reported: |scope| {
        let test = flow_test(scope).ok()?;
        let said = test.reported.as_ref()?;
        Some(ReportedValue {
            si: said.value.si,
            text: said.value.text.to_string(),
            verdict: said.verdict,
            at: scope.record.at(said.spot),
        })
    },
    example: Example {
        given: &[
            (STATED, "100 mbar", "0 mbar"),
            (LINEAR, "4.71 mbar/(L/min)", "0.004 mbar/(L/min)"),
            (QUADRATIC, "0.0730 mbar/(L/min)²", "0.0001 mbar/(L/min)²"),
        ],
        gives: "16.837 ± 0.010 L/min",
    },
};

const STATED: Input = Input {
    symbol: "ΔP_0",
    what: "the stated pressure difference",
    unit: MBAR,
    from: From::Records(stated),
};

/// The stated pressure difference; nothing is said of one that the points do not reach.
fn stated(scope: &Scope) -> Drawn {
    let test = flow_test(scope)?;
    let stated = &test.stated_differential_pressure;
    let drops = || test.points.iter().map(|point| &point.differential_pressure);
    let least = drops().min_by(|a, b| a.si.total_cmp(&b.si));
    let most = drops().max_by(|a, b| a.si.total_cmp(&b.si));
    if let (Some(least), Some(most)) = (least, most)
        && !(least.si..=most.si).contains(&stated.si)
    {
        return Err(say!(
            "stated_differential_pressure {stated} lies outside the points, {least} to {most}: nothing is extrapolated",
            stated = stated.text,
            least = least.text,
            most = most.text
        ));
    }
    Ok(vec![Datum::of(scope.record, stated)])
}

const LINEAR: Input = Input {
    symbol: "a",
    what: "the linear part of the resistance",
    unit: MBAR_PER_L_MIN,
    from: From::Figures(&flow_resistance::FIGURE, itself),
};

const QUADRATIC: Input = Input {
    symbol: "b",
    what: "the quadratic part of the resistance",
    unit: MBAR_PER_L_MIN2,
    from: From::Figures(&flow_resistance_quadratic::FIGURE, itself),
};
