//! The part of an element's flow resistance that grows with the square of flow.

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

use super::flow_resistance::{flow, flow_tests, points, pressure, temperature};

/// Flow resistance, quadratic part, at 20 °C.
pub static FIGURE: Figure = Figure {
    id: "flow-resistance-quadratic",
    name: "Flow resistance, quadratic part, at 20 °C",
    symbol: "b",
    unit: MBAR_PER_L_MIN2,
    quantity: None,
    about: "The coefficient b of ΔP = a·Q + b·Q² for the element alone: that of the points less that of the empty housing, brought to 20 °C by the density of water. It is the resistance of bores, adapters and slots.",
    validity: "Water, one direction of flow, at least three points with and three without the element, at one temperature.",
    sources: &[
        "Darcy and Forchheimer (textbook)",
        "Density of water: IAPWS SR6-08(2011)",
    ],
    subjects: flow_tests,
    formula: || {
        (call(
            &procedure::QUADRATIC_PART,
            [Expr::Var(FLOW_OF), Expr::Var(PRESSURE_OF)],
        ) - call(
            &procedure::QUADRATIC_PART,
            [Expr::Var(BLANK_FLOW), Expr::Var(BLANK_PRESSURE)],
        )) * call(&procedure::WATER_DENSITY, [Expr::Var(AT_20)])
            / call(&procedure::WATER_DENSITY, [Expr::Var(WATER)])
    },
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (FLOW_OF, "10.0 L/min", "0.002 L/min"),
            (FLOW_OF, "20.1 L/min", "0.002 L/min"),
            (FLOW_OF, "30.2 L/min", "0.002 L/min"),
            (PRESSURE_OF, "52.3 mbar", "0.02 mbar"),
            (PRESSURE_OF, "109.7 mbar", "0.02 mbar"),
            (PRESSURE_OF, "171.6 mbar", "0.02 mbar"),
            (BLANK_FLOW, "10.1 L/min", "0.002 L/min"),
            (BLANK_FLOW, "20.0 L/min", "0.002 L/min"),
            (BLANK_FLOW, "30.1 L/min", "0.002 L/min"),
            (BLANK_PRESSURE, "2.9 mbar", "0.02 mbar"),
            (BLANK_PRESSURE, "9.2 mbar", "0.02 mbar"),
            (BLANK_PRESSURE, "19.1 mbar", "0.02 mbar"),
            (AT_20, "20.0 degC", "0 K"),
            (WATER, "61.0 degC", "0.2 K"),
        ],
        gives: "0.00506 ± 0.00013 mbar/(L/min)²",
    },
};

const FLOW_OF: Input = Input {
    symbol: "Q",
    what: "each flow through element and housing",
    unit: L_PER_MIN,
    from: From::Records(|scope| points(scope, |test| &test.points, flow)),
};

const PRESSURE_OF: Input = Input {
    symbol: "ΔP",
    what: "its pressure difference",
    unit: MBAR,
    from: From::Records(|scope| points(scope, |test| &test.points, pressure)),
};

const BLANK_FLOW: Input = Input {
    symbol: "Q_b",
    what: "each flow through the empty housing",
    unit: L_PER_MIN,
    from: From::Records(|scope| points(scope, |test| &test.housing_blank, flow)),
};

const BLANK_PRESSURE: Input = Input {
    symbol: "ΔP_b",
    what: "its pressure difference",
    unit: MBAR,
    from: From::Records(|scope| points(scope, |test| &test.housing_blank, pressure)),
};

const AT_20: Input = Input {
    symbol: "T_20",
    what: "the temperature at which flows are stated",
    unit: DEGC,
    from: From::Constant {
        value: 20.0,
        u: 0.0,
        source: "convention of this figure",
    },
};

const WATER: Input = Input {
    symbol: "T_w",
    what: "the temperature of the water",
    unit: DEGC,
    from: From::Records(temperature),
};
