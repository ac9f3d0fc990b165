//! Water flux of flat membrane.

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

use super::membrane_bubble_point::{measurement, reported, subjects_measuring};

/// Water flux of flat membrane.
pub static FIGURE: Figure = Figure {
    id: "membrane-water-flux",
    name: "Water flux of flat membrane",
    symbol: "J",
    unit: ML_PER_MIN_CM2,
    quantity: Some(Measured::WaterFlux),
    about: "Volume of water per time and exposed area at the stated pressure. It is the flow as measured: no correction to 20 °C is made here.",
    validity: "Clean water at the temperature that the specification asks for.",
    sources: &["Definition"],
    subjects: |plant| subjects_measuring(plant, Measured::WaterFlux),
    formula: || COLLECTED / (TIME_TAKEN * EXPOSED),
    limit: |scope| limit_of_specification(scope, Measured::WaterFlux),
    check: always,
    reported: |scope| reported(scope, Measured::WaterFlux),
    example: Example {
        given: &[
            (COLLECTED, "649 mL", "3 mL"),
            (TIME_TAKEN, "60.0 s", "0.3 s"),
            (EXPOSED, "13.8 cm2", "0.1 cm2"),
        ],
        gives: "47.03 ± 0.47 mL/min/cm²",
    },
};

const COLLECTED: Input = Input {
    symbol: "V",
    what: "the collected volume",
    unit: ML,
    from: From::Records(|scope| {
        let measured = measurement(scope, Measured::WaterFlux)?;
        let value = measured
            .collected_volume
            .as_ref()
            .ok_or(say!("collected_volume is missing"))?;
        Ok(vec![Datum::of(scope.record, value)])
    }),
};

const TIME_TAKEN: Input = Input {
    symbol: "t",
    what: "the time in which it was collected",
    unit: SECOND,
    from: From::Records(|scope| {
        let measured = measurement(scope, Measured::WaterFlux)?;
        let value = measured
            .collection_time
            .as_ref()
            .ok_or(say!("collection_time is missing"))?;
        Ok(vec![Datum::of(scope.record, value)])
    }),
};

const EXPOSED: Input = Input {
    symbol: "A",
    what: "the exposed area",
    unit: CM2,
    from: From::Records(|scope| {
        let measured = measurement(scope, Measured::WaterFlux)?;
        let value = measured
            .exposed_area
            .as_ref()
            .ok_or(say!("exposed_area is missing"))?;
        Ok(vec![Datum::of(scope.record, value)])
    }),
};
