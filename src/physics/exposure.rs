//! Heat, chemicals, retention, expansion, geometry.

use super::{Answer, GAS_CONSTANT, celsius, finite, kelvin, positive};
use crate::stats::{self, summary::log_mean};

fn rising(t: &[f64], values: &[f64]) -> Result<(), String> {
    match t.len() == values.len() && t.len() > 1 && t.array_windows().all(|[a, b]| b > a) {
        true => Ok(()),
        false => Err(say!("time must rise, with one value each").into()),
    }
}

/// How a rate is added up between samples.
#[derive(Copy, Clone, PartialEq, Eq)]
pub enum Rule {
    /// Trapezium on the rate.
    Trapezium,
    /// Exact for a temperature that runs straight between samples.
    LogMean,
}

/// Equivalent time at a reference temperature, in the unit of `t`; temperatures in °C, z in K.
/// Samples below `floor` contribute no rate.
///
/// # Errors
/// Time that does not rise, z that is not positive, or a kelvin taken for °C.
pub fn lethality(
    t: &[f64],
    temperature: &[f64],
    reference: f64,
    z: f64,
    rule: Rule,
    floor: Option<f64>,
) -> Answer {
    positive("z", z)?;
    rising(t, temperature)?;
    celsius(reference)?;
    temperature.iter().try_for_each(|t| celsius(*t).map(drop))?;
    let x = |c: f64| (c - reference) * std::f64::consts::LN_10 / z;
    let rate = |c: f64| {
        if floor.is_some_and(|floor| c < floor) {
            0.0
        } else {
            libm::exp(x(c))
        }
    };
    let step = |[a, b]: &[f64; 2]| match rule {
        Rule::Trapezium => (rate(*a) + rate(*b)) / 2.0,
        Rule::LogMean => log_mean(x(*a), x(*b)).0,
    };
    Ok(t.array_windows()
        .zip(temperature.array_windows())
        .map(|([a, b], pair)| (b - a) * step(pair))
        .sum())
}

/// Rate of lethality at a temperature in °C, for a reference and z.
///
/// # Errors
/// z that is not positive, or a temperature that is no °C.
pub fn rate(t: f64, reference: f64, z: f64) -> Answer {
    let warmer = celsius(t)? - celsius(reference)?;
    Ok(libm::pow(10.0, warmer / positive("z", z)?))
}

/// Time at a reference temperature that ages alike, in the unit of `t`: trapezium on the rate.
///
/// # Errors
/// An activation energy below 1000 J/mol (kJ written as J), time that does not rise.
pub fn ageing(t: &[f64], temperature: &[f64], reference: f64, energy: f64) -> Answer {
    if finite(energy)? < 1e3 {
        return Err(say!("an activation energy below 1000 J/mol: kJ written as J?").into());
    }
    rising(t, temperature)?;
    let reference = kelvin(reference, 200.0, 600.0)?;
    let rates: Vec<f64> = temperature
        .iter()
        .map(|t| {
            Ok(libm::exp(
                energy / GAS_CONSTANT * (1.0 / reference - 1.0 / kelvin(*t, 200.0, 600.0)?),
            ))
        })
        .collect::<Result<_, String>>()?;
    Ok(t.array_windows()
        .zip(rates.array_windows())
        .map(|([a, b], [from, to])| (b - a) * (from + to) / 2.0)
        .sum())
}

/// Concentration times time, by trapezium.
///
/// # Errors
/// Time that does not rise, or a negative concentration.
pub fn chemical(t: &[f64], concentration: &[f64]) -> Answer {
    rising(t, concentration)?;
    if !concentration.iter().all(|c| c.is_finite() && *c >= 0.0) {
        return Err(say!("a negative concentration").into());
    }
    Ok(t.array_windows()
        .zip(concentration.array_windows())
        .map(|([a, b], [from, to])| (b - a) * (from + to) / 2.0)
        .sum())
}

/// Log reduction value of a count.
///
/// # Errors
/// No challenge, no colony (then there is a bound only), or a share outside 0 to 1.
pub fn log_reduction(challenge: f64, count: f64, share: f64) -> Answer {
    let (challenge, share) = (positive(say!("challenge"), challenge)?, fraction(share)?);
    match whole(count)? {
        0.0 => Err(say!("no colonies: a bound, not a value").into()),
        count => Ok(libm::log10(challenge * share / count)),
    }
}

