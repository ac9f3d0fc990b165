//! Control charts: whether a process keeps its level and its spread.
//!
//! Limits from the data they judge are of phase 1: a point outside is looked into and may be left out with
//! a recorded cause. Limits that are frozen judge later data (phase 2). A point on a limit is not beyond it.

use super::{
    Reason, Refusal, at_least, count,
    distribution::range_moments,
    finite, refuse,
    summary::{mean, mean_and_sd},
};

/// Lower and upper control limit.
pub type Band = (f64, f64);

/// Indices of values beyond a band.
pub fn beyond(x: &[f64], band: Band) -> Vec<usize> {
    (0..)
        .zip(x)
        .filter(|(_, x)| **x < band.0 || **x > band.1)
        .map(|(i, _)| i)
        .collect()
}

/// Indices of values beyond bands of their own.
fn beyond_each(x: &[f64], bands: &[Band]) -> Vec<usize> {
    (0..)
        .zip(x.iter().zip(bands))
        .filter(|(_, (x, band))| **x < band.0 || **x > band.1)
        .map(|(i, _)| i)
        .collect()
}

/// Factors of charts for subgroups of n (ASTM MNL 7, table of factors), computed, not copied.
#[derive(Debug, Clone, Copy)]
pub struct Factors {
    /// Mean of the range of n standard normal values.
    pub d2: f64,
    /// Its standard deviation.
    pub d3: f64,
    /// Mean of the standard deviation of n standard normal values.
    pub c4: f64,
    /// Limits of means, in mean ranges.
    pub a2: f64,
    /// Limits of means, in mean standard deviations.
    pub a3: f64,
    /// Limits of standard deviations, in their mean.
    pub b: Band,
    /// Limits of ranges, in their mean.
    pub d: Band,
    /// Limits of individual values, in mean ranges.
    pub e2: f64,
}

/// The factors.
///
/// # Errors
/// Subgroups of fewer than two.
pub fn factors(n: usize) -> Result<Factors, Refusal> {
    let (d2, d3) = match n {
        // Mean and standard deviation of the range of two, in closed form.
        2 => (
            2.0 / libm::sqrt(std::f64::consts::PI),
            libm::sqrt(2.0 - 4.0 / std::f64::consts::PI),
        ),
        _ => range_moments(n)?,
    };
    let k = n as f64;
    let c4 = libm::sqrt(2.0 / (k - 1.0))
        * libm::exp(libm::lgamma(0.5 * k) - libm::lgamma(0.5 * (k - 1.0)));
    let around = |relative: f64| ((1.0 - 3.0 * relative).max(0.0), 1.0 + 3.0 * relative);
    Ok(Factors {
        d2,
        d3,
        c4,
        a2: 3.0 / (d2 * libm::sqrt(k)),
        a3: 3.0 / (c4 * libm::sqrt(k)),
        b: around(libm::sqrt(1.0 - c4 * c4) / c4),
        d: around(d3 / d2),
        e2: 3.0 / d2,
    })
}

/// A chart of individual values and moving ranges.
#[derive(Debug, Clone)]
pub struct Individuals {
    /// Mean of the values.
    pub centre: f64,
    /// Mean moving range.
    pub mean_range: f64,
    /// Standard deviation estimated from it (mean range over d2 = 2/√π).
    pub sigma: f64,
    /// Lower and upper control limit, three of those either side.
    pub limits: Band,
    /// Upper limit of the moving range.
    pub range_limit: f64,
    /// Indices of values beyond their limits.
    pub beyond: Vec<usize>,
    /// Indices (of the later value) of moving ranges beyond theirs.
    pub range_beyond: Vec<usize>,
}

/// Control limits for individual values in production order (NIST/SEMATECH e-Handbook of
/// Statistical Methods, 6.3.2.2).
///
/// # Errors
/// Fewer than two values.
pub fn individuals(x: &[f64]) -> Result<Individuals, Refusal> {
    let (centre, _) = mean_and_sd(x)?;
    let ranges: Vec<f64> = x.array_windows().map(|[a, b]| (b - a).abs()).collect();
    let mean_range = mean(&ranges)?;
    let factors = factors(2)?;
    let sigma = mean_range / factors.d2;
    let limits = (centre - 3.0 * sigma, centre + 3.0 * sigma);
    let range_limit = mean_range * factors.d.1;
    Ok(Individuals {
        centre,
        mean_range,
        sigma,
        limits,
        range_limit,
        beyond: beyond(x, limits),
        range_beyond: beyond(&ranges, (f64::NEG_INFINITY, range_limit))
            .into_iter()
            .map(|i| i + 1)
            .collect(),
    })
}

