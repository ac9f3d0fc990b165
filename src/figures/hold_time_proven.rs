//! Hold time proven.

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

use crate::{
    ground::place::{Place, Spot},
    record::{
        Record,
        kinds::cycle_log::Event,
        read::{Q, Temperature},
    },
};

/// Hold time proven.
pub static FIGURE: Figure = Figure {
    id: "hold-time-proven",
    name: "Hold time proven",
    symbol: "t_h",
    unit: MINUTE,
    quantity: Some(Measured::HoldTime),
    about: "Time at or above the hold temperature that the trace proves. A gap in the trace counts nothing: what was not recorded proves nothing.",
    validity: "Straight lines between rows; a gap is more than 1.5 sampling steps. No uncertainty stands beside it: an error of the recorder changes little while the plateau is clear of the hold temperature, and all where it is not; rule R72 names the cycles whose plateau is not. The figure belongs to the sensor that was read, which should be the coldest.",
    sources: &["Definition"],
    subjects: traced_cycles,
    formula: || {
        call(
            &procedure::TIME_ABOVE,
            [
                Expr::Var(STEP),
                Expr::Var(BEGIN),
                Expr::Var(END),
                Expr::Var(HOLD),
            ],
        )
    },
    limit: no_limit,
    check: always,
    reported: |scope| reported(scope, Measured::HoldTime),
    example: Example {
        given: &[
            (STEP, "60 s", "0.5 s"),
            (STEP, "60 s", "0.5 s"),
            (STEP, "30 s", "0.5 s"),
            (BEGIN, "119.0 degC", "0.2 K"),
            (BEGIN, "122.0 degC", "0.2 K"),
            (BEGIN, "121.4 degC", "0.2 K"),
            (END, "122.0 degC", "0.2 K"),
            (END, "121.4 degC", "0.2 K"),
            (END, "120.6 degC", "0.2 K"),
            (HOLD, "121.0 degC", "0 K"),
        ],
        gives: "1.58 ± 0.10 min",
    },
};

/// The length of each step.
pub const STEP: Input = Input {
    symbol: "Δt",
    what: "the length of each step of the trace",
    unit: SECOND,
    from: From::Records(|scope| steps(scope, false, Which::Length)),
};

/// The temperature at the begin of each step.
pub const BEGIN: Input = Input {
    symbol: "T_a",
    what: "the temperature at its start",
    unit: DEGC,
    from: From::Records(|scope| steps(scope, false, Which::Begin)),
};

/// The temperature at the end of each step.
pub const END: Input = Input {
    symbol: "T_b",
    what: "the temperature at its end",
    unit: DEGC,
    from: From::Records(|scope| steps(scope, false, Which::End)),
};

/// The hold temperature.
pub const HOLD: Input = Input {
    symbol: "T_hold",
    what: "the hold temperature",
    unit: DEGC,
    from: From::Records(hold_temperature),
};

/// Every cycle of every log that has a readable temperature trace.
pub fn traced_cycles(plant: &Plant) -> Vec<Subject> {
    let of = |(record, body): (usize, &Record)| -> Vec<Subject> {
        let Body::CycleLog(log) = &body.body else {
            return Vec::new();
        };
        let steam = log
            .events
            .iter()
            .filter(|event| &*event.treatment.text == "steam_in_place" && event.trace.is_some());
        steam
            .map(|event| Subject {
                record,
                part: part(event),
            })
            .collect()
    };
    plant.indexed().flat_map(of).collect()
}

/// The part of a log that a cycle is.
pub fn part(event: &Event) -> String {
    format!("{}-{}", &*event.treatment.text, event.sequence.value)
}

/// The cycle of a scope.
pub fn event<'a>(scope: &Scope<'a>) -> Result<&'a Event, String> {
    let Body::CycleLog(log) = &scope.record.body else {
        return Err(say!("this record is no cycle_log").into());
    };
    log.events
        .iter()
        .find(|event| part(event) == scope.part)
        .ok_or_else(|| say!("there is no such cycle").into())
}

