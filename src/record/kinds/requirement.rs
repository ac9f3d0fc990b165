//! `kind: requirement`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// Something that a customer or a regulation asks for, and where the evidence is.
    pub struct Requirement {
        /// What is asked.
        requirement: Text,
        /// By whom: a document with its date or edition, or a customer's order.
        basis: Text,
        /// The customer, where one asks.
        customer_id: Option<Id>,
        /// The evidence that it needs.
        evidence: Evidence,
    }
}

shape! {
    /// Where evidence stands.
    pub struct Evidence {
        /// Kinds of record of which the folder must hold at least one.
        record_kinds: List<Text>,
        /// Records by their ids.
        records: List<Id>,
        /// Definitions of figures, all of whose deciding values must conform.
        figures: List<Text>,
        /// Chapters.
        chapters: List<Text>,
    }
}
