//! R03: Every required field is filled, or its absence is reasoned.

use crate::{
    ground::finding::{Finding, Severity},
    record::{common::Measured, kinds::product_specification::Stage},
    rule::{Outcome, Rule, View},
};

/// Every required field is filled, or its absence is reasoned.
pub static RULE: Rule = Rule {
    id: "R03",
    severity: Severity::Blocks,
    demands: "Every required field is filled, or its absence is reasoned.",
    protects: "a blank that reads like a pass",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new("R03", Severity::Blocks, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of("records");
    out.looked = view.plant.records().all.len();
    out.findings = view
        .plant
        .folder
        .problems
        .iter()
        .filter(|problem| problem.rule == "R03")
        .cloned()
        .collect();
    for test in view.plant.tests() {
        let Some((_, spec)) = view.plant.spec_of(test.record) else {
            continue;
        };
        let stage = if test.assembly {
            Stage::Assembly
        } else {
            Stage::Module
        };
        for accepted in spec
            .acceptance
            .iter()
            .filter(|accepted| accepted.stage == stage)
        {
            if test
                .test
                .measurements
                .iter()
                .any(|m| m.quantity == accepted.quantity)
            {
                continue;
            }
            out.find(
                finding(format!(
                    "{}: {} is missing without not_measured_reason.",
                    &*test.record.id,
                    accepted.quantity.word()
                ))
                .advise("Add the measurement or say why it was not made.")
                .at(test.record.place())
                .about(test.element),
            );
        }
        for measured in
            test.test.measurements.iter().filter(|m| {
                m.quantity == Measured::DiffusiveFlow && m.not_measured_reason.is_none()
            })
        {
            let fields = [
                ("test_gas", measured.test_gas.is_some()),
                ("test_pressure", measured.test_pressure.is_some()),
                (
                    "atmospheric_pressure",
                    measured.atmospheric_pressure.is_some(),
                ),
                ("upstream_volume", measured.upstream_volume.is_some()),
                ("stabilisation_time", measured.stabilisation_time.is_some()),
                ("measurement_time", measured.measurement_time.is_some()),
                ("trace", measured.trace.is_some()),
            ];
            for (name, _) in fields.iter().filter(|(_, there)| !there) {
                out.find(
                    finding(format!(
                        "{}: the diffusive flow has no {name}.",
                        &*test.record.id
                    ))
                    .advise("Add it from the instrument's export; without it no figure is shown.")
                    .at(test.record.at(measured.spot))
                    .about(test.element),
                );
            }
        }
    }
    out
}
