//! Distributions: tails and quantiles to the digits that acceptance figures need.

use std::{
    collections::BTreeMap,
    sync::{Mutex, OnceLock, PoisonError},
};

use statrs::distribution::{
    Beta, ChiSquared, Continuous, ContinuousCDF, FisherSnedecor, Normal, StudentsT,
};

use super::{Reason, Refusal, probability, refuse, root};

/// A quantile polished by Newton's method on the distribution's own function: library quantiles alone
/// lose digits in the tails.
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

fn parameter<T, E>(made: Result<T, E>, words: impl FnOnce() -> String) -> Result<T, Refusal> {
    made.or_else(|_| refuse(Reason::BadParameter, words()))
}

fn chi_squared(degrees: f64) -> Result<ChiSquared, Refusal> {
    parameter(ChiSquared::new(degrees), || {
        say!(
            "{degrees} is no number of degrees of freedom",
            degrees = degrees
        )
    })
}

fn student(degrees: f64) -> Result<StudentsT, Refusal> {
    parameter(StudentsT::new(0.0, 1.0, degrees), || {
        say!(
            "{degrees} is no number of degrees of freedom",
            degrees = degrees
        )
    })
}

/// Quantile of the chi-squared distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn chi_squared_quantile(p: f64, degrees: f64) -> Result<f64, Refusal> {
    let d = chi_squared(degrees)?;
    match probability(p)? < FAR {
        true => Ok(in_logarithms(|x| d.cdf(x), |x| d.pdf(x), p)),
        false => Ok(polish(&d, p, 0.0)),
    }
}

/// Upper tail of the chi-squared distribution.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn chi_squared_tail(x: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(chi_squared(degrees)?.sf(x))
}

/// Quantile of Student's t distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn t_quantile(p: f64, degrees: f64) -> Result<f64, Refusal> {
    let d = student(degrees)?;
    let tail = probability(p)?.min(1.0 - p);
    if tail > FAR {
        return Ok(polish(&d, p, f64::NEG_INFINITY));
    }
    let t = in_logarithms(|t| d.sf(t), |t| -d.pdf(t), tail);
    Ok(if p < 0.5 { -t } else { t })
}

/// Where a tail is a power of its argument, Newton's method finds it in the logarithms of both from anywhere.
fn in_logarithms(tail: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64, p: f64) -> f64 {
    let mut x: f64 = 1.0;
    for _ in 0..200 {
        let (found, slope) = (tail(x), slope(x));
        // Beyond the smallest number there is nothing to take a logarithm of: back by half a step.
        let step = match found > 0.0 && slope != 0.0 {
            true => libm::log(found / p) * found / (x * slope),
            false => -0.5 * slope.signum(),
        };
        // From the flat part the first steps would go too far.
        x *= libm::exp(-step.clamp(-1.0, 1.0));
        if step.abs() < 4.0 * f64::EPSILON {
            break;
        }
    }
    x
}

/// Below this tail the quantiles of the library stray.
const FAR: f64 = 1e-5;

/// Upper tail of Student's t distribution.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn t_tail(t: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(student(degrees)?.sf(t))
}

/// Both tails of Student's t distribution beyond ±|t|.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn t_both_tails(t: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(2.0 * t_tail(t.abs(), degrees)?)
}

/// Upper tail of Fisher's F distribution; zero for an infinite F.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn f_tail(f: f64, between: f64, within: f64) -> Result<f64, Refusal> {
    let d = parameter(FisherSnedecor::new(between, within), || {
        say!(
            "{between}, {within} are no degrees of freedom",
            between = between,
            within = within
        )
    })?;
    Ok(if f.is_infinite() { 0.0 } else { d.sf(f) })
}

/// Quantile of the standard normal distribution.
///
/// # Errors
/// A probability outside (0, 1).
pub fn normal_quantile(p: f64) -> Result<f64, Refusal> {
    let mut z = Normal::standard().inverse_cdf(probability(p)?);
    for _ in 0..2 {
        // Towards the nearer tail: there the probability keeps its digits.
        let error = match p > 0.5 {
            true => (1.0 - p) - normal_cdf(-z),
            false => normal_cdf(z) - p,
        };
        z -= error / normal_density(z);
    }
    Ok(z)
}

