//! Water flow of a used element against the same element when new.

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

use super::{flow_resistance::flow_test, join_residual::itself, water_flow};
use crate::record::kinds::flow_test::Occasion;

/// Flow recovery.
pub static FIGURE: Figure = Figure {
    id: "flow-recovery",
    name: "Flow recovery",
    symbol: "R_f",
    unit: PERCENT,
    quantity: Some(Measured::FlowRecovery),
    about: "The water flow of an element after cycles or a regeneration, over that of the same element when new, both at 20 °C and at the same stated pressure difference. It says whether regeneration still helps; above 100 % is possible.",
    validity: "The same element, the same stated pressure difference, water; the gain of a flow meter that measured both cancels; it is counted as if it did not unless the specification states it as a contribution that the instrument shares.",
    sources: &["Ratio of flows; common practice, no source"],
    subjects: |plant| {
        plant
            .indexed()
            .filter(|(_, record)| matches!(&record.body, Body::FlowTest(body) if body.stage != Occasion::New))
            .map(|(record, _)| Subject {
                record,
                part: String::new(),
            })
            .collect()
    },
    formula: || Expr::from(AFTER) / NEW,
    limit: |scope| limit_of_specification(scope, Measured::FlowRecovery),
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (AFTER, "17.6 L/min", "0.3 L/min"),
            (NEW, "20.4 L/min", "0.3 L/min"),
        ],
        gives: "86.3 ± 1.9 %",
    },
};

const AFTER: Input = Input {
    symbol: "Q_a",
    what: "the water flow afterwards",
    unit: L_PER_MIN,
    from: From::Figures(&water_flow::FIGURE, itself),
};

const NEW: Input = Input {
    symbol: "Q_n",
    what: "the water flow when new",
    unit: L_PER_MIN,
    from: From::Figures(&water_flow::FIGURE, when_new),
};

/// The flow test of the same element when new, at the same stated pressure difference.
fn when_new(scope: &Scope) -> Result<Vec<Subject>, String> {
    let after = flow_test(scope)?;
    let id = after.new_test.as_ref().ok_or(say!(
        "new_test does not name the test of the element when new"
    ))?;
    let record = scope
        .plant
        .records()
        .find("flow_test", id)
        .ok_or_else(|| say!("flow_test {id} is missing", id = &**id))?;
    match &record.body {
        Body::FlowTest(new) if new.element_id.text != after.element_id.text => Err(say!(
            "{id} is of {element_id}, not of {element_id2}",
            id = &**id,
            element_id = &*new.element_id,
            element_id2 = &*after.element_id
        )),
        Body::FlowTest(new)
            if (new.stated_differential_pressure.si / after.stated_differential_pressure.si
                - 1.0)
                .abs()
                > 1e-9 =>
        {
            Err(say!(
                "{id} states its flow at another pressure difference",
                id = &**id
            ))
        }
        Body::FlowTest(new) if new.stage != Occasion::New => {
            Err(say!("{id} is no test of a new element", id = &**id))
        }
        _ => Ok(vec![Subject {
            record: record.index,
            part: String::new(),
        }]),
    }
}
