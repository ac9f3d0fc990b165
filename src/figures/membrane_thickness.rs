//! Thickness of flat membrane.

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

use super::membrane_bubble_point::{readings, reported, scatter, subjects_measuring};

/// Thickness of flat membrane.
pub static FIGURE: Figure = Figure {
    id: "membrane-thickness",
    name: "Thickness of flat membrane",
    symbol: "d",
    unit: UM,
    quantity: Some(Measured::Thickness),
    about: "Mean of the thickness readings of one sample. It feeds the number of pleats that fit and shows whether a roll is the one that was ordered. δ_s is the error that the scatter of the readings leaves in the mean: its best estimate is zero, its uncertainty is the standard deviation of the readings over the root of their number.",
    validity: "Readings under the same foot pressure.",
    sources: &["Arithmetic mean"],
    subjects: |plant| subjects_measuring(plant, Measured::Thickness),
    formula: || mean(READING) + SCATTER,
    limit: |scope| limit_of_specification(scope, Measured::Thickness),
    check: always,
    reported: |scope| reported(scope, Measured::Thickness),
    example: Example {
        given: &[
            (READING, "127 um", "1.0 um"),
            (READING, "129 um", "1.0 um"),
            (READING, "131 um", "1.0 um"),
            (SCATTER, "0.2 um", "1.2 um"),
        ],
        gives: "129.2 ± 1.3 µm",
    },
};

const SCATTER: Input = Input {
    symbol: "δ_s",
    what: "the unknown error that the scatter of the readings leaves in their mean",
    unit: UM,
    from: From::Records(|scope| scatter(scope, Measured::Thickness, LENGTH)),
};

const READING: Input = Input {
    symbol: "t",
    what: "each thickness reading",
    unit: UM,
    from: From::Records(|scope| readings(scope, Measured::Thickness, LENGTH)),
};
