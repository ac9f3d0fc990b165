//! Diffusive flow of a wetted element from the pressure decay of a closed gas volume.

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
use std::sync::Arc;

use crate::ground::quantity::Quantity;

use crate::{
    ground::place::{Place, Spot},
    record::{
        Record,
        common::{ElementMeasurement, ReferenceConditions},
        read::Q,
    },
};

/// Diffusive flow.
pub static FIGURE: Figure = Figure {
    id: "diffusive-flow",
    name: "Diffusive flow",
    symbol: "Q",
    unit: ML_PER_MIN,
    quantity: Some(Measured::DiffusiveFlow),
    about: "Gas that dissolves in the wetting liquid of an intact membrane and passes it, found from the loss of pressure of a closed gas volume upstream. The slope of p/T over the whole trace is used, so that gas temperature is accounted for; the value is counted at the reference conditions of the test. δ_p and δ_T are the unknown errors of the pressure change and of the gas temperature drift: their best estimate is zero, their uncertainties are those of the specification. δ_s is the error that the scatter of the rows about their line leaves in the pressure change: its uncertainty is the standard error of the fitted slope (n − 2 degrees of freedom) over the measurement time. Where a contribution of the specification already contains that scatter it is counted twice, which is the safe side.",
    validity: "Ideal gas (0.13 % off for nitrogen at 2.7 bar absolute); a closed volume; complete wetting; at least three rows. The volume is the one that stood wetted and drained as in the test. Where no temperature was recorded with the trace, the gas temperature of the record is taken as constant.",
    sources: &[
        "Ideal gas law in a closed volume (textbook)",
        "Its use as a test of wetted filters: common practice, no source",
    ],
    subjects: |plant| measured_in(plant, Measured::DiffusiveFlow, false),
    formula: || {
        VOLUME * T_REF / P_REF
            * ((ERROR_P + SCATTER - pressure() * ERROR_T / temperature())
                / (temperature() * MEASURED)
                - call(
                    &procedure::SLOPE,
                    [Expr::Var(TIME_OF), (PRESSURE_OF + AMBIENT) / TEMPERATURE_OF],
                ))
    },
    limit,
    check,
    reported: |scope| reported(scope, Measured::DiffusiveFlow),
    example: Example {
        given: &[
            (VOLUME, "2.350 L", "0.0002 L"),
            (T_REF, "20.0 degC", "0 K"),
            (P_REF, "1013.25 mbar", "0 mbar"),
            (ERROR_P, "0.30 mbar", "0.002 mbar"),
            (SCATTER, "0.020 mbar", "0.0011 mbar"),
            (ERROR_T, "0.050 K", "0.00017 K"),
            (PRESSURE_OF, "1700.0 mbar", "0 mbar"),
            (PRESSURE_OF, "1691.9 mbar", "0 mbar"),
            (PRESSURE_OF, "1682.6 mbar", "0 mbar"),
            (AMBIENT, "1008.4 mbar", "0.01 mbar"),
            (TEMPERATURE_OF, "20.05 degC", "0 K"),
            (TEMPERATURE_OF, "20.11 degC", "0 K"),
            (TEMPERATURE_OF, "20.08 degC", "0 K"),
            (MEASURED, "330 s", "0 s"),
            (TIME_OF, "0 s", "0 s"),
            (TIME_OF, "140 s", "0 s"),
            (TIME_OF, "300 s", "0 s"),
        ],
        gives: "8.1299 ± 0.0014 mL/min",
    },
};

const VOLUME: Input = Input {
    symbol: "V",
    what: "the closed gas volume upstream",
    unit: L,
    from: From::Records(volume),
};

/// The volume of the record. What is stated of it in one way for one rig is one volume, wrong in every test alike.
fn volume(scope: &Scope) -> Drawn {
    let own = quantity(scope, "upstream_volume", |m| m.upstream_volume.as_ref())?;
    let test = scope.test()?;
    let rig = &*test.test.instrument_id;
    let shared = own.into_iter().map(|datum| Datum {
        shared: datum.u.map(|_| format!("{rig}, {}", datum.text)),
        ..datum
    });
    Ok(shared.collect())
}

const T_REF: Input = Input {
    symbol: "T_ref",
    what: "the reference temperature",
    unit: KELVIN,
    from: From::Records(|scope| {
        reference(scope).map(|(record, at)| vec![Datum::of(record, &at.temperature)])
    }),
};

const P_REF: Input = Input {
    symbol: "p_ref",
    what: "the reference pressure",
    unit: MBAR,
    from: From::Records(|scope| {
        reference(scope).map(|(record, at)| vec![Datum::of(record, &at.pressure)])
    }),
};

