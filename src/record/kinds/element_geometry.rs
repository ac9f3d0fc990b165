//! `kind: element_geometry`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// Dimensions, materials and strengths of the parts of one product.
    pub struct ElementGeometry {
        /// The code.
        product_code: Text,
        /// The dimensions, measured at the reference temperature.
        parts: Vec<Part>,
        /// The temperature of the dimensions.
        reference_temperature: Q<Temperature>,
        /// The materials.
        materials: Vec<Material>,
        /// Which part must keep a clearance in which other.
        fits: List<Fit>,
        /// Pressure differences that core and cage withstood when tested.
        strengths: List<Strength>,
        /// Where the core's outer diameter stands among the parts: its id.
        core: Id,
        /// The cage's inner diameter: its id.
        cage: Id,
        /// How the finished element comes apart, and where its materials go.
        material_separation: Option<Any>,
    }
}

shape! {
    /// One dimension of one part.
    pub struct Part {
        /// Its id in this record, such as adapter_bore.
        id: Id,
        /// The part: core, cage, pack, end_cap, adapter, ring, tip.
        part: Text,
        /// Which dimension.
        dimension: Text,
        /// Its size.
        size: Q<Length>,
        /// Allowed either side; a rectangular distribution.
        tolerance: Q<Length>,
        /// What it is made of.
        material: Id,
    }
}

shape! {
    /// A material and how it grows.
    pub struct Material {
        /// Its name in this record.
        id: Id,
        /// What it is.
        description: Text,
        /// Linear expansion per kelvin over the range used, its lowest value.
        expansion_low: Q<Expansion>,
        /// The same, its highest value.
        expansion_high: Q<Expansion>,
        /// Where the values come from.
        source: Text,
        /// The temperature above which dimensions say nothing.
        softens_at: Option<Q<Temperature>>,
    }
}

shape! {
    /// An inner part in an outer one.
    pub struct Fit {
        /// Its id in this record, such as ring_on_adapter.
        id: Id,
        /// The inner part's dimension.
        inner: Id,
        /// The outer part's dimension.
        outer: Id,
        /// Hottest state.
        hottest: Q<Temperature>,
        /// Coldest state.
        coldest: Q<Temperature>,
        /// Least clearance on the diameter.
        least: Q<Length>,
    }
}

words! {
    /// Which way a pressure difference acts.
    pub enum Direction {
        /// Upstream over downstream: it loads the core.
        Forward = "forward",
        /// Downstream over upstream: it loads the cage.
        Reverse = "reverse",
    }
}

shape! {
    /// What core or cage withstood in a test.
    pub struct Strength {
        /// Its id in this record.
        id: Id,
        /// Which way.
        direction: Direction,
        /// At which temperature.
        temperature: Q<Temperature>,
        /// The pressure difference at which it still held, with its uncertainty.
        withstood: Q<Gauge>,
        /// On how many elements.
        elements_tested: Count,
        /// How many times the claim it must be.
        least_margin: Number,
        /// The report.
        report: Option<Text>,
    }
}

impl ElementGeometry {
    /// A dimension by its id.
    pub fn part(&self, id: &str) -> Result<&Part, String> {
        self.parts
            .iter()
            .find(|part| &*part.id.text == id)
            .ok_or_else(|| say!("parts have no {id}", id = id))
    }

    /// The material of a dimension.
    pub fn material(&self, part: &Part) -> Result<&Material, String> {
        self.materials
            .iter()
            .find(|material| material.id.text == part.material.text)
            .ok_or_else(|| say!("materials have no {material}", material = &*part.material))
    }
}
