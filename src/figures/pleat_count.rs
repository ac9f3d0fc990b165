//! Number of pleats.

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

/// Number of pleats.
pub static FIGURE: Figure = Figure {
    id: "pleat-count",
    name: "Number of pleats",
    symbol: "N",
    unit: ONE,
    quantity: Some(Measured::PleatCount),
    about: "The pleats of one pack, as counted. A count is compared as it is.",
    validity: "Whole numbers.",
    sources: &["Count"],
    subjects: packs,
    formula: || 1.0 * PLEATS,
    limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[(PLEATS, "96", "0")],
        gives: "96",
    },
};

const PLEATS: Input = Input {
    symbol: "N_p",
    what: "the number of pleats counted",
    unit: ONE,
    from: From::Records(pleats),
};

fn limit(scope: &Scope) -> Result<Option<Limit>, String> {
    Ok(
        limit_of_specification(scope, Measured::PleatCount)?.map(|limit| Limit {
            decision: Decision::Plain,
            ..limit
        }),
    )
}

/// Every pack of every pleating record.
pub fn packs(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &crate::record::Record)| match &body.body {
        Body::PleatingRecord(body) => body
            .packs
            .iter()
            .map(|pack| Subject {
                record,
                part: pack.module_id.to_string(),
            })
            .collect(),
        _ => Vec::new(),
    };
    plant.indexed().flat_map(of).collect()
}

/// The pleating record and the pack of a scope.
pub fn pack<'a>(
    scope: &Scope<'a>,
) -> Result<
    (
        &'a crate::record::kinds::pleating_record::PleatingRecord,
        &'a crate::record::kinds::pleating_record::Pack,
    ),
    String,
> {
    let Body::PleatingRecord(body) = &scope.record.body else {
        return Err(say!("this record is no pleating_record").into());
    };
    let pack = body
        .packs
        .iter()
        .find(|pack| &*pack.module_id.text == scope.part)
        .ok_or(say!("there is no such pack"))?;
    Ok((body, pack))
}

/// The pleats of a pack.
pub fn pleats(scope: &Scope) -> Drawn {
    let (_, pack) = pack(scope)?;
    Ok(vec![Datum::count(
        scope.record,
        pack.pleat_count.value as f64,
        &pack.pleat_count.value.to_string(),
        pack.pleat_count.spot,
    )])
}