const ERROR_P: Input = Input {
    symbol: "δ_p",
    what: "the unknown error of the pressure change over the measurement",
    unit: MBAR,
    from: From::Doubt("pressure_change"),
};

const SCATTER: Input = Input {
    symbol: "δ_s",
    what: "the unknown error that the scatter of the rows about their line leaves in the pressure change",
    unit: MBAR,
    from: From::Records(scatter),
};

const ERROR_T: Input = Input {
    symbol: "δ_T",
    what: "the unknown error of the gas temperature drift over the measurement",
    unit: KELVIN,
    from: From::Doubt("gas_temperature_drift"),
};

const PRESSURE_OF: Input = Input {
    symbol: "p",
    what: "the gauge pressure of each row of the trace",
    unit: MBAR,
    from: From::Records(|scope| column(scope, Measured::DiffusiveFlow, "pressure")),
};

const AMBIENT: Input = Input {
    symbol: "p_amb",
    what: "the absolute pressure of the room",
    unit: MBAR,
    from: From::Records(ambient),
};

const TEMPERATURE_OF: Input = Input {
    symbol: "T",
    what: "the gas temperature of each row of the trace",
    unit: KELVIN,
    from: From::Records(gas_temperature),
};

const MEASURED: Input = Input {
    symbol: "t_m",
    what: "the measurement time",
    unit: SECOND,
    from: From::Records(|scope| {
        quantity(scope, "measurement_time", |m| m.measurement_time.as_ref())
    }),
};

const TIME_OF: Input = Input {
    symbol: "t",
    what: "the time of each row of the trace",
    unit: SECOND,
    from: From::Records(|scope| column(scope, Measured::DiffusiveFlow, "time")),
};

fn pressure() -> Formula {
    named("p_m", mean(PRESSURE_OF) + AMBIENT)
}

fn temperature() -> Formula {
    named("T_m", mean(TEMPERATURE_OF))
}

fn measurement<'a>(
    scope: &Scope<'a>,
    quantity: Measured,
) -> Result<&'a ElementMeasurement, String> {
    scope
        .test()?
        .measurement(quantity)
        .ok_or_else(|| say!("{quantity} was not measured", quantity = quantity.word()))
}

fn quantity<'a, M: 'static>(
    scope: &Scope<'a>,
    name: &str,
    pick: fn(&'a ElementMeasurement) -> Option<&'a Q<M>>,
) -> Drawn {
    let value = pick(measurement(scope, Measured::DiffusiveFlow)?)
        .ok_or_else(|| say!("{name} is missing", name = name))?;
    Ok(vec![Datum::of(scope.record, value)])
}

/// The reference conditions of the test, or else of the specification, with the record that states them.
pub fn reference<'a>(scope: &Scope<'a>) -> Result<(&'a Record, &'a ReferenceConditions), String> {
    if let Some(stated) = &measurement(scope, Measured::DiffusiveFlow)?.reference_conditions {
        return Ok((scope.record, stated));
    }
    let (record, spec) = scope.spec()?;
    Ok((record, &spec.reference_conditions))
}

/// The absolute pressure of the room: nothing where the trace is absolute already.
fn ambient(scope: &Scope) -> Drawn {
    let measured = measurement(scope, Measured::DiffusiveFlow)?;
    let file = measured
        .trace
        .as_ref()
        .ok_or(say!("the trace is missing"))?;
    if scope
        .plant
        .folder
        .trace(file)
        .and_then(|trace| trace.column("pressure"))
        .is_some_and(|column| column.absolute)
    {
        return Ok(vec![Datum::count(
            scope.record,
            0.0,
            say!("0 mbar: the trace is absolute"),
            file.spot,
        )]);
    }
    quantity(scope, "atmospheric_pressure", |m| {
        m.atmospheric_pressure.as_ref()
    })
}

/// One column of the trace of a measurement: `time`, or the column whose name begins so.
pub fn column(scope: &Scope, quantity: Measured, begins: &str) -> Drawn {
    let measured = measurement(scope, quantity)?;
    let file = measured
        .trace
        .as_ref()
        .ok_or(say!("the trace is missing"))?;
    let trace = scope.plant.folder.trace(file).ok_or_else(|| {
        say!(
            "the trace {file} is missing or cannot be read",
            file = &*file.file
        )
    })?;
    let values = match begins {
        "time" => &trace.time,
        _ => {
            &trace
                .column(begins)
                .ok_or_else(|| {
                    say!(
                        "the trace {file} has no column {begins}_…",
                        file = &*file.file,
                        begins = begins
                    )
                })?
                .values
        }
    };
    let name: Arc<str> = Arc::from(&*file.file.text);
    Ok(values
        .iter()
        .zip(&trace.lines)
        .map(|(si, line)| Datum {
            si: *si,
            u: None,
            cause: STATED,
            degrees: None,
            text: String::new(),
            at: Place::new(
                &name,
                Spot {
                    line: *line,
                    column: 1,
                },
            ),
            shared: None,
        })
        .collect())
}