/// How the spread within a subgroup is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spread {
    /// By its range; for subgroups up to ten.
    Range,
    /// By its standard deviation.
    Deviation,
}

/// A chart of the means and the spreads of subgroups.
#[derive(Debug, Clone)]
pub struct Subgroups {
    /// Mean of the means.
    pub centre: f64,
    /// Mean range or standard deviation.
    pub spread: f64,
    /// Standard deviation within subgroups.
    pub sigma: f64,
    /// Limits of the means.
    pub limits: Band,
    /// Limits of the spreads.
    pub spread_limits: Band,
    /// Subgroups whose mean is beyond its limits.
    pub beyond: Vec<usize>,
    /// Subgroups whose spread is beyond its limits.
    pub spread_beyond: Vec<usize>,
}

/// Means of subgroups.
fn means(subgroups: &[Vec<f64>]) -> Result<Vec<f64>, Refusal> {
    subgroups.iter().map(|subgroup| mean(subgroup)).collect()
}

/// Limits for means and spreads of subgroups (ISO 7870-2, from memory; NIST/SEMATECH e-Handbook 6.3.2.1).
///
/// # Errors
/// Fewer than two subgroups, subgroups of one, or of different size.
pub fn subgroups(subgroups: &[Vec<f64>], by: Spread) -> Result<Subgroups, Refusal> {
    subgroups.iter().try_for_each(|subgroup| finite(subgroup))?;
    let size = subgroups.first().map_or(0, Vec::len);
    if subgroups.iter().any(|subgroup| subgroup.len() != size) {
        return refuse(Reason::Unbalanced, say!("the subgroups differ in size"));
    }
    at_least(size, 2)?;
    at_least(subgroups.len(), 2)?;
    let means = means(subgroups)?;
    let spreads = subgroups
        .iter()
        .map(|subgroup| match by {
            Spread::Range => {
                let (low, high) = subgroup
                    .iter()
                    .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
                        (low.min(*x), high.max(*x))
                    });
                Ok(high - low)
            }
            Spread::Deviation => Ok(mean_and_sd(subgroup)?.1),
        })
        .collect::<Result<Vec<f64>, Refusal>>()?;
    let factors = factors(size)?;
    let (centre, spread) = (mean(&means)?, mean(&spreads)?);
    let (unit, band) = match by {
        Spread::Range => (factors.d2, factors.d),
        Spread::Deviation => (factors.c4, factors.b),
    };
    let sigma = spread / unit;
    let half = 3.0 * sigma / libm::sqrt(size as f64);
    let (limits, spread_limits) = (
        (centre - half, centre + half),
        (band.0 * spread, band.1 * spread),
    );
    Ok(Subgroups {
        centre,
        spread,
        sigma,
        limits,
        spread_limits,
        beyond: beyond(&means, limits),
        spread_beyond: beyond(&spreads, spread_limits),
    })
}

impl Subgroups {
    /// Later subgroups whose mean is beyond these limits.
    ///
    /// # Errors
    /// An empty subgroup, or a value that is not finite.
    pub fn later_beyond(&self, later: &[Vec<f64>]) -> Result<Vec<usize>, Refusal> {
        Ok(beyond(&means(later)?, self.limits))
    }
}

/// A chart of counts: one pair of limits a point.
#[derive(Debug, Clone)]
pub struct Counts {
    /// Mean share, count or rate.
    pub centre: f64,
    /// Limits of each point.
    pub limits: Vec<Band>,
    /// Points beyond their limits.
    pub beyond: Vec<usize>,
    /// Variance of the standardised points: near 1 where the counts are binomial or Poisson, and far above it
    /// where other causes widen them, so that the limits are too narrow.
    pub dispersion: f64,
}

