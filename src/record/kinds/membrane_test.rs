//! `kind: membrane_test`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// A test of flat membrane cut from a roll.
    pub struct MembraneTest {
        /// The roll.
        material_lot: Id,
        /// The sample.
        sample_id: Id,
        /// Metres from the outer end.
        sample_position: Q<Along>,
        /// The specification it was tested to.
        specification: Option<Reference>,
        /// How it was prepared.
        conditioning: Option<Text>,
        /// The liquid.
        wetting_liquid: Option<Text>,
        /// Of the liquid.
        surface_tension: Option<Q<Tension>>,
        /// A map of instruments by what they measure: pressure, thickness, flow.
        instruments: Option<Any>,
        /// What was measured.
        measurements: Vec<Measurement>,
    }
}

shape! {
    /// One quantity.
    pub struct Measurement {
        /// What.
        quantity: Measured,
        /// How.
        method: Option<Text>,
        /// Of the disc.
        disc_diameter: Option<Q<Length>>,
        /// The readings.
        readings: List<AnyQ>,
        /// At which pressure.
        at: Option<Q<Gauge>>,
        /// Of the water.
        liquid_temperature: Option<Q<Temperature>>,
        /// Water collected.
        collected_volume: Option<Q<Volume>>,
        /// In what time.
        collection_time: Option<Q<Duration>>,
        /// Through what area.
        exposed_area: Option<Q<Area>>,
        /// The mean as reported.
        reported_mean: Option<AnyQ>,
        /// The value as reported.
        reported_value: Option<AnyQ>,
        /// As reported.
        verdict: Option<Said>,
        /// Why it was not measured.
        not_measured_reason: Option<Text>,
    }
}
