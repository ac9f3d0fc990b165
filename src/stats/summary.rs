//! Mean, spread, neighbours: the base of every other figure.

use super::{
    Reason, Refusal, at_least,
    distribution::{chi_squared_quantile, t_quantile},
    finite, probability, refuse, rounding,
};

/// Mean and standard deviation with n − 1, in two passes with a correction, so that a large mean
/// does not eat the digits of the spread (Chan, Golub and LeVeque 1983, from memory). Values that
/// differ by rounding alone have a standard deviation of zero.
///
/// # Errors
/// Fewer than two values; a value that is not finite.
pub fn mean_and_sd(x: &[f64]) -> Result<(f64, f64), Refusal> {
    finite(x)?;
    at_least(x.len(), 2)?;
    // Squares of what is very large or very small are beyond the range of numbers.
    let most = x.iter().fold(0.0, |most: f64, x| most.max(x.abs()));
    if most > 1e150 || (most > 0.0 && most < 1e-150) {
        let scale = libm::exp2(libm::ceil(libm::log2(most)).min(1023.0));
        let near: Vec<f64> = x.iter().map(|x| x / scale).collect();
        let (mean, sd) = mean_and_sd(&near)?;
        return Ok((mean * scale, sd * scale));
    }
    let n = x.len() as f64;
    let (shift, centre) = centre(x);
    let squares: f64 = x
        .iter()
        .map(|x| ((x - shift) - centre) * ((x - shift) - centre))
        .sum();
    let drift: f64 = x.iter().map(|x| (x - shift) - centre).sum();
    let sd = libm::sqrt((squares - drift * drift / n).max(0.0) / (n - 1.0));
    // A spread that rounding alone gives is none: a test against it would find a difference in nothing.
    let spread = if sd > rounding(x) { sd } else { 0.0 };
    Ok((shift + centre, spread))
}

/// The first value, and the mean of the differences from it: shifting by a value of the data keeps
/// differences exact where values share leading digits.
fn centre(x: &[f64]) -> (f64, f64) {
    let n = x.len() as f64;
    let shift = x.first().copied().unwrap_or(f64::NAN);
    let rough = x.iter().map(|x| x - shift).sum::<f64>() / n;
    let rest = x.iter().map(|x| (x - shift) - rough).sum::<f64>() / n;
    (shift, rough + rest)
}

/// Mean of values.
///
/// # Errors
/// No value; a value that is not finite.
pub fn mean(x: &[f64]) -> Result<f64, Refusal> {
    finite(x)?;
    at_least(x.len(), 1)?;
    let (shift, centre) = centre(x);
    Ok(shift + centre)
}

/// Middle of the sorted values; the mean of the two middle ones of an even number.
///
/// # Errors
/// No value; a value that is not finite.
pub fn median(x: &[f64]) -> Result<f64, Refusal> {
    finite(x)?;
    at_least(x.len(), 1)?;
    Ok(middle(&sorted(x)))
}

/// The median of values in rising order; no number where there is none.
fn middle(sorted: &[f64]) -> f64 {
    match sorted.split_at(sorted.len() / 2) {
        ([.., a], [b, ..]) if sorted.len().is_multiple_of(2) => 0.5 * (a + b),
        (_, [middle, ..]) => *middle,
        _ => f64::NAN,
    }
}

/// Values in rising order.
pub fn sorted(x: &[f64]) -> Vec<f64> {
    let mut x = x.to_vec();
    x.sort_unstable_by(f64::total_cmp);
    x
}

/// Lower and upper bound of the mean at a two-sided confidence (NIST/SEMATECH e-Handbook 1.3.5.2).
///
/// # Errors
/// As [`mean_and_sd`]; a confidence outside (0, 1).
pub fn mean_interval(x: &[f64], confidence: f64) -> Result<(f64, f64), Refusal> {
    let (mean, sd) = mean_and_sd(x)?;
    let n = x.len() as f64;
    let half = t_quantile(0.5 * (1.0 + probability(confidence)?), n - 1.0)? * sd / libm::sqrt(n);
    Ok((mean - half, mean + half))
}

/// Lower and upper bound of the standard deviation at a two-sided confidence, for normal data
/// (NIST/SEMATECH e-Handbook 1.3.5.8).
///
/// # Errors
/// As [`mean_and_sd`]; a confidence outside (0, 1).
pub fn sd_interval(x: &[f64], confidence: f64) -> Result<(f64, f64), Refusal> {
    let (_, sd) = mean_and_sd(x)?;
    let (nu, tail) = (x.len() as f64 - 1.0, 0.5 * (1.0 - probability(confidence)?));
    let bound = |p: f64| Ok(sd * libm::sqrt(nu / chi_squared_quantile(p, nu)?));
    Ok((bound(1.0 - tail)?, bound(tail)?))
}

/// Autocorrelation of neighbours, about the mean. Beyond ±2/√n the order of the values matters.
///
/// # Errors
/// Fewer than two values, or values that are all equal.
pub fn lag1_autocorrelation(x: &[f64]) -> Result<f64, Refusal> {
    mean_and_sd(x)?;
    let (shift, centre) = centre(x);
    let x: Vec<f64> = x.iter().map(|x| (x - shift) - centre).collect();
    let all: f64 = x.iter().map(|x| x * x).sum();
    if all == 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: there is no spread to be correlated"),
        );
    }
    at_least(x.len(), 3)?;
    let neighbours: f64 = x.array_windows().map(|[a, b]| a * b).sum();
    Ok(neighbours / all)
}

/// Mean of e^x for x running from a to b, and its slopes by a and by b.
pub fn log_mean(a: f64, b: f64) -> (f64, f64, f64) {
    let (middle, half) = ((a + b) / 2.0, (b - a) / 2.0);
    let e = libm::exp(middle);
    if half.abs() < 1e-3 {
        // sinh(h)/h and its slope by their series: the quotient loses digits here.
        let s = 1.0 + half * half / 6.0 + half.powi(4) / 120.0;
        let ds = half / 3.0 + half * half * half / 30.0;
        return (e * s, e * (s - ds) / 2.0, e * (s + ds) / 2.0);
    }
    let s = libm::sinh(half) / half;
    let ds = (libm::cosh(half) - s) / half;
    (e * s, e * (s - ds) / 2.0, e * (s + ds) / 2.0)
}

/// The rank of each value, ties sharing the mean of their places.
#[expect(
    clippy::indexing_slicing,
    reason = "the places in `order` are those of `x`, and equal ones are counted up to its end"
)]
pub fn ranks(x: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..x.len()).collect();
    order.sort_by(|a, b| x[*a].total_cmp(&x[*b]));
    let mut ranks = vec![0.0; x.len()];
    let mut i = 0;
    while i < order.len() {
        let equal = order[i..]
            .iter()
            .take_while(|j| x[**j] == x[order[i]])
            .count();
        order[i..i + equal]
            .iter()
            .for_each(|j| ranks[*j] = i as f64 + 0.5 * (equal as f64 + 1.0));
        i += equal;
    }
    ranks
}

/// Sizes of groups of equal values.
pub fn ties(x: &[f64]) -> Vec<f64> {
    let x = sorted(x);
    x.chunk_by(|a, b| a == b)
        .map(|group| group.len() as f64)
        .collect()
}
