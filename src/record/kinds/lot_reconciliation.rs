//! `kind: lot_reconciliation`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// Where every module of a lot went.
    pub struct LotReconciliation {
        /// The lot.
        lot_id: Id,
        /// The code.
        product_code: Text,
        /// How many were begun.
        modules_started: Count,
        /// Every module once.
        disposition: Vec<Disposition>,
        /// How many.
        assemblies_built: Option<Count>,
        /// Lists by state.
        assemblies: Option<Any>,
        /// The sum as worked out.
        balance: Option<Text>,
        /// What is left out and why.
        exclusions: List<Exclusion>,
        /// Metres.
        roll_balance: List<RollBalance>,
    }
}

words! {
    /// What became of a module.
    pub enum State {
        /// It stands in an assembly.
        InAssembly = "in_assembly",
        /// It was rejected.
        Rejected = "rejected",
        /// It was destroyed as a sample.
        DestroyedAsSample = "destroyed_as_sample",
        /// It is in stock.
        InStock = "in_stock",
        /// It is held.
        Held = "held",
    }
}

shape! {
    /// Modules in one state.
    pub struct Disposition {
        /// What became of them.
        state: State,
        /// The assembly.
        assembly_id: Option<Id>,
        /// The modules.
        modules: Vec<Id>,
        /// The deviation.
        deviation: Option<Id>,
        /// Where they went in the end.
        physical_fate: Option<Text>,
        /// Why.
        reason: Option<Text>,
        /// Where.
        location: Option<Text>,
    }
}

shape! {
    /// One thing left out.
    pub struct Exclusion {
        /// What.
        item: Id,
        /// Why.
        reason_code: Text,
        /// The deviation.
        deviation: Option<Id>,
    }
}

shape! {
    /// Metres of one roll.
    pub struct RollBalance {
        /// The roll.
        material_lot: Id,
        /// Received.
        received: Q<Along>,
        /// Used.
        used_in_this_lot: Q<Along>,
        /// Cut away.
        test_and_trim: Q<Along>,
        /// Left.
        remaining: Q<Along>,
    }
}
