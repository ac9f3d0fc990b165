//! Bubble point, diffusive flow, pressure hold, water flow: the membrane and the element.

use super::{Answer, GAS_CONSTANT, finite, fluid, kelvin, positive};
use crate::stats::regression;

/// Capillary pressure of a pore, Pa: shape factor k, surface tension N/m, contact angle in degrees,
/// diameter m. Young–Laplace.
///
/// # Errors
/// A contact angle of 90° or more (the liquid does not wet), or a number that is not positive.
pub fn bubble_point(k: f64, tension: f64, angle: f64, diameter: f64) -> Answer {
    if !(0.0..90.0).contains(&angle) {
        return Err(say!("contact angle >= 90 degrees: the liquid does not wet").into());
    }
    let cos = libm::cos(angle.to_radians());
    Ok(
        4.0 * positive(say!("shape factor"), k)?
            * positive(say!("surface tension"), tension)?
            * cos
            / positive(say!("diameter"), diameter)?,
    )
}

/// Liquid on the downstream side lowers the pressure that the pores see, Pa.
///
/// # Errors
/// A gauge pressure that the column exceeds.
pub fn less_head(gauge: f64, t: f64, gravity: f64, height: f64) -> Answer {
    positive(
        say!("pressure left"),
        gauge - fluid::density(t, 1e5)? * gravity * height,
    )
}

/// Diffusive flow of a wet membrane at reference conditions, m³/s: an order of magnitude (±25 %).
///
/// # Errors
/// A number that is not positive.
#[allow(clippy::too_many_arguments)]
pub fn diffusive_flow(
    diffusion: f64,
    solubility: f64,
    pressure: f64,
    area: f64,
    porosity: f64,
    tortuosity: f64,
    thickness: f64,
    t_ref: f64,
    p_ref: f64,
) -> Answer {
    for (name, x) in [
        (say!("diffusion coefficient"), diffusion),
        (say!("solubility"), solubility),
        (say!("pressure"), pressure),
        (say!("area"), area),
        (say!("porosity"), porosity),
    ] {
        positive(name, x)?;
    }
    if porosity > 1.0 || tortuosity < 1.0 {
        return Err(say!("a porosity above 1, or a tortuosity below 1").into());
    }
    let moles = diffusion * solubility * pressure * area * porosity
        / (positive(say!("tortuosity"), tortuosity)? * positive(say!("thickness"), thickness)?);
    Ok(moles * GAS_CONSTANT * kelvin(t_ref, 200.0, 400.0)?
        / positive(say!("reference pressure"), p_ref)?)
}

/// A diffusive flow brought to another temperature and test pressure.
///
/// # Errors
/// A pressure at or above the bubble point, more than 15 K, or an unnamed gas.
pub fn normalised(
    flow: f64,
    gas: &str,
    t: f64,
    t_ref: f64,
    pressure: f64,
    test_pressure: f64,
    bubble_point: Option<f64>,
) -> Answer {
    finite(flow)?;
    if bubble_point.is_some_and(|point| pressure.max(test_pressure) >= point) {
        return Err(
            say!("test pressure at or above the bubble point: bulk flow, not diffusion").into(),
        );
    }
    Ok(flow / fluid::permeability_ratio(gas, t, t_ref)?
        * positive(say!("test pressure"), test_pressure)?
        / positive(say!("pressure"), pressure)?)
}

/// A state of a closed gas volume: absolute pressure Pa, temperature K.
pub type State = (f64, f64);

/// Flow out of a closed volume between two states, at reference conditions, m³/s. Ideal gas.
///
/// # Errors
/// A duration, volume, pressure or temperature that is not positive.
pub fn hold_flow(volume: f64, from: State, to: State, duration: f64, reference: State) -> Answer {
    let amount = |(p, t): State| -> Answer {
        Ok(positive(say!("absolute pressure"), p)? / kelvin(t, 200.0, 500.0)?)
    };
    Ok(
        positive(say!("volume"), volume)? * kelvin(reference.1, 200.0, 400.0)?
            / (positive(say!("reference pressure"), reference.0)?
                * positive(say!("duration"), duration)?)
            * (amount(from)? - amount(to)?),
    )
}

