//! How many cycles a declining characteristic supports, after the course of ICH Q1E (2003, from memory) for shelf life.

use super::{
    Reason, Refusal, at_least,
    distribution::{f_tail, t_quantile},
    finite, probability, refuse,
    regression::line,
    rounding, square,
    summary::mean,
};

/// The course of one lot or element: a characteristic over cycles.
#[derive(Debug, Clone)]
pub struct Course {
    /// Cycles.
    pub x: Vec<f64>,
    /// The characteristic after them.
    pub y: Vec<f64>,
}

/// Which courses share what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pooling {
    /// Each has its own line.
    SeparateLines,
    /// One slope, each its own start.
    CommonSlope,
    /// One line.
    CommonLine,
}

impl Pooling {
    /// The model in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::SeparateLines => say!("separate lines"),
            Self::CommonSlope => say!("common slope"),
            Self::CommonLine => say!("common line"),
        }
    }
}

/// Whether courses may share one line.
#[derive(Debug, Clone, Copy)]
pub struct Poolability {
    /// F of slopes and its probability by chance.
    pub slopes: (f64, f64),
    /// F of starts and its probability by chance.
    pub starts: (f64, f64),
    /// Degrees of freedom of both F.
    pub degrees: (f64, f64),
    /// Residual squares with separate lines, one slope, one line.
    pub squares: [f64; 3],
    /// The model that a level of 0.25 leaves: a weak test must not pool for lack of data.
    pub model: Pooling,
}

/// Centred sums of a course.
struct Sums {
    n: f64,
    x: f64,
    y: f64,
    sxx: f64,
    sxy: f64,
    syy: f64,
}

fn sums(course: &Course) -> Result<Sums, Refusal> {
    let (x, y) = (mean(&course.x)?, mean(&course.y)?);
    let of = |a: &[f64], ma: f64, b: &[f64], mb: f64| -> f64 {
        a.iter().zip(b).map(|(a, b)| (a - ma) * (b - mb)).sum()
    };
    Ok(Sums {
        n: course.x.len() as f64,
        x,
        y,
        sxx: of(&course.x, x, &course.x, x),
        sxy: of(&course.x, x, &course.y, y),
        syy: of(&course.y, y, &course.y, y),
    })
}

fn joined(courses: &[Course]) -> Course {
    Course {
        x: courses.iter().flat_map(|course| course.x.clone()).collect(),
        y: courses.iter().flat_map(|course| course.y.clone()).collect(),
    }
}

fn checked(courses: &[Course]) -> Result<Vec<Sums>, Refusal> {
    for course in courses {
        finite(&course.x)?;
        finite(&course.y)?;
        if course.x.len() != course.y.len() {
            return refuse(
                Reason::LengthMismatch,
                say!("a course has not as many values as cycles"),
            );
        }
    }
    courses
        .iter()
        .map(|course| {
            at_least(course.x.len(), 3)?;
            let sums = sums(course)?;
            match sums.sxx > 0.0 {
                true => Ok(sums),
                false => refuse(
                    Reason::SingularDesign,
                    say!("a course stands at one number of cycles: it has no slope"),
                ),
            }
        })
        .collect()
}

/// Residual squares of a line, none below zero.
fn left(syy: f64, sxy: f64, sxx: f64) -> f64 {
    (syy - sxy * sxy / sxx).max(0.0)
}

/// Residual squares of a course about its own line, summed from the residuals themselves.
fn own(course: &Course) -> Result<f64, Refusal> {
    let fit = line(&course.x, &course.y)?;
    Ok(fit.s * fit.s * (fit.n - 2.0))
}

/// Tests whether courses may share a slope, then a line.
///
/// # Errors
/// Fewer than two courses; a course of fewer than three points or at one number of cycles; courses that
/// their lines meet exactly.
pub fn poolability(courses: &[Course]) -> Result<Poolability, Refusal> {
    let all = checked(courses)?;
    if all.len() < 2 {
        return refuse(
            Reason::TooFewGroups,
            say!("one course: there is nothing to pool"),
        );
    }
    let separate = courses.iter().map(own).sum::<Result<f64, _>>()?;
    let total = |f: fn(&Sums) -> f64| all.iter().map(f).sum::<f64>();
    let slope = left(total(|s| s.syy), total(|s| s.sxy), total(|s| s.sxx));
    let one = own(&joined(courses))?;
    let k = all.len() as f64;
    let degrees = (k - 1.0, total(|s| s.n) - 2.0 * k);
    let values = || courses.iter().flat_map(|course| &course.y);
    if separate <= values().count() as f64 * square(rounding(values())) {
        return refuse(
            Reason::ZeroVariance,
            say!("every course lies on its line exactly: there is no scatter to test against"),
        );
    }
    let f = |more: f64, fewer: f64| -> Result<(f64, f64), Refusal> {
        let f = ((more - fewer) / degrees.0) / (separate / degrees.1);
        Ok((f, f_tail(f.max(0.0), degrees.0, degrees.1)?))
    };
    let (slopes, starts) = (f(slope, separate)?, f(one, slope)?);
    const LEVEL: f64 = 0.25;
    let model = match () {
        () if slopes.1 < LEVEL => Pooling::SeparateLines,
        () if starts.1 < LEVEL => Pooling::CommonSlope,
        () => Pooling::CommonLine,
    };
    Ok(Poolability {
        slopes,
        starts,
        degrees,
        squares: [separate, slope, one],
        model,
    })
}

