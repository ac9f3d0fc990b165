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

use super::flow_resistance::{BOTH, flow, flow_tests, points, pressure, scatter, temperature};
use crate::physics::filter::FlowFit;

/// Flow resistance, quadratic part, at 20 °C.
pub static FIGURE: Figure = Figure {
    id: "flow-resistance-quadratic",
    name: "Flow resistance, quadratic part, at 20 °C",
    symbol: "b",
    unit: MBAR_PER_L_MIN2,
    quantity: None,
    about: "The coefficient b of ΔP = a·Q + b·Q² for the element alone: that of the points less that of the empty housing, brought to 20 °C by the density of water. It is the resistance of bores, adapters and slots. The scatter of the points about either curve leaves an error in b: δ_s is the part of it that stands in a as well, with the other sign, δ_o the part that is its own; δ_sb and δ_ob are those of the empty housing. Their best estimate is zero, their uncertainty that of the fit (n − 2 degrees of freedom).",
    validity: "Water, one direction of flow, at least three points with and three without the element, at one temperature. Its uncertainty is the scatter of the points alone; what meter, gauge and thermometer leave open is counted in the water flow.",
    sources: &[
        "Darcy and Forchheimer (textbook)",
        "Density of water: IAPWS SR6-08(2011)",
    ],
    subjects: flow_tests,
    formula: || {
        (call(
            &procedure::QUADRATIC_PART,
            [Expr::Var(FLOW_OF), Expr::Var(PRESSURE_OF)],
        ) - SCATTER
            + OWN_SCATTER
            - call(
                &procedure::QUADRATIC_PART,
                [Expr::Var(BLANK_FLOW), Expr::Var(BLANK_PRESSURE)],
            )
            + BLANK_SCATTER
            - BLANK_OWN_SCATTER)
            * call(&procedure::WATER_DENSITY, [Expr::Var(AT_20)])
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
            (SCATTER, "0.00004 mbar/(L/min)²", "0.0001 mbar/(L/min)²"),
            (
                OWN_SCATTER,
                "0.00003 mbar/(L/min)²",
                "0.00004 mbar/(L/min)²",
            ),
            (
                BLANK_SCATTER,
                "0.00002 mbar/(L/min)²",
                "0.00005 mbar/(L/min)²",
            ),
            (
                BLANK_OWN_SCATTER,
                "0.00001 mbar/(L/min)²",
                "0.00002 mbar/(L/min)²",
            ),
            (AT_20, "20.0 degC", "0 K"),
            (WATER, "61.0 degC", "0.2 K"),
        ],
        gives: "0.00506 ± 0.00018 mbar/(L/min)²",
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

const SCATTER: Input = Input {
    symbol: "δ_s",
    what: "the unknown error that the scatter of the points leaves in both parts",
    unit: MBAR_PER_L_MIN2,
    from: From::Records(|scope| scatter(scope, |test| &test.points, in_both, BOTH)),
};

const OWN_SCATTER: Input = Input {
    symbol: "δ_o",
    what: "the unknown error that the scatter of the points leaves in the quadratic part alone",
    unit: MBAR_PER_L_MIN2,
    from: From::Records(|scope| scatter(scope, |test| &test.points, alone, ALONE)),
};

const BLANK_SCATTER: Input = Input {
    symbol: "δ_sb",
    what: "the unknown error that the scatter of the points of the empty housing leaves in both parts",
    unit: MBAR_PER_L_MIN2,
    from: From::Records(|scope| scatter(scope, |test| &test.housing_blank, in_both, BOTH)),
};

const BLANK_OWN_SCATTER: Input = Input {
    symbol: "δ_ob",
    what: "the unknown error that the scatter of the points of the empty housing leaves in the quadratic part alone",
    unit: MBAR_PER_L_MIN2,
    from: From::Records(|scope| scatter(scope, |test| &test.housing_blank, alone, ALONE)),
};

/// The part of the scatter of a curve that makes an error of its quadratic part alone.
const ALONE: &str = word!("scatter of the points, in the quadratic part");

/// The error of the quadratic part that stands in the linear one too; the sign is in the formula.
fn in_both(fit: &FlowFit) -> f64 {
    fit.u_quadratic * fit.correlation.abs()
}

/// The error of the quadratic part that the linear one does not have.
fn alone(fit: &FlowFit) -> f64 {
    fit.u_quadratic * libm::sqrt((1.0 - fit.correlation * fit.correlation).max(0.0))
}

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
