//! Spread between operators or rigs.

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

use super::repeatability::{measurement_studies, numbered, values};

/// Reproducibility.
pub static FIGURE: Figure = Figure {
    id: "reproducibility",
    name: "Reproducibility",
    symbol: "s_R",
    unit: PERCENT,
    quantity: None,
    about: "Standard deviation of single results of one element by different operators or on different rigs, as a share of the mean of all results: the spread between operators, their interaction with the elements included, and the repeats together, all of one analysis of variance. Two or three operators know it badly.",
    validity: "Every element tested equally often by every operator, at least twice each.",
    sources: &[
        "Reproducibility standard deviation in the sense of ISO 5725-1 (from memory)",
        "Analysis of variance of a crossed study (AIAG MSA manual, from memory)",
    ],
    subjects: measurement_studies,
    formula: || {
        call(
            &procedure::SINGLE,
            [VALUE, ELEMENT, OPERATOR].map(Expr::Var),
        ) / mean(VALUE)
    },
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (VALUE, "0.810", "0.005"),
            (VALUE, "0.822", "0.005"),
            (VALUE, "0.841", "0.005"),
            (VALUE, "0.836", "0.005"),
            (VALUE, "0.902", "0.005"),
            (VALUE, "0.911", "0.005"),
            (VALUE, "0.936", "0.005"),
            (VALUE, "0.930", "0.005"),
            (ELEMENT, "1", "0"),
            (ELEMENT, "1", "0"),
            (ELEMENT, "1", "0"),
            (ELEMENT, "1", "0"),
            (ELEMENT, "2", "0"),
            (ELEMENT, "2", "0"),
            (ELEMENT, "2", "0"),
            (ELEMENT, "2", "0"),
            (OPERATOR, "1", "0"),
            (OPERATOR, "1", "0"),
            (OPERATOR, "2", "0"),
            (OPERATOR, "2", "0"),
            (OPERATOR, "1", "0"),
            (OPERATOR, "1", "0"),
            (OPERATOR, "2", "0"),
            (OPERATOR, "2", "0"),
        ],
        gives: "2.06 ± 0.28 %",
    },
};

const VALUE: Input = Input {
    symbol: "y",
    what: "each result, a number of its unit",
    unit: ONE,
    from: From::Records(values),
};

const ELEMENT: Input = Input {
    symbol: "i",
    what: "the number of its element",
    unit: ONE,
    from: From::Records(|scope| numbered(scope, |result| (&result.item, None))),
};

const OPERATOR: Input = Input {
    symbol: "j",
    what: "the number of its operator",
    unit: ONE,
    from: From::Records(|scope| numbered(scope, |result| (&result.operator, None))),
};