/// One value a step of a cycle's trace: length, temperature at its start or at its end.
///
/// `whole` keeps gaps, at the highest temperature of the trace (the question of life used); without
/// it they are left out (the question of proof).
pub fn steps(scope: &Scope, whole: bool, which: Which) -> Drawn {
    let file = event(scope)?
        .trace
        .as_ref()
        .ok_or(say!("the trace is missing"))?;
    let trace = scope.plant.folder.trace(file).ok_or_else(|| {
        say!(
            "the trace {file} is missing or cannot be read",
            file = &*file.file
        )
    })?;
    let temperature = trace
        .column("temperature")
        .ok_or(say!("the trace has no column temperature_c"))?;
    let name: Arc<str> = Arc::from(&*file.file.text);
    let gaps: Vec<usize> = trace.gaps().into_iter().map(|(at, _)| at).collect();
    let hottest = temperature
        .values
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    let mut out = Vec::new();
    let steps = trace.time.array_windows();
    let steps = steps
        .zip(temperature.values.array_windows())
        .zip(&trace.lines);
    for (i, (([from, to], [begin, end]), line)) in steps.enumerate() {
        let gap = gaps.binary_search(&i).is_ok();
        if gap && !whole {
            continue;
        }
        let si = match which {
            Which::Length => to - from,
            _ if gap => hottest,
            Which::Begin => *begin,
            Which::End => *end,
        };
        out.push(Datum {
            si,
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
        });
    }
    Ok(out)
}

/// What of a step is asked for.
#[derive(Copy, Clone, PartialEq, Eq)]
pub enum Which {
    /// Its length.
    Length,
    /// The temperature at its start.
    Begin,
    /// The temperature at its end.
    End,
}

/// The hold temperature: that of the specification, or else 121.0 °C.
pub fn hold_temperature(scope: &Scope) -> Drawn {
    Ok(vec![match stated_hold(scope) {
        Some((record, hold)) => Datum::of(record, hold),
        None => {
            let text = say!("121.0 degC (common practice, no source; the specification is silent)");
            Datum::count(scope.record, hold(scope), text, event(scope)?.spot)
        }
    }])
}

fn stated_hold<'a>(scope: &Scope<'a>) -> Option<(&'a Record, &'a Q<Temperature>)> {
    let (record, spec) = scope.spec().ok()?;
    Some((record, spec.steam_hold_temperature.as_ref()?))
}

/// The temperature from which on a cycle of steam counts, in K.
pub fn hold(scope: &Scope) -> f64 {
    stated_hold(scope).map_or(DEGC.to_si(121.0), |(_, hold)| hold.si)
}

/// The time that a trace proves at so many K above the hold temperature, in s.
pub fn held_above(scope: &Scope, margin: f64) -> Result<f64, String> {
    let of = |which| -> Result<Vec<f64>, String> {
        Ok(steps(scope, false, which)?
            .iter()
            .map(|one| one.si)
            .collect())
    };
    let begin = of(Which::Begin)?;
    let hold = vec![hold(scope) + margin];
    let args = [of(Which::Length)?, begin, of(Which::End)?, hold];
    Ok(procedure::TIME_ABOVE.eval(&args)?.0)
}

/// The time that the plant reports of a cycle, as `hold_time` or `f0`.
pub fn reported(scope: &Scope, quantity: Measured) -> Option<ReportedValue> {
    let said = event(scope).ok()?.reported.as_ref()?.get(quantity.word())?;
    let (n, unit) = crate::ground::number::parse_with_unit(said)
        .ok()
        .filter(|(_, unit)| unit.dim == TIME)?;
    Some(ReportedValue {
        si: unit.to_si(n),
        text: said.to_string(),
        verdict: None,
        at: scope.record.at(said.spot),
    })
}