/// Standard uncertainty of [`hold_flow`], m³/s, with correlated pressures and temperatures
/// (JCGM 100:2008, 5.2.2). Uncertainties of volume, pressure, temperature, duration.
///
/// # Errors
/// As [`hold_flow`]; a negative uncertainty; a correlation outside −1 to 1.
#[allow(clippy::too_many_arguments)]
pub fn hold_flow_u(
    volume: f64,
    from: State,
    to: State,
    duration: f64,
    reference: State,
    u: [f64; 4],
    r_pressure: f64,
    r_temperature: f64,
) -> Answer {
    let correlated = |r: f64| (-1.0..=1.0).contains(&r);
    let real = u.iter().all(|u| u.is_finite() && *u >= 0.0);
    if !(real && correlated(r_pressure) && correlated(r_temperature)) {
        return Err(
            say!("an uncertainty is negative, or a correlation lies outside -1 to 1").into(),
        );
    }
    let flow = hold_flow(volume, from, to, duration, reference)?;
    let scale = volume * reference.1 / (reference.0 * duration);
    let (cp1, cp2) = (scale / from.1 * u[1], -scale / to.1 * u[1]);
    let (ct1, ct2) = (
        -scale * from.0 / (from.1 * from.1) * u[2],
        scale * to.0 / (to.1 * to.1) * u[2],
    );
    let pair = |a: f64, b: f64, r: f64| a * a + b * b + 2.0 * r * a * b;
    let rest = |x: f64, u: f64| (flow / x * u) * (flow / x * u);
    Ok(libm::sqrt(
        pair(cp1, cp2, r_pressure)
            + pair(ct1, ct2, r_temperature)
            + rest(volume, u[0])
            + rest(duration, u[3]),
    ))
}

/// Pressure loss that a flow limit allows, Pa.
///
/// # Errors
/// A number that is not positive.
pub fn allowed_decay(limit: f64, volume: f64, t: f64, duration: f64, reference: State) -> Answer {
    Ok(positive(say!("limit"), limit)?
        * positive(say!("reference pressure"), reference.0)?
        * positive(say!("duration"), duration)?
        / positive(say!("volume"), volume)?
        * kelvin(t, 200.0, 500.0)?
        / kelvin(reference.1, 200.0, 400.0)?)
}

/// A mean flow brought to the test pressure by the logarithmic mean of the driving pressures.
///
/// # Errors
/// A pressure that is not positive.
pub fn at_test_pressure(flow: f64, begin: f64, end: f64, test: f64) -> Answer {
    finite(flow)?;
    let (begin, end) = (
        positive(say!("pressure"), begin)?,
        positive(say!("end pressure"), end)?,
    );
    // Where the pressure stayed the mean is that pressure; a little above it the quotient loses its digits.
    let share = (begin - end) / end;
    let mean = match share.abs() < 1e-8 {
        true => 0.5 * (begin + end),
        false => (begin - end) / libm::log1p(share),
    };
    Ok(flow * positive(say!("test pressure"), test)? / mean)
}

/// Exponential decay A·exp(−t/τ) by unweighted nonlinear least squares: A, τ, standard uncertainty of τ.
///
/// # Errors
/// Fewer than three points, time that does not rise, or a pressure that does not fall.
pub fn decay(t: &[f64], p: &[f64]) -> Result<(f64, f64, f64), String> {
    if t.len() != p.len() || t.len() < 3 {
        return Err(say!("at least 3 points are needed").into());
    }
    if t.array_windows().any(|[a, b]| b <= a) {
        return Err(say!("time stamps do not rise").into());
    }
    if p.iter().any(|p| *p <= 0.0) || p.last() >= p.first() {
        return Err(say!("the pressure does not fall").into());
    }
    // Start from the line through the logarithms; work with the rate 1/τ.
    let n = t.len() as f64;
    let logs: Vec<f64> = p.iter().map(|p| libm::log(*p)).collect();
    let start = regression::line(t, &logs)?;
    let (mut a, mut rate) = (libm::exp(start.at(0.0)), -start.slope);
    let mut inverse = 0.0;
    let mut squares = 0.0;
    for _ in 0..50 {
        let (mut jaa, mut jar, mut jrr, mut ja, mut jr) = (0.0, 0.0, 0.0, 0.0, 0.0);
        squares = 0.0;
        for (t, p) in t.iter().zip(p) {
            let e = libm::exp(-rate * t);
            let (da, dr, residual) = (e, -a * t * e, p - a * e);
            jaa += da * da;
            jar += da * dr;
            jrr += dr * dr;
            ja += da * residual;
            jr += dr * residual;
            squares += residual * residual;
        }
        let det = jaa * jrr - jar * jar;
        let (step_a, step_r) = ((ja * jrr - jr * jar) / det, (jr * jaa - ja * jar) / det);
        a += step_a;
        rate += step_r;
        inverse = jaa / det;
        if step_r.abs() < 1e-14 * rate.abs() && step_a.abs() < 1e-14 * a.abs() {
            break;
        }
    }
    let tau = 1.0 / positive(say!("rate of decay"), rate)?;
    let u_rate = libm::sqrt(squares / (n - 2.0) * inverse);
    Ok((a, tau, tau * tau * u_rate))
}

