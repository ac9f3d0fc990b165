//! R93: The gas of a flow test was at rest: neither warmed nor fell unevenly.

use crate::{
    figure::Computed,
    ground::{
        finding::{Finding, Severity},
        number,
        unit::{KELVIN, ML_PER_MIN},
    },
    physics::fluid,
    plant::Test,
    record::{
        common::{ElementMeasurement, Measured},
        trace::Trace,
    },
    rule::{Outcome, Rule, View},
    stats::regression::{Line, line},
};

/// The gas of a flow test was at rest: neither warmed nor fell unevenly.
pub static RULE: Rule = Rule {
    id: "R93",
    severity: Severity::Explain,
    demands: "The gas of a flow test was at rest: it kept its temperature, and its pressure fell evenly.",
    protects: "a leak that gas still settling or warming hides",
    explained: "By a decided deviation of category test_invalid that names the test.",
    check,
};

/// The halves of a trace differ when their flows are so many standard errors apart and so large a share of the flow (common
/// practice, no source): rows of one logger are alike, so that a standard error is a lower bound.
const ERRORS: f64 = 5.0;
const SHARE: f64 = 0.1;

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces of a pressure decay"));
    for test in view.plant.tests() {
        let Some(computed) = view.graph.get("diffusive-flow", &test.record.id, "") else {
            continue;
        };
        let Some(measured) = test.measurement(Measured::DiffusiveFlow) else {
            continue;
        };
        let trace = measured.trace.as_ref();
        let Some(trace) = trace.and_then(|file| view.plant.folder.trace(file)) else {
            continue;
        };
        if !view.decides(&test) {
            continue;
        }
        out.look();
        let found = [
            warmed(&test, measured, trace, computed),
            uneven(&test, measured, trace, computed),
        ];
        for message in found.into_iter().flatten() {
            out.find(
                Finding::new(RULE.id, RULE.severity, message)
                    .advise(say!("Let the rig settle longer, keep draught and sun away, and test again; or explain why the flow stands."))
                    .at(test.record.at(measured.spot))
                    .about(&*test.record.id.text)
                    .about(test.element),
            );
        }
    }
    out
}

/// What one change of p/T is as a flow at reference conditions: the volume over the reference pressure, times the reference
/// temperature (20 °C and 1013.25 mbar where the test states none: what is asked here is a size).
fn per_change(measured: &ElementMeasurement) -> Option<f64> {
    let stated = measured.reference_conditions.as_ref();
    let (t, p) = stated.map_or((293.15, 101_325.0), |own| {
        (own.temperature.si, own.pressure.si)
    });
    Some(measured.upstream_volume.as_ref()?.si * t / p)
}

/// Gas over a wet membrane may be dry or full of vapour: by how much its warming moves the flow between the two, where that is more
/// than a standard uncertainty.
fn warmed(
    test: &Test,
    measured: &ElementMeasurement,
    trace: &Trace,
    computed: &Computed,
) -> Option<String> {
    let u = computed.quantity()?.u();
    let gas = trace.column("gas_temperature")?;
    let fitted = line(&trace.time, &gas.values).ok()?;
    let (first, last) = (*trace.time.first()?, *trace.time.last()?);
    if !fluid::is_water(&test.test.wetting_liquid) || last <= first {
        return None;
    }
    let share = |t: f64| fluid::saturation_pressure(t).ok().map(|p| p / t);
    let change = share(fitted.at(last))? - share(fitted.at(first))?;
    let hidden = per_change(measured)? * change / (last - first);
    (hidden.abs() > u).then(|| {
        say!(
            "{id}: the gas changed by {kelvin} K while its pressure fell. The flow is computed for dry gas; if it was full of vapour, as it may be over a wet membrane, the flow is {flow} mL/min more, {ratio} u.",
            id = &*test.record.id,
            kelvin = number::fixed(KELVIN.of_si(fitted.at(last) - fitted.at(first)), 2),
            flow = number::significant(ML_PER_MIN.of_si(hidden), 2),
            ratio = number::fixed(hidden / u, 1)
        )
    })
}

/// Whether the first half of the decay shows another flow than the second.
fn uneven(
    test: &Test,
    measured: &ElementMeasurement,
    trace: &Trace,
    computed: &Computed,
) -> Option<String> {
    let flow = computed.quantity()?;
    let pressure = trace.column("pressure")?;
    let room = match pressure.absolute {
        true => 0.0,
        false => measured.atmospheric_pressure.as_ref()?.si,
    };
    let warm = trace.column("gas_temperature");
    let rows: Vec<f64> = pressure
        .values
        .iter()
        .enumerate()
        .map(|(i, p)| {
            let own = warm.and_then(|warm| warm.values.get(i));
            (p + room) / own.unwrap_or(&test.test.gas_temperature.si)
        })
        .collect();
    let middle = rows.len() / 2;
    let (early, late) = rows.split_at_checked(middle)?;
    let (begin, end) = trace.time.split_at_checked(middle)?;
    let (first, second) = (line(begin, early).ok()?, line(end, late).ok()?);
    let size = per_change(measured)?;
    let apart = size * (first.slope - second.slope).abs();
    let error = |own: &Line| own.s * own.s / own.sxx;
    let doubt = size * libm::sqrt(error(&first) + error(&second));
    let much = (ERRORS * doubt)
        .max(SHARE * flow.value.abs())
        .max(2.0 * flow.u());
    (apart > much).then(|| {
        let show = |own: &Line| number::significant(ML_PER_MIN.of_si(-size * own.slope), 3);
        say!(
            "{id}: the first half of the decay shows {first} mL/min and the second {second}: the gas had not settled, or something opened.",
            id = &*test.record.id,
            first = show(&first),
            second = show(&second)
        )
    })
}