/// Lower bound of the log reduction at a one-sided confidence (Garwood 1936).
///
/// # Errors
/// As [`log_reduction`], colonies apart.
pub fn log_reduction_bound(challenge: f64, count: f64, share: f64, confidence: f64) -> Answer {
    let upper = stats::proportion::poisson_upper(whole(count)?, confidence)?;
    Ok(libm::log10(
        positive(say!("challenge"), challenge)? * fraction(share)? / upper,
    ))
}

/// The same where the challenge is itself a plate count: a bound of the ratio of two Poisson means.
///
/// # Errors
/// As [`log_reduction`].
pub fn log_reduction_bound_of_counts(
    count: f64,
    share: f64,
    plated: f64,
    plated_share: f64,
    confidence: f64,
) -> Answer {
    let p = stats::distribution::beta_quantile(
        confidence,
        whole(count)? + 1.0,
        positive(say!("plate count"), whole(plated)?)?,
    )?;
    Ok(-libm::log10(
        p / (1.0 - p) * fraction(plated_share)? / fraction(share)?,
    ))
}

fn fraction(share: f64) -> Answer {
    match share > 0.0 && share <= 1.0 {
        true => Ok(share),
        false => Err(say!("the share that was counted lies outside 0 to 1").into()),
    }
}

fn whole(count: f64) -> Answer {
    match count >= 0.0 && count == count.trunc() {
        true => Ok(count),
        false => Err(say!("{count} is no count", count = count)),
    }
}

/// A coefficient of linear expansion, 1/K.
///
/// # Errors
/// Above 10⁻³ 1/K: a value in 10⁻⁶ 1/K without its factor.
pub fn expansion_coefficient(alpha: f64) -> Answer {
    match alpha.is_finite() && alpha.abs() <= 1e-3 {
        true => Ok(alpha),
        false => Err(
            say!("a coefficient above 1e-3 1/K: written in 1e-6 1/K without its factor?").into(),
        ),
    }
}

/// Clearance of a bore around a part, both warmed by a difference, m.
///
/// # Errors
/// As [`expansion_coefficient`].
pub fn clearance(bore: f64, part: f64, alpha_bore: f64, alpha_part: f64, warmer: f64) -> Answer {
    Ok(bore * (1.0 + expansion_coefficient(alpha_bore)? * warmer)
        - part * (1.0 + expansion_coefficient(alpha_part)? * warmer))
}

/// Membrane area of a pleated pack, m²: two flanks a pleat.
///
/// # Errors
/// Pleats that are no whole number, or dimensions that are no metres.
pub fn pleated_area(pleats: f64, height: f64, width: f64) -> Answer {
    if whole(pleats).is_err() || pleats == 0.0 {
        return Err(say!("the pleat count must be a whole number").into());
    }
    for (name, x) in [(say!("pleat height"), height), (say!("width"), width)] {
        if !(1e-4..=5.0).contains(&x) {
            return Err(say!(
                "{name} {x} m is out of scale: millimetres written as metres?",
                name = name,
                x = x
            ));
        }
    }
    Ok(2.0 * pleats * height * width)
}

/// Linear expansion of a material, 1/K: lowest and highest value at room temperature (Callister, Materials
/// Science and Engineering, appendix B, table B.6). Polypropylene grows faster when hot: a value at room
/// temperature understates what happens in steam.
///
/// # Errors
/// A material that is not in the table.
pub fn linear_expansion(material: &str) -> Result<(f64, f64), String> {
    match material {
        "stainless 304" => Ok((17.2e-6, 17.2e-6)),
        "stainless 316" => Ok((15.9e-6, 15.9e-6)),
        "polypropylene" => Ok((146e-6, 180e-6)),
        other => Err(say!("{other} is not in the table", other = other)),
    }
}

/// Allowed deviation of a slit width either side, m: common practice, no source.
pub const SLIT_WIDTH_TOLERANCE: f64 = 0.1e-3;
