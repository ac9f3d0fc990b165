//! The join residual, what it can see, and the hole that would explain it.

use super::{Answer, GAS_CONSTANT, fluid, kelvin, positive};
use crate::stats;

/// Flow of the whole minus the sum of its parts, m³/s.
///
/// # Errors
/// A missing part, or a residual below −1.645 u.
pub fn residual(
    whole: f64,
    parts: &[f64],
    expected_parts: Option<usize>,
    u: Option<f64>,
) -> Answer {
    if parts.is_empty() || expected_parts.is_some_and(|n| n != parts.len()) {
        return Err(say!("a module's flow is missing").into());
    }
    let r = super::finite(whole - parts.iter().sum::<f64>())?;
    match u {
        Some(u) if r < -1.645 * u => {
            Err(say!("the assembly leaks less than its parts: data inconsistent").into())
        }
        _ => Ok(r),
    }
}

/// Contributions to the uncertainty of a residual whose tests share a gain and an offset error.
pub struct Doubts {
    /// Repeatability of the whole, m³/s.
    pub whole: f64,
    /// Repeatability of each part, m³/s.
    pub parts: Vec<f64>,
    /// Common relative gain error.
    pub gain: f64,
    /// Common offset error, m³/s.
    pub offset: f64,
}

impl Doubts {
    /// Standard uncertainty of a residual, m³/s: a shared gain acts on the residual alone, a shared
    /// offset n − 1 times.
    pub fn u(&self, residual: f64) -> f64 {
        let own = self.whole * self.whole + self.parts.iter().map(|u| u * u).sum::<f64>();
        let offset = (1.0 - self.parts.len() as f64) * self.offset;
        libm::sqrt(own + residual * self.gain * residual * self.gain + offset * offset)
    }

    /// Decision threshold, m³/s (ISO 11929-1 scheme, Currie 1968; from memory).
    ///
    /// # Errors
    /// A probability outside 0 to 1.
    pub fn threshold(&self, alpha: f64) -> Answer {
        Ok(stats::distribution::normal_quantile(1.0 - alpha)? * self.u(0.0))
    }

    /// Detection limit, m³/s: the smallest residual that is found with probability 1 − β.
    ///
    /// # Errors
    /// A probability outside 0 to 1, or a gain error too large for any limit.
    pub fn detection_limit(&self, alpha: f64, beta: f64) -> Answer {
        let (threshold, z) = (
            self.threshold(alpha)?,
            stats::distribution::normal_quantile(1.0 - beta)?,
        );
        // r − threshold = z·u(r), squared: a quadratic in r.
        let (u0, g) = (self.u(0.0), self.gain);
        let (a, b, c) = (
            1.0 - z * z * g * g,
            -2.0 * threshold,
            threshold * threshold - z * z * u0 * u0,
        );
        positive(say!("detection limit's denominator"), a)?;
        Ok((-b + libm::sqrt(b * b - 4.0 * a * c)) / (2.0 * a))
    }
}

/// Ratio of pressures below which a gas flow is choked.
///
/// # Errors
/// A ratio of heat capacities that is not above 1.
pub fn critical_ratio(kappa: f64) -> Answer {
    positive(say!("ratio of heat capacities - 1"), kappa - 1.0)?;
    Ok(libm::pow(2.0 / (kappa + 1.0), kappa / (kappa - 1.0)))
}

/// A gas jet through a sharp-edged hole.
pub struct Jet {
    /// Flow at reference conditions, m³/s.
    pub flow: f64,
    /// Reference pressure, Pa.
    pub p_ref: f64,
    /// Reference temperature, K.
    pub t_ref: f64,
    /// Absolute pressure upstream, Pa.
    pub upstream: f64,
    /// Absolute pressure downstream, Pa.
    pub downstream: f64,
    /// Gas temperature, K.
    pub t: f64,
    /// Molar mass, kg/mol.
    pub molar_mass: f64,
    /// Ratio of heat capacities.
    pub kappa: f64,
    /// Discharge coefficient.
    pub discharge: f64,
}

