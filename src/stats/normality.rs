//! Whether values look normal, and whether one of them stands apart. A test that does not reject proves
//! nothing, and no test removes a record: it points at one.

use super::{
    Reason, Refusal, at_least,
    distribution::{normal_cdf, normal_quantile, t_quantile, t_tail},
    finite, probability, refuse,
    summary::{mean_and_sd, sorted},
};

fn spread(x: &[f64], least: usize) -> Result<(f64, f64), Refusal> {
    finite(x)?;
    at_least(x.len(), least)?;
    let (mean, sd) = mean_and_sd(x)?;
    match sd > 0.0 {
        true => Ok((mean, sd)),
        false => refuse(
            Reason::ZeroVariance,
            say!("all values are equal: the resolution of the instrument hides their spread"),
        ),
    }
}

/// Anderson and Darling's test with mean and standard deviation from the data.
#[derive(Debug, Clone, Copy)]
pub struct AndersonDarling {
    /// The statistic.
    pub a2: f64,
    /// Adjusted for the number of values.
    pub adjusted: f64,
    /// Probability by chance.
    pub p: f64,
}

/// Tests normality, with weight on the tails (Stephens, in D'Agostino and Stephens 1986; NIST/SEMATECH e-Handbook 1.3.5.14).
///
/// # Errors
/// Fewer than eight values, or values that are all equal.
pub fn anderson_darling(x: &[f64]) -> Result<AndersonDarling, Refusal> {
    let (mean, sd) = spread(x, 8)?;
    let z: Vec<f64> = sorted(x).iter().map(|x| (x - mean) / sd).collect();
    let n = z.len() as f64;
    let sum: f64 = z
        .iter()
        .zip(z.iter().rev())
        .enumerate()
        .map(|(i, (low, top))| {
            // The upper tail as the lower one of −z: 1 − Φ would lose it.
            let both = libm::log(normal_cdf(*low)) + libm::log(normal_cdf(-*top));
            (2.0 * i as f64 + 1.0) * both
        })
        .sum();
    let a2 = -n - sum / n;
    let a = a2 * (1.0 + 0.75 / n + 2.25 / (n * n));
    let p = match a {
        // The parabola of the next line turns up again far out; here it stands at 10^-30.
        a if a >= 13.0 => 0.0,
        a if a >= 0.6 => libm::exp(1.2937 - 5.709 * a + 0.0186 * a * a),
        a if a >= 0.34 => libm::exp(0.9177 - 4.279 * a - 1.38 * a * a),
        a if a >= 0.2 => 1.0 - libm::exp(-8.318 + 42.796 * a - 59.938 * a * a),
        a => 1.0 - libm::exp(-13.436 + 101.14 * a - 223.73 * a * a),
    };
    Ok(AndersonDarling { a2, adjusted: a, p })
}

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Shapiro and Wilk's test: the statistic and its probability by chance (Royston 1995, algorithm AS R94, coefficients
/// from memory; 3 to 5000 values).
///
/// # Errors
/// Fewer than three values, more than 5000, or values that are all equal.
pub fn shapiro_wilk(x: &[f64]) -> Result<(f64, f64), Refusal> {
    let (mean, _) = spread(x, 3)?;
    if x.len() > 5000 {
        return refuse(
            Reason::BadParameter,
            say!(
                "{count} values: the test is worked out for 5000 at most",
                count = x.len()
            ),
        );
    }
    let x = sorted(x);
    let n = x.len();
    let nf = n as f64;
    let weights = shapiro_weights(n)?;
    let top: f64 = weights
        .iter()
        .zip(x.iter().zip(x.iter().rev()))
        .map(|(a, (low, top))| a * (top - low))
        .sum();
    let squares: f64 = x.iter().map(|x| (x - mean) * (x - mean)).sum();
    let w = (top * top / squares).min(1.0);
    if n == 3 {
        let p =
            6.0 / std::f64::consts::PI * (libm::asin(libm::sqrt(w)) - libm::asin(libm::sqrt(0.75)));
        return Ok((w, p.clamp(0.0, 1.0)));
    }
    let y = libm::log(1.0 - w);
    let (y, m, s) = if n <= 11 {
        let gamma = polynomial(&[-2.273, 0.459], nf);
        if y >= gamma {
            return Ok((w, 0.0));
        }
        (
            -libm::log(gamma - y),
            polynomial(&[0.5440, -0.39978, 0.025054, -6.714e-4], nf),
            libm::exp(polynomial(&[1.3822, -0.77857, 0.062767, -0.0020322], nf)),
        )
    } else {
        let ln = libm::log(nf);
        (
            y,
            polynomial(&[-1.5861, -0.31082, -0.083751, 0.0038915], ln),
            libm::exp(polynomial(&[-0.4803, -0.082676, 0.0030302], ln)),
        )
    };
    Ok((w, normal_cdf(-(y - m) / s)))
}

