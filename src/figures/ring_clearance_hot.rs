//! Clearance that the measured play of a ring leaves when hot.

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

use super::straightness::{build, builds};
use crate::record::{
    Record,
    kinds::element_geometry::{ElementGeometry, Fit, Part},
    read::Id,
};

/// Clearance of the ring when hot.
pub static FIGURE: Figure = Figure {
    id: "ring-clearance-hot",
    name: "Clearance of the ring when hot",
    symbol: "c_r",
    unit: MM,
    quantity: None,
    about: "The play of the stainless ring as it was measured on this assembly, on the diameter, plus what the ring grows and less what the plastic under it grows up to the hottest state. A ring that turns when cold may still be gripped in steam; what the drawing allows says nothing of the part that was made.",
    validity: "Radial play measured at the reference temperature of the geometry, taken on one side; the fit of the geometry whose outer part is the ring.",
    sources: &["Linear thermal expansion (textbook)"],
    subjects: |plant| {
        builds(plant, |build| {
            build
                .adapter
                .as_ref()
                .is_some_and(|adapter| adapter.ring_radial_clearance.is_some())
        })
    },
    formula: || 2.0 * PLAY + (RING * RING_GROWS - PLASTIC * PLASTIC_GROWS) * (HOT - REFERENCE),
    limit: |scope| {
        let (record, _, fit) = fit(scope)?;
        Ok(Some(super::clearance_hot::at_least(scope, record, fit)))
    },
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (PLAY, "0.78 mm", "0.02 mm"),
            (RING, "56.90 mm", "0.03 mm"),
            (RING_GROWS, "17.2e-6 1/K", "0.5e-6 1/K"),
            (PLASTIC, "55.30 mm", "0.03 mm"),
            (PLASTIC_GROWS, "163e-6 1/K", "9.8e-6 1/K"),
            (HOT, "123.0 degC", "0 K"),
            (REFERENCE, "20.0 degC", "0 K"),
        ],
        gives: "0.732 ± 0.069 mm",
    },
};

const PLAY: Input = Input {
    symbol: "s",
    what: "the measured radial play",
    unit: MM,
    from: From::Records(|scope| {
        let adapter = build(scope)?.adapter.as_ref();
        let play = adapter
            .and_then(|adapter| adapter.ring_radial_clearance.as_ref())
            .ok_or(say!("it was not measured"))?;
        Ok(vec![Datum::of(scope.record, play)])
    }),
};

const RING: Input = Input {
    symbol: "D_o",
    what: "the bore of the ring",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.outer)),
};

const RING_GROWS: Input = Input {
    symbol: "α_o",
    what: "the expansion of the ring",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.outer)),
};

const PLASTIC: Input = Input {
    symbol: "D_i",
    what: "the diameter of the plastic under it",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.inner)),
};

const PLASTIC_GROWS: Input = Input {
    symbol: "α_i",
    what: "the expansion of the plastic",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.inner)),
};

const HOT: Input = Input {
    symbol: "T",
    what: "the hottest temperature",
    unit: DEGC,
    from: From::Records(|scope| {
        let (record, _, fit) = fit(scope)?;
        Ok(vec![Datum::of(record, &fit.hottest)])
    }),
};

const REFERENCE: Input = Input {
    symbol: "T_0",
    what: "the temperature of the dimensions",
    unit: DEGC,
    from: From::Records(|scope| {
        let (record, geometry, _) = fit(scope)?;
        Ok(vec![Datum::of(record, &geometry.reference_temperature)])
    }),
};

type Found<'a> = (&'a Record, &'a ElementGeometry, &'a Fit);

/// The fit of the product's geometry whose outer part is the ring.
fn fit<'a>(scope: &Scope<'a>) -> Result<Found<'a>, String> {
    let (_, spec) = scope.spec()?;
    let product = &spec.product_code;
    let (record, geometry) = scope
        .plant
        .records()
        .element_geometrys()
        .find(|(_, geometry)| geometry.product_code.text == product.text)
        .ok_or_else(|| {
            say!(
                "no element_geometry describes {product}",
                product = &**product
            )
        })?;
    let ring = |fit: &&Fit| {
        geometry
            .part(&fit.outer)
            .is_ok_and(|part| &*part.part.text == "ring")
    };
    let fit = geometry.fits.iter().find(ring);
    Ok((
        record,
        geometry,
        fit.ok_or(say!("the geometry has no fit of a ring"))?,
    ))
}

fn part<'a>(
    scope: &Scope<'a>,
    which: fn(&Fit) -> &Id,
) -> Result<(&'a Record, &'a ElementGeometry, &'a Part), String> {
    let (record, geometry, fit) = fit(scope)?;
    Ok((record, geometry, geometry.part(which(fit))?))
}

fn size(scope: &Scope, which: fn(&Fit) -> &Id) -> Drawn {
    let (record, _, part) = part(scope, which)?;
    Ok(vec![super::clearance_hot::sized(record, part)])
}

fn growth(scope: &Scope, which: fn(&Fit) -> &Id) -> Drawn {
    let (record, geometry, part) = part(scope, which)?;
    let (_, _, fit) = fit(scope)?;
    Ok(vec![super::clearance_hot::grows(
        record,
        geometry.material(part)?,
        fit,
    )?])
}
