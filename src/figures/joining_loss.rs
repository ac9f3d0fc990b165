//! Length that an assembly lost to its joins.

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

/// Length lost to each join.
pub static FIGURE: Figure = Figure {
    id: "joining-loss",
    name: "Length lost to each join",
    symbol: "Δl",
    unit: MM,
    quantity: None,
    about: "Length of the modules laid end to end, less that of the joined assembly, shared among its joins. Molten plastic goes into the bead: about twice the joining path, since both sides melt. Much more means that a module was crushed.",
    validity: "Both lengths at one temperature, adapter and end piece on neither or on both.",
    sources: &["Definition; common practice, no source"],
    subjects: |plant| {
        builds(plant, |build| {
            build.length_before.is_some()
                && build.overall_length.is_some()
                && build.modules.len() > 1
        })
    },
    formula: || (BEFORE - AFTER) / JOINS,
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (BEFORE, "765.4 mm", "0.2 mm"),
            (AFTER, "762.2 mm", "0.2 mm"),
            (JOINS, "2", "0"),
        ],
        gives: "1.60 ± 0.14 mm",
    },
};

const BEFORE: Input = Input {
    symbol: "l_b",
    what: "the length of its modules end to end",
    unit: MM,
    from: From::Records(|scope| {
        let length = build(scope)?
            .length_before
            .as_ref()
            .ok_or(say!("length_before is not stated"))?;
        Ok(vec![Datum::of(scope.record, length)])
    }),
};

const AFTER: Input = Input {
    symbol: "l_a",
    what: "the length of the assembly",
    unit: MM,
    from: From::Records(|scope| {
        let length = build(scope)?
            .overall_length
            .as_ref()
            .ok_or(say!("overall_length is not stated"))?;
        Ok(vec![Datum::of(scope.record, length)])
    }),
};

const JOINS: Input = Input {
    symbol: "n_j",
    what: "the number of joins",
    unit: ONE,
    from: From::Records(|scope| {
        let joins = build(scope)?.modules.len() as f64 - 1.0;
        Ok(vec![Datum::count(
            scope.record,
            joins,
            &joins.to_string(),
            scope.record.spot,
        )])
    }),
};
