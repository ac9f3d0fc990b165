//! Lines and other linear models, and the trend of a series without a model.

use twofloat::TwoFloat;

use super::{
    Reason, Refusal, at_least,
    distribution::{f_tail, normal_cdf, normal_quantile, t_quantile},
    finite, probability, refuse, square,
    summary::{mean, median, ties},
};

/// Least-squares line with what is needed for its bounds.
#[derive(Debug, Clone, Copy)]
pub struct Line {
    /// Number of points.
    pub n: f64,
    /// Mean of x.
    pub x: f64,
    /// Mean of y.
    pub y: f64,
    /// Slope.
    pub slope: f64,
    /// Sum of squared deviations of x.
    pub sxx: f64,
    /// Residual standard deviation, n − 2 degrees of freedom.
    pub s: f64,
}

impl Line {
    /// The line at some x.
    pub fn at(&self, x: f64) -> f64 {
        self.y + self.slope * (x - self.x)
    }

    /// Half width of the two-sided bound of the mean at some x, and of one further value there
    /// (NIST/SEMATECH e-Handbook 4.5.1, from memory).
    ///
    /// # Errors
    /// A confidence outside (0, 1).
    pub fn half_widths(&self, x: f64, confidence: f64) -> Result<(f64, f64), Refusal> {
        finite(&[x])?;
        let t = t_quantile(0.5 * (1.0 + probability(confidence)?), self.n - 2.0)?;
        let share = 1.0 / self.n + (x - self.x) * (x - self.x) / self.sxx;
        Ok((
            t * self.s * libm::sqrt(share),
            t * self.s * libm::sqrt(1.0 + share),
        ))
    }
}

fn pairs(x: &[f64], y: &[f64], least: usize) -> Result<(), Refusal> {
    finite(x)?;
    finite(y)?;
    if x.len() != y.len() {
        return refuse(
            Reason::LengthMismatch,
            say!(
                "{count} values of x stand beside {y} of y",
                count = x.len(),
                y = y.len()
            ),
        );
    }
    at_least(x.len(), least)
}

/// Fits a line through points.
///
/// # Errors
/// Fewer than three points, or one x only.
pub fn line(x: &[f64], y: &[f64]) -> Result<Line, Refusal> {
    pairs(x, y, 3)?;
    let n = x.len() as f64;
    let (mx, my) = (mean(x)?, mean(y)?);
    let sxx: f64 = x.iter().map(|x| square(x - mx)).sum();
    if sxx <= 0.0 {
        return refuse(
            Reason::SingularDesign,
            say!("all points stand at one x: no line can be laid through them"),
        );
    }
    let pairs = || x.iter().zip(y);
    let slope = pairs().map(|(x, y)| (x - mx) * (y - my)).sum::<f64>() / sxx;
    let squares: f64 = pairs()
        .map(|(x, y)| square(y - my - slope * (x - mx)))
        .sum();
    Ok(Line {
        n,
        x: mx,
        y: my,
        slope,
        sxx,
        s: libm::sqrt(squares / (n - 2.0)),
    })
}

/// A linear model fitted by least squares.
#[derive(Debug, Clone)]
pub struct Fit {
    /// Coefficients in the order of the columns.
    pub coefficients: Vec<f64>,
    /// Their standard errors.
    pub errors: Vec<f64>,
    /// Residual standard deviation.
    pub s: f64,
    /// Degrees of freedom of the residuals, and of the regression.
    pub degrees: (f64, f64),
    /// Sums of squares of the residuals, and of the regression.
    pub squares: (f64, f64),
    /// Share of the squares that the model takes up; about the mean where a column is constant, else about zero.
    pub r_squared: f64,
}

impl Fit {
    /// Mean square of the regression over that of the residuals; nothing where the fit is exact.
    pub fn f(&self) -> Option<f64> {
        let f = (self.squares.1 / self.degrees.1) / (self.s * self.s);
        // A residual that is rounding of the squares alone is no measure.
        (self.squares.0 > 1e-25 * self.squares.1).then_some(f)
    }
}

type Double = TwoFloat;

