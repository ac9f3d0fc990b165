//! What most of a population keeps, by a sample of it.

use super::{
    Reason, Refusal, at_least,
    distribution::{
        beta_quantile, chi_squared_quantile, chi_squared_tail, integral, noncentral_t_quantile,
        normal_cdf, normal_density, normal_quantile,
    },
    probability, refuse, root, smallest,
    summary::mean_and_sd,
};

/// Factor k of the one-sided tolerance limit mean ± k s of normal data (ISO 16269-6, from memory; NIST/SEMATECH e-Handbook 7.2.6.3).
///
/// # Errors
/// Fewer than two values; coverage or confidence outside (0, 1).
pub fn factor_one_sided(n: usize, coverage: f64, confidence: f64) -> Result<f64, Refusal> {
    at_least(n, 2)?;
    let (n, z) = (n as f64, normal_quantile(coverage)?);
    let t = noncentral_t_quantile(confidence, n - 1.0, z * libm::sqrt(n))?;
    Ok(t / libm::sqrt(n))
}

/// Factor k of the two-sided tolerance interval mean ± k s of normal data, by integration over the mean
/// (Krishnamoorthy and Mathew, Statistical Tolerance Regions, formula from memory).
///
/// # Errors
/// As [`factor_one_sided`].
pub fn factor_two_sided(n: usize, coverage: f64, confidence: f64) -> Result<f64, Refusal> {
    let start = factor_howe(n, coverage, confidence)?;
    let (n, nu) = (n as f64, n as f64 - 1.0);
    // Half the width about a mean z off that covers the share.
    let half = |z: f64| {
        let f = |r: f64| normal_cdf(z + r) - normal_cdf(z - r) - coverage;
        let mut high = 1.0 + z;
        while f(high) < 0.0 && high < 1e3 {
            high *= 2.0;
        }
        // Newton's steps from the halved bracket: the integral asks for many of these.
        let mut r = {
            let (mut low, mut top) = (0.0, high);
            for _ in 0..12 {
                let middle = 0.5 * (low + top);
                match f(middle) < 0.0 {
                    true => low = middle,
                    false => top = middle,
                }
            }
            0.5 * (low + top)
        };
        for _ in 0..6 {
            r -= f(r) / (normal_density(z + r) + normal_density(z - r));
        }
        r
    };
    let reach = 9.0 / libm::sqrt(n);
    let nodes = std::cell::RefCell::new(Vec::new());
    integral(
        |z| {
            nodes.borrow_mut().push((z, half(z)));
            0.0
        },
        0.0,
        reach,
        8,
    );
    let nodes = nodes.into_inner();
    let covered = |k: f64| {
        // The rule asks for the same places in the same order.
        let places = std::cell::RefCell::new(nodes.iter());
        let weight = 2.0 * libm::sqrt(n / (2.0 * std::f64::consts::PI));
        integral(
            |z| {
                let (_, r) = places.borrow_mut().next().copied().unwrap_or((z, f64::NAN));
                let tail = chi_squared_tail(nu * r * r / (k * k), nu).unwrap_or(f64::NAN);
                weight * libm::exp(-0.5 * n * z * z) * tail
            },
            0.0,
            reach,
            8,
        ) - confidence
    };
    let (mut low, mut high) = (0.9 * start, 1.1 * start);
    while covered(low) > 0.0 {
        low *= 0.5;
    }
    while covered(high) < 0.0 {
        high *= 2.0;
    }
    Ok(root(covered, low, high))
}

/// Howe's approximation of the two-sided factor, as a start and for comparison.
///
/// # Errors
/// As [`factor_one_sided`].
pub fn factor_howe(n: usize, coverage: f64, confidence: f64) -> Result<f64, Refusal> {
    at_least(n, 2)?;
    let (nu, p) = (n as f64 - 1.0, probability(coverage)?);
    let chi = chi_squared_quantile(1.0 - probability(confidence)?, nu)?;
    Ok(normal_quantile(0.5 * (1.0 + p))? * libm::sqrt(nu * (1.0 + 1.0 / n as f64) / chi))
}

/// Which end of a population is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Nothing below.
    Lower,
    /// Nothing above.
    Upper,
    /// Neither.
    Both,
}

/// A tolerance interval of normal data.
#[derive(Debug, Clone, Copy)]
pub struct Interval {
    /// Factor of the standard deviation.
    pub k: f64,
    /// Lower end, where it is held.
    pub lower: Option<f64>,
    /// Upper end, where it is held.
    pub upper: Option<f64>,
}

/// Interval that holds a share of the population with a confidence, for normal data.
///
/// # Errors
/// Fewer than two values, values that are all equal, coverage or confidence outside (0, 1).
pub fn interval(
    x: &[f64],
    coverage: f64,
    confidence: f64,
    side: Side,
) -> Result<Interval, Refusal> {
    let (mean, sd) = mean_and_sd(x)?;
    if sd == 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: the resolution of the instrument hides their spread"),
        );
    }
    let k = match side {
        Side::Both => factor_two_sided(x.len(), coverage, confidence)?,
        _ => factor_one_sided(x.len(), coverage, confidence)?,
    };
    Ok(Interval {
        k,
        lower: (side != Side::Upper).then_some(mean - k * sd),
        upper: (side != Side::Lower).then_some(mean + k * sd),
    })
}

/// Confidence that an interval between values of the sample, `left_out` of which lie at or beyond its ends,
/// holds a share of the population, whatever its distribution (Wilks 1941; ISO 16269-6, from memory).
///
/// # Errors
/// A coverage outside (0, 1); fewer values than are left out.
pub fn free_confidence(n: u64, left_out: u64, coverage: f64) -> Result<f64, Refusal> {
    let p = probability(coverage)?;
    if left_out == 0 {
        return refuse(
            Reason::BadParameter,
            say!("an interval leaves out at least one end"),
        );
    }
    at_least(n as usize, left_out as usize)?;
    let (n, m) = (n as f64, left_out as f64);
    Ok(super::incomplete::beta_tails(1.0 - p, p, m, n - m + 1.0).0)
}

/// The smallest sample whose interval reaches a confidence, and the confidence it has.
///
/// # Errors
/// Coverage or confidence outside (0, 1).
pub fn free_sample(left_out: u64, coverage: f64, confidence: f64) -> Result<(u64, f64), Refusal> {
    probability(confidence)?;
    free_confidence(left_out.max(1), left_out, coverage)?;
    let reached = |n: u64| {
        free_confidence(n, left_out, coverage)
            .is_ok_and(|c| c >= confidence * (1.0 - super::proportion::SLACK))
    };
    match smallest(left_out, 1 << 40, reached) {
        Some(n) => Ok((n, free_confidence(n, left_out, coverage)?)),
        None => refuse(
            Reason::BadProbability,
            say!("no sample of a countable size reaches it"),
        ),
    }
}

/// The share that such an interval holds with a confidence.
///
/// # Errors
/// A confidence outside (0, 1); fewer values than are left out.
pub fn free_coverage(n: u64, left_out: u64, confidence: f64) -> Result<f64, Refusal> {
    let tail = 1.0 - probability(confidence)?;
    free_confidence(n, left_out, 0.5)?;
    beta_quantile(tail, (n - left_out) as f64 + 1.0, left_out as f64)
}
