//! Membrane area of a pleated pack.

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

use super::pleat_count::{pack, packs, pleats};

/// Gross membrane area of a pack.
pub static FIGURE: Figure = Figure {
    id: "pleated-area",
    name: "Gross membrane area of a pack",
    symbol: "A",
    unit: M2,
    quantity: None,
    about: "Two flanks a pleat, each as high as the pleat and as long as the pleated length. Gross: the side seam and the end-cap embedment are not taken off, so the effective filtration area of the specification is smaller.",
    validity: "Whole pleats; the length is measured along the axis.",
    sources: &["Geometry of a pleated pack; common practice, no source"],
    subjects: packs,
    formula: || 2.0 * PLEATS * HEIGHT * LENGTH_ALONG,
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (PLEATS, "96", "0"),
            (HEIGHT, "15.0 mm", "0.06 mm"),
            (LENGTH_ALONG, "228 mm", "0.5 mm"),
        ],
        gives: "0.6566 ± 0.0030 m²",
    },
};

const PLEATS: Input = Input {
    symbol: "N",
    what: "the number of pleats",
    unit: ONE,
    from: From::Records(pleats),
};

const HEIGHT: Input = Input {
    symbol: "h",
    what: "the height of a flank",
    unit: MM,
    from: From::Records(|scope| Ok(vec![Datum::of(scope.record, &pack(scope)?.0.pleat_height)])),
};

const LENGTH_ALONG: Input = Input {
    symbol: "w",
    what: "the pleated length along the axis",
    unit: MM,
    from: From::Records(|scope| {
        Ok(vec![Datum::of(
            scope.record,
            &pack(scope)?.0.pleated_length,
        )])
    }),
};
