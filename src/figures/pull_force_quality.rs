//! Quality statistic of the pull forces of a seal run.

use super::peel_force::{coupons, inspections, least, plan_limit, reported_quality};
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

/// Quality statistic of the pull force.
pub static FIGURE: Figure = Figure {
    id: "pull-force-quality",
    name: "Quality statistic of the pull force",
    symbol: "Q_s",
    unit: ONE,
    quantity: None,
    about: "Mean pull force of joined end caps minus the least that is allowed, in standard deviations of the coupons. A plan by variables accepts when it reaches the acceptability constant.",
    validity: "A sample of the size that the plan asks for, from a process that is about normal.",
    sources: &[
        "Single sampling plan by variables, s-method, in the manner of ISO 3951-2 (from memory)",
    ],
    subjects: |plant| inspections(plant, true),
    formula: || {
        (average() - LEAST)
            / sqrt(sum(square(FORCE_OF - average())) / (Expr::Count(FORCE_OF) - 1.0))
    },
    limit: plan_limit,
    check: always,
    reported: reported_quality,
    example: Example {
        given: &[
            (FORCE_OF, "2610 N", "0.05 N"),
            (FORCE_OF, "2740 N", "0.05 N"),
            (FORCE_OF, "2550 N", "0.05 N"),
            (LEAST, "1500 N", "0 N"),
        ],
        gives: "11.6688 ± 0.0043",
    },
};

const FORCE_OF: Input = Input {
    symbol: "F_i",
    what: "the force of each coupon",
    unit: NEWTON,
    from: From::Records(pull_forces),
};

const LEAST: Input = Input {
    symbol: "F_min",
    what: "the least force allowed",
    unit: NEWTON,
    from: From::Records(|scope| least(scope, Measured::JointPullForce)),
};

fn average() -> Formula {
    named("F", mean(FORCE_OF))
}

fn pull_forces(scope: &Scope) -> Drawn {
    Ok(coupons(scope)?
        .into_iter()
        .filter_map(|coupon| coupon.joint_pull_force.as_ref())
        .map(|force| Datum::of(scope.record, force))
        .collect())
}