/// Weights of the differences between the outermost pairs of values, from the outside in.
fn shapiro_weights(n: usize) -> Result<Vec<f64>, Refusal> {
    if n == 3 {
        return Ok(vec![libm::sqrt(0.5)]);
    }
    let nf = n as f64;
    let m = (0..n / 2)
        .map(|i| Ok(-normal_quantile((i as f64 + 0.625) / (nf + 0.25))?))
        .collect::<Result<Vec<f64>, Refusal>>()?;
    let squares = 2.0 * m.iter().map(|m| m * m).sum::<f64>();
    let (root, small) = (libm::sqrt(squares), 1.0 / libm::sqrt(nf));
    let corrections: [&[f64]; 2] = [
        &[0.0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056],
        &[0.0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633],
    ];
    let mut weights: Vec<f64> = m
        .iter()
        .zip(corrections)
        .take(if n > 5 { 2 } else { 1 })
        .map(|(m, correction)| m / root + polynomial(correction, small))
        .collect();
    let taken = 2.0 * m.iter().take(weights.len()).map(|m| m * m).sum::<f64>();
    let given = 2.0 * weights.iter().map(|a| a * a).sum::<f64>();
    let scale = libm::sqrt((squares - taken) / (1.0 - given));
    weights.extend(m.iter().skip(weights.len()).map(|m| m / scale));
    Ok(weights)
}

/// Which end an outlier is looked for at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Either.
    Either,
    /// The largest value.
    Largest,
    /// The smallest value.
    Smallest,
}

/// The most extreme value, and whether it stands apart.
#[derive(Debug, Clone, Copy)]
pub struct Grubbs {
    /// Its distance from the mean, in standard deviations.
    pub g: f64,
    /// Its index.
    pub index: usize,
    /// The distance that chance exceeds with probability alpha.
    pub critical: f64,
    /// Probability by chance, an upper bound.
    pub p: f64,
}

impl Grubbs {
    /// Whether the value stands apart.
    pub fn outlier(&self) -> bool {
        self.g > self.critical
    }
}

/// Tests the most extreme value of normal data (Grubbs 1969; NIST/SEMATECH e-Handbook 1.3.5.17).
///
/// # Errors
/// Fewer than three values, values that are all equal, an alpha outside (0, 1).
pub fn grubbs(x: &[f64], alpha: f64, end: End) -> Result<Grubbs, Refusal> {
    let (mean, sd) = spread(x, 3)?;
    let alpha = probability(alpha)?;
    let off = |x: f64| match end {
        End::Either => (x - mean).abs() / sd,
        End::Largest => (x - mean) / sd,
        End::Smallest => (mean - x) / sd,
    };
    let (index, g) =
        x.iter()
            .map(|x| off(*x))
            .enumerate()
            .fold((0, f64::NEG_INFINITY), |best, here| {
                if here.1 > best.1 { here } else { best }
            });
    let n = x.len() as f64;
    let ways = if end == End::Either { 2.0 * n } else { n };
    let t = t_quantile(1.0 - alpha / ways, n - 2.0)?;
    let critical = (n - 1.0) / libm::sqrt(n) * libm::sqrt(t * t / (n - 2.0 + t * t));
    let left = (n - 1.0) * (n - 1.0) - n * g * g;
    let p = match left > 0.0 {
        true => ways * t_tail(libm::sqrt(n * (n - 2.0) * g * g / left), n - 2.0)?,
        false => 0.0,
    };
    Ok(Grubbs {
        g,
        index,
        critical,
        p: p.min(1.0),
    })
}

/// Up to some outliers at once.
#[derive(Debug, Clone)]
pub struct Outliers {
    /// Distance of the most extreme value left at each step.
    pub r: Vec<f64>,
    /// What it is held against.
    pub critical: Vec<f64>,
    /// Indices in the order in which they were taken out.
    pub taken: Vec<usize>,
    /// How many of them stand apart.
    pub count: usize,
}

/// Looks for up to `most` outliers of normal data, one hiding another or not (Rosner 1983; NIST/SEMATECH e-Handbook
/// 1.3.5.17.3). Worked out for 25 values and more.
///
/// # Errors
/// Fewer values than the outliers and three more, values that are all equal, an alpha outside (0, 1).
pub fn outliers(x: &[f64], most: usize, alpha: f64) -> Result<Outliers, Refusal> {
    spread(x, most + 3)?;
    let alpha = probability(alpha)?;
    if most == 0 {
        return refuse(Reason::BadParameter, say!("no outlier is looked for"));
    }
    let mut left: Vec<usize> = (0..x.len()).collect();
    let (mut r, mut critical, mut taken) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..most {
        let values: Vec<f64> = left.iter().filter_map(|i| x.get(*i).copied()).collect();
        let (mean, sd) = spread(&values, 3)?;
        let (place, off) = values
            .iter()
            .map(|x| (x - mean).abs() / sd)
            .enumerate()
            .fold(
                (0, -1.0),
                |best, here| {
                    if here.1 > best.1 { here } else { best }
                },
            );
        let n = values.len() as f64;
        let t = t_quantile(1.0 - alpha / (2.0 * n), n - 2.0)?;
        r.push(off);
        critical.push((n - 1.0) * t / libm::sqrt((n - 2.0 + t * t) * n));
        taken.push(left.remove(place));
    }
    let count = r
        .iter()
        .zip(&critical)
        .rposition(|(r, critical)| r > critical)
        .map_or(0, |i| i + 1);
    Ok(Outliers {
        r,
        critical,
        taken,
        count,
    })
}
