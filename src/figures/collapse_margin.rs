//! Room between what core or cage withstood and what is claimed.

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

use crate::record::{
    Record,
    kinds::element_geometry::{Direction, Strength},
};

use super::clearance_hot::geometry;

/// Collapse margin.
pub static FIGURE: Figure = Figure {
    id: "collapse-margin",
    name: "Collapse margin",
    symbol: "m_c",
    unit: ONE,
    quantity: None,
    about: "The pressure difference that the element withstood in a test at its temperature, over the highest that a claim allows in the same direction up to that temperature. Forward pressure loads the core, reverse pressure the cage. Plastic that bears five bar when cold may bear less than one in steam, so each temperature stands for itself.",
    validity: "Strength by test, not by calculation; the test temperature at or above that of the claim.",
    sources: &[
        "Ratio of strength to load (textbook); strength by test: common practice, no source",
    ],
    subjects: strengths,
    formula: || WITHSTOOD / CLAIMED,
    limit: |scope| {
        let one = strength(scope)?;
        Ok(Some(Limit {
            low: Some(one.least_margin.value),
            high: None,
            text: format!("≥ {}", words::decimal(&one.least_margin.text)),
            at: Some(scope.record.at(one.least_margin.spot)),
            decision: scope.decision(),
        }))
    },
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (WITHSTOOD, "1.20 bar", "0.02 bar"),
            (CLAIMED, "300 mbar", "0 mbar"),
        ],
        gives: "4.000 ± 0.067",
    },
};

const WITHSTOOD: Input = Input {
    symbol: "p_w",
    what: "the pressure difference withstood",
    unit: BAR,
    from: From::Records(|scope| Ok(vec![Datum::of(scope.record, &strength(scope)?.withstood)])),
};

const CLAIMED: Input = Input {
    symbol: "p_c",
    what: "the highest pressure difference claimed",
    unit: MBAR,
    from: From::Records(claimed),
};

/// Every strength of every geometry.
pub fn strengths(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| -> Vec<Subject> {
        let Body::ElementGeometry(geometry) = &body.body else {
            return Vec::new();
        };
        let one = |strength: &Strength| Subject {
            record,
            part: strength.id.to_string(),
        };
        geometry.strengths.iter().map(one).collect()
    };
    plant.indexed().flat_map(of).collect()
}

fn strength<'a>(scope: &Scope<'a>) -> Result<&'a Strength, String> {
    let geometry = geometry(scope)?;
    let found = geometry
        .strengths
        .iter()
        .find(|one| &*one.id.text == scope.part);
    found.ok_or_else(|| say!("the record has no such strength").into())
}

/// The highest pressure difference that a claim for the product allows at up to this temperature.
fn claimed(scope: &Scope) -> Drawn {
    let (own, product) = (strength(scope)?, &geometry(scope)?.product_code);
    let mut most: Option<Datum> = None;
    for (record, body) in scope.plant.records().cycle_claims() {
        if body.product_code.text != product.text {
            continue;
        }
        for claim in &body.claims {
            let pressure = match own.direction {
                Direction::Forward => &claim.differential_pressure_max,
                Direction::Reverse => &claim.reverse_differential_pressure_max,
            };
            let within = claim
                .temperature_max
                .as_ref()
                .is_none_or(|claimed| claimed.si <= own.temperature.si + 1e-9);
            if let Some(pressure) = pressure.as_ref().filter(|_| within)
                && most.as_ref().is_none_or(|most| pressure.si > most.si)
            {
                most = Some(Datum::of(record, pressure));
            }
        }
    }
    most.map(|most| vec![most]).ok_or_else(|| {
        say!("no claim for {product} allows a pressure difference in this direction up to this temperature", product = &**product)
    })
}
