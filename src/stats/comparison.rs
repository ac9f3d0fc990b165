//! Rolls, lots, stations and operators beside each other.

use super::{
    Reason, Refusal, at_least,
    distribution::{chi_squared_tail, f_tail, t_both_tails, t_quantile, t_tail},
    finite, groups as checked, probability, refuse, rounding, square,
    summary::{mean, mean_and_sd, median, ranks, ties},
};

/// One-way analysis of variance.
#[derive(Debug, Clone, Copy)]
pub struct Anova {
    /// Squares between and within groups.
    pub squares: (f64, f64),
    /// Degrees of freedom of both.
    pub degrees: (f64, f64),
    /// Mean square between over mean square within.
    pub f: f64,
    /// Probability by chance.
    pub p: f64,
}

impl Anova {
    /// Standard deviation within groups.
    pub fn residual_sd(&self) -> f64 {
        libm::sqrt(self.squares.1 / self.degrees.1)
    }

    /// Share of the squares that the groups take up.
    pub fn r_squared(&self) -> f64 {
        self.squares.0 / (self.squares.0 + self.squares.1)
    }
}

/// Sizes, means and inner squares of groups, after a value of the data is taken from all.
fn parts(groups: &[Vec<f64>]) -> Result<Vec<(f64, f64, f64)>, Refusal> {
    let shift = groups.iter().flatten().next().copied().unwrap_or(0.0);
    groups
        .iter()
        .map(|group| {
            let moved: Vec<f64> = group.iter().map(|x| x - shift).collect();
            let mean = mean(&moved)?;
            let squares: f64 = moved.iter().map(|x| square(x - mean)).sum();
            let count = group.len() as f64;
            let scatter = squares > count * square(rounding(group));
            Ok((count, mean, if scatter { squares } else { 0.0 }))
        })
        .collect()
}

fn squares(groups: &[Vec<f64>]) -> Result<Anova, Refusal> {
    checked(groups, 1)?;
    let parts = parts(groups)?;
    let n: f64 = parts.iter().map(|part| part.0).sum();
    let k = parts.len() as f64;
    if n <= k {
        return refuse(
            Reason::TooFewPoints,
            say!("every group has one value: there is no spread within groups to compare with"),
        );
    }
    let all = parts.iter().map(|(n, mean, _)| n * mean).sum::<f64>() / n;
    let between = parts
        .iter()
        .map(|(n, mean, _)| n * square(mean - all))
        .sum();
    let within = parts.iter().map(|part| part.2).sum();
    Ok(Anova {
        squares: (between, within),
        degrees: (k - 1.0, n - k),
        f: f64::NAN,
        p: f64::NAN,
    })
}

/// Compares the means of groups (NIST/SEMATECH e-Handbook 1.3.5.4, 7.4.3).
///
/// # Errors
/// Fewer than two groups, no more values than groups, no spread within groups.
pub fn anova(groups: &[Vec<f64>]) -> Result<Anova, Refusal> {
    let mut found = squares(groups)?;
    if found.squares.1 <= 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!(
                "values within groups are equal: the resolution of the instrument hides their spread"
            ),
        );
    }
    let (between, within) = found.degrees;
    found.f = (found.squares.0 / between) / (found.squares.1 / within);
    found.p = f_tail(found.f, between, within)?;
    Ok(found)
}

/// A statistic with its degrees of freedom and its probability by chance.
#[derive(Debug, Clone, Copy)]
pub struct Test {
    /// The statistic.
    pub statistic: f64,
    /// Degrees of freedom; the second is of the denominator, where there is one.
    pub degrees: (f64, f64),
    /// Probability by chance.
    pub p: f64,
}

/// Compares the means of groups of unequal spread (Welch 1951).
///
/// # Errors
/// Fewer than two groups, a group of fewer than two values or without spread.
pub fn welch(groups: &[Vec<f64>]) -> Result<Test, Refusal> {
    checked(groups, 2)?;
    let parts = parts(groups)?;
    if parts.iter().any(|part| part.2 <= 0.0) {
        return refuse(
            Reason::ZeroVariance,
            say!("the values of one group are equal"),
        );
    }
    let weights: Vec<f64> = parts
        .iter()
        .map(|(n, _, squares)| n * (n - 1.0) / squares)
        .collect();
    let total: f64 = weights.iter().sum();
    let centre = weights
        .iter()
        .zip(&parts)
        .map(|(w, part)| w * part.1)
        .sum::<f64>()
        / total;
    let k = parts.len() as f64;
    let lambda: f64 = weights
        .iter()
        .zip(&parts)
        .map(|(w, part)| square(1.0 - w / total) / (part.0 - 1.0))
        .sum();
    let between: f64 = weights
        .iter()
        .zip(&parts)
        .map(|(w, part)| w * square(part.1 - centre))
        .sum::<f64>()
        / (k - 1.0);
    let f = between / (1.0 + 2.0 * (k - 2.0) / (k * k - 1.0) * lambda);
    let degrees = (k - 1.0, (k * k - 1.0) / (3.0 * lambda));
    Ok(Test {
        statistic: f,
        degrees,
        p: f_tail(f, degrees.0, degrees.1)?,
    })
}

