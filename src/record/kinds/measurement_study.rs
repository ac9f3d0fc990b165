//! `kind: measurement_study`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// The same elements tested again and again, by several operators or on several rigs.
    pub struct MeasurementStudy {
        /// What was measured.
        quantity: Measured,
        /// The product.
        product_code: Text,
        /// The source in the specification's budget that the repeatability stands for.
        contribution: Text,
        /// The rig, where it was one.
        instrument_id: Option<Id>,
        /// The results, each element as often by each operator.
        results: Vec<StudyResult>,
    }
}

shape! {
    /// One result.
    pub struct StudyResult {
        /// The element.
        item: Id,
        /// Who, or which rig.
        operator: Id,
        /// The value, all in one unit.
        value: AnyQ,
        /// The run of the rig.
        instrument_run_id: Option<Text>,
    }
}
