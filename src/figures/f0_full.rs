//! F0 with gaps counted.

use super::{
    f0_proven::{ERROR, REFERENCE, Z},
    hold_time_full::{BEGIN, END, STEP},
    hold_time_proven::traced_cycles,
};
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

/// F0 with gaps counted.
pub static FIGURE: Figure = Figure {
    id: "f0-full",
    name: "F0 with gaps counted",
    symbol: "F_0",
    unit: MINUTE,
    quantity: Some(Measured::F0),
    about: "Equivalent time at 121.1 °C with z = 10 K when every gap is counted at the highest temperature of the trace. It answers how much life the cycle used.",
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
    reported: nothing_reported,
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
