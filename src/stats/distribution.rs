//! Distributions: tails and quantiles to the digits that acceptance figures need.

use std::{
    collections::BTreeMap,
    sync::{Mutex, OnceLock, PoisonError},
};

use statrs::distribution::{ContinuousCDF as _, Normal};

use super::{Reason, Refusal, incomplete, probability, refuse, root};

/// Degrees of freedom above zero; infinitely many where that means something.
fn degrees_of_freedom(degrees: f64) -> Result<f64, Refusal> {
    match degrees > 0.0 {
        true => Ok(degrees),
        false => refuse(
            Reason::BadParameter,
            say!(
                "{degrees} is no number of degrees of freedom",
                degrees = degrees
            ),
        ),
    }
}

fn finite_degrees(degrees: f64) -> Result<f64, Refusal> {
    match degrees.is_finite() {
        true => degrees_of_freedom(degrees),
        false => degrees_of_freedom(f64::NAN),
    }
}

/// Quantile of the chi-squared distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn chi_squared_quantile(p: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(2.0 * gamma_quantile(probability(p)?, 0.5 * finite_degrees(degrees)?))
}

/// Quantile of the gamma distribution of scale 1, by its nearer tail.
fn gamma_quantile(p: f64, a: f64) -> f64 {
    let z = Normal::standard().inverse_cdf(p);
    // Wilson and Hilferty's approximation; of the far lower tail the first term of the series.
    let cube = 1.0 - 1.0 / (9.0 * a) + z / (3.0 * libm::sqrt(a));
    let start = match a * cube * cube * cube {
        good if cube > 0.3 => good,
        _ => libm::exp((libm::log(p) + libm::lgamma(a + 1.0)) / a),
    };
    let start = start.max(1e-290);
    let slope = |x: f64| incomplete::gamma_density_times(x, a) / x;
    match p <= 0.5 {
        true => incomplete::where_tail_is(p, true, start, (0.0, f64::INFINITY), |x| {
            (incomplete::gamma_tails(x, a).0, slope(x))
        }),
        false => incomplete::where_tail_is(1.0 - p, false, start, (0.0, f64::INFINITY), |x| {
            (incomplete::gamma_tails(x, a).1, slope(x))
        }),
    }
}

/// Upper tail of the chi-squared distribution.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn chi_squared_tail(x: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(incomplete::gamma_tails(0.5 * x, 0.5 * finite_degrees(degrees)?).1)
}

/// The lower and the upper tail of the gamma distribution of scale 1.
pub fn gamma_tails(x: f64, shape: f64) -> (f64, f64) {
    incomplete::gamma_tails(x, shape)
}

/// Probability of at most a count of events where so many are expected (Poisson).
pub fn poisson_at_most(count: f64, expected: f64) -> f64 {
    incomplete::gamma_tails(expected, count + 1.0).1
}

/// Quantile of Student's t distribution; of infinite degrees of freedom that of the normal distribution.
///
/// # Errors
/// A probability outside (0, 1), or degrees of freedom that are not positive.
pub fn t_quantile(p: f64, degrees: f64) -> Result<f64, Refusal> {
    let degrees = degrees_of_freedom(degrees)?;
    let tail = probability(p)?.min(1.0 - p);
    if p == 0.5 {
        return Ok(0.0);
    }
    if degrees.is_infinite() {
        return normal_quantile(p);
    }
    let start = -Normal::standard().inverse_cdf(tail);
    let t = incomplete::where_tail_is(tail, false, start, (0.0, f64::INFINITY), |t| {
        let (x, y) = parts(t, degrees);
        let density = incomplete::beta_density_times(x, y, 0.5 * degrees, 0.5) / t;
        (0.5 * student_tails(t, degrees), density)
    });
    Ok(if p < 0.5 { -t } else { t })
}

/// ν/(ν+t²) and t²/(ν+t²).
fn parts(t: f64, degrees: f64) -> (f64, f64) {
    let square = t * t;
    match square > degrees {
        true => {
            let x = 1.0 / (1.0 + square / degrees);
            (x, 1.0 / (1.0 + degrees / square))
        }
        false => {
            let share = square / degrees;
            (1.0 / (1.0 + share), share / (1.0 + share))
        }
    }
}

