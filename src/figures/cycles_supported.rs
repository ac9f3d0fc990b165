//! Cycles that a study supports.

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

use super::{bubble_point_decline::study, element_cycles_supported};

/// Cycles supported by a study.
pub static FIGURE: Figure = Figure {
    id: "cycles-supported",
    name: "Cycles supported by a study",
    symbol: "n_s",
    unit: ONE,
    quantity: None,
    about: "The fewest cycles that the results of any element of the study support: a claim speaks of every element, so the weakest decides.",
    validity: "Elements of the product, treated as the claim says.",
    sources: &["Definition"],
    subjects: studies,
    formula: || call(&procedure::SMALLEST, [Expr::Var(ELEMENT)]),
    limit: claimed,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (ELEMENT, "65", "0"),
            (ELEMENT, "58", "0"),
            (ELEMENT, "61", "0"),
        ],
        gives: "58",
    },
};

const ELEMENT: Input = Input {
    symbol: "n_e",
    what: "the cycles that each element supports",
    unit: ONE,
    from: From::Figures(&element_cycles_supported::FIGURE, |scope| {
        let elements = study(scope)?.elements.iter();
        Ok(elements
            .map(|id| Subject {
                record: scope.record.index,
                part: id.to_string(),
            })
            .collect())
    }),
};

/// What is claimed for the product and the treatment; nothing where nobody claims it.
fn claimed(scope: &Scope) -> Result<Option<Limit>, String> {
    let study = study(scope)?;
    let claims = scope.plant.records().cycle_claims();
    let mut own = claims
        .filter(|(_, claim)| claim.product_code.text == study.product_code.text)
        .flat_map(|(record, claim)| claim.claims.iter().map(move |one| (record, one)))
        .filter(|(_, one)| one.treatment.text == study.treatment.text);
    Ok(own.next().map(|(record, one)| Limit {
        low: Some(one.cycles_claimed.value as f64),
        high: None,
        text: say!(
            "≥ {cycles_claimed} (claim)",
            cycles_claimed = one.cycles_claimed.value
        ),
        at: Some(record.at(one.cycles_claimed.spot)),
        decision: Decision::Plain,
    }))
}

/// Every study.
pub fn studies(plant: &Plant) -> Vec<Subject> {
    plant
        .indexed()
        .filter(|(_, record)| record.kind == "endurance_study")
        .map(|(record, _)| Subject {
            record,
            part: String::new(),
        })
        .collect()
}
