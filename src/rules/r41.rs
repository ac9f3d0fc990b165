//! R41: A test was made inside the conditions of the method.

use std::collections::BTreeMap;

use crate::{
    figure::Scope,
    ground::{
        finding::{Finding, Severity},
        number,
        unit::DEGC,
    },
    record::{Record, common::Measured, kinds::product_specification::Stage, read::Demand},
    rule::{Outcome, Rule, View},
};

/// A test was made inside the conditions of the method.
pub static RULE: Rule = Rule {
    id: "R41",
    severity: Severity::Blocks,
    demands: "A test was made inside the conditions of the method.",
    protects: "a pass of a membrane that was not wet, not settled, or tested with another gas",
    explained: "When the test is not the one that decides about the element.",
    check,
};

/// A temperature that was written and that of the trace are of one test when they are no further apart, K (common practice,
/// no source).
const FAR: f64 = 1.0;

/// By how much the viscosity of water may differ from that at the reference temperature, as a share: some 2 K (common practice, no
/// source).
const VISCOUS: f64 = 0.05;

/// Water flow is brought to 20 °C from no further than this ratio of viscosities, some 7 °C to 36 °C (common practice, no
/// source).
const LEAST_RATIO: f64 = 0.7;

fn finding(message: String) -> Finding {
    Finding::new("R41", Severity::Blocks, message)
}

fn another_liquid(own: &str, due: &str) -> String {
    say!(
        "wetted with {wetting_liquid}, method asks {liquid}",
        wetting_liquid = own,
        liquid = due
    )
}

fn another_pressure(own: &str, due: &str) -> String {
    say!(
        "test pressure {pressure}, limit set for {due}",
        pressure = own,
        due = due
    )
}

/// What a limit was laid down for and a test does not say.
fn unsaid(field: &str, due: &str) -> String {
    say!(
        "{field} is not stated, limit set for {due}",
        field = field,
        due = due
    )
}

/// Whether a pressure is not the one that was laid down.
fn far(own: f64, due: f64) -> bool {
    (own - due).abs() > 0.005 * due
}

/// Flow tests: the pressure difference at which the flow is stated is that of its limit.
fn flows(view: &View, out: &mut Outcome) {
    for (record, body) in view.plant.records().flow_tests() {
        let scope = Scope {
            plant: view.plant,
            record,
            part: "",
        };
        let (Ok((_, spec)), Some(stage)) = (scope.spec(), scope.stage()) else {
            continue;
        };
        out.look();
        let at = |t: f64| crate::physics::fluid::viscosity(t, 1e5).ok();
        let ratio = at(body.liquid_temperature.si).zip(at(DEGC.to_si(20.0)));
        let ratio = ratio.map_or(1.0, |(own, due)| own / due);
        if !(LEAST_RATIO..=1.0 / LEAST_RATIO).contains(&ratio) {
            let warm = &body.liquid_temperature;
            let mut found = finding(say!(
                "{id}: its water was at {own}, of {ratio} times the viscosity at 20 °C: no correction reaches so far.",
                id = &*record.id,
                own = warm.text,
                ratio = number::fixed(ratio, 2)
            ))
            .advise(say!("Look at the temperature; measure nearer to 20 °C."))
            .at(record.at(warm.spot))
            .about(&*record.id.text)
            .about(&*body.element_id.text);
            found.severity = Severity::Explain;
            out.find(found);
        }
        let own = &body.stated_differential_pressure;
        let due = spec.limit(stage, Measured::WaterFlow);
        let Some(due) = due.and_then(|accepted| accepted.at.as_ref()) else {
            continue;
        };
        if far(own.si, due.si) {
            let mut found = finding(say!(
                "{id}: {message}. The test is invalid, pass or fail.",
                id = &*record.id,
                message = another_pressure(&own.text, &due.text)
            ))
            .advise(say!(
                "State the flow at the pressure difference of the limit."
            ))
            .at(record.at(own.spot))
            .about(&*record.id.text)
            .about(&*body.element_id.text);
            found.severity = view.weight(&body.element_id);
            out.find(found);
        }
    }
}