/// Above so many degrees of freedom ν/(ν+t²) is too near one for its digits.
const MANY: f64 = 1e5;

/// The normal deviate with the same tail as t (G. W. Hill, 1970, algorithm 395; from memory): of many degrees of freedom exact to
/// the last digits.
fn as_normal(t: f64, degrees: f64) -> f64 {
    if degrees.is_infinite() {
        return t.abs();
    }
    let a = degrees - 0.5;
    let y = a * libm::log1p(t * t / degrees);
    let b = 48.0 * a * a;
    let more = (((-0.4 * y - 3.3) * y - 24.0) * y - 85.5) / (0.8 * y * y + 100.0 + b) + y + 3.0;
    (1.0 + more / b) * libm::sqrt(y)
}

/// Both tails beyond ±|t|.
fn student_tails(t: f64, degrees: f64) -> f64 {
    if degrees > MANY {
        return 2.0 * normal_cdf(-as_normal(t, degrees));
    }
    let (x, y) = parts(t, degrees);
    incomplete::beta_tails(x, y, 0.5 * degrees, 0.5).0
}

/// Upper tail of Student's t distribution.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn t_tail(t: f64, degrees: f64) -> Result<f64, Refusal> {
    let beyond = 0.5 * student_tails(t, degrees_of_freedom(degrees)?);
    Ok(if t < 0.0 { 1.0 - beyond } else { beyond })
}

/// Both tails of Student's t distribution beyond ±|t|.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn t_both_tails(t: f64, degrees: f64) -> Result<f64, Refusal> {
    Ok(student_tails(t, degrees_of_freedom(degrees)?))
}

/// Upper tail of Fisher's F distribution; zero for an infinite F.
///
/// # Errors
/// Degrees of freedom that are not positive.
pub fn f_tail(f: f64, between: f64, within: f64) -> Result<f64, Refusal> {
    let both = finite_degrees(between).and(finite_degrees(within));
    both.or_else(|_| {
        refuse(
            Reason::BadParameter,
            say!(
                "{between}, {within} are no degrees of freedom",
                between = between,
                within = within
            ),
        )
    })?;
    if f.is_infinite() {
        return Ok(0.0);
    }
    let whole = within + between * f;
    let (x, y) = (within / whole, between * f / whole);
    Ok(incomplete::beta_tails(x, y, 0.5 * within, 0.5 * between).0)
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

/// Quantile of the beta distribution, by its nearer tail.
///
/// # Errors
/// A probability outside (0, 1) or a parameter that is not positive.
pub fn beta_quantile(p: f64, a: f64, b: f64) -> Result<f64, Refusal> {
    if !(a > 0.0 && b > 0.0 && a.is_finite() && b.is_finite()) {
        return refuse(
            Reason::BadParameter,
            say!(
                "{a}, {b} are no parameters of a beta distribution",
                a = a,
                b = b
            ),
        );
    }
    let p = probability(p)?;
    let mean = a / (a + b);
    let spread = libm::sqrt(mean * (1.0 - mean) / (a + b + 1.0));
    let start = mean + spread * Normal::standard().inverse_cdf(p);
    let start = match start > 0.0 && start < 1.0 {
        true => start,
        false => mean,
    };
    let slope = |x: f64| incomplete::beta_density_times(x, 1.0 - x, a, b) / (x * (1.0 - x));
    Ok(match p <= 0.5 {
        true => incomplete::where_tail_is(p, true, start, (0.0, 1.0), |x| {
            (incomplete::beta_tails(x, 1.0 - x, a, b).0, slope(x))
        }),
        false => incomplete::where_tail_is(1.0 - p, false, start, (0.0, 1.0), |x| {
            (incomplete::beta_tails(x, 1.0 - x, a, b).1, slope(x))
        }),
    })
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
    finite_degrees(degrees)?;
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
    let share = |z: f64| {
        let least = (z + shift) / t;
        let (below, above) = incomplete::gamma_tails(0.5 * degrees * least * least, 0.5 * degrees);
        match (least > 0.0, t > 0.0) {
            (true, true) => above,
            (true, false) => below,
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
    finite_degrees(degrees)?;
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
