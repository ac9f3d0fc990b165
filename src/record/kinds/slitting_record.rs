//! `kind: slitting_record`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// One coil slit to the width of a module.
    pub struct SlittingRecord {
        /// The roll.
        material_lot: Id,
        /// The coil.
        coil_id: Option<Id>,
        /// The lot.
        lot_id: Option<Id>,
        /// The blades.
        blade_set: Option<Text>,
        /// The width wanted.
        nominal_width: Q<Length>,
        /// Allowed either side.
        tolerance: Q<Length>,
        /// Widths along the coil, in order.
        readings: Vec<WidthReading>,
        /// What measured them.
        instrument: Option<Id>,
        /// The same.
        instrument_id: Option<Id>,
    }
}

shape! {
    /// One width.
    pub struct WidthReading {
        /// Metres along the coil.
        position: Q<Along>,
        /// The width.
        width: Q<Length>,
    }
}