fn dot(a: &[Double], b: &[Double]) -> Double {
    a.iter()
        .zip(b)
        .fold(Double::from(0.0), |sum, (a, b)| sum + *a * *b)
}

/// Takes a multiple of one list from another.
fn take(from: &mut [Double], share: Double, what: &[Double]) {
    for (from, what) in from.iter_mut().zip(what) {
        *from -= share * *what;
    }
}

/// Least squares on columns, by Gram and Schmidt's orthogonalisation in arithmetic of twice the usual
/// digits: a polynomial of degree ten loses ten digits, and enough are left.
///
/// # Errors
/// No more points than columns; lists of different length; columns that depend on each other.
#[expect(
    clippy::indexing_slicing,
    reason = "every list and matrix here has as many columns as `columns`, and the indices run below their number"
)]
pub fn least_squares(columns: &[Vec<Double>], y: &[f64], constant: bool) -> Result<Fit, Refusal> {
    finite(y)?;
    let (n, p) = (y.len(), columns.len());
    if columns.iter().any(|column| column.len() != n) {
        return refuse(
            Reason::LengthMismatch,
            say!("the columns are not as long as the values"),
        );
    }
    columns
        .iter()
        .try_for_each(|column| finite(&column.iter().map(|x| x.hi()).collect::<Vec<_>>()))?;
    at_least(n, p + 1)?;
    let mut q = columns.to_vec();
    let mut r = vec![vec![Double::from(0.0); p]; p];
    let mut norms = vec![Double::from(0.0); p];
    for j in 0..p {
        let whole = dot(&q[j], &q[j]);
        for i in 0..j {
            let share = dot(&q[i], &q[j]) / norms[i];
            r[i][j] = share;
            let (before, here) = q.split_at_mut(j);
            take(&mut here[0], share, &before[i]);
        }
        r[j][j] = Double::from(1.0);
        norms[j] = dot(&q[j], &q[j]);
        let left = norms[j].hi() / whole.hi();
        if whole.hi() == 0.0 || left < 1e-28 {
            return refuse(
                Reason::SingularDesign,
                say!(
                    "the regressors are equal or depend on each other: their shares cannot be told apart"
                ),
            );
        }
        if left < 1e-24 {
            return refuse(
                Reason::IllConditioned,
                say!(
                    "the regressors depend on each other so nearly that no digit of their shares would be sure"
                ),
            );
        }
    }
    // Right-hand side with the same steps, then the triangle from below.
    let mut rest: Vec<Double> = y.iter().map(|y| Double::from(*y)).collect();
    let mut b = vec![Double::from(0.0); p];
    for j in 0..p {
        b[j] = dot(&q[j], &rest) / norms[j];
        take(&mut rest, b[j], &q[j]);
    }
    let mut inverse = vec![vec![Double::from(0.0); p]; p];
    for j in (0..p).rev() {
        inverse[j][j] = Double::from(1.0);
        for k in j + 1..p {
            let share = r[j][k];
            let above = b[k];
            b[j] -= share * above;
            let (upper, lower) = inverse.split_at_mut(k);
            take(&mut upper[j], share, &lower[0]);
        }
    }
    let residual = dot(&rest, &rest);
    let (nf, pf) = (n as f64, p as f64);
    let about = match constant {
        true => y.iter().fold(Double::from(0.0), |sum, y| sum + *y) / nf,
        false => Double::from(0.0),
    };
    let whole = y
        .iter()
        .map(|y| Double::from(*y) - about)
        .fold(Double::from(0.0), |sum, d| sum + d * d);
    let degrees = (nf - pf, if constant { pf - 1.0 } else { pf });
    let variance = residual.hi() / degrees.0;
    let errors = (0..p)
        .map(|j| {
            let spread = (0..p).fold(Double::from(0.0), |sum, k| {
                sum + inverse[j][k] * inverse[j][k] / norms[k]
            });
            libm::sqrt(variance * spread.hi())
        })
        .collect();
    Ok(Fit {
        coefficients: b.iter().map(|b| b.hi()).collect(),
        errors,
        s: libm::sqrt(variance),
        degrees,
        squares: (residual.hi(), (whole - residual).hi()),
        r_squared: 1.0 - residual.hi() / whole.hi(),
    })
}

