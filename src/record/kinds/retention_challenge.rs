//! `kind: retention_challenge`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// A challenge of membrane with organisms.
    pub struct RetentionChallenge {
        /// The method.
        method: Text,
        /// A map: name, accreditation.
        laboratory: Any,
        /// What.
        organism: Organism,
        /// The roll.
        material_lot: Id,
        /// Such as "LRV >= 7.0 at 0.45 um".
        claim_under_test: Text,
        /// The runs.
        runs: Vec<Run>,
        /// A map of positive_passage, negative and viability_after_contact, each a map with verdict (valid) and colonies or recovery.
        controls: Option<Any>,
        /// Medium, temperature, times.
        incubation: Option<Any>,
        /// The laboratory's statement.
        reported: Option<Any>,
    }
}

shape! {
    /// An organism.
    pub struct Organism {
        /// Its name.
        name: Text,
        /// Its strain.
        strain: Option<Text>,
    }
}

shape! {
    /// One run.
    pub struct Run {
        /// Its number.
        run: Count,
        /// The sample.
        sample: Option<Id>,
        /// Area.
        exposed_area: Q<Area>,
        /// Organisms in all.
        challenge_total: Q<Colonies>,
        /// Organisms per area.
        challenge_per_area: Option<Q<ColoniesPerArea>>,
        /// Pressure difference.
        differential_pressure: Option<Q<Gauge>>,
        /// Filtrate.
        filtrate_volume: Option<Q<Volume>>,
        /// Share of the filtrate that was counted, over 0 and up to 1.
        fraction_assayed: Number,
        /// Counted.
        colonies: Count,
        /// Before.
        pre_test_bubble_point: Option<Q<Gauge>>,
        /// After.
        post_test_bubble_point: Option<Q<Gauge>>,
        /// On which day, where it was not that of the others.
        performed_on: Option<Day>,
        /// Anything else.
        note: Option<Text>,
    }
}

impl RetentionChallenge {
    /// The claimed log reduction, when the claim is written `LRV >= 7.0 …`.
    pub fn claimed_lrv(&self) -> Option<f64> {
        let rest = self.claim_under_test.strip_prefix("LRV >=")?;
        crate::ground::number::parse(rest.split_whitespace().next()?).ok()
    }
}
