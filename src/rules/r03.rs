//! R03: Every required field is filled, or its absence is reasoned.

use std::collections::BTreeSet;

use crate::{
    figure::Scope,
    ground::finding::{Finding, Severity},
    plant::Test,
    record::{
        Record,
        common::Measured,
        kinds::{Body, flow_test::Occasion, product_specification::Stage},
    },
    rule::{ELSEWHERE, Outcome, Rule, View},
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
    let mut out = Outcome::of(say!("records"));
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
            if elsewhere(accepted.quantity)
                || test
                    .test
                    .measurements
                    .iter()
                    .any(|m| m.quantity == accepted.quantity)
            {
                continue;
            }
            out.find(
                finding(say!(
                    "{id}: {quantity} is missing without not_measured_reason.",
                    id = &*test.record.id,
                    quantity = accepted.quantity.word()
                ))
                .advise(say!("Add the measurement or say why it was not made."))
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
                    finding(say!(
                        "{id}: the diffusive flow has no {name}.",
                        id = &*test.record.id,
                        name = name
                    ))
                    .advise(say!(
                        "Add it from the instrument's export; without it no figure is shown."
                    ))
                    .at(test.record.at(measured.spot))
                    .about(test.element),
                );
            }
        }
    }
    for test in view.plant.tests() {
        for (i, measured) in test.test.measurements.iter().enumerate() {
            if test
                .test
                .measurements
                .iter()
                .take(i)
                .any(|other| other.quantity == measured.quantity)
            {
                out.find(
                    finding(say!(
                        "{id}: {quantity} is measured twice in one test.",
                        id = &*test.record.id,
                        quantity = measured.quantity.word()
                    ))
                    .advise(say!("Record the second as a test of its own."))
                    .at(test.record.at(measured.spot))
                    .about(test.element),
                );
            }
        }
    }
    unanswered(view, &mut out);
    uncomputed(view, &mut out);
    measured_all_the_same(view, &mut out);
    out
}

/// What has readings, a trace or a verdict was measured, whatever reason is given why it was not.
fn measured_all_the_same(view: &View, out: &mut Outcome) {
    let mut find = |record: &Record, quantity: Measured, spot| {
        out.find(
            finding(say!(
                "{id}: {quantity} is said not to be measured and has a result.",
                id = &*record.id,
                quantity = quantity.word()
            ))
            .advise(say!("A result stays: take not_measured_reason out, and decide a deviation if the result does not count."))
            .at(record.at(spot))
            .about(&*record.id.text),
        );
    };
    for test in view.plant.tests() {
        for measured in test.test.measurements.iter() {
            let result = measured.trace.is_some() || measured.instrument_reported.is_some();
            if let Some(reason) = measured.not_measured_reason.as_ref().filter(|_| result) {
                find(test.record, measured.quantity, reason.spot);
            }
        }
    }
    for (record, body) in view.plant.records().membrane_tests() {
        for measured in body.measurements.iter() {
            let result = !measured.readings.0.is_empty()
                || measured.reported_mean.is_some()
                || measured.reported_value.is_some()
                || measured.verdict.is_some();
            if let Some(reason) = measured.not_measured_reason.as_ref().filter(|_| result) {
                find(record, measured.quantity, reason.spot);
            }
        }
    }
}

/// Whether a quantity is measured apart from the rig's test of an element.
fn elsewhere(quantity: Measured) -> bool {
    matches!(quantity, Measured::Straightness | Measured::WaterFlow)
}

/// The records that answer for an element: its test, its build, its flow test when new.
fn answers<'a>(view: &View<'a>, element: &str, test: &'a Record) -> Vec<&'a Record> {
    let new = view
        .plant
        .flow_tests(element)
        .filter(|(_, flow)| flow.stage == Occasion::New);
    let build = view.plant.build(element).map(|(record, _)| record);
    [test]
        .into_iter()
        .chain(build)
        .chain(new.map(|(record, _)| record))
        .collect()
}

