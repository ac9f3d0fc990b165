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

use super::membrane_bubble_point::{readings, reported, subjects_measuring};

/// Thickness of flat membrane.
pub static FIGURE: Figure = Figure {
    id: "membrane-thickness",
    name: "Thickness of flat membrane",
    symbol: "d",
    unit: UM,
    quantity: Some(Measured::Thickness),
    about: "Mean of the thickness readings of one sample. It feeds the number of pleats that fit and shows whether a roll is the one that was ordered.",
    validity: "Readings under the same foot pressure.",
    sources: &["Arithmetic mean"],
    subjects: |plant| subjects_measuring(plant, Measured::Thickness),
    formula: || mean(READING),
    limit: |scope| limit_of_specification(scope, Measured::Thickness),
    check: always,
    reported: |scope| reported(scope, Measured::Thickness),
    example: Example {
        given: &[
            (READING, "127 um", "1.0 um"),
            (READING, "129 um", "1.0 um"),
            (READING, "131 um", "1.0 um"),
        ],
        gives: "129.00 ± 0.58 µm",
    },
};

const READING: Input = Input {
    symbol: "t",
    what: "each thickness reading",
    unit: UM,
    from: From::Records(|scope| readings(scope, Measured::Thickness, LENGTH)),
};