/// A polynomial through points, by [`least_squares`].
///
/// # Errors
/// As [`least_squares`]; equal abscissae; degree zero.
pub fn polynomial(x: &[f64], y: &[f64], degree: usize, intercept: bool) -> Result<Fit, Refusal> {
    pairs(x, y, 0)?;
    if degree == 0 {
        return refuse(Reason::BadParameter, say!("a degree of 0 fits nothing"));
    }
    let distinct = ties(x).len();
    let from = usize::from(!intercept);
    at_least(x.len(), degree + 2 - from)?;
    if distinct < degree + 1 - from {
        return refuse(
            Reason::SingularDesign,
            say!(
                "{distinct} different x: no polynomial of degree {degree} can be laid through them",
                distinct = distinct,
                degree = degree
            ),
        );
    }
    let mut power: Vec<Double> = vec![Double::from(1.0); x.len()];
    let mut columns = Vec::new();
    for k in 0..=degree {
        if k >= from {
            columns.push(power.clone());
        }
        power.iter_mut().zip(x).for_each(|(power, x)| *power *= *x);
    }
    least_squares(&columns, y, intercept)
}

/// Several regressors, `rows[point][regressor]`, by [`least_squares`].
///
/// # Errors
/// As [`least_squares`]; rows of different length.
pub fn several(rows: &[Vec<f64>], y: &[f64], intercept: bool) -> Result<Fit, Refusal> {
    rows.iter().try_for_each(|row| finite(row))?;
    finite(y)?;
    let width = rows.first().map_or(0, Vec::len);
    if rows.len() != y.len() || rows.iter().any(|row| row.len() != width) {
        return refuse(
            Reason::LengthMismatch,
            say!("the rows differ in length, or are not as many as the values"),
        );
    }
    let constant = intercept.then(|| vec![Double::from(1.0); y.len()]);
    let columns: Vec<Vec<Double>> = constant
        .into_iter()
        .chain((0..width).map(|j| {
            let column = rows.iter().filter_map(|row| row.get(j));
            column.map(|x| Double::from(*x)).collect()
        }))
        .collect();
    least_squares(&columns, y, intercept)
}

/// Whether a polynomial is enough, where x is repeated: mean square of its lack of fit over that of the
/// repeats, degrees of freedom of both, and the probability by chance (NIST/SEMATECH e-Handbook 4.4.4.6, from memory).
///
/// # Errors
/// As [`polynomial`]; no repeated x, or no more different x than coefficients; repeats without spread.
pub fn lack_of_fit(x: &[f64], y: &[f64], degree: usize) -> Result<(f64, f64, f64, f64), Refusal> {
    let fit = polynomial(x, y, degree, true)?;
    let mut order: Vec<(f64, f64)> = x.iter().copied().zip(y.iter().copied()).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let cells: Vec<Vec<f64>> = order
        .chunk_by(|a, b| a.0 == b.0)
        .map(|cell| cell.iter().map(|(_, y)| *y).collect())
        .collect();
    let (m, n, p) = (cells.len(), x.len(), degree + 1);
    if m <= p || n <= m {
        return refuse(
            Reason::TooFewPoints,
            say!(
                "{m} different x among {n} points: more different x than coefficients, and a repeated one, are needed",
                m = m,
                n = n
            ),
        );
    }
    let mut pure = 0.0;
    for cell in &cells {
        let mean = mean(cell)?;
        pure += cell.iter().map(|y| (y - mean) * (y - mean)).sum::<f64>();
    }
    if pure <= 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!(
                "repeats at one x are equal: the resolution of the instrument hides their scatter"
            ),
        );
    }
    let (df1, df2) = ((m - p) as f64, (n - m) as f64);
    let f = ((fit.squares.0 - pure) / df1) / (pure / df2);
    Ok((f, df1, df2, f_tail(f, df1, df2)?))
}

/// A trend by ranks.
#[derive(Debug, Clone, Copy)]
pub struct RankTrend {
    /// Pairs that rise less pairs that fall.
    pub s: f64,
    /// Its variance without a trend, ties regarded.
    pub variance: f64,
    /// Standardised, with a correction for continuity.
    pub z: f64,
    /// Two-sided probability by chance.
    pub p: f64,
}