/// The standard normal distribution function. The upper tail is that of −z.
pub fn normal_cdf(z: f64) -> f64 {
    // The error function of the library of elementary functions keeps its digits in the tails.
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
}

/// The standard normal density.
pub fn normal_density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / libm::sqrt(2.0 * std::f64::consts::PI)
}

/// Quantile of the beta distribution.
///
/// # Errors
/// A probability outside (0, 1) or a parameter that is not positive.
pub fn beta_quantile(p: f64, a: f64, b: f64) -> Result<f64, Refusal> {
    let d = parameter(Beta::new(a, b), || {
        say!(
            "{a}, {b} are no parameters of a beta distribution",
            a = a,
            b = b
        )
    })?;
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

/// Nodes and weights of Gauss's rule on (−1, 1) with 20 points, from Newton's method on the Legendre
/// polynomial (Abramowitz and Stegun 25.4.29, from memory).
fn rule() -> &'static [(f64, f64)] {
    static RULE: OnceLock<Vec<(f64, f64)>> = OnceLock::new();
    RULE.get_or_init(|| {
        const N: usize = 20;
        let n = N as f64;
        (0..N)
            .map(|i| {
                let mut x = libm::cos(std::f64::consts::PI * (i as f64 + 0.75) / (n + 0.5));
                let mut slope = 1.0;
                for _ in 0..100 {
                    let (mut before, mut here) = (1.0, x);
                    for k in 2..=N {
                        let k = k as f64;
                        (before, here) =
                            (here, ((2.0 * k - 1.0) * x * here - (k - 1.0) * before) / k);
                    }
                    slope = n * (x * here - before) / (x * x - 1.0);
                    let step = here / slope;
                    x -= step;
                    if step.abs() < 1e-16 {
                        break;
                    }
                }
                (x, 2.0 / ((1.0 - x * x) * slope * slope))
            })
            .collect()
    })
}

/// Nodes and weights of Gauss's rule on equal panels.
fn nodes(low: f64, high: f64, panels: usize) -> impl Iterator<Item = (f64, f64)> {
    let half = 0.5 * (high - low) / panels as f64;
    (0..panels).flat_map(move |panel| {
        let middle = low + (2 * panel + 1) as f64 * half;
        let own = rule().iter();
        own.map(move |(x, weight)| (middle + half * x, weight * half))
    })
}

/// Integral of a smooth function, by Gauss's rule on equal panels.
pub fn integral(f: impl Fn(f64) -> f64, low: f64, high: f64, panels: usize) -> f64 {
    let all = nodes(low, high, panels);
    all.map(|(x, weight)| weight * f(x)).sum()
}

/// Lower tail of the non-central t distribution, by integration over the scaled chi variable.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn noncentral_t_cdf(t: f64, degrees: f64, shift: f64) -> Result<f64, Refusal> {
    chi_squared(degrees)?;
    Ok(noncentral(t, degrees, shift))
}

fn noncentral(t: f64, degrees: f64, shift: f64) -> f64 {
    match far(t, degrees, shift) {
        true => over_normal(t, degrees, shift),
        false => under(&scaled_chi(degrees), t, shift),
    }
}

/// Whether the normal tail turns within so short a piece of the scaled chi variable, away from zero, that no panel sees it.
fn far(t: f64, degrees: f64, shift: f64) -> bool {
    shift.abs() > 9.0 && t.abs() > libm::sqrt(2.0 * degrees)
}

/// The same lower tail the other way round: the mean over the normal variable of the share of the chi variable, which is the
/// smooth one of both there.
fn over_normal(t: f64, degrees: f64, shift: f64) -> f64 {
    let Ok(chi) = chi_squared(degrees) else {
        return f64::NAN;
    };
    let share = |z: f64| {
        let least = (z + shift) / t;
        match (least > 0.0, t > 0.0) {
            (true, true) => chi.sf(degrees * least * least),
            (true, false) => chi.cdf(degrees * least * least),
            (false, right) => f64::from(u8::from(right)),
        }
    };
    integral(|z| normal_density(z) * share(z), -9.0, 9.0, 20)
}

