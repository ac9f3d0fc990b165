//! Incomplete beta and gamma functions, both tails to nearly all digits whatever the size of their parameters.
//!
//! The library's own are cut short where parameters are large (a continued fraction of 140 terms, logarithms of large gamma
//! functions that lose their last digits), and lots of a year are large.

use std::f64::consts::PI;

/// So many terms of a continued fraction or series at most; about the root of the largest parameter is needed.
const TERMS: usize = 1_000_000;
const TINY: f64 = 1e-300;

/// ln Γ(n+1) less Stirling's formula for it.
fn stirling_error(n: f64) -> f64 {
    if n < 16.0 {
        return libm::lgamma(n + 1.0) - (n + 0.5) * libm::log(n) + n - 0.5 * libm::log(2.0 * PI);
    }
    let square = n * n;
    // Abramowitz and Stegun 6.1.41 (from memory).
    (1.0 / 12.0
        - (1.0 / 360.0 - (1.0 / 1260.0 - (1.0 / 1680.0 - 1.0 / 1188.0 / square) / square) / square)
            / square)
        / n
}

/// x ln(x/m) + m − x for d = x − m, without the loss of digits where d is small (C. Loader, 2000; from memory).
fn deviance(x: f64, m: f64, d: f64) -> f64 {
    if d.abs() >= 0.1 * (x + m) {
        return x * libm::log(x / m) - d;
    }
    let v = d / (x + m);
    let mut sum = d * v;
    let mut term = 2.0 * x * v;
    for j in 1..1000 {
        term *= v * v;
        let next = sum + term / f64::from(2 * j + 1);
        if next == sum {
            break;
        }
        sum = next;
    }
    sum
}

/// x^a (1−x)^b / B(a, b), with y = 1 − x.
pub fn beta_density_times(x: f64, y: f64, a: f64, b: f64) -> f64 {
    let n = a + b;
    // How far a lies above its mean, by the smaller of x and y: that one has all its digits.
    let above = if x <= y { a - n * x } else { n * y - b };
    let exponent = stirling_error(n)
        - stirling_error(a)
        - stirling_error(b)
        - deviance(a, n * x, above)
        - deviance(b, n * y, -above);
    libm::exp(exponent) * libm::sqrt(a * b / (2.0 * PI * n))
}

/// x^a e^−x / Γ(a).
pub fn gamma_density_times(x: f64, a: f64) -> f64 {
    libm::exp(-stirling_error(a) - deviance(a, x, a - x)) * libm::sqrt(a / (2.0 * PI))
}

/// The lower and the upper tail of the beta distribution at x, with y = 1 − x as exact as it is known.
pub fn beta_tails(x: f64, y: f64, a: f64, b: f64) -> (f64, f64) {
    if x <= 0.0 {
        return (0.0, 1.0);
    }
    if y <= 0.0 {
        return (1.0, 0.0);
    }
    let front = beta_density_times(x, y, a, b);
    // A continued fraction converges on its own side of the mean.
    if x * (a + b + 2.0) < a + 1.0 {
        let lower = front * beta_fraction(x, a, b) / a;
        (lower, 1.0 - lower)
    } else {
        let upper = front * beta_fraction(y, b, a) / b;
        (1.0 - upper, upper)
    }
}

/// The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8) by Lentz's method.
fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    let away = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / away(1.0 - (a + b) * x / (a + 1.0));
    let mut h = d;
    for m in 1..TERMS {
        let m = m as f64;
        let even = m * (b - m) * x / ((a - 1.0 + 2.0 * m) * (a + 2.0 * m));
        d = 1.0 / away(1.0 + even * d);
        c = away(1.0 + even / c);
        h *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 1.0 + 2.0 * m));
        d = 1.0 / away(1.0 + odd * d);
        c = away(1.0 + odd / c);
        let change = d * c;
        h *= change;
        if (change - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    h
}

/// The lower and the upper tail of the gamma distribution of shape a and scale 1 at x.
pub fn gamma_tails(x: f64, a: f64) -> (f64, f64) {
    if x <= 0.0 {
        return (0.0, 1.0);
    }
    if x.is_infinite() {
        return (1.0, 0.0);
    }
    let front = gamma_density_times(x, a);
    if x < a + 1.0 {
        let (mut term, mut sum) = (1.0 / a, 1.0 / a);
        for k in 1..TERMS {
            term *= x / (a + k as f64);
            sum += term;
            if term < sum * 0.5 * f64::EPSILON {
                break;
            }
        }
        (front * sum, 1.0 - front * sum)
    } else {
        let upper = front * gamma_fraction(x, a);
        (1.0 - upper, upper)
    }
}

