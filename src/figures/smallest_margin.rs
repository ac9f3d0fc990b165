//! The least room of an assembly to any of its limits.

use crate::{
    figure::*,
    formula::*,
    ground::unit::*,
    procedure,
    record::kinds::{Body, flow_test::Occasion},
};

/// The least room of an assembly to any of its limits.
pub static FIGURE: Figure = Figure {
    id: "smallest-margin",
    name: "Least room to a limit, join residual apart, in u",
    symbol: "m",
    unit: ONE,
    quantity: None,
    about: "The room of each judged figure of the assembly, of its modules and of their rolls to its nearer limit, in standard uncertainties of that figure; the smallest of them. Below two, with a guard band of one expanded uncertainty, the assembly is undecided or worse. It says where to look first, not how probable a failure is.",
    validity: "Figures decided with a guard band; counts, statistics of a sampling plan and the join residual have rules of their own. The last test of each element.",
    sources: &[
        "Room over standard uncertainty: the argument of the conformance probability in JCGM 106:2012, clause 7 (from memory)",
    ],
    subjects: |plant| {
        let builds = plant
            .indexed()
            .filter(|(_, record)| record.kind == "assembly_build");
        builds
            .map(|(record, _)| Subject {
                record,
                part: String::new(),
            })
            .collect()
    },
    formula: || call(&procedure::SMALLEST, [Expr::Var(ROOM)]),
    limit: no_limit,
    check: always,
    reported: nothing_reported,
    example: Example {
        given: &[
            (ROOM, "10.4", "0"),
            (ROOM, "6.25", "0"),
            (ROOM, "24.8", "0"),
        ],
        gives: "6.25",
    },
};

const ROOM: Input = Input {
    symbol: "m_i",
    what: "the room of each judged figure, in standard uncertainties",
    unit: ONE,
    from: From::Margins(judged),
};

fn judged(scope: &Scope) -> Judged {
    let Body::AssemblyBuild(build) = &scope.record.body else {
        return Err(say!("this record is no assembly_build").into());
    };
    let plant = scope.plant;
    let elements = build
        .modules
        .iter()
        .map(|position| &*position.module_id.text)
        .chain([&*build.assembly_id.text]);
    let new = elements.clone().flat_map(|id| plant.flow_tests(id));
    let new = new.filter(|(_, flow)| flow.stage == Occasion::New);
    let flows: Vec<usize> = new.map(|(record, _)| record.index).collect();
    let tests: Vec<usize> = elements
        .filter_map(|id| plant.last_test(id))
        .map(|test| test.record.index)
        .collect();
    let rolls: std::collections::BTreeSet<&str> = build
        .modules
        .iter()
        .filter_map(|position| plant.pack(&position.module_id))
        .map(|(_, _, pack)| &*pack.material_lot.text)
        .collect();
    let of_rolls = rolls
        .into_iter()
        .filter_map(|roll| plant.by_roll.get(roll))
        .flatten()
        .copied();
    let mut out = Vec::new();
    for record in tests
        .into_iter()
        .chain(flows)
        .chain([scope.record.index])
        .chain(of_rolls)
    {
        let figures: &[&'static Figure] = match plant.record(record).body {
            Body::MembraneTest(_) => &[
                &super::membrane_bubble_point::FIGURE,
                &super::membrane_thickness::FIGURE,
                &super::membrane_water_flux::FIGURE,
            ],
            Body::FlowTest(_) => &[&super::water_flow::FIGURE],
            Body::SlittingRecord(_) => &[&super::slit_width_deviation::FIGURE],
            Body::AssemblyBuild(_) => &[
                &super::straightness::FIGURE,
                &super::ring_clearance_hot::FIGURE,
            ],
            _ => &[&super::bubble_point::FIGURE, &super::diffusive_flow::FIGURE],
        };
        out.extend(figures.iter().map(|figure| {
            (
                *figure,
                Subject {
                    record,
                    part: String::new(),
                },
            )
        }));
    }
    Ok(out)
}
