//! Spread of the widths of a slit coil.

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

use super::slit_width::{subjects_slit, widths};

/// Standard deviation of the widths of a coil.
pub static FIGURE: Figure = Figure {
    id: "slit-width-spread",
    name: "Standard deviation of the widths of a coil",
    symbol: "s_w",
    unit: MM,
    quantity: None,
    about: "Standard deviation of the widths along one coil, with n − 1.",
    validity: "At least two readings.",
    sources: &["Definition"],
    subjects: subjects_slit,
    formula: || sqrt(sum(square(distance())) / (Expr::Count(WIDTH) - 1.0)),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (WIDTH, "228.02 mm", "0.0002 mm"),
            (WIDTH, "227.91 mm", "0.0003 mm"),
            (WIDTH, "228.05 mm", "0.0002 mm"),
        ],
        gives: "0.07371 ± 0.00019 mm",
    },
};

const WIDTH: Input = Input {
    symbol: "w_i",
    what: "each width",
    unit: MM,
    from: From::Records(widths),
};

fn distance() -> Formula {
    named("Δ", WIDTH - mean(WIDTH))
}
