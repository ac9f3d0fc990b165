//! F0 proven.

use super::hold_time_proven::{BEGIN, END, STEP, reported, traced_cycles};
#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    plant::Plant,
    procedure,
    record::kinds::product_specification::Contribution,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

/// F0 proven.
pub static FIGURE: Figure = Figure {
    id: "f0-proven",
    name: "F0 proven",
    symbol: "F_0",
    unit: MINUTE,
    quantity: Some(Measured::F0),
    about: "Equivalent time at 121.1 °C with z = 10 K that the trace proves. A gap counts nothing.",
    validity: "Straight lines between rows. 0.5 K of error of the recorder makes 12 % more or 11 % less of it, more than all else: state it as the contribution recorder_temperature. It is no measure of wear.",
    sources: &[
        "F0: ISO 17665 and pharmacopoeial definition (from memory)",
        "Logarithmic mean within a step: exact for a straight line",
    ],
    subjects: traced_cycles,
    formula: || {
        call(
            &procedure::LETHALITY,
            [
                Expr::Var(STEP),
                Expr::Var(BEGIN),
                Expr::Var(END),
                Expr::Var(REFERENCE) - Expr::Var(ERROR),
                Expr::Var(Z),
            ],
        )
    },
    limit: no_limit,
    check: always,
    reported: |scope| reported(scope, Measured::F0),
    example: Example {
        given: &[
            (STEP, "60 s", "0.5 s"),
            (STEP, "60 s", "0.5 s"),
            (STEP, "30 s", "0.5 s"),
            (BEGIN, "119.0 degC", "0.2 K"),
            (BEGIN, "122.0 degC", "0.2 K"),
            (BEGIN, "121.4 degC", "0.2 K"),
            (END, "122.0 degC", "0.2 K"),
            (END, "121.4 degC", "0.2 K"),
            (END, "120.6 degC", "0.2 K"),
            (REFERENCE, "121.1 degC", "0 K"),
            (Z, "10 K", "0 K"),
            (ERROR, "0.1 K", "0.3 K"),
        ],
        gives: "2.59 ± 0.19 min",
    },
};

/// The reference temperature of F0.
pub const REFERENCE: Input = Input {
    symbol: "T_ref",
    what: "the reference temperature",
    unit: DEGC,
    from: From::Constant {
        value: 121.1,
        u: 0.0,
        source: "definition of F0",
    },
};

/// The temperature difference that changes the rate of F0 tenfold.
pub const Z: Input = Input {
    symbol: "z",
    what: "the temperature difference that changes the rate tenfold",
    unit: KELVIN,
    from: From::Constant {
        value: 10.0,
        u: 0.0,
        source: "definition of F0",
    },
};

/// What the recorder reads wrong, in every row alike: too low by so much.
pub const ERROR: Input = Input {
    symbol: "δ_T",
    what: "the unknown error of the recorder over the cycle",
    unit: KELVIN,
    from: From::Doubt("recorder_temperature"),
};

/// How wrong the recorder of cycles may be, as a standard uncertainty in K, where the specification says so.
pub fn recorder(scope: &Scope) -> Option<f64> {
    let From::Doubt(source) = ERROR.from else {
        return None;
    };
    let (_, spec) = scope.spec().ok()?;
    let of_f0 = |c: &&Contribution| c.quantity == Measured::F0 && &*c.source == source;
    let stated = spec.uncertainty_contributions.iter().find(of_f0)?;
    let stated = stated.absolute.as_ref()?;
    (stated.unit.dim == TEMPERATURE).then_some(stated.si)
}