/// Volume by expansion of gas from a vessel, m³, at one temperature.
///
/// # Errors
/// An end pressure that does not lie between the two.
pub fn volume_by_expansion(vessel: f64, vessel_pressure: f64, begin: f64, end: f64) -> Answer {
    if !(end > begin && end < vessel_pressure) {
        return Err(say!("the end pressure must lie between the two before it").into());
    }
    Ok(positive(say!("vessel"), vessel)? * (vessel_pressure - end)
        / (end - positive(say!("pressure"), begin)?))
}

/// The curve ΔP = a·Q + b·Q² through points, with the scatter of the points about it.
#[derive(Debug, Clone, Copy)]
pub struct FlowFit {
    /// a, Pa·s/m³.
    pub linear: f64,
    /// b, Pa·s²/m⁶.
    pub quadratic: f64,
    /// Standard uncertainty of a, from the scatter.
    pub u_linear: f64,
    /// Standard uncertainty of b, from the scatter.
    pub u_quadratic: f64,
    /// Correlation of both errors; below zero, because what one part takes the other leaves.
    pub correlation: f64,
    /// Degrees of freedom of the scatter.
    pub degrees: u64,
}

/// Water flow fit ΔP = a·Q + b·Q².
///
/// # Errors
/// Fewer than three points, a pressure that is not positive, a linear part that is not, or a quadratic
/// part that is negative beyond its doubt.
pub fn flow_resistance(q: &[f64], dp: &[f64]) -> Result<FlowFit, String> {
    let fit = flow_fit(q, dp)?;
    positive(say!("linear part"), fit.linear)?;
    Ok(fit)
}

/// The same for a housing without an element, whose linear part may be nothing.
///
/// # Errors
/// Fewer than three points, all at one flow, a pressure that is not positive, or a quadratic part that is
/// negative beyond twice its standard uncertainty: resistance never falls with flow, so the points are
/// wrong or were not taken on one element in one state.
pub fn flow_fit(q: &[f64], dp: &[f64]) -> Result<FlowFit, String> {
    if q.len() != dp.len() || q.len() < 3 {
        return Err(say!(
            "at least 3 points are needed: two points and two parameters leave no residual"
        )
        .into());
    }
    if dp.iter().chain(q).any(|x| *x <= 0.0) {
        return Err(say!("flow and pressure difference must be > 0").into());
    }
    // Scaled, so that the fourth powers of small flows keep their digits.
    let scale = q.iter().copied().fold(0.0, f64::max);
    let q: Vec<f64> = q.iter().map(|q| q / scale).collect();
    let s = |k: f64| q.iter().map(|q| libm::pow(*q, k)).sum::<f64>();
    let y = |k: f64| {
        q.iter()
            .zip(dp)
            .map(|(q, dp)| libm::pow(*q, k) * dp)
            .sum::<f64>()
    };
    let (s2, s3, s4, y1, y2) = (s(2.0), s(3.0), s(4.0), y(1.0), y(2.0));
    let d = s2 * s4 - s3 * s3;
    let (a, b) = ((y1 * s4 - y2 * s3) / d, (y2 * s2 - y1 * s3) / d);
    let ssr: f64 = q
        .iter()
        .zip(dp)
        .map(|(q, dp)| dp - a * q - b * q * q)
        .map(|r| r * r)
        .sum();
    if d <= 1e-12 * s2 * s4 {
        return Err(
            say!("all points stand at one flow: its two parts cannot be told apart").into(),
        );
    }
    let s = libm::sqrt(ssr / (q.len() as f64 - 2.0));
    let (u_linear, u_quadratic) = (s * libm::sqrt(s4 / d), s * libm::sqrt(s2 / d));
    // Points on a line exactly leave a part of either sign from rounding.
    let most = dp.iter().copied().fold(0.0, f64::max);
    if b < -2.0 * u_quadratic && -b > 1e-9 * most {
        return Err(say!(
            "the quadratic part of the resistance is negative beyond its doubt: the points contradict each other"
        )
        .into());
    }
    Ok(FlowFit {
        linear: a / scale,
        quadratic: b / (scale * scale),
        u_linear: u_linear / scale,
        u_quadratic: u_quadratic / (scale * scale),
        correlation: -s3 / libm::sqrt(s2 * s4),
        degrees: q.len() as u64 - 2,
    })
}

/// Decay of recovery per cycle and the intercept, from ln(recovery) against cycles.
///
/// # Errors
/// Fewer than three points or a recovery that is not positive.
pub fn recovery_decay(cycles: &[f64], recovery: &[f64]) -> Result<(f64, f64), String> {
    if cycles.len() != recovery.len() || cycles.len() < 3 {
        return Err(say!("at least 3 points are needed").into());
    }
    if recovery.iter().any(|r| *r <= 0.0) {
        return Err(say!("recovery must be > 0").into());
    }
    let logs: Vec<f64> = recovery.iter().map(|r| libm::log(*r)).collect();
    let line = regression::line(cycles, &logs)?;
    Ok((-line.slope, libm::exp(line.at(0.0))))
}
