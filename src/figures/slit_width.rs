//! Mean width of a slit coil.

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

/// Mean width of a slit coil.
pub static FIGURE: Figure = Figure {
    id: "slit-width",
    name: "Mean width of a slit coil",
    symbol: "w",
    unit: MM,
    quantity: Some(Measured::SlitWidth),
    about: "Mean of the widths read along the coil: the strip must fit the module.",
    validity: "Readings in their order along the coil.",
    sources: &["Arithmetic mean"],
    subjects: subjects_slit,
    formula: || mean(WIDTH),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (WIDTH, "228.02 mm", "0.02 mm"),
            (WIDTH, "228.05 mm", "0.02 mm"),
            (WIDTH, "227.99 mm", "0.02 mm"),
        ],
        gives: "228.020 ± 0.012 mm",
    },
};

const WIDTH: Input = Input {
    symbol: "w_i",
    what: "each width",
    unit: MM,
    from: From::Records(widths),
};

/// Every slitting record.
pub fn subjects_slit(plant: &Plant) -> Vec<Subject> {
    plant
        .indexed()
        .filter(|(_, record)| record.kind == "slitting_record")
        .map(|(record, _)| Subject {
            record,
            part: String::new(),
        })
        .collect()
}

/// The widths along a coil.
pub fn widths(scope: &Scope) -> Drawn {
    let Body::SlittingRecord(body) = &scope.record.body else {
        return Err(say!("this record is no slitting_record").into());
    };
    Ok(body
        .readings
        .iter()
        .map(|reading| Datum::of(scope.record, &reading.width))
        .collect())
}

/// The nominal width.
pub fn nominal(scope: &Scope) -> Drawn {
    let Body::SlittingRecord(body) = &scope.record.body else {
        return Err(say!("this record is no slitting_record").into());
    };
    Ok(vec![Datum::of(scope.record, &body.nominal_width)])
}