/// What was measured before the element's own test, of its roll and its pack, and could not be computed is no pass.
fn uncomputed(view: &View, out: &mut Outcome) {
    let mut seen = BTreeSet::new();
    for assembly in &view.release {
        for computed in view.figures_of_assembly(assembly) {
            let record = view.plant.record(computed.subject.record);
            let scope = Scope {
                plant: view.plant,
                record,
                part: &computed.subject.part,
            };
            let limited = computed.figure.quantity.zip(scope.stage());
            let limited = limited.filter(|(quantity, stage)| {
                let spec = scope.spec();
                spec.is_ok_and(|(_, spec)| spec.limit(*stage, *quantity).is_some())
            });
            let Some((quantity, _)) = limited else {
                continue;
            };
            // Why it was not measured is asked for elsewhere, and so is what a test of the element lacks.
            let reasoned = match &record.body {
                Body::MembraneTest(body) => body.measurements.iter().any(|measured| {
                    measured.quantity == quantity && measured.not_measured_reason.is_some()
                }),
                _ => Test::of(record).is_some(),
            };
            let why = computed.worked.as_ref().err();
            let why = why.or(computed.undecidable.as_ref());
            let Some(why) = why.filter(|_| !reasoned && !ELSEWHERE.contains(&computed.id.figure))
            else {
                continue;
            };
            if !seen.insert(&computed.id) {
                continue;
            }
            out.find(
                finding(say!(
                    "{id}: {quantity} is not evaluated: {why}.",
                    id = &*record.id,
                    quantity = quantity.said(),
                    why = why
                ))
                .advise(say!(
                    "Mend the record, or measure it again; what cannot be computed is no pass."
                ))
                .at(record.place())
                .about(&*record.id.text)
                .about(*assembly),
            );
        }
    }
}

/// What is to be released must have an answer for every limit: a quantity that the deciding test did not
/// measure, or that could not be computed, is no pass.
fn unanswered(view: &View, out: &mut Outcome) {
    for element in view.modules.iter().chain(&view.release) {
        let (Some(test), Some((_, spec))) = (
            view.plant.last_test(element),
            view.plant.spec_of_element(element),
        ) else {
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
            // A plan that samples decides about the lot, not about each element (rule R52).
            if elsewhere(accepted.quantity) && accepted.sampling.is_some() {
                continue;
            }
            let records = answers(view, element, test.record);
            let mut own = records.iter().flat_map(|record| view.figures_of(record));
            let own = own.find(|computed| computed.figure.quantity == Some(accepted.quantity));
            let why = match own {
                Some(computed) if computed.verdict() != crate::verdict::Verdict::NotEvaluated => {
                    continue;
                }
                // Without contributions rule R44 speaks.
                Some(computed) if computed.worked.is_ok() && computed.undecidable.is_none() => {
                    continue;
                }
                Some(computed) => computed
                    .worked
                    .as_ref()
                    .err()
                    .or(computed.undecidable.as_ref())
                    .cloned()
                    .unwrap_or_default(),
                None => {
                    let reason = test
                        .test
                        .measurements
                        .iter()
                        .find(|m| m.quantity == accepted.quantity)
                        .and_then(|m| m.not_measured_reason.as_ref());
                    reason.map_or(say!("it was not measured").to_owned(), |reason| {
                        say!("it was not measured: {reason}", reason = &**reason)
                    })
                }
            };
            out.find(
                finding(say!(
                    "{element}: {quantity} is not evaluated in {id}, the test that decides: {why}.",
                    element = element,
                    quantity = accepted.quantity.word(),
                    id = &*test.record.id,
                    why = why
                ))
                .advise(say!(
                    "Measure it, or take the element out of the release; a reason is no result."
                ))
                .at(test.record.place())
                .about(*element),
            );
        }
    }
}
