//! `kind: seal_run`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// A run of seals at one setting.
    pub struct SealRun {
        /// What is sealed.
        seal_type: Seal,
        /// What melts the plastic.
        heating: Heating,
        /// The machine.
        equipment_id: Option<Id>,
        /// As set.
        setpoints: Option<Any>,
        /// A map of what was run: for each key of validated_window its value with unit (or key_mean, key_min, key_max).
        actuals: Any,
        /// A map of the ranges that were validated, such as heating_time: "16 s .. 20 s"; with document, revision beside them.
        validated_window: Any,
        /// Temperature against time.
        trace: Option<TraceFile>,
        /// The end caps.
        end_cap_lot: Option<Id>,
        /// What was sealed: ids of modules, or {assembly_id, joint} for a join and an end of an assembly.
        items: List<SealedItem>,
        /// Coupons made in the run.
        coupons: List<Id>,
    }
}

words! {
    /// What melts the plastic of a seal.
    pub enum Heating {
        /// An infrared emitter that touches nothing.
        Infrared = "infrared_contact_free",
        /// A plate that an induction coil heats.
        Plate = "induction_heated_plate",
    }
}

words! {
    /// What a seal joins.
    pub enum Seal {
        /// The pleats of a pack along its length.
        SideSeam = "side_seam",
        /// A pack into its end caps.
        PackToEndCap = "pack_to_end_cap",
        /// Two modules.
        ModuleToModule = "module_to_module",
        /// The adapter.
        Adapter = "adapter",
        /// The end piece.
        EndPiece = "end_piece",
    }
}

/// One sealed thing: a module, or a join of an assembly.
#[derive(Debug, Clone)]
pub struct SealedItem {
    /// The module or assembly.
    pub item: Id,
    /// Which join of an assembly.
    pub joint: Option<Count>,
}

shape! {
    /// A join of an assembly, or a module's seal.
    pub struct SealedMap {
        /// The assembly.
        assembly_id: Option<Id>,
        /// The module.
        module_id: Option<Id>,
        /// The join.
        joint: Option<Count>,
    }
}

impl Read for SealedItem {
    fn read(name: &str, node: &crate::record::yaml::Node, reader: &mut Reader) -> Option<Self> {
        if node.text().is_some() {
            return Text::read(name, node, reader).map(|item| SealedItem { item, joint: None });
        }
        let map = SealedMap::read(name, node, reader)?;
        match map.assembly_id.or(map.module_id) {
            Some(item) => Some(SealedItem {
                item,
                joint: map.joint,
            }),
            None => reader.refuse_by(
                "R03",
                node.spot,
                say!("a sealed item names neither assembly_id nor module_id"),
                say!("Name the thing that was sealed."),
            ),
        }
    }
    fn schema() -> serde_json::Value {
        serde_json::json!({"anyOf": [Text::schema(), SealedMap::schema()]})
    }
}
