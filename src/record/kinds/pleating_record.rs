//! `kind: pleating_record`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// A batch of pleated packs.
    pub struct PleatingRecord {
        /// The lot.
        lot_id: Id,
        /// The machine.
        pleating_machine: Id,
        /// Flank height.
        pleat_height: Q<Length>,
        /// Length along the axis between the end-cap embedments.
        pleated_length: Q<Length>,
        /// Pleats wanted.
        pleat_count_nominal: Option<Count>,
        /// A map of material lots by layer, as the layer_stack calls them: upstream, downstream …
        support_layers: Option<Any>,
        /// The lot of the cores that the packs stand on.
        core_lot: Option<Id>,
        /// The lot of the cages around them.
        cage_lot: Option<Id>,
        /// The packs.
        packs: Vec<Pack>,
        /// The area as worked out by the operator.
        area_check: Option<Text>,
        /// Anything else.
        note: Option<Text>,
    }
}

shape! {
    /// One pack.
    pub struct Pack {
        /// The module.
        module_id: Id,
        /// The roll.
        material_lot: Id,
        /// Start on the roll.
        from: Q<Along>,
        /// End on the roll.
        to: Q<Along>,
        /// Pleats.
        pleat_count: Count,
        /// `accepted` or what was seen.
        visual: Text,
        /// The slit coil.
        coil_id: Option<Id>,
    }
}
