//! Largest deviation of a slit coil from its nominal width.

#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::{unit::*, words},
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

use super::slit_width::{nominal, subjects_slit, widths};

/// Largest deviation from the nominal width.
pub static FIGURE: Figure = Figure {
    id: "slit-width-deviation",
    name: "Largest deviation from the nominal width",
    symbol: "Δw",
    unit: MM,
    quantity: Some(Measured::SlitWidth),
    about: "The largest distance of a reading from the nominal width, held against the tolerance of the record (±0.1 mm: common practice, no source). The largest decides, under the rule of the specification.",
    validity: "Readings in their order along the coil.",
    sources: &["Definition"],
    subjects: subjects_slit,
    formula: || call(&procedure::LARGEST_DEVIATION, [WIDTH - NOMINAL]),
    limit: |scope| {
        let Body::SlittingRecord(body) = &scope.record.body else {
            return Ok(None);
        };
        let tolerance = &body.tolerance;
        Ok(Some(Limit {
            low: None,
            high: Some(tolerance.si),
            text: format!("≤ {}", words::spelt(&tolerance.text)),
            at: Some(scope.record.at(tolerance.spot)),
            decision: scope.decision(),
        }))
    },
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (WIDTH, "228.02 mm", "0.02 mm"),
            (WIDTH, "227.91 mm", "0.03 mm"),
            (WIDTH, "228.05 mm", "0.02 mm"),
            (NOMINAL, "228.00 mm", "0 mm"),
        ],
        gives: "0.090 ± 0.030 mm",
    },
};

const WIDTH: Input = Input {
    symbol: "w_i",
    what: "each width",
    unit: MM,
    from: From::Records(widths),
};

const NOMINAL: Input = Input {
    symbol: "w_0",
    what: "the nominal width",
    unit: MM,
    from: From::Records(nominal),
};