/// The continued fraction of the upper incomplete gamma function (Abramowitz and Stegun 6.5.31) by Lentz's method.
fn gamma_fraction(x: f64, a: f64) -> f64 {
    let away = |v: f64| if v.abs() < TINY { TINY } else { v };
    let mut b = x + 1.0 - a;
    let mut c = 1.0 / TINY;
    let mut d = 1.0 / away(b);
    let mut h = d;
    for i in 1..TERMS {
        let i = i as f64;
        let own = -i * (i - a);
        b += 2.0;
        d = 1.0 / away(own * d + b);
        c = away(b + own / c);
        let change = d * c;
        h *= change;
        if (change - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    h
}

/// Where a tail that rises (or falls) with x is p: Newton's method on the logarithm of the tail, kept inside a bracket.
///
/// `tail` gives the tail and the size of its slope at x.
pub fn where_tail_is(
    p: f64,
    rising: bool,
    start: f64,
    (mut low, mut high): (f64, f64),
    tail: impl Fn(f64) -> (f64, f64),
) -> f64 {
    let sign = if rising { 1.0 } else { -1.0 };
    let mut x = start;
    for _ in 0..2000 {
        let (found, slope) = tail(x);
        if found == p {
            return x;
        }
        match (found > p) == rising {
            true => high = x,
            false => low = x,
        }
        let step = sign * libm::log(found / p) * found / slope;
        let next = x - step;
        let inside = next.is_finite() && next > low && next < high;
        let new = match (inside, high.is_finite()) {
            (true, _) => next,
            (false, false) => 2.0 * x + 1.0,
            // Between ends of very different size the middle is that of their logarithms.
            (false, true) if low > 0.0 && high > 4.0 * low => libm::sqrt(low * high),
            (false, true) if low == 0.0 && high > TINY => high * 0.25,
            (false, true) => 0.5 * (low + high),
        };
        if (new - x).abs() <= f64::EPSILON * x.abs() {
            return new;
        }
        x = new;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::distribution::{beta_quantile, chi_squared_quantile, t_quantile, t_tail};

    fn near(found: f64, due: f64, within: f64) {
        assert!((found / due - 1.0).abs() < within, "{found} {due}");
    }

    /// SciPy 1.17.1, `scipy.special` (`betainc`, `betaincc`, `gammainc`, `gammaincc`).
    #[test]
    #[allow(clippy::excessive_precision)]
    fn tails_as_a_reference_library_has_them() {
        for (x, a, b, lower, upper) in [
            (
                0.5,
                500_000.0,
                500_001.0,
                0.500_398_942_180_665_4,
                0.499_601_057_819_334_1,
            ),
            (
                1e-6,
                1.0,
                9_999_999.0,
                0.999_954_600_251_837,
                4.539_974_816_300_039e-5,
            ),
            (
                0.001,
                3.0,
                5.0,
                3.489_512_593_001_501e-8,
                0.999_999_965_104_874_1,
            ),
            (
                0.3,
                300.0,
                700.0,
                0.503_671_182_860_768_1,
                0.496_328_817_139_232_4,
            ),
            (
                0.37,
                3e4,
                5e4,
                0.001_717_544_808_672_769,
                0.998_282_455_191_327_2,
            ),
        ] {
            let found = beta_tails(x, 1.0 - x, a, b);
            // Half the last digit of 1 − x is 6e-11 of an x of 1e-6.
            near(found.0, lower, 1e-10);
            near(found.1, upper, 1e-10);
        }
        for (x, a, lower, upper) in [
            (
                100.5,
                160.0,
                2.784_382_075_739_962_3e-8,
                0.999_999_972_156_179_2,
            ),
            (1e5, 1e5, 0.500_420_522_110_365_1, 0.499_579_477_889_634_8),
            (3.0, 0.5, 0.985_694_121_564_570_4, 0.014_305_878_435_429_641),
            (700.0, 1000.0, 1.015_858_334_533_307_8e-26, 1.0),
            (1.2e6, 1.19e6, 1.0, 3.072_839_295_196_362e-20),
            (
                45.0,
                20.0,
                0.999_989_762_953_559_1,
                1.023_704_644_107_913_7e-5,
            ),
        ] {
            let found = gamma_tails(x, a);
            near(found.0, lower, 1e-11);
            near(found.1, upper, 1e-11);
        }
    }

    /// SciPy 1.17.1 (`gammaincinv`, `stdtrit`); the rest by the definition: what a quantile is the quantile of.
    #[test]
    #[allow(clippy::excessive_precision)]
    fn quantiles_end_and_are_right_where_samples_are_large() {
        near(
            chi_squared_quantile(5e-6, 320.0).unwrap(),
            2.0 * 110.165_602_272_936_44,
            1e-12,
        );
        near(
            chi_squared_quantile(5e-6, 20_000.0).unwrap(),
            2.0 * 9_564.437_624_093_65,
            1e-12,
        );
        near(t_quantile(0.9, 1e6).unwrap(), 1.281_552_412_129_939, 1e-12);
        near(
            t_quantile(0.975, 1e12).unwrap(),
            1.959_963_984_540_054,
            1e-9,
        );
        near(
            t_quantile(0.975, f64::INFINITY).unwrap(),
            1.959_963_984_540_054,
            1e-12,
        );
        // SciPy's `stdtr`, either side of where the method changes.
        for (t, df, due) in [
            (2.3, 99_999.0, 0.010_725_134_564_905_684),
            (2.3, 100_001.0, 0.010_725_134_544_414_731),
            (9.0, 99_999.0, 1.147_704_695_180_959e-19),
            (9.0, 100_001.0, 1.147_704_309_846_078_6e-19),
            (9.0, 1e6, 1.130_486_516_746_430_8e-19),
        ] {
            near(t_tail(t, df).unwrap(), due, 1e-11);
        }
        // No failure among ten million: 1 − 0.05^(1/n).
        near(
            beta_quantile(0.95, 1.0, 1e7).unwrap(),
            -libm::expm1(libm::log(0.05) / 1e7),
            1e-9,
        );
        for (a, b) in [(3.0, 8e6), (1e-3, 5.0), (4e5, 2.0), (0.5, 0.5)] {
            for p in [1e-12, 0.025, 0.5, 0.975] {
                let x = beta_quantile(p, a, b).unwrap();
                // Next to one a number has no more digits, and there is none below 1e-308.
                if x < 0.999 && x > 1e-280 {
                    near(beta_tails(x, 1.0 - x, a, b).0, p, 1e-9);
                }
            }
        }
        for p in [1e-300, 1e-20, 0.3, 0.999_999] {
            for df in [0.1, 1.0, 3.0, 299.0, 2e8] {
                let x = chi_squared_quantile(p, df).unwrap();
                if x > 1e-280 {
                    near(gamma_tails(0.5 * x, 0.5 * df).0, p, 1e-8);
                }
            }
        }
    }
}