/// Compares the variances of groups of normal data (NIST/SEMATECH e-Handbook 1.3.5.7).
///
/// # Errors
/// Fewer than two groups, a group of fewer than two values or without spread.
pub fn bartlett(groups: &[Vec<f64>]) -> Result<Test, Refusal> {
    checked(groups, 2)?;
    let parts = parts(groups)?;
    if parts.iter().any(|part| part.2 <= 0.0) {
        return refuse(
            Reason::ZeroVariance,
            say!("the values of one group are equal"),
        );
    }
    let k = parts.len() as f64;
    let within: f64 = parts.iter().map(|part| part.0 - 1.0).sum();
    let pooled = parts.iter().map(|part| part.2).sum::<f64>() / within;
    let each: f64 = parts
        .iter()
        .map(|(n, _, squares)| (n - 1.0) * libm::log(squares / (n - 1.0)))
        .sum();
    let inverse: f64 = parts.iter().map(|part| 1.0 / (part.0 - 1.0)).sum();
    let scale = 1.0 + (inverse - 1.0 / within) / (3.0 * (k - 1.0));
    let statistic = (within * libm::log(pooled) - each) / scale;
    Ok(Test {
        statistic,
        degrees: (k - 1.0, f64::INFINITY),
        p: chi_squared_tail(statistic, k - 1.0)?,
    })
}

/// What deviations are taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Centre {
    /// The mean of the group.
    Mean,
    /// Its median, which bears data that are not normal.
    Median,
}

/// Compares the spreads of groups by their absolute deviations (Levene 1960; Brown and Forsythe 1974;
/// NIST/SEMATECH e-Handbook 1.3.5.10).
///
/// # Errors
/// As [`anova`].
pub fn levene(groups: &[Vec<f64>], centre: Centre) -> Result<Test, Refusal> {
    checked(groups, 2)?;
    let deviations = groups
        .iter()
        .map(|group| {
            let centre = match centre {
                Centre::Mean => mean(group)?,
                Centre::Median => median(group)?,
            };
            Ok(group.iter().map(|x| (x - centre).abs()).collect())
        })
        .collect::<Result<Vec<Vec<f64>>, Refusal>>()?;
    // Deviations are small, and carry the rounding of the values that they come from.
    let floor = square(rounding(groups.iter().flatten()));
    let within = parts(&deviations)?.iter().map(|part| part.2).sum::<f64>();
    let count: usize = deviations.iter().map(Vec::len).sum();
    if within <= count as f64 * floor {
        return refuse(
            Reason::ZeroVariance,
            say!(
                "the deviations within every group are equal: two values of a group always have equal ones"
            ),
        );
    }
    let found = anova(&deviations)?;
    Ok(Test {
        statistic: found.f,
        degrees: found.degrees,
        p: found.p,
    })
}

/// Compares groups by ranks, whatever their distribution (Kruskal and Wallis 1952). Groups of five and more
/// for the probability.
///
/// # Errors
/// Fewer than two groups, an empty group, values that are all equal.
pub fn kruskal_wallis(groups: &[Vec<f64>]) -> Result<Test, Refusal> {
    checked(groups, 1)?;
    let all: Vec<f64> = groups.iter().flatten().copied().collect();
    let n = all.len() as f64;
    at_least(all.len(), 3)?;
    let tied: f64 = ties(&all).iter().map(|t| t * t * t - t).sum();
    let share = 1.0 - tied / (n * n * n - n);
    if share <= 0.0 {
        return refuse(Reason::ZeroVariance, say!("all values are equal"));
    }
    let ranks = ranks(&all);
    let mut rest = &ranks[..];
    let mut sum = 0.0;
    for group in groups {
        let (here, after) = rest.split_at(group.len());
        sum += square(here.iter().sum()) / group.len() as f64;
        rest = after;
    }
    let h = (12.0 / (n * (n + 1.0)) * sum - 3.0 * (n + 1.0)) / share;
    let degrees = groups.len() as f64 - 1.0;
    Ok(Test {
        statistic: h,
        degrees: (degrees, f64::INFINITY),
        p: chi_squared_tail(h, degrees)?,
    })
}

