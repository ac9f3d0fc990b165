//! R31: The points of a calibration cover the values that were used.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::{
        number,
        unit::{Dim, FLOW, FORCE, LENGTH, PRESSURE},
    },
    record::{Record, kinds::Body},
};

/// The points of a calibration cover the values that were used.
pub static RULE: Rule = Rule {
    id: "R31",
    severity: Severity::Explain,
    demands: "The points of a calibration cover the values that were used.",
    protects: "a gauge that was never looked at where it was read",
    explained: "By a decided deviation or a signed note that names the thing.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("instruments and quantities"));
    let mut used: std::collections::BTreeMap<(&str, Dim), (f64, f64, &Record)> =
        std::collections::BTreeMap::new();
    for record in view.plant.records().current() {
        for (instrument, dim, si) in values(record) {
            let range = used.entry((instrument, dim)).or_insert((si, si, record));
            range.0 = range.0.min(si);
            range.1 = range.1.max(si);
        }
    }
    for ((instrument, dim), (low, high, record)) in used {
        let points: Vec<f64> = view
            .plant
            .calibrations(instrument)
            .iter()
            .flat_map(|(_, body)| &body.points)
            .filter(|point| point.nominal.unit.dim == dim)
            .map(|point| point.nominal.si)
            .collect();
        // An instrument without any certificate is the business of rule R30.
        let (Some(least), Some(most)) = (
            points.iter().copied().reduce(f64::min),
            points.iter().copied().reduce(f64::max),
        ) else {
            continue;
        };
        out.look();
        if low < least * (1.0 - 1e-9) || high > most * (1.0 + 1e-9) {
            let show = |si: f64| number::significant(si, 4);
            out.find(
                finding(say!("{instrument}: used from {low} to {high} (SI), calibrated from {least} to {most}.", instrument = instrument, low = show(low), high = show(high), least = show(least), most = show(most)))
                .advise(say!("Add points that cover the values, or explain."))
                .at(record.place())
                .about(instrument),
            );
        }
    }
    out
}

/// Instrument, dimension and value of what a record read.
fn values(record: &Record) -> Vec<(&str, Dim, f64)> {
    match &record.body {
        Body::MembraneTest(body) => {
            let pick = |key: &str| body.instruments.as_ref().and_then(|all| all.get(key));
            let of = |key: &'static str, dim: Dim| {
                let readings = body
                    .measurements
                    .iter()
                    .flat_map(|m| m.readings.iter())
                    .filter(move |reading| reading.unit.dim == dim);
                pick(key).into_iter().flat_map(move |instrument| {
                    readings
                        .clone()
                        .map(move |reading| (&*instrument.text, dim, reading.si))
                })
            };
            of("pressure", PRESSURE)
                .chain(of("thickness", LENGTH))
                .collect()
        }
        Body::SlittingRecord(body) => {
            let instrument = body.instrument_id.as_ref().or(body.instrument.as_ref());
            instrument
                .into_iter()
                .flat_map(|instrument| {
                    body.readings
                        .iter()
                        .map(move |reading| (&*instrument.text, LENGTH, reading.width.si))
                })
                .collect()
        }
        Body::SealInspection(body) => {
            let forces =
                |test: &'_ crate::record::kinds::seal_inspection::Destructive| -> Vec<f64> {
                    test.results
                        .iter()
                        .filter_map(|coupon| {
                            coupon
                                .peel_force
                                .as_ref()
                                .or(coupon.joint_pull_force.as_ref())
                        })
                        .map(|force| force.si)
                        .collect()
                };
            body.destructive
                .iter()
                .flat_map(|test| {
                    forces(test)
                        .into_iter()
                        .map(|si| (&*test.instrument_id.text, FORCE, si))
                })
                .collect()
        }
        Body::FlowTest(body) => {
            let id = &*body.instrument_id.text;
            let all = body.points.iter().chain(&body.housing_blank);
            all.flat_map(|point| {
                [
                    (id, FLOW, point.flow.si),
                    (id, PRESSURE, point.differential_pressure.si),
                ]
            })
            .collect()
        }
        Body::ModuleTest(body) => pressures(&body.test),
        Body::AssemblyTest(body) => pressures(&body.test),
        _ => Vec::new(),
    }
}

fn pressures(test: &crate::record::common::ElementTest) -> Vec<(&str, Dim, f64)> {
    let said = test
        .measurements
        .iter()
        .filter_map(|m| m.instrument_reported.as_ref())
        .map(|said| (said.value.unit.dim, said.value.si))
        .filter(|(dim, _)| *dim == PRESSURE);
    let started = test
        .measurements
        .iter()
        .filter_map(|m| m.test_pressure.as_ref())
        .map(|pressure| (PRESSURE, pressure.si));
    said.chain(started)
        .map(|(dim, si)| (&*test.instrument_id.text, dim, si))
        .collect()
}
