//! Lower bound of the log reduction that a challenge shows.

use crate::ground::quantity::Quantity;
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

use super::challenge_density::{challenge, run, runs};

/// Log reduction, lower bound at 95 %.
pub static FIGURE: Figure = Figure {
    id: "log-reduction-bound",
    name: "Log reduction, lower bound at 95 %",
    symbol: "LRV_L",
    unit: ONE,
    quantity: Some(Measured::LogReduction),
    about: "The log reduction that the run shows with 95 % confidence: organisms of the challenge, times the share of the filtrate that was counted, over the upper bound of the organisms that passed. No colony shows no more than the challenge could have shown, so it gives a bound, never an infinite reduction. Where no colony was found, the customary \"greater than log₁₀ of the challenge\" is 0.48 more optimistic. The uncertainty of the challenge count is not in the bound: where the record states it, the bound conforms only if it stays above the claim by 1.645 standard uncertainties (95 %, one side).",
    validity: "A true count; a stated share of the filtrate; valid controls.",
    sources: &[
        "Exact Poisson bound, Garwood 1936",
        "Log reduction as in ASTM F838",
    ],
    subjects: runs,
    formula: || {
        log10(
            CHALLENGE * SHARE
                / (ORGANISM
                    * call(
                        &procedure::POISSON_UPPER,
                        [Expr::Var(COLONIES_OF), Expr::Var(CONFIDENCE)],
                    )),
        )
    },
    limit,
    check,
    reported: nothing_reported,
    example: Example {
        given: &[
            (CHALLENGE, "1.66e8 CFU", "1e7 CFU"),
            (SHARE, "0.5", "0"),
            (ORGANISM, "1 CFU", "0 CFU"),
            (COLONIES_OF, "3", "0"),
            (CONFIDENCE, "0.95", "0"),
        ],
        gives: "7.030 ± 0.026",
    },
};

const CHALLENGE: Input = Input {
    symbol: "N_0",
    what: "the organisms of the challenge",
    unit: CFU,
    from: From::Records(challenge),
};

const SHARE: Input = Input {
    symbol: "f",
    what: "the share of the filtrate that was counted",
    unit: ONE,
    from: From::Records(|scope| {
        let share = &run(scope)?.1.fraction_assayed;
        Ok(vec![Datum::count(
            scope.record,
            share.value,
            &share.text,
            share.spot,
        )])
    }),
};

const ORGANISM: Input = Input {
    symbol: "N_1",
    what: "one organism",
    unit: CFU,
    from: From::Constant {
        value: 1.0,
        u: 0.0,
        source: "unit of a count",
    },
};

const COLONIES_OF: Input = Input {
    symbol: "n",
    what: "the colonies counted",
    unit: ONE,
    from: From::Records(|scope| {
        let count = run(scope)?.1.colonies;
        Ok(vec![Datum::count(
            scope.record,
            count.value as f64,
            &count.value.to_string(),
            count.spot,
        )])
    }),
};

const CONFIDENCE: Input = Input {
    symbol: "1−α",
    what: "the one-sided confidence",
    unit: ONE,
    from: From::Constant {
        value: 0.95,
        u: 0.0,
        source: "convention of this figure",
    },
};

/// Standard uncertainties of 95 % on one side of a normal distribution; a guard band is counted in U, which is two of them.
const ONE_SIDED: f64 = 1.644_853_6;

fn limit(scope: &Scope) -> Result<Option<Limit>, String> {
    let (challenge, run) = run(scope)?;
    let claimed = challenge.claimed_lrv().ok_or(say!(
        "claim_under_test is not of the form \"LRV >= 7.0 at 0.45 um\""
    ))?;
    let at = Some(scope.record.at(challenge.claim_under_test.spot));
    // The bound carries its own confidence, save in the count of what was given.
    let decision = match run.challenge_total.u {
        Some(u) if u > 0.0 => Decision::Guarded(0.5 * ONE_SIDED),
        _ => Decision::Plain,
    };
    Ok(Some(Limit {
        low: Some(claimed),
        high: None,
        text: say!("≥ {claimed} (claim under test)", claimed = claimed),
        at,
        decision,
    }))
}

fn check(given: &[(Input, Quantity)]) -> Result<(), String> {
    let share = given
        .iter()
        .find(|(input, _)| *input == SHARE)
        .map_or(0.0, |(_, share)| share.value);
    match share > 0.0 && share <= 1.0 {
        true => Ok(()),
        false => Err(say!("fraction_assayed lies outside 0 to 1").into()),
    }
}