/// Whether a series rises or falls, by the signs of all its pairs (Mann 1945, Kendall; USEPA 2009, Unified Guidance,
/// example 17-6). Below ten values an approximation; neighbours that depend on each other inflate it.
///
/// # Errors
/// Fewer than four values, or values that are all equal.
pub fn mann_kendall(x: &[f64]) -> Result<RankTrend, Refusal> {
    finite(x)?;
    at_least(x.len(), 4)?;
    let variance = rank_variance(x);
    if variance <= 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: there is nothing to rise or fall"),
        );
    }
    let s: f64 = (1..)
        .zip(x)
        .flat_map(|(next, a)| x.iter().skip(next).map(move |b| sign(b - a)))
        .sum();
    let z = (s - sign(s)) / libm::sqrt(variance);
    Ok(RankTrend {
        s,
        variance,
        z,
        p: (2.0 * normal_cdf(-z.abs())).min(1.0),
    })
}

fn sign(x: f64) -> f64 {
    f64::from(i8::from(x > 0.0) - i8::from(x < 0.0))
}

fn rank_variance(x: &[f64]) -> f64 {
    let part = |n: f64| n * (n - 1.0) * (2.0 * n + 5.0);
    (part(x.len() as f64) - ties(x).into_iter().map(part).sum::<f64>()) / 18.0
}

/// A line by the median of the slopes of all pairs.
#[derive(Debug, Clone, Copy)]
pub struct MedianSlope {
    /// Median of the slopes.
    pub slope: f64,
    /// Median of y less slope times median of x.
    pub intercept: f64,
    /// Two-sided bounds of the slope; not finite where there are too few pairs for the confidence.
    pub bounds: (f64, f64),
}

/// A line that no single point can tilt (Theil 1950, Sen 1968; bounds after Gilbert 1987, from memory; USEPA 2009, Unified
/// Guidance, example 17-7).
///
/// # Errors
/// Fewer than four points, one x only, or a confidence outside (0, 1).
pub fn theil_sen(x: &[f64], y: &[f64], confidence: f64) -> Result<MedianSlope, Refusal> {
    pairs(x, y, 4)?;
    let z = normal_quantile(0.5 * (1.0 + probability(confidence)?))?;
    let points: Vec<(f64, f64)> = x.iter().copied().zip(y.iter().copied()).collect();
    let mut slopes: Vec<f64> = (1..)
        .zip(&points)
        .flat_map(|(next, a)| points.iter().skip(next).map(move |b| (a, b)))
        .filter(|(a, b)| a.0 != b.0)
        .map(|(a, b)| (b.1 - a.1) / (b.0 - a.0))
        .collect();
    if slopes.is_empty() {
        return refuse(
            Reason::SingularDesign,
            say!("all points stand at one x: no line can be laid through them"),
        );
    }
    finite(&slopes)?;
    // Of long series these are millions, and a few of them in the order of size are asked for.
    let all = slopes.len();
    let mut ranked = |i: usize| *slopes.select_nth_unstable_by(i, f64::total_cmp).1;
    let slope = match all % 2 {
        1 => ranked(all / 2),
        _ => 0.5 * (ranked(all / 2 - 1) + ranked(all / 2)),
    };
    let count = all as f64;
    let half = z * libm::sqrt(rank_variance(y));
    // A rank counts from 1; between two ranks the bound is drawn straight.
    let mut at = |rank: f64, beyond: f64| {
        if rank < 1.0 || rank > count {
            return beyond;
        }
        let below = libm::floor(rank);
        let (i, share) = (below as usize - 1, rank - below);
        let here = ranked(i);
        match i + 1 < all {
            true => here + share * (ranked(i + 1) - here),
            false => here,
        }
    };
    Ok(MedianSlope {
        slope,
        intercept: median(y)? - slope * median(x)?,
        bounds: (
            at(0.5 * (count - half), f64::NEG_INFINITY),
            at(0.5 * (count + half) + 1.0, f64::INFINITY),
        ),
    })
}
