//! `kind: personnel_authorisation`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// Who may do what, and when.
    pub struct PersonnelAuthorisation {
        /// The persons.
        persons: Vec<Person>,
    }
}

shape! {
    /// One person.
    pub struct Person {
        /// Never reused.
        person_id: Id,
        /// The name as printed.
        printed_name: Text,
        /// What the person is.
        function: Text,
        /// Record kinds and acts.
        may: Vec<Text>,
        /// From.
        valid_from: Day,
        /// Until, the day included.
        valid_until: Day,
        /// Evidence of training.
        training_record: Option<Text>,
        /// For outsiders.
        organisation: Option<Id>,
    }
}
