//! `kind: layer_stack`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// The layers of the pleat pack of one product, from the upstream side to the downstream side.
    pub struct LayerStack {
        /// The code.
        product_code: Text,
        /// The layers, in order.
        layers: Vec<Layer>,
    }
}

shape! {
    /// One layer.
    pub struct Layer {
        /// Which one.
        layer: Place,
        /// What it is made of.
        material: Option<Text>,
        /// Its thickness, once.
        thickness: Q<Length>,
        /// Material lots, supplier lots or material types that may be used for it.
        allowed: Vec<Text>,
    }
}

words! {
    /// The layers that a pack may have.
    pub enum Place {
        /// Support on the upstream side.
        UpstreamSupport = "upstream_support",
        /// A membrane that retains coarser matter, upstream of the final one.
        Prefilter = "prefilter",
        /// The membrane; two of them may lie on each other.
        Membrane = "membrane",
        /// Support on the downstream side.
        DownstreamSupport = "downstream_support",
    }
}

impl LayerStack {
    /// Thickness of all layers of one flank, m.
    pub fn thickness(&self) -> f64 {
        self.layers.iter().map(|layer| layer.thickness.si).sum()
    }
}
