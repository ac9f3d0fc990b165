//! `kind: assembly_build`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// How one assembly was put together.
    pub struct AssemblyBuild {
        /// The assembly.
        assembly_id: Id,
        /// The code.
        product_code: Text,
        /// Its length.
        nominal_length: Q<Length>,
        /// Adapter end first.
        modules: Vec<Position>,
        /// The joins.
        joints: List<Joint>,
        /// The adapter.
        adapter: Option<Adapter>,
        /// The end piece.
        end_piece: Option<EndPiece>,
        /// The o-rings.
        o_rings: Option<ORings>,
        /// Measured length.
        overall_length: Option<Q<Length>>,
        /// How far it is out of straight, joined.
        straightness: Option<Q<Length>>,
        /// Length of its modules laid end to end before they were joined.
        length_before: Option<Q<Length>>,
        /// The most that one of them was out of straight before.
        straightness_before: Option<Q<Length>>,
    }
}

shape! {
    /// One module in its place.
    pub struct Position {
        /// From 1 at the adapter.
        position: Count,
        /// The module.
        module_id: Id,
    }
}

shape! {
    /// One join.
    pub struct Joint {
        /// Its number.
        joint: Count,
        /// Which positions.
        between: Vec<Count>,
        /// How far the axes of the two were apart.
        alignment: Option<Q<Length>>,
        /// The run.
        seal_run: Id,
    }
}

shape! {
    /// The adapter.
    pub struct Adapter {
        /// What it is.
        r#type: Text,
        /// Its lot.
        material_lot: Id,
        /// The run.
        seal_run: Option<Id>,
        /// The ring.
        stainless_ring_lot: Option<Id>,
        /// Whether the ring is loose.
        ring_turns_freely: Option<Flag>,
        /// Its play.
        ring_radial_clearance: Option<Q<Length>>,
    }
}

shape! {
    /// The end piece.
    pub struct EndPiece {
        /// What it is.
        r#type: Text,
        /// Its lot.
        material_lot: Id,
        /// The run.
        seal_run: Option<Id>,
        /// Whether the tip drains.
        drain_path_clear: Option<Flag>,
        /// What stays.
        retained_water_after_drain: Option<Q<Volume>>,
    }
}

shape! {
    /// The o-rings.
    pub struct ORings {
        /// Their lot.
        material_lot: Id,
        /// What they are.
        material: Text,
        /// How many.
        quantity: Count,
    }
}
