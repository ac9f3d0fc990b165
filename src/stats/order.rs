//! What the order of production shows: a shift, or neighbours that keep together.

use super::{
    Reason, Refusal, at_least,
    distribution::normal_cdf,
    finite, refuse, square,
    summary::{mean, median, ranks},
};

/// A single shift of the mean.
#[derive(Debug, Clone, Copy)]
pub struct Shift {
    /// Values before the shift.
    pub after: usize,
    /// Squares about the two means, and about one.
    pub squares: (f64, f64),
    /// Squares gained over the mean square that is left. The largest of many, so not distributed as F.
    pub largest_f: f64,
    /// Means before and after.
    pub means: (f64, f64),
}

/// The split of a series into two means that leaves the smallest squares, each part of at least `shortest` values.
///
/// # Errors
/// A series shorter than two parts, or a part of no value; values without spread.
pub fn shift(x: &[f64], shortest: usize) -> Result<Shift, Refusal> {
    finite(x)?;
    if shortest == 0 {
        return refuse(Reason::BadParameter, say!("a part of no value"));
    }
    at_least(x.len(), (2 * shortest).max(3))?;
    let n = x.len();
    let about = |x: &[f64]| -> Result<(f64, f64), Refusal> {
        let mean = mean(x)?;
        Ok((mean, x.iter().map(|x| square(x - mean)).sum()))
    };
    let (_, single) = about(x)?;
    if single <= 0.0 {
        return refuse(Reason::ZeroVariance, say!("all values are equal"));
    }
    let mut best: Option<Shift> = None;
    for after in shortest..=n - shortest {
        let (first, second) = x.split_at(after);
        let ((before, left), (later, right)) = (about(first)?, about(second)?);
        let split = left + right;
        if best.is_none_or(|best| split < best.squares.0) {
            best = Some(Shift {
                after,
                squares: (split, single),
                largest_f: (single - split) / (split / (n as f64 - 2.0)),
                means: (before, later),
            });
        }
    }
    best.map_or_else(
        || refuse(Reason::TooFewPoints, say!("the series cannot be split")),
        Ok,
    )
}

/// So many values at most have all their orders counted.
const COUNTED: usize = 12;

/// A shift found by ranks (Pettitt 1979).
#[derive(Debug, Clone, Copy)]
pub struct RankShift {
    /// Largest sum.
    pub k: f64,
    /// Values before the shift.
    pub after: usize,
    /// Probability by chance, good below 0.5.
    pub p: f64,
    /// The same by counting all orders of up to twelve values, for which the formula is too careful; of more, the formula.
    pub counted: f64,
}

/// The place where a series changes its level most, by ranks, and the probability by chance.
///
/// # Errors
/// Fewer than four values, or values that are all equal.
pub fn pettitt(x: &[f64]) -> Result<RankShift, Refusal> {
    finite(x)?;
    at_least(x.len(), 4)?;
    if x.array_windows().all(|[a, b]| a == b) {
        return refuse(Reason::ZeroVariance, say!("all values are equal"));
    }
    let n = x.len() as f64;
    let (mut sum, mut k, mut after) = (0.0, -1.0, 0);
    for (i, rank) in ranks(x).iter().enumerate() {
        sum += rank;
        let u: f64 = 2.0 * sum - (i as f64 + 1.0) * (n + 1.0);
        if u.abs() > k {
            (k, after) = (u.abs(), i + 1);
        }
    }
    let p = (2.0 * libm::exp(-6.0 * k * k / (n * n * n + n * n))).min(1.0);
    let counted = match x.len() <= COUNTED {
        true => orders_reaching(&ranks(x), k),
        false => p,
    };
    Ok(RankShift {
        k,
        after,
        p,
        counted,
    })
}

/// The share of all orders of ranks in which the largest sum reaches k: orders that stay below it are counted from
/// smaller sets of first values to larger ones.
fn orders_reaching(ranks: &[f64], k: f64) -> f64 {
    let n = ranks.len() as f64;
    let sets = 1_usize << ranks.len();
    let mut below = vec![0.0_f64; sets];
    for set in 0..sets {
        let chosen = || (0..ranks.len()).filter(move |i| set >> i & 1 == 1);
        let sum: f64 = chosen().filter_map(|i| ranks.get(i)).sum();
        let u = 2.0 * sum - chosen().count() as f64 * (n + 1.0);
        let orders = match set {
            0 => 1.0,
            _ if u.abs() >= k => 0.0,
            _ => chosen().filter_map(|i| below.get(set & !(1 << i))).sum(),
        };
        if let Some(slot) = below.get_mut(set) {
            *slot = orders;
        }
    }
    let all: f64 = (1..=ranks.len()).map(|i| i as f64).product();
    1.0 - below.last().copied().unwrap_or(0.0) / all
}

/// Runs above and below the median.
#[derive(Debug, Clone, Copy)]
pub struct Runs {
    /// Runs found.
    pub runs: usize,
    /// Values above the median, and not above.
    pub sides: (usize, usize),
    /// Runs expected where the order is of chance.
    pub expected: f64,
    /// Standardised.
    pub z: f64,
    /// Two-sided probability by chance.
    pub p: f64,
}

/// Whether values keep together or alternate more than chance lets them (NIST/SEMATECH e-Handbook 1.3.5.13). A value on the
/// median counts as below it.
///
/// # Errors
/// Fewer than four values, or values on one side of the median only.
pub fn runs(x: &[f64]) -> Result<Runs, Refusal> {
    finite(x)?;
    at_least(x.len(), 4)?;
    let middle = median(x)?;
    let above: Vec<bool> = x.iter().map(|x| *x > middle).collect();
    let n1 = above.iter().filter(|above| **above).count();
    let n2 = x.len() - n1;
    if n1 == 0 || n2 == 0 {
        return refuse(
            Reason::ZeroVariance,
            say!("no value lies above the median: there are no runs to count"),
        );
    }
    let runs = 1 + above.array_windows().filter(|[a, b]| a != b).count();
    let (a, b) = (n1 as f64, n2 as f64);
    let (n, twice) = (a + b, 2.0 * a * b);
    let expected = twice / n + 1.0;
    let z = (runs as f64 - expected) / libm::sqrt(twice * (twice - n) / (n * n * (n - 1.0)));
    Ok(Runs {
        runs,
        sides: (n1, n2),
        expected,
        z,
        p: 2.0 * normal_cdf(-z.abs()),
    })
}