/// How much of the spread lies between groups.
#[derive(Debug, Clone, Copy)]
pub struct Components {
    /// Mean squares between and within.
    pub mean_squares: (f64, f64),
    /// Effective size of a group.
    pub size: f64,
    /// Variance within groups.
    pub within: f64,
    /// Variance between groups as it comes out; below zero where groups differ less than their values.
    pub between_raw: f64,
    /// Share of the variance that lies between groups.
    pub icc: f64,
}

impl Components {
    /// Variance between groups, not below zero.
    pub fn between(&self) -> f64 {
        self.between_raw.max(0.0)
    }
}

/// Splits the variance into that within and that between groups. With fewer than five groups the part between
/// them is hardly determined.
///
/// # Errors
/// Fewer than two groups, no more values than groups.
pub fn components(groups: &[Vec<f64>]) -> Result<Components, Refusal> {
    let found = squares(groups)?;
    let n: f64 = groups.iter().map(|group| group.len() as f64).sum();
    let doubled: f64 = groups.iter().map(|group| square(group.len() as f64)).sum();
    let size = (n - doubled / n) / found.degrees.0;
    let (between, within) = (
        found.squares.0 / found.degrees.0,
        found.squares.1 / found.degrees.1,
    );
    if between + within <= 0.0 {
        return refuse(Reason::ZeroVariance, say!("all values are equal"));
    }
    Ok(Components {
        mean_squares: (between, within),
        size,
        within,
        between_raw: (between - within) / size,
        icc: (between - within) / (between + (size - 1.0) * within),
    })
}

/// Agreement of raters on targets, for single ratings and for their means (Shrout and Fleiss 1979): raters
/// drawn anew for each target, the same drawn raters, the same fixed raters.
#[derive(Debug, Clone, Copy)]
pub struct Agreement {
    /// Of single ratings.
    pub single: [f64; 3],
    /// Of the mean of all raters.
    pub mean: [f64; 3],
}

/// Agreement from `ratings[target][rater]`.
///
/// # Errors
/// Fewer than two targets or raters, rows of different length, ratings that are all equal.
pub fn agreement(ratings: &[Vec<f64>]) -> Result<Agreement, Refusal> {
    ratings.iter().try_for_each(|row| finite(row))?;
    let (n, k) = (ratings.len(), ratings.first().map_or(0, Vec::len));
    if ratings.iter().any(|row| row.len() != k) {
        return refuse(
            Reason::Unbalanced,
            say!("every rater must rate every target"),
        );
    }
    at_least(n.min(k), 2)?;
    let all: Vec<f64> = ratings.iter().flatten().copied().collect();
    let centre = mean(&all)?;
    let (nf, kf) = (n as f64, k as f64);
    let rows = ratings
        .iter()
        .map(|row| mean(row))
        .collect::<Result<Vec<_>, _>>()?;
    let columns = (0..k)
        .map(|j| {
            let column = ratings.iter().filter_map(|row| row.get(j).copied());
            mean(&column.collect::<Vec<_>>())
        })
        .collect::<Result<Vec<_>, _>>()?;
    let targets = kf * rows.iter().map(|m| square(m - centre)).sum::<f64>();
    let raters = nf * columns.iter().map(|m| square(m - centre)).sum::<f64>();
    let mut rest = 0.0;
    for (row, by_row) in ratings.iter().zip(&rows) {
        for (x, by_column) in row.iter().zip(&columns) {
            rest += square(x - by_row - by_column + centre);
        }
    }
    let b = targets / (nf - 1.0);
    let j = raters / (kf - 1.0);
    let e = rest / ((nf - 1.0) * (kf - 1.0));
    let w = (raters + rest) / (nf * (kf - 1.0));
    if b <= 0.0 {
        return refuse(Reason::ZeroVariance, say!("the targets do not differ"));
    }
    Ok(Agreement {
        single: [
            (b - w) / (b + (kf - 1.0) * w),
            (b - e) / (b + (kf - 1.0) * e + kf * (j - e) / nf),
            (b - e) / (b + (kf - 1.0) * e),
        ],
        mean: [(b - w) / b, (b - e) / (b + (j - e) / nf), (b - e) / b],
    })
}

