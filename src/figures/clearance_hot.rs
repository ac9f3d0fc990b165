//! Clearance of a fit in its hottest state.

#[allow(unused_imports)]
use crate::{
    figure::*,
    formula::*,
    ground::{unit::*, words},
    plant::Plant,
    procedure,
    record::{common::Measured, kinds::Body},
    verdict::{Decision, Limit},
};

use crate::record::{
    Record,
    kinds::element_geometry::{ElementGeometry, Fit, Material, Part},
};

/// Clearance when hot.
pub static FIGURE: Figure = Figure {
    id: "clearance-hot",
    name: "Clearance when hot",
    symbol: "c_h",
    unit: MM,
    quantity: None,
    about: "Clearance on the diameter that is left between an inner and an outer part in the hottest state that the record names: each diameter grows by its own coefficient. A stainless ring must stay apart from the plastic, and a pack from its cage, through every steam cycle. Polypropylene grows about nine times as much as stainless steel.",
    validity: "Dimensions at the reference temperature, uniform temperature, below softening; creep, crystallisation and moisture are not in it. A coefficient is taken over the range used, as a rectangular distribution between its lowest and highest value; so is a dimension within its tolerance.",
    sources: &[
        "Linear thermal expansion (textbook)",
        "Rectangular distribution of a tolerance: JCGM 100:2008, 4.3.7",
    ],
    subjects: fits,
    formula: || {
        OUTER * (1.0 + OUTER_GROWS * (STATE - REFERENCE))
            - INNER * (1.0 + INNER_GROWS * (STATE - REFERENCE))
    },
    limit: least,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (OUTER, "56.90 mm", "0.03 mm"),
            (OUTER_GROWS, "17.2e-6 1/K", "0.5e-6 1/K"),
            (STATE, "121.1 degC", "0 K"),
            (REFERENCE, "20.0 degC", "0 K"),
            (INNER, "55.30 mm", "0.03 mm"),
            (INNER_GROWS, "163e-6 1/K", "9.8e-6 1/K"),
        ],
        gives: "0.788 ± 0.070 mm",
    },
};

const OUTER: Input = Input {
    symbol: "D_o",
    what: "the diameter of the outer part",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.outer)),
};

const OUTER_GROWS: Input = Input {
    symbol: "α_o",
    what: "the expansion of the outer part's material",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.outer)),
};

const INNER: Input = Input {
    symbol: "D_i",
    what: "the diameter of the inner part",
    unit: MM,
    from: From::Records(|scope| size(scope, |fit| &fit.inner)),
};

const INNER_GROWS: Input = Input {
    symbol: "α_i",
    what: "the expansion of the inner part's material",
    unit: PER_KELVIN,
    from: From::Records(|scope| growth(scope, |fit| &fit.inner)),
};

const STATE: Input = Input {
    symbol: "T",
    what: "the hottest temperature",
    unit: DEGC,
    from: From::Records(|scope| {
        let (_, fit) = fit(scope)?;
        Ok(vec![Datum::of(scope.record, &fit.hottest)])
    }),
};

const REFERENCE: Input = Input {
    symbol: "T_0",
    what: "the temperature of the dimensions",
    unit: DEGC,
    from: From::Records(|scope| {
        Ok(vec![Datum::of(
            scope.record,
            &geometry(scope)?.reference_temperature,
        )])
    }),
};

/// The geometry of a scope.
pub fn geometry<'a>(scope: &Scope<'a>) -> Result<&'a ElementGeometry, String> {
    match &scope.record.body {
        Body::ElementGeometry(body) => Ok(body),
        _ => Err(say!("this record is no element_geometry").into()),
    }
}

/// Every fit of every geometry.
pub fn fits(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| -> Vec<Subject> {
        let Body::ElementGeometry(geometry) = &body.body else {
            return Vec::new();
        };
        let one = |fit: &Fit| Subject {
            record,
            part: fit.id.to_string(),
        };
        geometry.fits.iter().map(one).collect()
    };
    plant.indexed().flat_map(of).collect()
}

/// The fit of a scope.
pub fn fit<'a>(scope: &Scope<'a>) -> Result<(&'a ElementGeometry, &'a Fit), String> {
    let geometry = geometry(scope)?;
    let fit = geometry.fits.iter().find(|fit| &*fit.id.text == scope.part);
    Ok((geometry, fit.ok_or(say!("the record has no such fit"))?))
}

/// The size of one part of a fit.
pub fn size(scope: &Scope, which: fn(&Fit) -> &crate::record::read::Id) -> Drawn {
    let (geometry, fit) = fit(scope)?;
    Ok(vec![sized(scope.record, geometry.part(which(fit))?)])
}

/// A dimension: half the tolerance over √3 joins what is stated beside it.
pub fn sized(record: &Record, part: &Part) -> Datum {
    let mut datum = Datum::of(record, &part.size);
    let tolerance = part.tolerance.si / libm::sqrt(3.0);
    datum.u = Some(libm::hypot(part.size.u.unwrap_or(0.0), tolerance));
    datum.text = format!("{} ± {}", part.size.text, part.tolerance.text);
    datum
}

/// The expansion of one part's material.
pub fn growth(scope: &Scope, which: fn(&Fit) -> &crate::record::read::Id) -> Drawn {
    let (geometry, fit) = fit(scope)?;
    let material = geometry.material(geometry.part(which(fit))?)?;
    Ok(vec![grows(scope.record, material, fit)?])
}

/// The middle of a material's range, below its softening.
///
/// # Errors
/// A range that ends before it begins; a material that is soft in the hottest state.
pub fn grows(record: &Record, material: &Material, fit: &Fit) -> Result<Datum, String> {
    let (low, high) = (&material.expansion_low, &material.expansion_high);
    if low.si > high.si {
        return Err(say!(
            "the expansion of {id} ends before it begins",
            id = &*material.id
        ));
    }
    if let Some(soft) = material
        .softens_at
        .as_ref()
        .filter(|soft| soft.si <= fit.hottest.si)
    {
        return Err(say!(
            "{id} softens at {soft}",
            id = &*material.id,
            soft = soft.text
        ));
    }
    Ok(Datum {
        si: (low.si + high.si) / 2.0,
        u: Some((high.si - low.si) / 2.0 / libm::sqrt(3.0)),
        cause: STATED,
        degrees: None,
        text: say!("{low} to {high}", low = low.text, high = high.text),
        at: record.at(low.spot),
        shared: None,
    })
}

/// The least clearance that the record asks for.
pub fn least(scope: &Scope) -> Result<Option<Limit>, String> {
    let (_, fit) = fit(scope)?;
    Ok(Some(at_least(scope, scope.record, fit)))
}

/// The least clearance of a fit that a record lays down.
pub fn at_least(scope: &Scope, record: &Record, fit: &Fit) -> Limit {
    Limit {
        low: Some(fit.least.si),
        high: None,
        text: format!("≥ {}", words::spelt(&fit.least.text)),
        at: Some(record.at(fit.least.spot)),
        decision: scope.decision(),
    }
}
