//! `kind: marking_inspection`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// The marks of a lot, read back.
    pub struct MarkingInspection {
        /// The lot.
        lot_id: Id,
        /// The plan.
        sampling_plan: Option<Id>,
        /// How marked.
        marking_method: Option<Text>,
        /// A map of what the marks should say: product_code, batch, nominal_rating.
        expected: Any,
        /// What they say.
        reads: List<Mark>,
        /// Words on the label.
        label_claims: List<Text>,
        /// Whether it stays.
        rub_test: Option<Any>,
    }
}

shape! {
    /// One mark.
    pub struct Mark {
        /// The element.
        item: Id,
        /// Read by eye.
        text_read: Option<Text>,
        /// The kind of symbol.
        symbol: Option<Text>,
        /// What it holds.
        symbol_data: Option<Text>,
        /// Whether it can be read.
        legible: Flag,
        /// A picture.
        photo: Option<Text>,
    }
}
