//! Statistics that figures and trends use.

use statrs::distribution::{ChiSquared, Continuous, ContinuousCDF, Normal, StudentsT};

/// A quantile of a continuous distribution, polished by Newton's method on its own distribution
/// function: library quantiles alone lose digits in the tails.
fn polish<D: ContinuousCDF<f64, f64> + Continuous<f64, f64>>(d: &D, p: f64, low: f64) -> f64 {
    let mut x = d.inverse_cdf(p);
    for _ in 0..4 {
        let error = if p > 0.5 {
            (1.0 - p) - d.sf(x)
        } else {
            d.cdf(x) - p
        };
        let step = error / d.pdf(x);
        if !step.is_finite() {
            break;
        }
        x = (x - step).max(low);
    }
    x
}

fn probability(p: f64) -> Result<f64, String> {
    match p > 0.0 && p < 1.0 {
        true => Ok(p),
        false => Err(format!("{p} is no probability between 0 and 1")),
    }
}

/// Quantile of the chi-squared distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn chi_squared_quantile(p: f64, degrees: f64) -> Result<f64, String> {
    let d = ChiSquared::new(degrees)
        .map_err(|_| format!("{degrees} is no number of degrees of freedom"))?;
    Ok(polish(&d, probability(p)?, 0.0))
}

/// Quantile of Student's t distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn t_quantile(p: f64, degrees: f64) -> Result<f64, String> {
    let d = StudentsT::new(0.0, 1.0, degrees)
        .map_err(|_| format!("{degrees} is no number of degrees of freedom"))?;
    Ok(polish(&d, probability(p)?, f64::NEG_INFINITY))
}

/// Quantile of the standard normal distribution.
///
/// # Errors
/// A probability outside (0, 1).
pub fn normal_quantile(p: f64) -> Result<f64, String> {
    Ok(polish(
        &Normal::standard(),
        probability(p)?,
        f64::NEG_INFINITY,
    ))
}

/// The standard normal distribution function.
pub fn normal_cdf(z: f64) -> f64 {
    Normal::standard().cdf(z)
}

/// One-sided upper bound of the mean of a Poisson count (Garwood 1936).
///
/// # Errors
/// A negative or broken count, or a confidence outside (0, 1).
pub fn poisson_upper(count: f64, confidence: f64) -> Result<f64, String> {
    if count < 0.0 || count != count.trunc() {
        return Err(format!("{count} is no count"));
    }
    Ok(0.5 * chi_squared_quantile(confidence, 2.0 * (count + 1.0))?)
}

/// One-sided lower bound of the mean of a Poisson count; zero for a count of zero.
///
/// # Errors
/// As [`poisson_upper`].
pub fn poisson_lower(count: f64, confidence: f64) -> Result<f64, String> {
    match count {
        0.0 => Ok(0.0),
        _ if count < 0.0 || count != count.trunc() => Err(format!("{count} is no count")),
        _ => Ok(0.5 * chi_squared_quantile(1.0 - confidence, 2.0 * count)?),
    }
}

/// Mean and standard deviation with n − 1, in two passes with a correction, so that a large mean
/// does not eat the digits of the spread (Chan, Golub and LeVeque 1983, from memory).
///
/// # Errors
/// Fewer than two values.
pub fn mean_and_sd(x: &[f64]) -> Result<(f64, f64), String> {
    if x.len() < 2 {
        return Err(format!("{} values, and at least 2 are needed", x.len()));
    }
    let n = x.len() as f64;
    // Shifting by the first value keeps differences exact where values share leading digits.
    let shift = x[0];
    let rough = x.iter().map(|x| x - shift).sum::<f64>() / n;
    let rest = x.iter().map(|x| (x - shift) - rough).sum::<f64>() / n;
    let centre = rough + rest;
    let squares: f64 = x
        .iter()
        .map(|x| ((x - shift) - centre) * ((x - shift) - centre))
        .sum();
    let drift: f64 = x.iter().map(|x| (x - shift) - centre).sum();
    Ok((
        shift + centre,
        libm::sqrt((squares - drift * drift / n) / (n - 1.0)),
    ))
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
    pub limits: (f64, f64),
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
pub fn individuals(x: &[f64]) -> Result<Individuals, String> {
    let (centre, _) = mean_and_sd(x)?;
    let ranges: Vec<f64> = x.windows(2).map(|pair| (pair[1] - pair[0]).abs()).collect();
    let mean_range = ranges.iter().sum::<f64>() / ranges.len() as f64;
    // Mean and standard deviation of the range of two standard normal values.
    let pi = std::f64::consts::PI;
    let (d2, d3) = (2.0 / libm::sqrt(pi), libm::sqrt(2.0 - 4.0 / pi));
    let sigma = mean_range / d2;
    let limits = (centre - 3.0 * sigma, centre + 3.0 * sigma);
    let range_limit = mean_range * (1.0 + 3.0 * d3 / d2);
    let beyond = (0..x.len())
        .filter(|i| x[*i] < limits.0 || x[*i] > limits.1)
        .collect();
    let range_beyond = (0..ranges.len())
        .filter(|i| ranges[*i] > range_limit)
        .map(|i| i + 1)
        .collect();
    Ok(Individuals {
        centre,
        mean_range,
        sigma,
        limits,
        range_limit,
        beyond,
        range_beyond,
    })
}

/// Quantile of the beta distribution.
///
/// # Errors
/// A probability outside (0, 1) or a parameter that is not positive.
pub fn beta_quantile(p: f64, a: f64, b: f64) -> Result<f64, String> {
    let d = statrs::distribution::Beta::new(a, b)
        .map_err(|_| format!("{a}, {b} are no parameters of a beta distribution"))?;
    let p = probability(p)?;
    let mut x = d.inverse_cdf(p);
    for _ in 0..6 {
        let step = (d.cdf(x) - p) / d.pdf(x);
        if !step.is_finite() {
            break;
        }
        x = (x - step).clamp(1e-300, 1.0 - 1e-16);
    }
    Ok(x)
}

/// Autocorrelation of neighbours, about the mean.
///
/// # Errors
/// Fewer than two values, or values that are all equal.
pub fn lag1_autocorrelation(x: &[f64]) -> Result<f64, String> {
    let (mean, _) = mean_and_sd(x)?;
    let all: f64 = x.iter().map(|x| (x - mean) * (x - mean)).sum();
    if all == 0.0 {
        return Err("all values are equal: there is no spread to be correlated".into());
    }
    let neighbours: f64 = x
        .windows(2)
        .map(|pair| (pair[0] - mean) * (pair[1] - mean))
        .sum();
    Ok(neighbours / all)
}
