//! `kind: material_lot`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// One received lot or roll.
    pub struct MaterialLot {
        /// What it is: membrane_roll, support_layer, prefilter_layer, resin_part, o_ring, stainless_ring …
        material_type: Text,
        /// In words.
        material_description: Text,
        /// The supplier.
        supplier_id: Id,
        /// Its name.
        supplier_name: Text,
        /// Its lot (one step up, EC 1935/2004 Art. 17).
        supplier_lot: Text,
        /// The order.
        purchase_order: Option<Text>,
        /// When.
        received_at: When,
        /// Metres or pieces.
        quantity_received: AnyQ,
        /// Width of a roll.
        roll_width: Option<Q<Length>>,
        /// How kept.
        storage_condition: Option<Text>,
        /// Until, the day included.
        shelf_life_until: Option<Day>,
        /// In the sense of EN 10204.
        inspection_document: Option<Attachment>,
        /// Declarations.
        food_contact_documents: List<FoodContact>,
        /// What the supplier measured.
        supplier_reported: List<SupplierReported>,
        /// Accepted, held or rejected.
        incoming_status: Status,
    }
}

shape! {
    /// A declaration for food contact.
    pub struct FoodContact {
        /// Under which law.
        regulation: Text,
        /// Its number.
        document: Text,
        /// When.
        issued: Day,
        /// Which use.
        covers: Option<Text>,
    }
}

shape! {
    /// A value by the supplier.
    pub struct SupplierReported {
        /// Of what.
        quantity: Text,
        /// The value.
        value: AnyQ,
        /// How.
        method: Option<Text>,
    }
}

words! {
    /// The state of a lot.
    pub enum Status {
        /// May be used.
        Accepted = "accepted",
        /// Waits.
        Held = "held",
        /// Must not be used.
        Rejected = "rejected",
    }
}
