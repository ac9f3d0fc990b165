//! Whether a process holds its limits with room to spare.

use super::{
    Reason, Refusal, at_least, control,
    distribution::{chi_squared_quantile, noncentral_t_cdf, normal_quantile},
    finite, probability, refuse, root,
    summary::mean_and_sd,
};

/// Limits of a characteristic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Lower limit, where there is one.
    pub lower: Option<f64>,
    /// Upper limit, where there is one.
    pub upper: Option<f64>,
}

impl Limits {
    fn checked(self) -> Result<Self, Refusal> {
        finite(
            &[self.lower, self.upper]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>(),
        )?;
        match (self.lower, self.upper) {
            (None, None) => refuse(
                Reason::MissingLimit,
                say!("no limit: capability is held against one"),
            ),
            (Some(lower), Some(upper)) if lower >= upper => refuse(
                Reason::BadLimits,
                say!(
                    "the lower limit {lower} is not below the upper {upper}",
                    lower = lower,
                    upper = upper
                ),
            ),
            _ => Ok(self),
        }
    }
}

/// Indices for limits, a mean and a standard deviation. Whether they are of short or of long run is said by
/// the standard deviation: within subgroups (Cp, Cpk) or overall (Pp, Ppk).
#[derive(Debug, Clone, Copy)]
pub struct Indices {
    /// Room between both limits over six standard deviations; two limits only.
    pub both: Option<f64>,
    /// Room to the upper limit over three standard deviations.
    pub upper: Option<f64>,
    /// Room to the lower limit over three standard deviations.
    pub lower: Option<f64>,
    /// The smaller of the two; negative where the mean is beyond a limit.
    pub nearest: f64,
}

/// The indices (ISO 22514-2, from memory; NIST/SEMATECH e-Handbook 6.1.6).
///
/// # Errors
/// No limit, limits in the wrong order, a standard deviation that is not above zero.
pub fn indices(mean: f64, sd: f64, limits: Limits) -> Result<Indices, Refusal> {
    finite(&[mean, sd])?;
    let limits = limits.checked()?;
    if sd < 0.0 {
        return refuse(
            Reason::BadSd,
            say!("{sd} is no standard deviation: it is below zero", sd = sd),
        );
    }
    if sd == 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: the resolution of the instrument hides the process"),
        );
    }
    let upper = limits.upper.map(|limit| (limit - mean) / (3.0 * sd));
    let lower = limits.lower.map(|limit| (mean - limit) / (3.0 * sd));
    Ok(Indices {
        both: limits
            .upper
            .zip(limits.lower)
            .map(|(upper, lower)| (upper - lower) / (6.0 * sd)),
        upper,
        lower,
        nearest: upper.into_iter().chain(lower).fold(f64::INFINITY, f64::min),
    })
}

/// Indices with their bounds.
#[derive(Debug, Clone, Copy)]
pub struct Capability {
    /// The indices.
    pub indices: Indices,
    /// Two-sided bounds of the index of both limits, exact for normal data.
    pub both: Option<(f64, f64)>,
    /// Two-sided bounds of the nearest index, approximate (Bissell 1990, from memory).
    pub nearest: (f64, f64),
    /// One-sided lower bound of the nearest index, exact for normal data and one limit; slightly hopeful
    /// where both limits matter.
    pub proven: f64,
}

/// Capability from a mean, a standard deviation and the number of values they came from.
///
/// # Errors
/// As [`indices`]; fewer than two values; a confidence outside (0, 1); degrees of freedom that are not positive.
pub fn capability(
    mean: f64,
    sd: f64,
    n: f64,
    degrees: f64,
    limits: Limits,
    confidence: f64,
) -> Result<Capability, Refusal> {
    let indices = indices(mean, sd, limits)?;
    at_least(n.max(0.0) as usize, 2)?;
    let tail = 0.5 * (1.0 - probability(confidence)?);
    let scaled = |p: f64| Ok(libm::sqrt(chi_squared_quantile(p, degrees)? / degrees));
    let both = match indices.both {
        None => None,
        Some(index) => Some((index * scaled(tail)?, index * scaled(1.0 - tail)?)),
    };
    let index = indices.nearest;
    let half = normal_quantile(1.0 - tail)?
        * libm::sqrt(1.0 / (9.0 * n) + index * index / (2.0 * degrees));
    Ok(Capability {
        indices,
        both,
        nearest: (index - half, index + half),
        proven: proven(index, n, degrees, confidence)?,
    })
}

/// The index c for which the observed one would be exceeded with probability 1 − confidence: a root in the
/// non-centrality of the t distribution.
fn proven(index: f64, n: f64, degrees: f64, confidence: f64) -> Result<f64, Refusal> {
    let scale = 3.0 * libm::sqrt(n);
    noncentral_t_cdf(0.0, degrees, 0.0)?;
    let f = |c: f64| {
        noncentral_t_cdf(index * scale, degrees, c * scale).unwrap_or(f64::NAN) - confidence
    };
    let (mut low, mut high, mut reach) = (index, index, 0.5 + index.abs());
    while f(low) < 0.0 && reach < 1e9 {
        low -= reach;
        reach *= 2.0;
    }
    reach = 0.5 + index.abs();
    while f(high) > 0.0 && reach < 1e9 {
        high += reach;
        reach *= 2.0;
    }
    Ok(root(f, low, high))
}

/// Overall performance (Pp, Ppk) of values.
///
/// # Errors
/// As [`capability`].
pub fn performance(x: &[f64], limits: Limits, confidence: f64) -> Result<Capability, Refusal> {
    let (mean, sd) = mean_and_sd(x)?;
    let n = x.len() as f64;
    capability(mean, sd, n, n - 1.0, limits, confidence)
}

/// Indices within subgroups and overall.
#[derive(Debug, Clone, Copy)]
pub struct Both {
    /// Mean of all.
    pub mean: f64,
    /// Standard deviation within subgroups, from their mean range.
    pub within: f64,
    /// Standard deviation of all.
    pub overall: f64,
    /// Cp, Cpk.
    pub short_run: Indices,
    /// Pp, Ppk.
    pub long_run: Indices,
}

/// Capability within subgroups of equal size beside overall performance.
///
/// # Errors
/// As [`control::subgroups`] and [`indices`].
pub fn of_subgroups(subgroups: &[Vec<f64>], limits: Limits) -> Result<Both, Refusal> {
    let chart = control::subgroups(subgroups, control::Spread::Range)?;
    let all: Vec<f64> = subgroups.iter().flatten().copied().collect();
    let (mean, overall) = mean_and_sd(&all)?;
    Ok(Both {
        mean,
        within: chart.sigma,
        overall,
        short_run: indices(mean, chart.sigma, limits)?,
        long_run: indices(mean, overall, limits)?,
    })
}
