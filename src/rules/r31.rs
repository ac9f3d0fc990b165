//! R31: The points of a calibration cover the values that were used.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};
use crate::{
    ground::{
        number,
        unit::{Dim, FLOW, FORCE, LENGTH, PRESSURE, TEMPERATURE, VOLUME},
    },
    record::{
        Record,
        kinds::{
            Body,
            calibration_record::{CalibrationRecord, Point},
        },
        read::{AnyQ, Mark},
    },
};

/// The points of a calibration cover the values that were used.
pub static RULE: Rule = Rule {
    id: "R31",
    severity: Severity::Explain,
    demands: "The points of a calibration cover the values that were used.",
    protects: "a gauge that was never looked at where it was read",
    explained: "By a decided deviation that names the thing.",
    check,
};

/// How far a calibrated temperature may be from one that was used, in K (common practice, no source).
const DEGREES: f64 = 15.0;

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("instruments and quantities"));
    // The least and the largest value with the record of each.
    type Range<'a> = [(f64, &'a Record); 2];
    let mut used: std::collections::BTreeMap<(&str, Dim), Range> =
        std::collections::BTreeMap::new();
    for record in view.plant.records().current() {
        for (instrument, dim, si) in values(record) {
            let [low, high] = used
                .entry((instrument, dim))
                .or_insert([(si, record), (si, record)]);
            if si < low.0 {
                *low = (si, record);
            }
            if si > high.0 {
                *high = (si, record);
            }
        }
    }
    for ((instrument, dim), [low, high]) in used {
        // A certificate vouches for its own time; where none was in force the others are asked, and rule R30 says so.
        let all = view.plant.calibrations(instrument);
        let points = |record: &Record| -> Vec<&AnyQ<Mark>> {
            let in_force =
                |body: &CalibrationRecord| record.day().is_some_and(|day| body.in_force(day));
            let any = all.iter().any(|(_, body)| in_force(body));
            let own = all.iter().filter(|(_, body)| !any || in_force(body));
            own.flat_map(|(_, body)| &body.points)
                .filter(|point| point.nominal.unit.dim == dim)
                .map(|point| &point.nominal)
                .collect()
        };
        let (of_low, of_high) = (points(low.1), points(high.1));
        // An instrument without any certificate is the business of rule R30.
        if of_low.is_empty() && of_high.is_empty() && !all.is_empty() {
            out.look();
            out.find(
                finding(say!(
                    "{instrument} measured {kind} for {id}, and no calibration of it has a point of that kind.",
                    instrument = instrument,
                    kind = kind_of(dim),
                    id = &*low.1.id
                ))
                .advise(say!("Add points that cover the values, or explain."))
                .at(low.1.place())
                .about(instrument),
            );
        }
        let (Some(least), Some(most)) = (
            of_low.iter().min_by(|a, b| a.si.total_cmp(&b.si)),
            of_high.iter().max_by(|a, b| a.si.total_cmp(&b.si)),
        ) else {
            continue;
        };
        out.look();
        // A volume is calibrated as it is and changes only with what stands in it: see `volumes`. A room is calibrated at one value or
        // few, and beyond the last a little is allowed. All else is read over a range.
        let (down, up) = match dim {
            VOLUME => continue,
            TEMPERATURE => (DEGREES, DEGREES),
            _ => (1e-9 * least.si.abs(), 1e-9 * most.si.abs()),
        };
        let (below, above) = (low.0 < least.si - down, high.0 > most.si + up);
        if below || above {
            let show = |si: f64| {
                let unit = least.unit;
                number::with_unit(&number::significant(unit.of_si(si), 7), unit)
            };
            let beyond = if below { low.1 } else { high.1 };
            out.find(
                finding(say!(
                    "{instrument}: used from {low} to {high}, calibrated from {least} to {most}.",
                    instrument = instrument,
                    low = show(low.0),
                    high = show(high.0),
                    least = show(least.si),
                    most = show(most.si)
                ))
                .advise(say!("Add points that cover the values, or explain."))
                .at(beyond.place())
                .about(instrument),
            );
        }
    }
    volumes(view, &mut out);
    out
}

/// A volume that a test states is one that was calibrated: within the error that its certificate allows.
fn volumes(view: &View, out: &mut Outcome) {
    let mut beyond: std::collections::BTreeMap<(&str, &str), (&Record, &Point, usize)> =
        std::collections::BTreeMap::new();
    for record in view.plant.records().current() {
        let test = match &record.body {
            Body::ModuleTest(body) => &body.test,
            Body::AssemblyTest(body) => &body.test,
            _ => continue,
        };
        for volume in test
            .measurements
            .iter()
            .filter_map(|m| m.upstream_volume.as_ref())
        {
            let points = view.plant.calibrations(&test.instrument_id);
            let points = points.iter().flat_map(|(_, body)| &body.points);
            let off = |point: &Point| (point.nominal.si - volume.si).abs();
            let nearest = points
                .filter(|point| point.nominal.unit.dim == VOLUME)
                .min_by(|a, b| off(a).total_cmp(&off(b)));
            out.look();
            if let Some(point) = nearest
                && off(point) > point.maximum_permissible_error.si.abs() * (1.0 + 1e-9)
            {
                let key = (&*test.instrument_id.text, &*volume.text);
                beyond.entry(key).or_insert((record, point, 0)).2 += 1;
            }
        }
    }
    for ((instrument, volume), (record, point, n)) in beyond {
        out.find(
            finding(say!(
                "{instrument}: a volume of {volume} is stated in tests ({n}, the first of them {id}); the nearest that was calibrated is {nominal}, and {allowed} off is allowed.",
                instrument = instrument,
                n = n,
                id = &*record.id,
                volume = volume,
                nominal = point.nominal.text,
                allowed = point.maximum_permissible_error.text
            ))
            .advise(say!("A flow is in proportion to its volume: state the one that was calibrated with such an element in it, or add its calibration."))
            .at(record.place())
            .about(instrument),
        );
    }
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
        Body::ModuleTest(body) => readings(&body.test),
        Body::AssemblyTest(body) => readings(&body.test),
        _ => Vec::new(),
    }
}

/// What a test of an element reads on its rig: pressures, and for a flow from a pressure decay the volume and the gas temperature.
fn readings(test: &crate::record::common::ElementTest) -> Vec<(&str, Dim, f64)> {
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
    let volumes = test
        .measurements
        .iter()
        .filter_map(|m| m.upstream_volume.as_ref())
        .map(|volume| (VOLUME, volume.si));
    let warm = volumes
        .clone()
        .next()
        .map(|_| (TEMPERATURE, test.gas_temperature.si));
    said.chain(started)
        .chain(volumes)
        .chain(warm)
        .map(|(dim, si)| (&*test.instrument_id.text, dim, si))
        .collect()
}

/// A dimension in a word.
fn kind_of(dim: Dim) -> &'static str {
    match dim {
        PRESSURE => say!("a pressure"),
        LENGTH => say!("a length"),
        FORCE => say!("a force"),
        FLOW => say!("a flow"),
        VOLUME => say!("a volume"),
        TEMPERATURE => say!("a temperature"),
        _ => say!("a quantity"),
    }
}
