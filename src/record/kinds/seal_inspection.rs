//! `kind: seal_inspection`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// A look at every seal of a run, and its coupons.
    pub struct SealInspection {
        /// The run.
        seal_run: Id,
        /// The plan.
        sampling_plan: Option<Id>,
        /// Every seal.
        visual: List<Visual>,
        /// The coupons.
        destructive: Option<Destructive>,
    }
}

shape! {
    /// One seal seen.
    pub struct Visual {
        /// The module.
        module_id: Option<Id>,
        /// The assembly.
        assembly_id: Option<Id>,
        /// Which end.
        end: Option<Text>,
        /// Which join.
        joint: Option<Count>,
        /// continuous, or what was seen.
        bead: Option<Text>,
        /// none, slight, …
        discolouration: Option<Text>,
        /// none, or what.
        inclusion: Option<Text>,
        /// Width of the bead.
        bead_width: Option<Q<Length>>,
        /// none, or its width.
        gap_or_slit: Option<Text>,
        /// What the inspector said.
        verdict: Said,
    }
}

shape! {
    /// Coupons pulled or peeled.
    pub struct Destructive {
        /// The machine.
        instrument_id: Id,
        /// How.
        method: Text,
        /// The coupons.
        results: Vec<Coupon>,
        /// As reported.
        reported: Option<CouponReport>,
    }
}

shape! {
    /// A statistic as reported.
    pub struct CouponReport {
        /// Mean.
        mean: Option<Q<Force>>,
        /// Standard deviation.
        standard_deviation: Option<Q<Force>>,
        /// Q.
        quality_statistic: Option<Number>,
        /// As reported.
        verdict: Option<Said>,
    }
}

shape! {
    /// One coupon.
    pub struct Coupon {
        /// The coupon.
        coupon: Id,
        /// Force.
        peel_force: Option<Q<Force>>,
        /// Width of the strip.
        strip_width: Option<Q<Length>>,
        /// Force.
        joint_pull_force: Option<Q<Force>>,
        /// base_material, cohesive or adhesive.
        failure_mode: Option<Text>,
        /// Anything else.
        note: Option<Text>,
        /// false when the coupon cannot count.
        valid: Option<Flag>,
    }
}
