//! How far an assembly is out of straight.

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

use crate::record::{Record, kinds::assembly_build::AssemblyBuild};

/// Straightness.
pub static FIGURE: Figure = Figure {
    id: "straightness",
    name: "Straightness",
    symbol: "e",
    unit: MM,
    quantity: Some(Measured::Straightness),
    about: "The largest distance of the joined assembly from a straight line. Modules are guarded against deformation while they are joined; what is bent sits askew in its housing and leans on its seals.",
    validity: "Measured on the finished assembly at room temperature.",
    sources: &["Direct measurement; common practice, no source"],
    subjects: |plant| builds(plant, |build| build.straightness.is_some()),
    formula: || MEASURED.into(),
    limit: |scope| limit_of_specification(scope, Measured::Straightness),
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[(MEASURED, "0.8 mm", "0.1 mm")],
        gives: "0.80 ± 0.10 mm",
    },
};

const MEASURED: Input = Input {
    symbol: "e_m",
    what: "the measured distance",
    unit: MM,
    from: From::Records(|scope| {
        let measured = build(scope)?.straightness.as_ref();
        let measured = measured.ok_or(say!("it was not measured"))?;
        Ok(vec![Datum::of(scope.record, measured)])
    }),
};

/// Every build of which a predicate says so.
pub fn builds(plant: &Plant, of: fn(&AssemblyBuild) -> bool) -> Vec<Subject> {
    let one = |(record, body): (usize, &Record)| match &body.body {
        Body::AssemblyBuild(build) if of(build) => Some(Subject {
            record,
            part: String::new(),
        }),
        _ => None,
    };
    plant.indexed().filter_map(one).collect()
}

/// The build of a scope.
pub fn build<'a>(scope: &Scope<'a>) -> Result<&'a AssemblyBuild, String> {
    match &scope.record.body {
        Body::AssemblyBuild(body) => Ok(body),
        _ => Err(say!("this record is no assembly_build").into()),
    }
}
