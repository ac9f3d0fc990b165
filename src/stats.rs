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
    // The error function of the library of elementary functions keeps its digits in the tails.
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
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

/// Fits a line through points.
///
/// # Errors
/// Fewer than three points, or one x only.
pub fn line(x: &[f64], y: &[f64]) -> Result<Line, String> {
    if x.len() != y.len() || x.len() < 3 {
        return Err(format!("{} points, and at least 3 are needed", x.len()));
    }
    let n = x.len() as f64;
    let (mx, my) = (x.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
    let sxx: f64 = x.iter().map(|x| (x - mx) * (x - mx)).sum();
    if sxx <= 0.0 {
        return Err("all points stand at one x: no line can be laid through them".into());
    }
    let pairs = || x.iter().zip(y);
    let slope = pairs().map(|(x, y)| (x - mx) * (y - my)).sum::<f64>() / sxx;
    let squares: f64 = pairs()
        .map(|(x, y)| y - my - slope * (x - mx))
        .map(|r| r * r)
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

/// The first x from 0 on at which the one-sided lower confidence bound of the mean line meets a
/// limit; none where it never does.
///
/// # Errors
/// As [`line`]; a confidence outside (0, 1); a bound that lies below the limit from the start.
pub fn bound_crossing(
    x: &[f64],
    y: &[f64],
    limit: f64,
    confidence: f64,
) -> Result<Option<f64>, String> {
    if confidence <= 0.5 {
        return Err(format!(
            "a confidence of {confidence} supports nothing; more than 0.5 is due"
        ));
    }
    let fit = line(x, y)?;
    let t = t_quantile(confidence, fit.n - 2.0)?;
    let (k, room) = (t * t * fit.s * fit.s, fit.y - limit);
    let above =
        |u: f64| room + fit.slope * u - t * fit.s * libm::sqrt(1.0 / fit.n + u * u / fit.sxx);
    if above(-fit.x) < 0.0 {
        return Err("the bound lies below the limit from the start".into());
    }
    // (room + slope u)² = k (1/n + u²/Sxx), u counted from the mean of x.
    let (a, b, c) = (
        fit.slope * fit.slope - k / fit.sxx,
        fit.slope * room,
        room * room - k / fit.n,
    );
    let roots: Vec<f64> = if a.abs() <= 1e-14 * (fit.slope * fit.slope + k / fit.sxx) {
        vec![-c / (2.0 * b)]
    } else {
        let d = b * b - a * c;
        if d < 0.0 {
            return Ok(None);
        }
        // The form that loses no digits by taking nearly equal numbers from each other.
        let q = -(b + if b < 0.0 {
            -libm::sqrt(d)
        } else {
            libm::sqrt(d)
        });
        vec![q / a, c / q]
    };
    let first = roots
        .into_iter()
        .filter(|u| u.is_finite() && *u >= -fit.x && room + fit.slope * u >= -1e-12 * room.abs())
        .reduce(f64::min);
    Ok(first.map(|u| u + fit.x))
}

/// Lower bound of the share that survives, after some failures among n (Clopper and Pearson).
///
/// # Errors
/// No elements, more failures than elements, or a confidence outside (0, 1).
pub fn reliability_lower(n: f64, failures: f64, confidence: f64) -> Result<f64, String> {
    if n < 1.0 || failures < 0.0 || failures > n {
        return Err(format!("{failures} failures of {n} elements are no count"));
    }
    match n == failures {
        true => Ok(0.0),
        false => beta_quantile(1.0 - confidence, n - failures, failures + 1.0),
    }
}

/// Variances of a crossed study: elements, operators, repeats.
#[derive(Debug, Clone)]
pub struct GaugeStudy {
    /// Sums of squares: elements, operators, interaction, repeats.
    pub squares: [f64; 4],
    /// Interaction mean square over that of the repeats, and its probability by chance.
    pub interaction: (f64, f64),
    /// Whether the interaction was taken into the repeats.
    pub pooled: bool,
    /// Variance of repeats.
    pub repeatability: f64,
    /// Variance between operators.
    pub operator: f64,
    /// Variance of the interaction.
    pub both: f64,
    /// Variance between elements.
    pub part: f64,
}

/// Analysis of variance of a crossed study, `values[element][operator][repeat]`; an interaction
/// whose probability by chance is above `alpha` is taken into the repeats (AIAG MSA manual, from memory).
///
/// # Errors
/// One element, one operator, one repeat, or cells that are not equally full.
pub fn gauge_study(values: &[Vec<Vec<f64>>], alpha: f64) -> Result<GaugeStudy, String> {
    let (a, b) = (values.len(), values.first().map_or(0, Vec::len));
    let n = values
        .first()
        .and_then(|part| part.first())
        .map_or(0, Vec::len);
    if a < 2 || b < 2 || n < 2 {
        return Err(format!(
            "{a} elements, {b} operators, {n} repeats: at least 2 of each are needed"
        ));
    }
    if values
        .iter()
        .any(|part| part.len() != b || part.iter().any(|cell| cell.len() != n))
    {
        return Err(
            "the study is not balanced: each operator must test each element equally often".into(),
        );
    }
    let mean = |of: &mut dyn Iterator<Item = f64>| {
        let (mut sum, mut count) = (0.0, 0.0);
        of.for_each(|x| {
            sum += x;
            count += 1.0;
        });
        sum / count
    };
    let all = mean(&mut values.iter().flatten().flatten().copied());
    let cell: Vec<Vec<f64>> = values
        .iter()
        .map(|part| {
            part.iter()
                .map(|cell| mean(&mut cell.iter().copied()))
                .collect()
        })
        .collect();
    let of_part: Vec<f64> = cell
        .iter()
        .map(|row| mean(&mut row.iter().copied()))
        .collect();
    let of_operator: Vec<f64> = (0..b)
        .map(|j| mean(&mut cell.iter().map(|row| row[j])))
        .collect();
    let square = |x: f64| x * x;
    let (fa, fb, fn_) = (a as f64, b as f64, n as f64);
    let part: f64 = fb * fn_ * of_part.iter().map(|m| square(m - all)).sum::<f64>();
    let operator: f64 = fa * fn_ * of_operator.iter().map(|m| square(m - all)).sum::<f64>();
    let (mut both, mut repeats) = (0.0, 0.0);
    for i in 0..a {
        for j in 0..b {
            both += fn_ * square(cell[i][j] - of_part[i] - of_operator[j] + all);
            repeats += values[i][j]
                .iter()
                .map(|x| square(x - cell[i][j]))
                .sum::<f64>();
        }
    }
    let (d_part, d_operator, d_both, d_repeats) = (
        fa - 1.0,
        fb - 1.0,
        (fa - 1.0) * (fb - 1.0),
        fa * fb * (fn_ - 1.0),
    );
    let f = (both / d_both) / (repeats / d_repeats);
    // Repeats without any spread leave no measure to hold the interaction against.
    let by_chance = match f.is_finite() {
        true => statrs::distribution::FisherSnedecor::new(d_both, d_repeats)
            .map_err(|error| error.to_string())?
            .sf(f),
        false if both > 0.0 => 0.0,
        false => 1.0,
    };
    let pooled = by_chance > alpha;
    let (e, po) = match pooled {
        true => {
            let e = (both + repeats) / (d_both + d_repeats);
            (e, e)
        }
        false => (repeats / d_repeats, both / d_both),
    };
    Ok(GaugeStudy {
        squares: [part, operator, both, repeats],
        interaction: (f, by_chance),
        pooled,
        repeatability: e,
        operator: ((operator / d_operator - po) / (fa * fn_)).max(0.0),
        both: if pooled {
            0.0
        } else {
            ((po - e) / fn_).max(0.0)
        },
        part: ((part / d_part - po) / (fb * fn_)).max(0.0),
    })
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
