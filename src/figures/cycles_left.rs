//! Cycles left of the claim.

use super::cycles_used::{self, log, treatments};
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

/// Cycles left of the claim.
pub static FIGURE: Figure = Figure {
    id: "cycles-left",
    name: "Cycles left of the claim",
    symbol: "n_l",
    unit: ONE,
    quantity: None,
    about: "Cycles that the maker claims for the treatment minus those used. Below zero the element is out of its claim and must be retired: the claim says nothing about the next cycle.",
    validity: "Each treatment on its own, under the combination rule of the claim.",
    sources: &["Count"],
    subjects: treatments,
    formula: || CLAIMED - USED,
    limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[(CLAIMED, "60", "0"), (USED, "18", "0")],
        gives: "42",
    },
};

const CLAIMED: Input = Input {
    symbol: "n_0",
    what: "the cycles claimed",
    unit: ONE,
    from: From::Records(claimed),
};

const USED: Input = Input {
    symbol: "n_u",
    what: "the cycles used",
    unit: ONE,
    from: From::Figures(&cycles_used::FIGURE, super::join_residual::itself),
};

fn claimed(scope: &Scope) -> Drawn {
    let log = log(scope)?;
    let id = &*log.claim.id.text;
    // What was handed over with the element binds, and not what was claimed later.
    let revision = log.claim.revision.value;
    let record = scope
        .plant
        .records()
        .revision("cycle_claim", id, revision)
        .ok_or_else(|| {
            say!(
                "cycle_claim {id} revision {revision} is missing",
                id = id,
                revision = revision
            )
        })?;
    let Body::CycleClaim(claim) = &record.body else {
        return Err(say!("the claim is no cycle_claim").into());
    };
    let found = claim
        .claims
        .iter()
        .find(|claim| &*claim.treatment.text == scope.part)
        .ok_or_else(|| {
            say!(
                "claim {id} says nothing about {part}",
                id = id,
                part = scope.part
            )
        })?;
    Ok(vec![Datum::count(
        record,
        found.cycles_claimed.value as f64,
        &found.cycles_claimed.value.to_string(),
        found.cycles_claimed.spot,
    )])
}

fn limit(_: &Scope) -> Result<Option<Limit>, String> {
    Ok(Some(Limit {
        low: Some(0.0),
        high: None,
        text: "≥ 0".into(),
        at: None,
        decision: Decision::Plain,
    }))
}
