//! `kind: endurance_study`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// Elements taken through repeated treatment, and tested on the way.
    pub struct EnduranceStudy {
        /// The code.
        product_code: Text,
        /// The treatment, as the claim names it.
        treatment: Text,
        /// What one cycle consists of, in order.
        treatment_sequence: Vec<Text>,
        /// The temperature of each cycle.
        temperature: Option<Q<Temperature>>,
        /// The time of each cycle at that temperature.
        time_per_cycle: Option<Q<Duration>>,
        /// The highest forward pressure difference.
        differential_pressure_max: Option<Q<Gauge>>,
        /// The highest reverse pressure difference.
        reverse_differential_pressure_max: Option<Q<Gauge>>,
        /// The elements.
        elements: Vec<Id>,
        /// Tests on the way.
        checkpoints: Vec<Checkpoint>,
        /// Elements that were taken out before the end, and why.
        censoring: List<Censored>,
        /// One-sided confidence of what is said to be supported, such as "95 %".
        confidence: Q<Share>,
        /// The least bubble point; the specification's where absent.
        least_bubble_point: Option<Q<Gauge>>,
    }
}

shape! {
    /// One element after some cycles.
    pub struct Checkpoint {
        /// The element.
        element: Id,
        /// How many cycles it had.
        cycle: Count,
        /// Its bubble point.
        bubble_point: Option<Q<Gauge>>,
        /// Its diffusive flow.
        diffusive_flow: Option<Q<Flow>>,
        /// Its flow as a share of that when new.
        flow_recovery: Option<Q<Share>>,
        /// What was seen.
        visual: Option<Text>,
        /// Whether it was intact.
        intact: Flag,
    }
}

shape! {
    /// An element that left the study.
    pub struct Censored {
        /// The element.
        element: Id,
        /// After how many cycles.
        cycle: Count,
        /// Why; what left for another reason than a failure counts as no failure.
        reason: Text,
    }
}

impl EnduranceStudy {
    /// The checkpoints of an element, in the order of their cycles.
    pub fn of<'a>(&'a self, element: &str) -> Vec<&'a Checkpoint> {
        let mut own: Vec<&Checkpoint> = self
            .checkpoints
            .iter()
            .filter(|point| &*point.element.text == element)
            .collect();
        own.sort_by_key(|point| point.cycle.value);
        own
    }

    /// How many cycles an element reached intact, and whether it failed afterwards.
    pub fn reached(&self, element: &str) -> (u64, bool) {
        let own = self.of(element);
        let intact = own.iter().take_while(|point| point.intact.value);
        (
            intact.last().map_or(0, |point| point.cycle.value),
            own.iter().any(|point| !point.intact.value),
        )
    }
}
