//! `kind: calibration_record`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{ground::time::Date, shape};

shape! {
    /// One calibration of one instrument.
    pub struct CalibrationRecord {
        /// The instrument.
        instrument_id: Id,
        /// What it is.
        instrument_description: Option<Text>,
        /// Its serial number.
        serial_number: Text,
        /// Its firmware.
        firmware_version: Option<Text>,
        /// What it measures.
        measured_quantities: Vec<Text>,
        /// When.
        calibration_performed_at: When,
        /// From.
        valid_from: Day,
        /// Until, the day included.
        valid_until: Day,
        /// By whom.
        performed_by: Text,
        /// A map: scheme, number.
        accreditation: Option<Any>,
        /// The certificate.
        certificate: Option<Attachment>,
        /// To which standard.
        reference_standard_traceability: Option<Text>,
        /// Temperature, humidity.
        environment: Option<Any>,
        /// What was found and left.
        points: Vec<Point>,
        /// Whether every error was inside its limit as found.
        as_found_within_limits: Flag,
        /// The clock against a reference.
        clock_check: Option<ClockCheck>,
        /// When next.
        next_due: Option<Day>,
    }
}

shape! {
    /// One calibration point.
    pub struct Point {
        /// The quantity, one of measured_quantities, such as pressure_gauge, gas_temperature, upstream_volume, force, width; what its unit measures decides for what it counts.
        quantity: Text,
        /// Where.
        nominal: AnyQ<Mark>,
        /// Indication minus truth before adjustment.
        as_found_error: AnyQ<Width>,
        /// The same after.
        as_left_error: AnyQ<Width>,
        /// Of the error.
        expanded_uncertainty: AnyQ<Width>,
        /// Its k.
        coverage_factor: Number,
        /// The limit of the error.
        maximum_permissible_error: AnyQ<Width>,
    }
}

shape! {
    /// A clock against a reference.
    pub struct ClockCheck {
        /// What the instrument said.
        instrument_clock: When,
        /// What the reference said.
        reference_clock: When,
        /// The difference.
        offset: Text,
        /// Whether the clock was set.
        corrected: Flag,
    }
}

impl CalibrationRecord {
    /// Whether it vouches for what was measured on a day.
    pub fn in_force(&self, day: Date) -> bool {
        self.valid_from.date <= day && day <= self.valid_until.date
    }
}
