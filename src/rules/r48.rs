//! R48: Flow falls with pressure as diffusion does, not as through a hole.

use crate::{
    figure::Scope,
    figures::bubble_point::criterion,
    ground::number,
    record::{common::Measured, trace::Trace},
};
use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Flow falls with pressure as diffusion does, not as through a hole.
pub static RULE: Rule = Rule {
    id: "R48",
    severity: Severity::Explain,
    demands: "Flow falls with pressure as diffusion does, not as through a hole.",
    protects: "a hole that stays below the limit",
    explained: "By a decided deviation of category test_invalid or nonconforming_product that names the test.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("traces of gas flow"));
    for test in view.plant.tests() {
        if !view.decides(&test) {
            continue;
        }
        for measured in &test.test.measurements {
            let trace = measured
                .trace
                .as_ref()
                .and_then(|file| view.plant.folder.trace(file));
            let Some(trace) = trace else { continue };
            let room = test
                .test
                .measurements
                .iter()
                .find_map(|m| m.atmospheric_pressure.as_ref());
            // Nothing stated: the pressure of the standard atmosphere; a hole shows all the same.
            let room = room.map_or(101_325.0, |room| room.si);
            let shape = match measured.quantity {
                Measured::DiffusiveFlow => of_decay(trace, room),
                Measured::BubblePoint => {
                    let scope = Scope {
                        plant: view.plant,
                        record: test.record,
                        part: "",
                    };
                    let below = criterion(&scope).map_or(f64::INFINITY, |(_, below)| below.si);
                    of_ramp(trace, room, below)
                }
                _ => None,
            };
            let Some(shape) = shape else { continue };
            out.look();
            if shape.hole * MUCH < shape.diffusion {
                out.find(
                    Finding {
                        severity: Severity::Explain,
                        ..finding(say!("{id}: the {quantity} fits a hole better than diffusion (residuals {hole} times smaller).", id = &*test.record.id, quantity = if measured.quantity == Measured::DiffusiveFlow { say!("decay") } else { say!("ramp below the bubble point") }, hole = number::fixed(libm::sqrt(shape.diffusion / shape.hole).min(999.0), 1)))
                    }
                    .advise(say!("Spray or bubble-test {element}; a flow below the limit is no proof that nothing is broken.", element = test.element))
                    .at(test.record.at(measured.spot))
                    .about(&*test.record.id.text)
                    .about(test.element),
                );
            }
        }
    }
    out
}

/// A ratio of mean squared residuals above this is no chance: beyond the 0.1 % point of F for 8 and 8
/// degrees of freedom (12.0, from memory), and a trace has more.
const MUCH: f64 = 12.0;

/// Sums of squared residuals under either law, each with one free size (and a free beginning for a decay).
struct Shape {
    diffusion: f64,
    hole: f64,
}

/// A ramp: flow against pressure below the bubble point. Through wet membrane it grows with gauge
/// pressure, through a narrow hole with the difference of the squares of absolute pressures.
fn of_ramp(trace: &Trace, room: f64, below: f64) -> Option<Shape> {
    let (pressure, flow) = (trace.column("pressure")?, trace.column("gas_flow")?);
    let rows: Vec<(f64, f64)> = pressure
        .values
        .iter()
        .map(|p| if pressure.absolute { p - room } else { *p })
        .zip(flow.values.iter().copied())
        .filter(|(p, _)| *p < below && *p > 0.0)
        .collect();
    let wide = rows.iter().map(|row| row.0).fold(0.0, f64::max)
        / rows.iter().map(|row| row.0).fold(f64::INFINITY, f64::min);
    if rows.len() < 8 || wide < 1.15 {
        return None;
    }
    let left = |law: fn(f64, f64) -> f64| {
        let xx: f64 = rows
            .iter()
            .map(|(p, _)| law(*p, room) * law(*p, room))
            .sum();
        let xy: f64 = rows.iter().map(|(p, q)| law(*p, room) * q).sum();
        rows.iter()
            .map(|(p, q)| q - xy / xx * law(*p, room))
            .map(|r| r * r)
            .sum::<f64>()
    };
    Some(Shape {
        diffusion: left(|p, _| p),
        hole: left(|p, room| (p + room) * (p + room) - room * room),
    })
}

/// A decay in a closed volume. By diffusion ln p falls in a straight line of time; through a hole
/// ln((p_abs − p_room)/(p_abs + p_room)) does. Residuals are brought back to pressure.
fn of_decay(trace: &Trace, room: f64) -> Option<Shape> {
    let pressure = trace.column("pressure")?;
    let warm = trace.column("gas_temperature");
    let gauge: Vec<f64> = pressure
        .values
        .iter()
        .enumerate()
        .map(|(i, p)| {
            let p = p + if pressure.absolute { 0.0 } else { room };
            let scale = warm.and_then(|warm| Some(warm.values.first()? / warm.values.get(i)?));
            p * scale.unwrap_or(1.0) - room
        })
        .collect();
    let (first, last) = (*gauge.first()?, *gauge.last()?);
    // A decay of less than a twentieth is a straight line under either law.
    if gauge.len() < 10 || last <= 0.0 || (first - last) / first < 0.05 {
        return None;
    }
    let left = |law: fn(f64, f64) -> f64, slope: fn(f64, f64) -> f64| {
        let y: Vec<f64> = gauge.iter().map(|p| law(*p, room)).collect();
        let line = crate::stats::regression::line(&trace.time, &y).ok()?;
        let rows = y.iter().zip(&trace.time).zip(&gauge);
        let residuals =
            rows.map(|((y, t), p)| (y - line.y - line.slope * (t - line.x)) / slope(*p, room));
        Some(residuals.map(|r| r * r).sum::<f64>())
    };
    Some(Shape {
        diffusion: left(|p, _| libm::log(p), |p, _| 1.0 / p)?,
        hole: left(
            |p, room| libm::log(p / (p + 2.0 * room)),
            |p, room| 1.0 / p - 1.0 / (p + 2.0 * room),
        )?,
    })
}
