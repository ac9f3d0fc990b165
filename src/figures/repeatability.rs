//! Repeatability of a measurement.

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

use crate::record::{
    Record,
    kinds::measurement_study::{MeasurementStudy, StudyResult},
    read::Id,
};

/// Repeatability.
pub static FIGURE: Figure = Figure {
    id: "repeatability",
    name: "Repeatability",
    symbol: "s_r",
    unit: PERCENT,
    quantity: None,
    about: "Standard deviation of repeated results of one element by one operator, as a share of the mean of all results. The wetting contribution of the specification's uncertainty budget must not be smaller.",
    validity: "Each element wetted and tested anew each time; at least two results a cell.",
    sources: &["Repeatability standard deviation in the sense of ISO 5725-1 (from memory)"],
    subjects: measurement_studies,
    formula: || call(&procedure::WITHIN, [Expr::Var(VALUE), Expr::Var(CELL)]) / mean(VALUE),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (VALUE, "8.10", "0.05"),
            (VALUE, "8.22", "0.05"),
            (VALUE, "8.41", "0.05"),
            (VALUE, "8.36", "0.05"),
            (CELL, "1", "0"),
            (CELL, "1", "0"),
            (CELL, "2", "0"),
            (CELL, "2", "0"),
        ],
        gives: "0.79 ± 0.43 %",
    },
};

const VALUE: Input = Input {
    symbol: "y",
    what: "each result, a number of its unit",
    unit: ONE,
    from: From::Records(values),
};

const CELL: Input = Input {
    symbol: "k",
    what: "the number of its element and operator together",
    unit: ONE,
    from: From::Records(|scope| numbered(scope, |result| (&result.item, Some(&result.operator)))),
};

/// Every study of a measurement.
pub fn measurement_studies(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| match &body.body {
        Body::MeasurementStudy(_) => Some(Subject {
            record,
            part: String::new(),
        }),
        _ => None,
    };
    plant.indexed().filter_map(of).collect()
}

fn study<'a>(scope: &Scope<'a>) -> Result<&'a MeasurementStudy, String> {
    match &scope.record.body {
        Body::MeasurementStudy(body) => Ok(body),
        _ => Err(say!("this record is no measurement_study").into()),
    }
}

/// The results as numbers of the unit that they are written in, which must be one.
pub fn values(scope: &Scope) -> Drawn {
    let results = &study(scope)?.results;
    let Some(first) = results.first() else {
        return Ok(Vec::new());
    };
    let unit = first.value.unit;
    if results.iter().any(|result| result.value.unit != unit) {
        return Err(say!(
            "the results are not all in {what}",
            what = unit.symbol
        ));
    }
    let one = |result: &StudyResult| {
        let value = &result.value;
        Datum::count(scope.record, unit.of_si(value.si), &value.text, value.spot)
    };
    Ok(results.iter().map(one).collect())
}

/// What each result belongs to, numbered from 1 in the order of the names.
pub fn numbered(scope: &Scope, of: fn(&StudyResult) -> (&Id, Option<&Id>)) -> Drawn {
    let results = &study(scope)?.results;
    let name = |result: &StudyResult| {
        let (first, second) = of(result);
        (first.to_string(), second.map(|id| id.to_string()))
    };
    let names: std::collections::BTreeSet<_> = results.iter().map(name).collect();
    let numbers: std::collections::BTreeMap<_, usize> = names.into_iter().zip(1..).collect();
    let one = |result: &StudyResult| {
        let number = numbers.get(&name(result)).copied().unwrap_or_default();
        Datum::count(
            scope.record,
            number as f64,
            &of(result).0.text,
            of(result).0.spot,
        )
    };
    Ok(results.iter().map(one).collect())
}
