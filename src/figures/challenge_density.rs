//! Organisms per membrane area of a challenge.

use crate::record::kinds::retention_challenge::{RetentionChallenge, Run};
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

/// Challenge level.
pub static FIGURE: Figure = Figure {
    id: "challenge-density",
    name: "Challenge level",
    symbol: "N_A",
    unit: CFU_PER_CM2,
    quantity: None,
    about: "Organisms of the challenge over the exposed area. A claim can only be as strong as the challenge behind it.",
    validity: "The area through which the suspension ran.",
    sources: &["Definition; level per area as in ASTM F838"],
    subjects: runs,
    formula: || CHALLENGE / EXPOSED,
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CHALLENGE, "1.66e8 CFU", "2.0e7 CFU"),
            (EXPOSED, "13.8 cm2", "0.1 cm2"),
        ],
        gives: "12000000 ± 1500000 CFU/cm²",
    },
};

const CHALLENGE: Input = Input {
    symbol: "N_0",
    what: "the organisms of the challenge",
    unit: CFU,
    from: From::Records(challenge),
};

const EXPOSED: Input = Input {
    symbol: "A",
    what: "the exposed area",
    unit: CM2,
    from: From::Records(|scope| Ok(vec![Datum::of(scope.record, &run(scope)?.1.exposed_area)])),
};

/// Every run of every challenge.
pub fn runs(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &crate::record::Record)| match &body.body {
        Body::RetentionChallenge(body) => body
            .runs
            .iter()
            .map(|run| Subject {
                record,
                part: format!("run-{run}", run = run.run.value),
            })
            .collect(),
        _ => Vec::new(),
    };
    plant.indexed().flat_map(of).collect()
}

/// The challenge and the run of a scope.
pub fn run<'a>(scope: &Scope<'a>) -> Result<(&'a RetentionChallenge, &'a Run), String> {
    let Body::RetentionChallenge(body) = &scope.record.body else {
        return Err(say!("this record is no retention_challenge").into());
    };
    let run = body
        .runs
        .iter()
        .find(|run| format!("run-{run}", run = run.run.value) == scope.part)
        .ok_or(say!("there is no such run"))?;
    Ok((body, run))
}

/// The organisms of the challenge.
pub fn challenge(scope: &Scope) -> Drawn {
    Ok(vec![Datum::of(
        scope.record,
        &run(scope)?.1.challenge_total,
    )])
}
