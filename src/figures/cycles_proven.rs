//! Cycles with a whole trace.

use super::cycles_used::{carried, cycles, proven, treatments};
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

/// Cycles proven by a whole trace.
pub static FIGURE: Figure = Figure {
    id: "cycles-proven",
    name: "Cycles proven by a whole trace",
    symbol: "n_p",
    unit: ONE,
    quantity: None,
    about: "Cycles whose temperature trace is there, has no gap and, of steam, reaches the hold temperature, and those carried forward that had one by what the plant says. Only these prove that the element was treated; the others count against life all the same.",
    validity: "Whole numbers.",
    sources: &["Count"],
    subjects: treatments,
    formula: || sum(CARRIED) + sum(EVENTS),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CARRIED, "11", "0"),
            (CARRIED, "4", "0"),
            (EVENTS, "1", "0"),
            (EVENTS, "1", "0"),
            (EVENTS, "2", "0"),
        ],
        gives: "19",
    },
};

const CARRIED: Input = Input {
    symbol: "n_c",
    what: "the cycles carried forward with traces",
    unit: ONE,
    from: From::Records(|scope| carried(scope, true)),
};

const EVENTS: Input = Input {
    symbol: "n_i",
    what: "each cycle with a whole trace",
    unit: ONE,
    from: From::Records(|scope| cycles(scope, |event| proven(scope, event))),
};
