//! `kind: flow_test`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// Water flow of one element on one occasion.
    pub struct FlowTest {
        /// The module or assembly.
        element_id: Id,
        /// The product, where no test of the element names a specification.
        product_code: Option<Text>,
        /// On which occasion.
        stage: Occasion,
        /// After how many cycles, where it was.
        cycles: Option<Count>,
        /// The flow test of the same element when new.
        new_test: Option<Id>,
        /// The liquid.
        liquid: Text,
        /// Its temperature.
        liquid_temperature: Q<Temperature>,
        /// The pressure difference at which the flow is stated.
        stated_differential_pressure: Q<Gauge>,
        /// Flow and pressure difference, housing included.
        points: Vec<FlowPoint>,
        /// The same for the housing without an element.
        housing_blank: Vec<FlowPoint>,
        /// The flow meter and its gauge.
        instrument_id: Id,
        /// What the instrument printed for the flow at the stated pressure difference.
        reported: Option<Reported>,
    }
}

words! {
    /// When a flow test is made.
    pub enum Occasion {
        /// Before first use.
        New = "new",
        /// After cycles or service.
        AfterCycles = "after_cycles",
        /// After a regeneration.
        AfterRegeneration = "after_regeneration",
    }
}

shape! {
    /// One point.
    pub struct FlowPoint {
        /// Flow.
        flow: Q<Flow>,
        /// Pressure difference.
        differential_pressure: Q<Gauge>,
    }
}
