//! `kind: cycle_claim`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// How many cycles of which treatment an element withstands.
    pub struct CycleClaim {
        /// The code.
        product_code: Text,
        /// Who approved it.
        approved_by: Id,
        /// The claims.
        claims: Vec<Claim>,
        /// How claims add up.
        combination_rule: Text,
        /// What no claim covers.
        not_covered: List<Text>,
        /// Longest time in service.
        age_limit_in_service: Option<Q<Duration>>,
        /// The report.
        evidence: Option<Attachment>,
        /// From.
        valid_from: Day,
    }
}

shape! {
    /// One claim.
    pub struct Claim {
        /// The treatment.
        treatment: Text,
        /// The agent.
        agent: Option<Text>,
        /// Highest temperature.
        temperature_max: Option<Q<Temperature>>,
        /// Time of a cycle.
        time_per_cycle: Option<Q<Duration>>,
        /// Highest forward difference.
        differential_pressure_max: Option<Q<Gauge>>,
        /// Highest reverse difference.
        reverse_differential_pressure_max: Option<Q<Gauge>>,
        /// How many are claimed.
        cycles_claimed: Count,
        /// How many were tested.
        cycles_tested: Count,
        /// On how many elements.
        elements_tested: Count,
        /// How the end was tested.
        end_test: Option<Text>,
    }
}