/// Which side of the limit is the sound one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// The characteristic must stay above.
    Lower(f64),
    /// It must stay below.
    Upper(f64),
}

/// Whose bound meets the limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// That of the mean element.
    Mean,
    /// That of one further element.
    Prediction,
}

/// What is asked of courses.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// The limit.
    pub limit: Limit,
    /// One-sided confidence.
    pub confidence: f64,
    /// Whose bound.
    pub of: Of,
    /// Cycles beyond which no crossing is looked for.
    pub most: f64,
}

/// A line with the spread of its estimate.
#[derive(Debug, Clone, Copy)]
pub struct Bounded {
    /// Mean of x, at which y stands.
    pub x: f64,
    /// The line there.
    pub y: f64,
    /// Slope.
    pub slope: f64,
    /// Points that fix the height.
    pub n: f64,
    /// Sum of squares that fixes the slope.
    pub sxx: f64,
    /// Residual standard deviation.
    pub s: f64,
    /// Its degrees of freedom.
    pub degrees: f64,
}

impl Bounded {
    /// The one-sided bound on the side of the limit, at some x.
    ///
    /// # Errors
    /// A confidence outside (0, 1).
    pub fn bound(&self, x: f64, question: Question) -> Result<f64, Refusal> {
        let t = t_quantile(question.confidence, self.degrees)?;
        let further = if question.of == Of::Prediction {
            1.0
        } else {
            0.0
        };
        let u = x - self.x;
        let half = t * self.s * libm::sqrt(further + 1.0 / self.n + u * u / self.sxx);
        let line = self.y + self.slope * u;
        Ok(match question.limit {
            Limit::Lower(_) => line - half,
            Limit::Upper(_) => line + half,
        })
    }

    /// The first x from 0 on at which the bound meets the limit; nothing where it does not before the end of
    /// the search.
    ///
    /// # Errors
    /// A confidence that is not above 0.5 and below 1; a bound beyond the limit at zero cycles.
    pub fn crossing(&self, question: Question) -> Result<Option<f64>, Refusal> {
        if question.confidence <= 0.5 {
            return refuse(
                Reason::BadProbability,
                say!(
                    "a confidence of {confidence} supports nothing; more than 0.5 is due",
                    confidence = question.confidence
                ),
            );
        }
        probability(question.confidence)?;
        // Turned so that the sound side is above.
        let (side, limit) = match question.limit {
            Limit::Lower(limit) => (1.0, limit),
            Limit::Upper(limit) => (-1.0, limit),
        };
        finite(&[limit])?;
        let room = |bound: f64| side * (bound - limit);
        if room(self.bound(0.0, question)?) < 0.0 {
            return refuse(
                Reason::BoundBeyondLimitAtStart,
                say!("the bound lies beyond the limit from the start"),
            );
        }
        let (height, slope) = (side * (self.y - limit), side * self.slope);
        let t = t_quantile(question.confidence, self.degrees)?;
        let k = t * t * self.s * self.s;
        let further = if question.of == Of::Prediction {
            1.0
        } else {
            0.0
        };
        // (height + slope u)² = k (further + 1/n + u²/Sxx), u counted from the mean of x.
        let (a, b, c) = (
            slope * slope - k / self.sxx,
            slope * height,
            height * height - k * (further + 1.0 / self.n),
        );
        // b² − a c, with the two equal parts taken out before they are rounded: a line without scatter
        // would seem never to meet its limit where they leave something below zero.
        let d = k * ((further + 1.0 / self.n) * a + height * height / self.sxx);
        if d < 0.0 {
            return Ok(None);
        }
        // The form that loses no digits by taking nearly equal numbers from each other; where a is nothing, one of the two
        // is no number, and the other is that of the straight line.
        let root = libm::sqrt(d);
        let q = -(b + if b < 0.0 { -root } else { root });
        let roots = [q / a, c / q];
        let first = roots
            .into_iter()
            .filter(|u| {
                u.is_finite() && *u >= -self.x && height + slope * u >= -1e-12 * height.abs()
            })
            .reduce(f64::min)
            .map(|u| u + self.x);
        Ok(first.filter(|x| *x <= question.most))
    }
}

/// Lines of courses under every model.
#[derive(Debug, Clone)]
pub struct Lines {
    /// Each course alone.
    pub separate: Vec<Bounded>,
    /// Each course's own line with the residuals of all.
    pub separate_pooled: Vec<Bounded>,
    /// One slope.
    pub common_slope: Vec<Bounded>,
    /// One line.
    pub common_line: Bounded,
}

