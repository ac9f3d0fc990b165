//! Room that a pleat has at the core.

use super::clearance_hot::sized;
#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

use crate::record::kinds::{layer_stack::LayerStack, product_specification::Stage};

/// Room of a pleat at the core.
pub static FIGURE: Figure = Figure {
    id: "pleat-room",
    name: "Room of a pleat at the core",
    symbol: "g",
    unit: MM,
    quantity: None,
    about: "The circumference of the core, shared among as many pleats as the specification allows at most, less the two flanks of a pleat. Below zero the pack cannot be closed around its core without crushing the layers.",
    validity: "All layers of one flank as they lie, not pressed together; the side seam is one pleat of the count.",
    sources: &["Geometry of a pleated pack; common practice, no source"],
    subjects: |plant| {
        plant
            .indexed()
            .filter(|(_, record)| record.kind == "layer_stack")
            .map(|(record, _)| Subject {
                record,
                part: String::new(),
            })
            .collect()
    },
    formula: || PI * CORE / PLEATS - 2.0 * sum(LAYER),
    limit: |_| {
        Ok(Some(Limit {
            low: Some(0.0),
            high: None,
            text: "≥ 0 mm".into(),
            at: None,
            decision: Decision::Guarded(1.0),
        }))
    },
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (PI, "3.141592653589793", "0"),
            (CORE, "34.0 mm", "0.06 mm"),
            (PLEATS, "96", "0"),
            (LAYER, "0.13 mm", "0.003 mm"),
            (LAYER, "0.16 mm", "0.005 mm"),
            (LAYER, "0.14 mm", "0.005 mm"),
        ],
        gives: "0.253 ± 0.015 mm",
    },
};

const PI: Input = Input {
    symbol: "π",
    what: "the ratio of a circle's circumference to its diameter",
    unit: ONE,
    from: From::Constant {
        value: std::f64::consts::PI,
        u: 0.0,
        source: "mathematics",
    },
};

const CORE: Input = Input {
    symbol: "D_c",
    what: "the outer diameter of the core",
    unit: MM,
    from: From::Records(|scope| {
        let product = &stack(scope)?.product_code;
        let found = scope
            .plant
            .records()
            .element_geometrys()
            .find(|(_, geometry)| geometry.product_code.text == product.text);
        let (record, geometry) = found.ok_or_else(|| {
            say!(
                "no element_geometry describes {product}",
                product = &**product
            )
        })?;
        let core = geometry.part(&geometry.core)?;
        Ok(vec![sized(record, core)])
    }),
};

const PLEATS: Input = Input {
    symbol: "N",
    what: "the most pleats that the specification allows",
    unit: ONE,
    from: From::Records(|scope| {
        let (record, spec) = scope.spec()?;
        let demand = spec
            .limit(Stage::PleatPack, Measured::PleatCount)
            .map(|accepted| &accepted.limit);
        let most = demand.and_then(|demand| demand.high.map(|most| (demand, most)));
        let (demand, most) = most.ok_or(say!(
            "the specification does not limit the pleat count upwards"
        ))?;
        Ok(vec![Datum::count(record, most, &demand.text, demand.spot)])
    }),
};

const LAYER: Input = Input {
    symbol: "t_i",
    what: "the thickness of each layer",
    unit: MM,
    from: From::Records(|scope| {
        let layers = stack(scope)?.layers.iter();
        Ok(layers
            .map(|layer| Datum::of(scope.record, &layer.thickness))
            .collect())
    }),
};

fn stack<'a>(scope: &Scope<'a>) -> Result<&'a LayerStack, String> {
    match &scope.record.body {
        Body::LayerStack(body) => Ok(body),
        _ => Err(say!("this record is no layer_stack").into()),
    }
}
