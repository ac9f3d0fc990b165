//! Mean peel force of the coupons of a seal run.

use crate::record::kinds::{product_specification::Stage, seal_inspection::Coupon};
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

/// Mean peel force on 15 mm.
pub static FIGURE: Figure = Figure {
    id: "peel-force",
    name: "Mean peel force on 15 mm",
    symbol: "F",
    unit: N_PER_15MM,
    quantity: None,
    about: "Mean of the peel forces, each brought to a strip of 15 mm: force over strip width. The plan decides by the quality statistic, not by this mean.",
    validity: "Strips peeled at the stated speed and temperature.",
    sources: &["Arithmetic mean"],
    subjects: |plant| inspections(plant, false),
    formula: || sum(FORCE_OF / STRIP) / Expr::Count(FORCE_OF),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (FORCE_OF, "46.2 N", "0.5 N"),
            (FORCE_OF, "43.8 N", "0.5 N"),
            (FORCE_OF, "47.5 N", "0.5 N"),
            (STRIP, "15.0 mm", "0 mm"),
            (STRIP, "14.8 mm", "0 mm"),
            (STRIP, "15.1 mm", "0 mm"),
        ],
        gives: "45.93 ± 0.29 N per 15 mm",
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

/// The inspections that pulled or peeled coupons of a kind.
pub fn inspections(plant: &Plant, pull: bool) -> Vec<Subject> {
    let has = |body: &Body| match body {
        Body::SealInspection(body) => body.destructive.as_ref().is_some_and(|test| {
            test.results.iter().any(|coupon| {
                if pull {
                    coupon.joint_pull_force.is_some()
                } else {
                    coupon.peel_force.is_some()
                }
            })
        }),
        _ => false,
    };
    plant
        .indexed()
        .filter(|(_, record)| has(&record.body))
        .map(|(record, _)| Subject {
            record,
            part: String::new(),
        })
        .collect()
}

/// The coupons that count, in order.
pub fn coupons<'a>(scope: &Scope<'a>) -> Result<Vec<&'a Coupon>, String> {
    let Body::SealInspection(body) = &scope.record.body else {
        return Err(say!("this record is no seal_inspection").into());
    };
    let test = body
        .destructive
        .as_ref()
        .ok_or(say!("no coupons were tested"))?;
    Ok(test
        .results
        .iter()
        .filter(|coupon| coupon.valid.is_none_or(|valid| valid.value))
        .collect())
}

/// The peel forces of the coupons that count.
pub fn peel_forces(scope: &Scope) -> Drawn {
    Ok(coupons(scope)?
        .into_iter()
        .filter_map(|coupon| coupon.peel_force.as_ref())
        .map(|force| Datum::of(scope.record, force))
        .collect())
}

/// Their strip widths.
pub fn strip_widths(scope: &Scope) -> Drawn {
    coupons(scope)?
        .into_iter()
        .filter(|coupon| coupon.peel_force.is_some())
        .map(|coupon| {
            coupon
                .strip_width
                .as_ref()
                .map(|width| Datum::of(scope.record, width))
                .ok_or_else(|| {
                    say!(
                        "coupon {coupon} has no strip_width",
                        coupon = &*coupon.coupon
                    )
                })
        })
        .collect()
}

/// The least force that the specification asks for.
pub fn least(scope: &Scope, quantity: Measured) -> Drawn {
    let (record, spec) = scope.spec()?;
    let accepted = spec.limit(Stage::Seal, quantity).ok_or_else(|| {
        say!(
            "the specification has no limit of {quantity}",
            quantity = quantity.word()
        )
    })?;
    let low = accepted
        .limit
        .low
        .ok_or(say!("the limit is not a least value"))?;
    Ok(vec![Datum::count(
        record,
        low,
        &accepted.limit.text,
        accepted.limit.spot,
    )])
}

/// The acceptability constant of the inspection's plan, as a limit.
pub fn plan_limit(scope: &Scope) -> Result<Option<Limit>, String> {
    let Body::SealInspection(body) = &scope.record.body else {
        return Ok(None);
    };
    let (record, spec) = scope.spec()?;
    let id = body
        .sampling_plan
        .as_ref()
        .ok_or(say!("the inspection names no sampling_plan"))?;
    let plan = spec
        .sampling_plans
        .iter()
        .find(|plan| plan.id.text == id.text)
        .ok_or_else(|| say!("the specification has no plan {id}", id = &**id))?;
    let k = plan
        .acceptability_constant
        .as_ref()
        .ok_or_else(|| say!("plan {id} has no acceptability_constant", id = &**id))?;
    Ok(Some(Limit {
        low: Some(k.value),
        high: None,
        text: format!("≥ {} ({})", words::decimal(&k.text), &**id),
        at: Some(record.at(k.spot)),
        decision: Decision::Plain,
    }))
}

/// The quality statistic that the inspector reported.
pub fn reported_quality(scope: &Scope) -> Option<ReportedValue> {
    let Body::SealInspection(body) = &scope.record.body else {
        return None;
    };
    let reported = body.destructive.as_ref()?.reported.as_ref()?;
    let value = reported.quality_statistic.as_ref()?;
    Some(ReportedValue {
        si: value.value,
        text: value.text.to_string(),
        verdict: reported.verdict,
        at: scope.record.at(value.spot),
    })
}
