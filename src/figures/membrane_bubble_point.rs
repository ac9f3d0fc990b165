//! Bubble point of flat membrane.

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

/// Bubble point of flat membrane.
pub static FIGURE: Figure = Figure {
    id: "membrane-bubble-point",
    name: "Bubble point of flat membrane",
    symbol: "P_b",
    unit: BAR,
    quantity: Some(Measured::BubblePoint),
    about: "Mean of the bubble points of the discs cut from one sample of a roll. It supports the identity and the rating of the membrane before anything is pleated; it is no particle-retention size. δ_s is the error that the scatter of the discs leaves in the mean: its best estimate is zero, its uncertainty is the standard deviation of the readings over the root of their number.",
    validity: "Complete wetting and a slow pressure rise; gauge pressure with the other side open to the room. Readings of different liquids are never averaged.",
    sources: &["Arithmetic mean; method ASTM F316 as named in the record"],
    subjects: |plant| subjects_measuring(plant, Measured::BubblePoint),
    formula: || mean(READING) + SCATTER,
    limit: |scope| limit_of_specification(scope, Measured::BubblePoint),
    check: always,
    reported: |scope| reported(scope, Measured::BubblePoint),
    example: Example {
        given: &[
            (READING, "2.80 bar", "0.03 bar"),
            (READING, "2.84 bar", "0.03 bar"),
            (READING, "2.85 bar", "0.03 bar"),
            (SCATTER, "0.002 bar", "0.015 bar"),
        ],
        gives: "2.832 ± 0.023 bar",
    },
};

const READING: Input = Input {
    symbol: "P",
    what: "the bubble point of each disc",
    unit: BAR,
    from: From::Records(|scope| readings(scope, Measured::BubblePoint, PRESSURE)),
};

const SCATTER: Input = Input {
    symbol: "δ_s",
    what: "the unknown error that the scatter of the readings leaves in their mean",
    unit: BAR,
    from: From::Records(|scope| scatter(scope, Measured::BubblePoint, PRESSURE)),
};

/// What the scatter of readings leaves in their mean: its standard error, with n − 1 degrees of freedom. One
/// reading tells nothing of its scatter.
pub fn scatter(scope: &Scope, quantity: Measured, dim: Dim) -> Drawn {
    let readings = readings(scope, quantity, dim)?;
    let Some(first) = readings.first() else {
        return Ok(Vec::new());
    };
    let values: Vec<f64> = readings.iter().map(|reading| reading.si).collect();
    let n = values.len();
    if n < 2 {
        return Ok(vec![Datum {
            si: 0.0,
            text: say!("of one reading").into(),
            ..first.clone()
        }]);
    }
    let (_, sd) = crate::stats::summary::mean_and_sd(&values)?;
    Ok(vec![Datum::scatter(
        word!("scatter of the readings"),
        sd / libm::sqrt(n as f64),
        n as u64 - 1,
        say!("of {count} readings", count = n),
        first.at.clone(),
    )])
}

/// The membrane tests that measured a quantity.
pub fn subjects_measuring(plant: &Plant, quantity: Measured) -> Vec<Subject> {
    plant
        .indexed()
        .filter(|(_, record)| match &record.body {
            Body::MembraneTest(body) => body
                .measurements
                .iter()
                .any(|m| m.quantity == quantity && m.not_measured_reason.is_none()),
            _ => false,
        })
        .map(|(record, _)| Subject {
            record,
            part: String::new(),
        })
        .collect()
}

/// The readings of a quantity in a membrane test; each of the figure's dimension.
pub fn readings(scope: &Scope, quantity: Measured, dim: Dim) -> Drawn {
    let measurement = measurement(scope, quantity)?;
    measurement
        .readings
        .iter()
        .map(|reading| match reading.unit.dim == dim {
            true => Ok(Datum {
                si: reading.si,
                u: None,
                cause: STATED,
                degrees: None,
                text: reading.text.to_string(),
                at: scope.record.at(reading.spot),
                shared: None,
            }),
            false => Err(say!(
                "reading {reading} is not of the right kind",
                reading = reading.text
            )),
        })
        .collect()
}

/// The measurement of a quantity in a membrane test.
pub fn measurement<'a>(
    scope: &Scope<'a>,
    quantity: Measured,
) -> Result<&'a crate::record::kinds::membrane_test::Measurement, String> {
    let Body::MembraneTest(body) = &scope.record.body else {
        return Err(say!("this record is no membrane_test").into());
    };
    body.measurements
        .iter()
        .find(|m| m.quantity == quantity)
        .ok_or_else(|| {
            say!(
                "there is no {quantity} in this test",
                quantity = quantity.word()
            )
        })
}

/// The mean or value that the test reports for a quantity.
pub fn reported(scope: &Scope, quantity: Measured) -> Option<ReportedValue> {
    let measurement = measurement(scope, quantity).ok()?;
    let value = measurement
        .reported_mean
        .as_ref()
        .or(measurement.reported_value.as_ref())?;
    Some(ReportedValue {
        si: value.si,
        text: value.text.to_string(),
        verdict: measurement.verdict,
        at: scope.record.at(value.spot),
    })
}