fn counts(points: &[f64], centre: f64, spreads: &[f64], most: f64) -> Result<Counts, Refusal> {
    at_least(points.len(), 2)?;
    let limits: Vec<Band> = spreads
        .iter()
        .map(|spread| {
            let half = 3.0 * spread;
            ((centre - half).max(0.0), (centre + half).min(most))
        })
        .collect();
    let squares: f64 = points
        .iter()
        .zip(spreads)
        .map(|(point, spread)| (point - centre) / spread)
        .filter(|z| z.is_finite())
        .map(|z| z * z)
        .sum();
    Ok(Counts {
        centre,
        beyond: beyond_each(points, &limits),
        dispersion: squares / (points.len() as f64 - 1.0),
        limits,
    })
}

fn failed(d: &[f64], n: &[f64]) -> Result<(), Refusal> {
    finite(d)?;
    finite(n)?;
    if d.len() != n.len() {
        return refuse(
            Reason::LengthMismatch,
            say!(
                "{count} counts stand beside {n} sizes",
                count = d.len(),
                n = n.len()
            ),
        );
    }
    d.iter().try_for_each(|d| count(*d).map(drop))?;
    n.iter().try_for_each(|n| count(*n).map(drop))?;
    if let Some(n) = n.iter().find(|n| **n < 1.0) {
        return refuse(Reason::NonPositiveExposure, say!("a sample of {n}", n = n));
    }
    match d.iter().zip(n).find(|(d, n)| d > n) {
        Some((d, n)) => refuse(
            Reason::CountExceedsN,
            say!("{d} failed of {n}", d = d, n = n),
        ),
        None => at_least(d.len(), 2),
    }
}

/// Shares that failed (NIST/SEMATECH e-Handbook 6.3.3.2). Limits by normal approximation: below about five
/// expected failures a sample they are too wide below and too narrow above, and the page says so.
///
/// # Errors
/// Counts that cannot be, lists of different length.
pub fn shares(d: &[f64], n: &[f64]) -> Result<Counts, Refusal> {
    failed(d, n)?;
    let p = d.iter().sum::<f64>() / n.iter().sum::<f64>();
    let points: Vec<f64> = d.iter().zip(n).map(|(d, n)| d / n).collect();
    let spreads: Vec<f64> = n.iter().map(|n| libm::sqrt(p * (1.0 - p) / n)).collect();
    counts(&points, p, &spreads, 1.0)
}

/// Numbers that failed in samples of one size.
///
/// # Errors
/// As [`shares`].
pub fn numbers(d: &[f64], n: f64) -> Result<Counts, Refusal> {
    failed(d, &vec![n; d.len()])?;
    let p = d.iter().sum::<f64>() / (n * d.len() as f64);
    let spreads = vec![libm::sqrt(n * p * (1.0 - p)); d.len()];
    counts(d, n * p, &spreads, n)
}

/// Counts of defects in samples of one extent (NIST/SEMATECH e-Handbook 6.3.3.1).
///
/// # Errors
/// Counts that cannot be.
pub fn defects(c: &[f64]) -> Result<Counts, Refusal> {
    finite(c)?;
    c.iter().try_for_each(|c| count(*c).map(drop))?;
    at_least(c.len(), 2)?;
    let centre = mean(c)?;
    counts(c, centre, &vec![libm::sqrt(centre); c.len()], f64::INFINITY)
}

/// Defects per unit of extent.
///
/// # Errors
/// Counts or extents that cannot be, lists of different length.
pub fn rates(c: &[f64], extent: &[f64]) -> Result<Counts, Refusal> {
    finite(c)?;
    finite(extent)?;
    if c.len() != extent.len() {
        return refuse(
            Reason::LengthMismatch,
            say!(
                "{count} counts stand beside {extent} extents",
                count = c.len(),
                extent = extent.len()
            ),
        );
    }
    c.iter().try_for_each(|c| count(*c).map(drop))?;
    if let Some(x) = extent.iter().find(|x| **x <= 0.0) {
        return refuse(Reason::NonPositiveExposure, say!("an extent of {x}", x = x));
    }
    at_least(c.len(), 2)?;
    let centre = c.iter().sum::<f64>() / extent.iter().sum::<f64>();
    let points: Vec<f64> = c.iter().zip(extent).map(|(c, n)| c / n).collect();
    let spreads: Vec<f64> = extent.iter().map(|n| libm::sqrt(centre / n)).collect();
    counts(&points, centre, &spreads, f64::INFINITY)
}

