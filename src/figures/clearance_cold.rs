//! Clearance of a fit in its coldest state.

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

use super::clearance_hot::{fit, fits, geometry, growth, least, size};

/// Clearance when cold.
pub static FIGURE: Figure = Figure {
    id: "clearance-cold",
    name: "Clearance when cold",
    symbol: "c_c",
    unit: MM,
    quantity: None,
    about: "Clearance on the diameter that is left between an inner and an outer part in the coldest state that the record names: each diameter grows by its own coefficient. On cooling, a plastic outer part shrinks onto a metal inner one.",
    validity: "Dimensions at the reference temperature, uniform temperature, below softening; creep, crystallisation and moisture are not in it. A coefficient is taken over the range used, as a rectangular distribution between its lowest and highest value; so is a dimension within its tolerance.",
    sources: &[
        "Linear thermal expansion (textbook)",
        "Rectangular distribution of a tolerance: JCGM 100:2008, 4.3.7",
    ],
    subjects: fits,
    formula: || {
        OUTER * (1.0 + OUTER_GROWS * (STATE - REFERENCE))
            - INNER * (1.0 + INNER_GROWS * (STATE - REFERENCE))
    },
    limit: least,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (OUTER, "56.90 mm", "0.03 mm"),
            (OUTER_GROWS, "17.2e-6 1/K", "0.5e-6 1/K"),
            (STATE, "2.0 degC", "0 K"),
            (REFERENCE, "20.0 degC", "0 K"),
            (INNER, "55.30 mm", "0.03 mm"),
            (INNER_GROWS, "163e-6 1/K", "9.8e-6 1/K"),
        ],
        gives: "1.745 ± 0.043 mm",
    },
};

const OUTER: Input = Input {
    symbol: "D_o",
    what: "the diameter of the outer part",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.outer)),
};

const OUTER_GROWS: Input = Input {
    symbol: "α_o",
    what: "the expansion of the outer part's material",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.outer)),
};

const INNER: Input = Input {
    symbol: "D_i",
    what: "the diameter of the inner part",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.inner)),
};

const INNER_GROWS: Input = Input {
    symbol: "α_i",
    what: "the expansion of the inner part's material",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.inner)),
};

const STATE: Input = Input {
    symbol: "T",
    what: "the coldest temperature",
    unit: DEGC,
    from: From::Records(|scope| {
        let (_, fit) = fit(scope)?;
        Ok(vec![Datum::of(scope.record, &fit.coldest)])
    }),
};

const REFERENCE: Input = Input {
    symbol: "T_0",
    what: "the temperature of the dimensions",
    unit: DEGC,
    from: From::Records(|scope| {
        Ok(vec![Datum::of(
            scope.record,
            &geometry(scope)?.reference_temperature,
        )])
    }),
};
