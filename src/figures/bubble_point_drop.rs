//! Bubble point of an assembly against its weakest module.

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

/// Bubble point under that of the weakest module.
pub static FIGURE: Figure = Figure {
    id: "bubble-point-drop",
    name: "Bubble point under that of the weakest module",
    symbol: "ΔP_b",
    unit: MBAR,
    quantity: None,
    about: "The smallest bubble point of the modules minus that of the assembly. An assembly cannot be tighter than its weakest module; if it is looser, a join or a pack was damaged on the way.",
    validity: "Same liquid and gas; the last test of each module.",
    sources: &["Largest opening decides (capillary law, textbook)"],
    subjects: |plant| measured_in(plant, Measured::BubblePoint, true),
    formula: || call(&procedure::SMALLEST, [Expr::Var(MODULES)]) - WHOLE,
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (MODULES, "2.62 bar", "24 mbar"),
            (MODULES, "2.55 bar", "20 mbar"),
            (MODULES, "2.58 bar", "24 mbar"),
            (WHOLE, "2.50 bar", "24 mbar"),
        ],
        gives: "50 ± 31 mbar",
    },
};

const MODULES: Input = Input {
    symbol: "P_mod",
    what: "the bubble point of each module",
    unit: BAR,
    from: From::Figures(&super::bubble_point::FIGURE, |scope| {
        super::join_residual::modules(scope, Measured::BubblePoint)
    }),
};

const WHOLE: Input = Input {
    symbol: "P_asm",
    what: "the bubble point of the assembly",
    unit: BAR,
    from: From::Figures(&super::bubble_point::FIGURE, super::join_residual::itself),
};