/// A chart of weighted means.
#[derive(Debug, Clone)]
pub struct Weighted {
    /// Weighted mean after each value.
    pub z: Vec<f64>,
    /// Limits at each value.
    pub limits: Vec<Band>,
    /// Limits after many values.
    pub steady: Band,
    /// Points beyond the limits at their value, and beyond the steady ones.
    pub beyond: (Vec<usize>, Vec<usize>),
}

fn level(target: f64, sigma: f64) -> Result<(), Refusal> {
    finite(&[target, sigma])?;
    match sigma {
        s if s < 0.0 => refuse(Reason::BadSd, say!("{s} is no standard deviation", s = s)),
        0.0 => refuse(Reason::ZeroVariance, say!("a standard deviation of zero")),
        _ => Ok(()),
    }
}

/// Exponentially weighted means about a target, for slow drift (NIST/SEMATECH e-Handbook 6.3.2.4).
///
/// # Errors
/// No value; a weight outside (0, 1]; a width or a standard deviation that is not above zero.
pub fn weighted(
    x: &[f64],
    target: f64,
    sigma: f64,
    weight: f64,
    width: f64,
) -> Result<Weighted, Refusal> {
    finite(x)?;
    at_least(x.len(), 1)?;
    level(target, sigma)?;
    finite(&[weight, width])?;
    if !(weight > 0.0 && weight <= 1.0 && width > 0.0) {
        return refuse(
            Reason::BadParameter,
            say!(
                "a weight of {weight} with limits at {width}",
                weight = weight,
                width = width
            ),
        );
    }
    let half = width * sigma * libm::sqrt(weight / (2.0 - weight));
    let (mut z, mut limits, mut now) = (Vec::new(), Vec::new(), target);
    for (i, x) in x.iter().enumerate() {
        now = weight * x + (1.0 - weight) * now;
        z.push(now);
        let grown = 1.0 - libm::pow(1.0 - weight, 2.0 * (i as f64 + 1.0));
        let half = half * libm::sqrt(grown);
        limits.push((target - half, target + half));
    }
    let steady = (target - half, target + half);
    Ok(Weighted {
        beyond: (beyond_each(&z, &limits), beyond(&z, steady)),
        z,
        limits,
        steady,
    })
}

/// A chart of cumulative sums.
#[derive(Debug, Clone)]
pub struct Cumulative {
    /// Sum of excess above the target after each value.
    pub upper: Vec<f64>,
    /// Sum of what is missing below it.
    pub lower: Vec<f64>,
    /// Points at which each is beyond its limit.
    pub signals: (Vec<usize>, Vec<usize>),
}

/// Cumulative sums about a target; slack and limit in standard deviations (ISO 7870-4, from memory; NIST/SEMATECH e-Handbook 6.3.2.3).
///
/// # Errors
/// No value; a slack below zero; a limit or a standard deviation that is not above zero.
pub fn cumulative(
    x: &[f64],
    target: f64,
    sigma: f64,
    slack: f64,
    limit: f64,
) -> Result<Cumulative, Refusal> {
    finite(x)?;
    at_least(x.len(), 1)?;
    level(target, sigma)?;
    finite(&[slack, limit])?;
    if !(slack >= 0.0 && limit > 0.0) {
        return refuse(
            Reason::BadParameter,
            say!(
                "a slack of {slack} with a limit at {limit}",
                slack = slack,
                limit = limit
            ),
        );
    }
    let sums = |side: f64| {
        let mut now = 0.0_f64;
        x.iter()
            .map(|x| {
                now = (now + side * (x - target) - slack * sigma).max(0.0);
                now
            })
            .collect::<Vec<f64>>()
    };
    let (upper, lower) = (sums(1.0), sums(-1.0));
    let band = (f64::NEG_INFINITY, limit * sigma);
    Ok(Cumulative {
        signals: (beyond(&upper, band), beyond(&lower, band)),
        upper,
        lower,
    })
}