/// The gauge pressure of each row: a trace in absolute pressure is brought to gauge by the pressure of
/// the room that the test states.
pub fn gauge(scope: &Scope, quantity: Measured) -> Drawn {
    let mut rows = column(scope, quantity, "pressure")?;
    let file = measurement(scope, quantity)?.trace.as_ref();
    let trace = file.and_then(|file| scope.plant.folder.trace(file));
    if trace
        .and_then(|trace| trace.column("pressure"))
        .is_some_and(|column| column.absolute)
    {
        let room = scope
            .test()?
            .test
            .measurements
            .iter()
            .find_map(|measured| measured.atmospheric_pressure.as_ref());
        let room = room.ok_or(say!(
            "the trace is in absolute pressure and the test states no atmospheric_pressure"
        ))?;
        let at = scope.record.at(room.spot).to_string();
        for row in &mut rows {
            row.si -= room.si;
            // One reading of the room is wrong in every row alike.
            (row.u, row.cause) = (room.u, word!("the pressure of the room"));
            row.shared = room.u.map(|_| at.clone());
        }
    }
    Ok(rows)
}

fn one(drawn: &[Datum]) -> Result<&Datum, String> {
    Ok(drawn.first().ok_or(say!("there is no value"))?)
}

/// The standard error of the fitted slope, as a pressure over the measurement time.
fn scatter(scope: &Scope) -> Drawn {
    let rows = column(scope, Measured::DiffusiveFlow, "pressure")?;
    let time = column(scope, Measured::DiffusiveFlow, "time")?;
    let room = one(&ambient(scope)?)?.si;
    let gas = gas_temperature(scope)?;
    let single = one(&gas)?;
    let at = |i: usize| gas.get(i).unwrap_or(single).si;
    let t: Vec<f64> = time.iter().map(|row| row.si).collect();
    let ratio: Vec<f64> = rows
        .iter()
        .enumerate()
        .map(|(i, row)| (row.si + room) / at(i))
        .collect();
    let line = crate::stats::regression::line(&t, &ratio)?;
    let mean = gas.iter().map(|row| row.si).sum::<f64>() / gas.len() as f64;
    let measured = quantity(scope, "measurement_time", |m| m.measurement_time.as_ref())?;
    let u = line.s / libm::sqrt(line.sxx) * mean * one(&measured)?.si;
    Ok(vec![Datum::scatter(
        word!("scatter of the rows"),
        u,
        rows.len() as u64 - 2,
        say!("of {count} rows", count = rows.len()),
        one(&rows)?.at.clone(),
    )])
}

fn check(given: &[(Input, Quantity)]) -> Result<(), String> {
    let zero = |input: &Input| {
        given
            .iter()
            .any(|(other, quantity)| other == input && quantity.value <= 0.0)
    };
    match [VOLUME, MEASURED].iter().find(|input| zero(input)) {
        Some(input) => Err(say!("{what} is not above zero", what = say!(input.what))),
        None => Ok(()),
    }
}

fn gas_temperature(scope: &Scope) -> Drawn {
    match column(scope, Measured::DiffusiveFlow, "gas_temperature") {
        Ok(values) => Ok(values),
        Err(_) => Ok(vec![Datum::of(
            scope.record,
            &scope.test()?.test.gas_temperature,
        )]),
    }
}

/// The limit of the specification, which holds for one gas.
fn limit(scope: &Scope) -> Result<Option<Limit>, String> {
    let due = scope
        .spec()
        .ok()
        .zip(scope.stage())
        .and_then(|((_, spec), stage)| spec.limit(stage, Measured::DiffusiveFlow))
        .and_then(|accepted| accepted.test_gas.as_ref());
    let used = measurement(scope, Measured::DiffusiveFlow)?
        .test_gas
        .as_ref();
    match (due, used) {
        (Some(due), None) => Err(say!(
            "the limit holds for {due}, and the test names no gas",
            due = &**due
        )),
        (Some(due), Some(used)) if due.text != used.text => Err(say!(
            "the limit holds for {due}, and the test was made with {used}",
            due = &**due,
            used = &**used
        )),
        _ => limit_of_specification(scope, Measured::DiffusiveFlow),
    }
}

/// What the rig printed.
pub fn reported(scope: &Scope, quantity: Measured) -> Option<ReportedValue> {
    let said = measurement(scope, quantity)
        .ok()?
        .instrument_reported
        .as_ref()?;
    Some(ReportedValue {
        si: said.value.si,
        text: said.value.text.to_string(),
        verdict: said.verdict,
        at: scope.record.at(said.value.spot),
    })
}
