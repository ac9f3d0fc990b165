//! Hold time with gaps counted.

use super::hold_time_proven::{HOLD, Which, steps, traced_cycles};
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

/// Hold time with gaps counted.
pub static FIGURE: Figure = Figure {
    id: "hold-time-full",
    name: "Hold time with gaps counted",
    symbol: "t_h",
    unit: MINUTE,
    quantity: None,
    about: "Time at or above the hold temperature when every gap is counted as hot, at the highest temperature of the trace. It answers how much life the cycle used, not whether the element was treated.",
    validity: "Straight lines between rows; a gap is more than 1.5 sampling steps. No uncertainty stands beside it: an error of the recorder changes little while the plateau is clear of the hold temperature, and all where it is not; rule R72 names the cycles whose plateau is not. The figure belongs to the sensor that was read, which should be the coldest.",
    sources: &["Definition"],
    subjects: traced_cycles,
    formula: || {
        call(
            &procedure::TIME_ABOVE,
            [
                Expr::Var(STEP),
                Expr::Var(BEGIN),
                Expr::Var(END),
                Expr::Var(HOLD),
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
            (HOLD, "121.0 degC", "0 K"),
        ],
        gives: "1.58 ± 0.10 min",
    },
};

/// The length of each step.
pub const STEP: Input = Input {
    symbol: "Δt",
    what: "the length of each step of the trace",
    unit: SECOND,
    from: From::Records(|scope| steps(scope, true, Which::Length)),
};

/// The temperature at the begin of each step.
pub const BEGIN: Input = Input {
    symbol: "T_a",
    what: "the temperature at its start",
    unit: DEGC,
    from: From::Records(|scope| steps(scope, true, Which::Begin)),
};

/// The temperature at the end of each step.
pub const END: Input = Input {
    symbol: "T_b",
    what: "the temperature at its end",
    unit: DEGC,
    from: From::Records(|scope| steps(scope, true, Which::End)),
};