/// Lays lines through courses under every model.
///
/// # Errors
/// No course; a course of fewer than three points or at one number of cycles.
pub fn lines(courses: &[Course]) -> Result<Lines, Refusal> {
    let all = checked(courses)?;
    if all.is_empty() {
        return refuse(Reason::TooFewGroups, say!("no course"));
    }
    let alone = |course: &Course| -> Result<Bounded, Refusal> {
        let fit = line(&course.x, &course.y)?;
        Ok(Bounded {
            x: fit.x,
            y: fit.y,
            slope: fit.slope,
            n: fit.n,
            sxx: fit.sxx,
            s: fit.s,
            degrees: fit.n - 2.0,
        })
    };
    let separate = courses.iter().map(alone).collect::<Result<Vec<_>, _>>()?;
    let (k, n) = (all.len() as f64, all.iter().map(|s| s.n).sum::<f64>());
    let own: f64 = separate
        .iter()
        .map(|line| line.s * line.s * line.degrees)
        .sum();
    let total = |f: fn(&Sums) -> f64| all.iter().map(f).sum::<f64>();
    let (sxx, sxy) = (total(|s| s.sxx), total(|s| s.sxy));
    let slope = sxy / sxx;
    let one_slope = left(total(|s| s.syy), sxy, sxx);
    Ok(Lines {
        separate_pooled: separate
            .iter()
            .map(|line| Bounded {
                s: libm::sqrt(own / (n - 2.0 * k)),
                degrees: n - 2.0 * k,
                ..*line
            })
            .collect(),
        common_slope: all
            .iter()
            .map(|s| Bounded {
                x: s.x,
                y: s.y,
                slope,
                n: s.n,
                sxx,
                s: libm::sqrt(one_slope / (n - k - 1.0)),
                degrees: n - k - 1.0,
            })
            .collect(),
        common_line: alone(&joined(courses))?,
        separate,
    })
}

/// Cycles at which the bounds of lines meet the limit.
#[derive(Debug, Clone)]
pub struct Supported {
    /// Each course alone; nothing where its bound never meets the limit.
    pub each: Vec<Option<f64>>,
    /// The worst course alone.
    pub separate: Option<f64>,
    /// The worst course, with the residuals of all.
    pub separate_pooled: Option<f64>,
    /// The worst course, with one slope.
    pub common_slope: Option<f64>,
    /// One line.
    pub common_line: Option<f64>,
}

impl Supported {
    /// The figure of one model.
    pub fn of(&self, model: Pooling) -> Option<f64> {
        match model {
            Pooling::SeparateLines => self.separate,
            Pooling::CommonSlope => self.common_slope,
            Pooling::CommonLine => self.common_line,
        }
    }
}

/// Cycles that courses support under every model.
///
/// # Errors
/// As [`lines`] and [`Bounded::crossing`]; no bound that meets the limit.
pub fn supported(courses: &[Course], question: Question) -> Result<Supported, Refusal> {
    let lines = lines(courses)?;
    let crossings = |lines: &[Bounded]| -> Result<Vec<Option<f64>>, Refusal> {
        lines.iter().map(|line| line.crossing(question)).collect()
    };
    let worst = |crossings: &[Option<f64>]| crossings.iter().flatten().copied().reduce(f64::min);
    let each = crossings(&lines.separate)?;
    let separate = worst(&each);
    if separate.is_none() {
        return refuse(
            Reason::NoCrossing,
            say!("the bound never meets the limit: the data do not limit the number of cycles"),
        );
    }
    // A model that pools may start beyond the limit although no course does: then it supports nothing.
    let pooled = |lines: &[Bounded]| match crossings(lines) {
        Ok(crossings) => Ok(worst(&crossings)),
        Err(refusal) if refusal.reason == Reason::BoundBeyondLimitAtStart => Ok(Some(0.0)),
        Err(refusal) => Err(refusal),
    };
    Ok(Supported {
        separate,
        separate_pooled: pooled(&lines.separate_pooled)?,
        common_slope: pooled(&lines.common_slope)?,
        common_line: pooled(&[lines.common_line])?,
        each,
    })
}

/// The first x from 0 on at which the one-sided lower confidence bound of the mean line meets a
/// limit; nothing where it never does.
///
/// # Errors
/// As [`lines`] and [`Bounded::crossing`].
pub fn bound_crossing(
    x: &[f64],
    y: &[f64],
    limit: f64,
    confidence: f64,
) -> Result<Option<f64>, Refusal> {
    let course = Course {
        x: x.to_vec(),
        y: y.to_vec(),
    };
    lines(&[course])?.common_line.crossing(Question {
        limit: Limit::Lower(limit),
        confidence,
        of: Of::Mean,
        most: f64::INFINITY,
    })
}
