//! Shares, counts and the reliability that passing a test proves.

use super::{
    Reason, Refusal, at_least, count,
    distribution::{beta_quantile, chi_squared_quantile, normal_quantile},
    finite, probability, refuse, smallest, square,
};

fn of(x: f64, n: f64) -> Result<(), Refusal> {
    count(x)?;
    count(n)?;
    if x > n {
        return refuse(
            Reason::CountExceedsN,
            say!("{x} of {n} are no count", x = x, n = n),
        );
    }
    at_least(n as usize, 1)
}

/// One-sided lower bound of a share after x of n (Clopper and Pearson 1934). Zero for none.
///
/// # Errors
/// Counts that cannot be, a confidence outside (0, 1).
pub fn share_lower(x: f64, n: f64, confidence: f64) -> Result<f64, Refusal> {
    of(x, n)?;
    let tail = 1.0 - probability(confidence)?;
    match x {
        0.0 => Ok(0.0),
        _ => beta_quantile(tail, x, n - x + 1.0),
    }
}

/// One-sided upper bound of a share after x of n (Clopper and Pearson 1934). One for all.
///
/// # Errors
/// As [`share_lower`].
pub fn share_upper(x: f64, n: f64, confidence: f64) -> Result<f64, Refusal> {
    of(x, n)?;
    let p = probability(confidence)?;
    match x == n {
        true => Ok(1.0),
        false => beta_quantile(p, x + 1.0, n - x),
    }
}

/// Two-sided score interval of a share (Wilson 1927; NIST/SEMATECH e-Handbook 7.2.4.1), for display: its confidence may
/// fall below the nominal one.
///
/// # Errors
/// As [`share_lower`].
pub fn share_score(x: f64, n: f64, confidence: f64) -> Result<(f64, f64), Refusal> {
    of(x, n)?;
    let z = normal_quantile(0.5 * (1.0 + probability(confidence)?))?;
    let (p, zz) = (x / n, z * z);
    let half = z * libm::sqrt(p * (1.0 - p) / n + zz / (4.0 * square(n)));
    let middle = p + zz / (2.0 * n);
    let scale = 1.0 + zz / n;
    // At the ends of the scale the bound is the end itself, which rounding must not move.
    let lower = if x == 0.0 {
        0.0
    } else {
        (middle - half) / scale
    };
    let upper = if x == n { 1.0 } else { (middle + half) / scale };
    Ok((lower, upper))
}

/// Probability of at most c events among n where each has probability p.
pub(crate) fn binomial_at_most(c: f64, n: f64, p: f64) -> f64 {
    match () {
        () if c >= n || p <= 0.0 => 1.0,
        () if p >= 1.0 => 0.0,
        () => super::incomplete::beta_tails(1.0 - p, p, n - c, c + 1.0).0,
    }
}

/// What rounding alone takes from a probability that is met exactly is no lack.
pub(super) const SLACK: f64 = 1e-12;

/// The smallest number of elements that, with no more than some failures, proves a reliability; and the
/// confidence that it has.
///
/// # Errors
/// Confidence or reliability outside (0, 1), a count of failures that cannot be.
pub fn success_run(
    confidence: f64,
    reliability: f64,
    failures: f64,
) -> Result<(u64, f64), Refusal> {
    let f = count(failures)?;
    let (c, r) = (probability(confidence)?, probability(reliability)?);
    let doubt = |n: u64| binomial_at_most(f, n as f64, 1.0 - r);
    match smallest(f as u64 + 1, 1 << 40, |n| {
        doubt(n) <= (1.0 - c) * (1.0 + SLACK)
    }) {
        Some(n) => Ok((n, 1.0 - doubt(n))),
        None => refuse(
            Reason::BadProbability,
            say!("no sample of a countable size proves it"),
        ),
    }
}

/// Elements without failure that prove a reliability, before rounding up: ln(1 − C) / ln R.
///
/// # Errors
/// Confidence or reliability outside (0, 1).
pub fn success_run_unrounded(confidence: f64, reliability: f64) -> Result<f64, Refusal> {
    Ok(libm::log1p(-probability(confidence)?) / libm::log(probability(reliability)?))
}

/// Lower bound of the share that survives, after some failures among n (Clopper and Pearson 1934).
///
/// # Errors
/// No elements, more failures than elements, or a confidence outside (0, 1).
pub fn reliability_lower(n: f64, failures: f64, confidence: f64) -> Result<f64, Refusal> {
    of(failures, n)?;
    share_lower(n - failures, n, confidence)
}

/// One-sided upper bound of the mean of a Poisson count (Garwood 1936).
///
/// # Errors
/// A negative or broken count, or a confidence outside (0, 1).
pub fn poisson_upper(events: f64, confidence: f64) -> Result<f64, Refusal> {
    let events = count(events)?;
    Ok(0.5 * chi_squared_quantile(confidence, 2.0 * (events + 1.0))?)
}

/// One-sided lower bound of the mean of a Poisson count; zero for a count of zero.
///
/// # Errors
/// As [`poisson_upper`].
pub fn poisson_lower(events: f64, confidence: f64) -> Result<f64, Refusal> {
    let events = count(events)?;
    let tail = 1.0 - probability(confidence)?;
    match events {
        0.0 => Ok(0.0),
        events => Ok(0.5 * chi_squared_quantile(tail, 2.0 * events)?),
    }
}

/// Refuses an extent of observation that is not above zero.
///
/// # Errors
/// An extent that is not above zero.
pub fn exposure(extent: f64) -> Result<f64, Refusal> {
    finite(&[extent])?;
    match extent > 0.0 {
        true => Ok(extent),
        false => refuse(
            Reason::NonPositiveExposure,
            say!("an extent of {extent}", extent = extent),
        ),
    }
}
