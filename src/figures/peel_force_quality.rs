//! Quality statistic of the peel forces of a seal run.

use super::peel_force::{
    inspections, least, peel_forces, plan_limit, reported_quality, strip_widths,
};
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

/// Quality statistic of the peel force.
pub static FIGURE: Figure = Figure {
    id: "peel-force-quality",
    name: "Quality statistic of the peel force",
    symbol: "Q_s",
    unit: ONE,
    quantity: None,
    about: "Mean peel force minus the least that is allowed, in standard deviations of the coupons. A plan by variables accepts when it reaches the acceptability constant, which the maker enters from its own copy of the standard.",
    validity: "A sample of the size that the plan asks for, from a process that is about normal; each force brought to 15 mm first.",
    sources: &[
        "Single sampling plan by variables, s-method, in the manner of ISO 3951-2 (from memory)",
    ],
    subjects: |plant| inspections(plant, false),
    formula: || {
        (average() - LEAST)
            / sqrt(sum(square(FORCE_OF / STRIP - average())) / (Expr::Count(FORCE_OF) - 1.0))
    },
    limit: plan_limit,
    check: always,
    reported: reported_quality,
    example: Example {
        given: &[
            (FORCE_OF, "46.2 N", "0.001 N"),
            (FORCE_OF, "43.8 N", "0.001 N"),
            (FORCE_OF, "47.5 N", "0.001 N"),
            (STRIP, "15.0 mm", "0 mm"),
            (STRIP, "14.8 mm", "0 mm"),
            (STRIP, "15.1 mm", "0 mm"),
            (LEAST, "30 N per 15 mm", "0 N per 15 mm"),
        ],
        gives: "11.2405 ± 0.0057",
    },
};

const FORCE_OF: Input = Input {
    symbol: "F_i",
    what: "the force of each coupon",
    unit: NEWTON,
    from: From::Records(peel_forces),
};

const STRIP: Input = Input {
    symbol: "b_i",
    what: "the width of its strip",
    unit: MM,
    from: From::Records(strip_widths),
};

const LEAST: Input = Input {
    symbol: "F_min",
    what: "the least force allowed",
    unit: N_PER_15MM,
    from: From::Records(|scope| least(scope, Measured::PeelForce)),
};

fn average() -> Formula {
    named("F", sum(FORCE_OF / STRIP) / Expr::Count(FORCE_OF))
}