impl Jet {
    /// Diameter of the hole, m: isentropic nozzle flow of an ideal gas, choked or not as asked.
    ///
    /// # Errors
    /// A flow that is not positive, or the other regime than the pressures give.
    pub fn diameter(&self, choked: bool) -> Answer {
        let flow = positive(say!("leak flow above its decision threshold"), self.flow)?;
        positive(say!("reference pressure"), self.p_ref)?;
        kelvin(self.t_ref, 200.0, 400.0)?;
        kelvin(self.t, 200.0, 500.0)?;
        if self.discharge > 1.0 {
            return Err(say!("a discharge coefficient above 1").into());
        }
        // From hydrogen to the heaviest gas that is used; more is g/mol written as kg/mol.
        if self.molar_mass > 0.5 {
            return Err(say!("a molar mass above 0.5 kg/mol: g/mol written as kg/mol?").into());
        }
        let (x, critical) = (
            positive(say!("downstream"), self.downstream)?
                / positive(say!("upstream"), self.upstream)?,
            critical_ratio(self.kappa)?,
        );
        if x >= 1.0 {
            return Err(say!("the upstream pressure is not above the downstream pressure").into());
        }
        if choked != (x <= critical) {
            let regime = if choked { say!("not choked") } else { "choked" };
            return Err(say!(
                "pressure ratio {x} against {critical}: the flow is {regime}",
                x = format_args!("{:.4}", x),
                critical = format_args!("{:.4}", critical),
                regime = regime
            ));
        }
        let k = self.kappa;
        let psi = match choked {
            true => libm::sqrt(k) * libm::pow(2.0 / (k + 1.0), (k + 1.0) / (2.0 * (k - 1.0))),
            false => libm::sqrt(
                2.0 * k / (k - 1.0) * (libm::pow(x, 2.0 / k) - libm::pow(x, (k + 1.0) / k)),
            ),
        };
        let mass = flow * self.p_ref / (GAS_CONSTANT * self.t_ref)
            * positive(say!("molar mass"), self.molar_mass)?;
        let area = mass * libm::sqrt(GAS_CONSTANT * self.t / self.molar_mass)
            / (positive(say!("discharge coefficient"), self.discharge)? * self.upstream * psi);
        Ok(libm::sqrt(4.0 * area / std::f64::consts::PI))
    }
}

/// Diameter of a laminar passage, m: isothermal ideal gas through a round tube of a length.
///
/// # Errors
/// A number that is not positive, or no pressure difference.
#[allow(clippy::too_many_arguments)]
pub fn laminar_diameter(
    flow: f64,
    p_ref: f64,
    t_ref: f64,
    upstream: f64,
    downstream: f64,
    t: f64,
    viscosity: f64,
    length: f64,
) -> Answer {
    let moles = positive(say!("leak flow"), flow)? * positive(say!("reference pressure"), p_ref)?
        / (GAS_CONSTANT * kelvin(t_ref, 200.0, 400.0)?);
    kelvin(t, 200.0, 500.0)?;
    let (up, down) = (
        positive(say!("upstream"), upstream)?,
        positive(say!("downstream"), downstream)?,
    );
    let drive = positive(say!("pressure difference"), up * up - down * down)?;
    Ok(libm::pow(
        256.0
            * positive(say!("viscosity"), viscosity)?
            * GAS_CONSTANT
            * t
            * positive(say!("length"), length)?
            * moles
            / (std::f64::consts::PI * drive),
        0.25,
    ))
}

/// Log reduction that a hole in an otherwise perfect filter leaves: total liquid flow over leak flow.
///
/// # Errors
/// A number that is not positive.
pub fn bypass_log_reduction(
    hole: f64,
    discharge: f64,
    pressure: f64,
    t: f64,
    total: f64,
) -> Answer {
    let speed = libm::sqrt(2.0 * positive(say!("pressure"), pressure)? / fluid::density(t, 1e5)?);
    let leak = positive(say!("discharge coefficient"), discharge)?
        * std::f64::consts::PI
        * positive(say!("diameter"), hole)?
        * hole
        / 4.0
        * speed;
    Ok(libm::log10(positive(say!("total flow"), total)? / leak))
}