/// Difference of two means.
#[derive(Debug, Clone, Copy)]
pub struct Difference {
    /// First mean less second.
    pub difference: f64,
    /// Its standard error.
    pub error: f64,
    /// Difference over error.
    pub t: f64,
    /// Degrees of freedom.
    pub degrees: f64,
    /// Two-sided probability by chance. A large one does not prove equality: [`equivalence`] does.
    pub p: f64,
}

impl Difference {
    fn of(difference: f64, error: f64, degrees: f64) -> Result<Self, Refusal> {
        if error <= 0.0 {
            return refuse(
                Reason::ZeroVariance,
                say!("all values are equal: there is no scatter to hold the difference against"),
            );
        }
        let t = difference / error;
        Ok(Self {
            difference,
            error,
            t,
            degrees,
            p: t_both_tails(t, degrees)?,
        })
    }

    /// Two-sided bounds.
    ///
    /// # Errors
    /// A confidence outside (0, 1).
    pub fn bounds(&self, confidence: f64) -> Result<(f64, f64), Refusal> {
        let half = self.error * t_quantile(0.5 * (1.0 + probability(confidence)?), self.degrees)?;
        Ok((self.difference - half, self.difference + half))
    }
}

/// Compares two means, with one variance for both or with one each (Satterthwaite's degrees of freedom;
/// NIST/SEMATECH e-Handbook 1.3.5.3).
///
/// # Errors
/// A sample of fewer than two values, values that are all equal.
pub fn two_means(a: &[f64], b: &[f64], one_variance: bool) -> Result<Difference, Refusal> {
    finite(a)?;
    finite(b)?;
    let ((ma, sa), (mb, sb)) = (mean_and_sd(a)?, mean_and_sd(b)?);
    let (na, nb) = (a.len() as f64, b.len() as f64);
    if one_variance {
        let degrees = na + nb - 2.0;
        let pooled = ((na - 1.0) * sa * sa + (nb - 1.0) * sb * sb) / degrees;
        return Difference::of(ma - mb, libm::sqrt(pooled * (1.0 / na + 1.0 / nb)), degrees);
    }
    let (va, vb) = (sa * sa / na, sb * sb / nb);
    let degrees = square(va + vb) / (va * va / (na - 1.0) + vb * vb / (nb - 1.0));
    Difference::of(ma - mb, libm::sqrt(va + vb), degrees)
}

/// Compares each unit before and after.
///
/// # Errors
/// Lists of different length, fewer than two pairs, differences that are all equal.
pub fn pairs(a: &[f64], b: &[f64]) -> Result<Difference, Refusal> {
    finite(a)?;
    finite(b)?;
    if a.len() != b.len() {
        return refuse(
            Reason::LengthMismatch,
            say!(
                "{count} values stand beside {b}",
                count = a.len(),
                b = b.len()
            ),
        );
    }
    let differences: Vec<f64> = a.iter().zip(b).map(|(a, b)| a - b).collect();
    let (mean, sd) = mean_and_sd(&differences)?;
    // Differences are small, and carry the rounding of the values that they come from.
    let sd = if sd > rounding(a.iter().chain(b)) {
        sd
    } else {
        0.0
    };
    let n = differences.len() as f64;
    Difference::of(mean, sd / libm::sqrt(n), n - 1.0)
}

/// Whether a difference lies within margins that were fixed beforehand: t against the lower and against the
/// upper margin, and the larger of both probabilities.
///
/// # Errors
/// As [`two_means`]; margins in the wrong order.
pub fn equivalence(
    a: &[f64],
    b: &[f64],
    low: f64,
    high: f64,
) -> Result<(Difference, f64, f64, f64), Refusal> {
    let found = two_means(a, b, false)?;
    finite(&[low, high])?;
    if low >= high {
        return refuse(
            Reason::BadLimits,
            say!(
                "the lower margin {low} is not below the upper {high}",
                low = low,
                high = high
            ),
        );
    }
    let (from_low, from_high) = (
        (found.difference - low) / found.error,
        (found.difference - high) / found.error,
    );
    let p = t_tail(from_low, found.degrees)?.max(t_tail(-from_high, found.degrees)?);
    Ok((found, from_low, from_high, p))
}