/// Where the scaled chi variable is looked at, and its density there times the weight of the rule.
fn scaled_chi(nu: f64) -> Vec<(f64, f64)> {
    let constant = std::f64::consts::LN_2 + 0.5 * nu * libm::log(0.5 * nu) - libm::lgamma(0.5 * nu);
    let density = |s: f64| match s > 0.0 {
        true => libm::exp(constant + (nu - 1.0) * libm::log(s) - 0.5 * nu * s * s),
        false => 0.0,
    };
    // Thirteen standard deviations to the left, where the tail is thinner than a normal one, and nine
    // of e^(−ν s²/2) to the right: what lies outside is below 1e−17.
    let low = (1.0 - 13.0 / libm::sqrt(2.0 * nu)).max(0.0);
    let high = 1.0 + 9.0 / libm::sqrt(nu);
    const PANELS: usize = 48;
    let step = (high - low) / PANELS as f64;
    // Next to zero the normal tail under it turns within 1/t, which is short for a t far out: panels a quarter as long each.
    const NEAR_ZERO: i32 = 20;
    let near = (0..NEAR_ZERO).filter(|_| low == 0.0).flat_map(|k| {
        let end = step * libm::pow(0.25, f64::from(k));
        nodes(if k + 1 == NEAR_ZERO { 0.0 } else { 0.25 * end }, end, 1)
    });
    let (begin, panels) = match low == 0.0 {
        true => (step, PANELS - 1),
        false => (low, PANELS),
    };
    near.chain(nodes(begin, high, panels))
        .map(|(s, weight)| (s, weight * density(s)))
        .collect()
}

/// The mean of the normal tail below t·s − shift.
fn under(chi: &[(f64, f64)], t: f64, shift: f64) -> f64 {
    let parts = chi.iter();
    parts
        .map(|(s, weight)| weight * normal_cdf(t * s - shift))
        .sum()
}

/// Quantile of the non-central t distribution.
///
/// # Errors
/// As [`noncentral_t_cdf`]; a probability outside (0, 1).
pub fn noncentral_t_quantile(p: f64, degrees: f64, shift: f64) -> Result<f64, Refusal> {
    probability(p)?;
    chi_squared(degrees)?;
    let chi = scaled_chi(degrees);
    let f = |t: f64| match far(t, degrees, shift) {
        true => over_normal(t, degrees, shift) - p,
        false => under(&chi, t, shift) - p,
    };
    let mut reach = 1.0 + shift.abs();
    let (mut low, mut high) = (shift - reach, shift + reach);
    while f(low) > 0.0 && reach < 1e12 {
        reach *= 2.0;
        low = shift - reach;
    }
    while f(high) < 0.0 && reach < 1e12 {
        reach *= 2.0;
        high = shift + reach;
    }
    if f(low) > 0.0 || f(high) < 0.0 {
        return refuse(
            Reason::BadProbability,
            say!("the quantile lies further out than it can be computed"),
        );
    }
    Ok(root(f, low, high))
}

/// Mean and standard deviation of the range of n standard normal values (d2 and d3), by integration.
///
/// # Errors
/// Fewer than two values.
pub fn range_moments(n: usize) -> Result<(f64, f64), Refusal> {
    static KNOWN: Mutex<BTreeMap<usize, (f64, f64)>> = Mutex::new(BTreeMap::new());
    super::at_least(n, 2)?;
    // A double integral that every chart of a group size asks for again.
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    Ok(*known.entry(n).or_insert_with(|| moments_of_range(n)))
}

fn moments_of_range(n: usize) -> (f64, f64) {
    let k = n as f64;
    let mean = integral(
        |x| {
            let below = normal_cdf(x);
            1.0 - libm::pow(normal_cdf(-x), k) - libm::pow(below, k)
        },
        -9.5,
        9.5,
        20,
    );
    let within = |w: f64| {
        k * integral(
            |x| normal_density(x) * libm::pow(normal_cdf(x + w) - normal_cdf(x), k - 1.0),
            -9.5,
            9.5,
            20,
        )
    };
    let square = integral(|w| 2.0 * w * (1.0 - within(w)), 0.0, 17.0, 20);
    (mean, libm::sqrt(square - mean * mean))
}