/// Flat membrane: the liquid and the pressure for which its limits were laid down.
fn membrane(view: &View, out: &mut Outcome) {
    for (record, body) in view.plant.records().membrane_tests() {
        let Some((_, spec)) = view.plant.spec_of(record) else {
            continue;
        };
        out.look();
        for measured in &body.measurements {
            let Some(accepted) = spec.limit(Stage::Membrane, measured.quantity) else {
                continue;
            };
            let liquid = body.wetting_liquid.as_ref();
            let other = accepted.wetting_liquid.as_ref();
            let other = other.filter(|due| liquid.is_none_or(|own| own.text != due.text));
            let measured_here = measured.not_measured_reason.is_none();
            let pressure = accepted.at.as_ref().filter(|_| measured_here);
            let pressure = pressure.map(|due| (due, measured.at.as_ref()));
            let pressure = pressure.filter(|(due, own)| own.is_none_or(|own| far(own.si, due.si)));
            let warm = measured.liquid_temperature.as_ref();
            let warm = warm.filter(|_| measured.quantity == Measured::WaterFlux);
            let reference = &spec.reference_conditions.temperature;
            let thin = warm.and_then(|own| {
                let at = |t: f64| crate::physics::fluid::viscosity(t, 1e5).ok();
                Some((own, at(reference.si)? / at(own.si)?))
            });
            if let Some((own, ratio)) = thin
                && (ratio - 1.0).abs() > VISCOUS
            {
                out.find(
                    finding(say!(
                        "{id}: the water was at {own}, where it flows {ratio} times as easily as at the {reference} of the specification. The test is invalid, pass or fail.",
                        id = &*record.id,
                        own = own.text,
                        ratio = number::fixed(ratio, 2),
                        reference = reference.text
                    ))
                    .advise(say!("Measure the water flux at the reference temperature: no correction is made here."))
                    .at(record.at(own.spot))
                    .about(&*record.id.text)
                    .about(&*body.material_lot.text),
                );
            }
            let message = match (other, pressure) {
                (Some(due), _) => {
                    let own = liquid.map_or(say!("a liquid that is not stated"), |own| &own.text);
                    another_liquid(own, due)
                }
                (None, Some((due, Some(own)))) => another_pressure(&own.text, &due.text),
                (None, Some((due, None))) => unsaid("at", &due.text),
                (None, None) => continue,
            };
            out.find(
                finding(say!(
                    "{id}: {message}. The test is invalid, pass or fail.",
                    id = &*record.id,
                    message = format!("{}: {message}", measured.quantity.said())
                ))
                .advise(say!("Re-wet and retest under a deviation."))
                .at(record.at(measured.spot))
                .about(&*record.id.text)
                .about(&*body.material_lot.text),
            );
        }
    }
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("tests"));
    // Tests whose trace does not say how warm the gas was, by rig.
    let mut still: BTreeMap<&str, (&Record, usize)> = BTreeMap::new();
    let mut free: BTreeMap<(&str, u64, Stage), (&Record, usize)> = BTreeMap::new();
    for test in view.plant.tests() {
        let Some((record, spec)) = view.plant.spec_of(test.record) else {
            continue;
        };
        out.look();
        let stage = if test.assembly {
            Stage::Assembly
        } else {
            Stage::Module
        };
        if !spec.test_conditions.iter().any(|own| own.stage == stage) {
            let key = (&*record.id.text, record.revision, stage);
            free.entry(key).or_insert((record, 0)).1 += 1;
        }
        let mut bad: Vec<(String, crate::ground::place::Spot)> = Vec::new();
        let mut file_or_record: Vec<(String, crate::ground::place::Spot)> = Vec::new();
        let modules = view
            .plant
            .build(test.element)
            .map_or(1, |(_, build)| build.modules.len()) as f64;
        for demanded in spec.test_conditions.iter().filter(|c| c.stage == stage) {
            let mut hold = |name: &str,
                            demand: &Option<Demand>,
                            si: f64,
                            text: &str,
                            spot: crate::ground::place::Spot| {
                let Some(demand) = demand else { return };
                let scale = if demand.per_module { modules } else { 1.0 };
                if !demand.holds(si / scale) {
                    bad.push((
                        say!(
                            "{name} {what}, method asks {demand}",
                            name = name,
                            what = text,
                            demand = demand.text
                        ),
                        spot,
                    ));
                }
            };
            let volume = &test.test.wetting_flush_volume;
            hold(
                say!("flush volume"),
                &demanded.wetting_flush_volume,
                volume.si,
                &volume.text,
                volume.spot,
            );
            let temperature = &test.test.wetting_liquid_temperature;
            hold(
                say!("liquid temperature"),
                &demanded.liquid_temperature,
                temperature.si,
                &temperature.text,
                temperature.spot,
            );
            for measured in test
                .test
                .measurements
                .iter()
                .filter(|m| m.quantity == Measured::DiffusiveFlow)
            {
                if let Some(time) = &measured.stabilisation_time {
                    hold(
                        say!("stabilisation time"),
                        &demanded.stabilisation_time,
                        time.si,
                        &time.text,
                        time.spot,
                    );
                }
                if let Some(time) = &measured.measurement_time {
                    hold(
                        say!("measurement time"),
                        &demanded.measurement_time,
                        time.si,
                        &time.text,
                        time.spot,
                    );
                }
            }
            if let Some(liquid) = demanded
                .wetting_liquid
                .as_ref()
                .filter(|liquid| liquid.text != test.test.wetting_liquid.text)
            {
                let own = &test.test.wetting_liquid;
                bad.push((another_liquid(own, liquid), own.spot));
            }
        }
        for measured in test
            .test
            .measurements
            .iter()
            .filter(|m| m.not_measured_reason.is_none())
        {
            let Some(accepted) = spec.limit(stage, measured.quantity) else {
                continue;
            };
            let liquid = &test.test.wetting_liquid;
            if let Some(due) = accepted
                .wetting_liquid
                .as_ref()
                .filter(|due| due.text != liquid.text)
            {
                bad.push((another_liquid(liquid, due), liquid.spot));
            }
            // What a flow test by pressure decay must state is asked for by rule R03.
            let asked = measured.quantity != Measured::DiffusiveFlow;
            if let (Some(due), None, true) = (&accepted.test_gas, &measured.test_gas, asked) {
                bad.push((unsaid("test_gas", &due.text), measured.spot));
            }
            if let (Some(due), None, true) = (&accepted.at, &measured.test_pressure, asked) {
                bad.push((unsaid("test_pressure", &due.text), measured.spot));
            }
            if let (Some(due), Some(gas)) = (&accepted.test_gas, &measured.test_gas)
                && due.text != gas.text
            {
                bad.push((
                    say!(
                        "tested with {gas}, limit set for {due}",
                        gas = &**gas,
                        due = &**due
                    ),
                    gas.spot,
                ));
            }
            let due = &spec.reference_conditions;
            if let Some(own) = &measured.reference_conditions
                && ((own.temperature.si - due.temperature.si).abs() >= 0.05
                    || (own.pressure.si - due.pressure.si).abs() >= 50.0)
            {
                bad.push((
                    say!(
                        "the limit counts gas at {temperature} and {pressure}, and the test at {temperature2} and {pressure2}",
                        temperature = due.temperature.text,
                        pressure = due.pressure.text,
                        temperature2 = own.temperature.text,
                        pressure2 = own.pressure.text
                    ),
                    own.temperature.spot,
                ));
            }
            if let (Some(due), Some(pressure)) = (&accepted.at, &measured.test_pressure)
                && far(pressure.si, due.si)
            {
                bad.push((another_pressure(&pressure.text, &due.text), pressure.spot));
            }
        }
        for measured in
            test.test.measurements.iter().filter(|m| {
                m.quantity == Measured::DiffusiveFlow && m.not_measured_reason.is_none()
            })
        {
            let Some((file, trace)) = measured
                .trace
                .as_ref()
                .and_then(|file| Some((file, view.plant.folder.trace(file)?)))
            else {
                continue;
            };
            let span = trace.time.last().copied().unwrap_or(0.0);
            if let Some(time) = &measured.measurement_time
                && (time.si - span).abs() > trace.step()
            {
                file_or_record.push((
                    say!(
                        "the trace runs {span} s, the record says {time}",
                        span = number::significant(span, 4),
                        time = time.text
                    ),
                    file.spot,
                ));
            }
            if trace.column("gas_temperature").is_none() {
                let rig = &*test.test.instrument_id.text;
                still.entry(rig).or_insert((test.record, 0)).1 += 1;
            }
            let gas = &test.test.gas_temperature;
            let warm = trace
                .column("gas_temperature")
                .and_then(|column| crate::stats::summary::mean(&column.values).ok());
            if let Some(warm) = warm
                && (warm - gas.si).abs() > FAR
            {
                file_or_record.push((
                    say!(
                        "the gas of the trace is at {warm} °C, the record says {gas}",
                        warm = number::fixed(DEGC.of_si(warm), 1),
                        gas = gas.text
                    ),
                    gas.spot,
                ));
            }
            let room = measured.atmospheric_pressure.as_ref();
            let begin = trace.column("pressure").and_then(|column| {
                let room = if column.absolute { room?.si } else { 0.0 };
                Some(column.values.first()? - room)
            });
            if let (Some(begin), Some(pressure)) = (begin, &measured.test_pressure)
                && (begin - pressure.si).abs() > 0.02 * pressure.si
            {
                file_or_record.push((
                    say!(
                        "the trace begins at {begin} mbar, the record says {pressure}",
                        begin = number::significant(begin / 100.0, 5),
                        pressure = pressure.text
                    ),
                    file.spot,
                ));
            }
        }
        let retest = say!("Re-wet and retest under a deviation.");
        let look = say!(
            "Look first at the units of the columns and at the record; where both are right, the test is repeated under a deviation."
        );
        let bad = bad
            .into_iter()
            .map(|(message, spot)| (message, spot, retest));
        let odd = file_or_record.into_iter();
        let odd = odd.map(|(message, spot)| (message, spot, look));
        for (message, spot, advice) in bad.chain(odd) {
            let decides = view.decides(&test);
            let mut found = finding(say!(
                "{id}: {message}. The test is invalid, pass or fail.",
                id = &*test.record.id,
                message = message
            ))
            .advise(advice)
            .at(test.record.at(spot))
            .about(&*test.record.id.text)
            .about(test.element);
            found.severity = if decides {
                view.weight(test.element)
            } else {
                Severity::Explain
            };
            out.find(found);
        }
    }
    membrane(view, &mut out);
    flows(view, &mut out);
    for (rig, (first, n)) in still {
        let mut found = finding(say!(
            "{rig}: traces without a column of the gas temperature ({n}, the first of {id}): whether the gas warmed while the pressure fell is not known, and no flow is corrected for it.",
            rig = rig,
            n = n,
            id = &*first.id
        ))
        .advise(say!("Record gas_temperature_c with the pressure, or explain how the gas is kept at one temperature."))
        .at(first.place())
        .about(rig);
        found.severity = Severity::Explain;
        out.find(found);
    }
    for ((id, revision, stage), (record, n)) in free {
        let mut found = finding(say!(
            "{id} revision {revision} has no test_conditions for the stage {stage}: how the membrane was wetted is held against nothing in its tests ({n}).",
            id = id,
            revision = revision,
            stage = stage.word(),
            n = n
        ))
        .advise(say!("Lay down liquid, flush volume, temperature and times for this stage in the next revision."))
        .at(record.place())
        .about(id);
        found.severity = Severity::Explain;
        out.find(found);
    }
    out
}
