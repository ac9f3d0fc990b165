//! Lives until failure, some of which were still going when the test ended.

use super::{
    Reason, Refusal, at_least,
    distribution::{chi_squared_quantile, normal_quantile},
    finite, probability, refuse, root,
};

fn lives(times: &[f64], events: &[bool]) -> Result<(), Refusal> {
    finite(times)?;
    if times.len() != events.len() {
        return refuse(
            Reason::LengthMismatch,
            say!(
                "{count} lives stand beside {events} ends",
                count = times.len(),
                events = events.len()
            ),
        );
    }
    at_least(times.len(), 1)?;
    if let Some(t) = times.iter().find(|t| **t <= 0.0) {
        return refuse(
            Reason::NonPositiveTime,
            say!("a life of {t}: lives are above zero", t = t),
        );
    }
    Ok(())
}

/// A Weibull distribution fitted to lives by maximum likelihood.
#[derive(Debug, Clone, Copy)]
pub struct Weibull {
    /// Shape; above 1 elements wear out.
    pub shape: f64,
    /// Life that 63.2 % do not reach.
    pub scale: f64,
    /// Logarithm of the likelihood.
    pub log_likelihood: f64,
    /// Failures.
    pub failures: usize,
    /// Variances of ln scale, of −ln shape, and their covariance.
    covariance: (f64, f64, f64),
}

/// Fits a Weibull distribution to lives (NIST/SEMATECH e-Handbook 8.4.1.2; IEC 61649, from memory). `events[i]` is true
/// where the element failed at its time, false where it was still sound. Below some five failures the shape
/// is estimated too high.
///
/// # Errors
/// No failure, all failures at one time and nothing beyond it, a life that is not above zero.
pub fn weibull(times: &[f64], events: &[bool]) -> Result<Weibull, Refusal> {
    lives(times, events)?;
    let failures = events.iter().filter(|failed| **failed).count();
    if failures == 0 {
        return refuse(
            Reason::NoEvents,
            say!("nothing failed: a life is bounded from below only, with an assumed shape"),
        );
    }
    let r = failures as f64;
    let longest = times.iter().copied().fold(0.0, f64::max);
    let scaled: Vec<f64> = times.iter().map(|t| libm::log(t / longest)).collect();
    let failed = || {
        scaled
            .iter()
            .zip(events)
            .filter(|(_, failed)| **failed)
            .map(|(ln, _)| *ln)
    };
    let mean_log = failed().sum::<f64>() / r;
    if mean_log == 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all failures stand at the longest time: no shape fits them"),
        );
    }
    let profile = |shape: f64| {
        let (mut top, mut bottom) = (0.0, 0.0);
        for ln in &scaled {
            let power = libm::exp(shape * ln);
            top += power * ln;
            bottom += power;
        }
        top / bottom - 1.0 / shape - mean_log
    };
    let mut high = 1.0;
    while profile(high) < 0.0 && high < 1e9 {
        high *= 2.0;
    }
    let mut low = high;
    while profile(low) > 0.0 && low > 1e-9 {
        low *= 0.5;
    }
    let shape = root(profile, low, high);
    let power: f64 = scaled.iter().map(|ln| libm::exp(shape * ln)).sum();
    let relative = libm::pow(power / r, 1.0 / shape);
    let scale = longest * relative;
    let log_likelihood = scaled
        .iter()
        .zip(events)
        .map(|(ln, failed)| {
            let z = shape * (ln - libm::log(relative));
            let at_end = if *failed {
                libm::log(shape / scale) + z - z / shape
            } else {
                0.0
            };
            at_end - libm::exp(z)
        })
        .sum();
    // Observed information by ln scale and −ln shape.
    let (mut mm, mut mt, mut tt) = (0.0, 0.0, 0.0);
    for (ln, failed) in scaled.iter().zip(events) {
        let z = shape * (ln - libm::log(relative));
        let (w, e) = (libm::exp(z), f64::from(u8::from(*failed)));
        mm += shape * shape * w;
        mt += shape * (w - e) + shape * w * z;
        tt += (w - e) * z + w * z * z;
    }
    let determinant = mm * tt - mt * mt;
    Ok(Weibull {
        shape,
        scale,
        log_likelihood,
        failures,
        covariance: (tt / determinant, mm / determinant, -mt / determinant),
    })
}

impl Weibull {
    fn around(estimate: f64, variance: f64, z: f64) -> (f64, f64) {
        let half = z * libm::sqrt(variance);
        (estimate * libm::exp(-half), estimate * libm::exp(half))
    }

    /// Two-sided bounds of the shape, from the observed information.
    ///
    /// # Errors
    /// A confidence outside (0, 1).
    pub fn shape_bounds(&self, confidence: f64) -> Result<(f64, f64), Refusal> {
        let z = normal_quantile(0.5 * (1.0 + probability(confidence)?))?;
        Ok(Self::around(self.shape, self.covariance.1, z))
    }

    /// Two-sided bounds of the scale.
    ///
    /// # Errors
    /// A confidence outside (0, 1).
    pub fn scale_bounds(&self, confidence: f64) -> Result<(f64, f64), Refusal> {
        let z = normal_quantile(0.5 * (1.0 + probability(confidence)?))?;
        Ok(Self::around(self.scale, self.covariance.0, z))
    }

    /// Life that a share does not reach.
    ///
    /// # Errors
    /// A share outside (0, 1).
    pub fn life(&self, share: f64) -> Result<f64, Refusal> {
        let power = -libm::log1p(-probability(share)?);
        Ok(self.scale * libm::pow(power, 1.0 / self.shape))
    }

    fn life_around(&self, share: f64, z: f64) -> Result<(f64, f64), Refusal> {
        let ln = libm::log(-libm::log1p(-probability(share)?));
        // ln t = μ + e^θ ln(−ln(1 − p)): its slope by θ is what follows μ.
        let by = ln / self.shape;
        let (m, t, both) = self.covariance;
        Ok(Self::around(
            self.life(share)?,
            m + 2.0 * by * both + by * by * t,
            z,
        ))
    }

    /// Two-sided bounds of the life that a share does not reach.
    ///
    /// # Errors
    /// A share or a confidence outside (0, 1).
    pub fn life_bounds(&self, share: f64, confidence: f64) -> Result<(f64, f64), Refusal> {
        self.life_around(
            share,
            normal_quantile(0.5 * (1.0 + probability(confidence)?))?,
        )
    }

    /// One-sided lower bound of that life.
    ///
    /// # Errors
    /// As [`Weibull::life_bounds`].
    pub fn life_lower(&self, share: f64, confidence: f64) -> Result<f64, Refusal> {
        Ok(self.life_around(share, normal_quantile(confidence)?)?.0)
    }
}

/// Lives bounded with a shape known from elsewhere.
#[derive(Debug, Clone, Copy)]
pub struct KnownShape {
    /// The shape.
    pub shape: f64,
    /// Scale by maximum likelihood; nothing where nothing failed.
    pub scale: Option<f64>,
    /// One-sided lower bound of the scale.
    pub scale_lower: f64,
}

/// Bounds lives with an assumed shape, for a test that ended at a time (IEC 61649, from memory). The
/// assumed shape must have a recorded origin.
///
/// # Errors
/// More failures than lives, a shape or a life that is not above zero, a confidence outside (0, 1).
pub fn known_shape(
    times: &[f64],
    failures: f64,
    shape: f64,
    confidence: f64,
) -> Result<KnownShape, Refusal> {
    lives(times, &vec![false; times.len()])?;
    let r = super::count(failures)?;
    if r > times.len() as f64 {
        return refuse(
            Reason::CountExceedsN,
            say!(
                "{r} failures of {count} elements",
                r = r,
                count = times.len()
            ),
        );
    }
    finite(&[shape])?;
    if shape <= 0.0 {
        return refuse(
            Reason::BadParameter,
            say!("a shape of {shape}", shape = shape),
        );
    }
    // In parts of the longest: powers of long lives are beyond the range of numbers.
    let longest = times.iter().fold(0.0, |most: f64, t| most.max(*t));
    let total: f64 = times.iter().map(|t| libm::pow(*t / longest, shape)).sum();
    let chi = chi_squared_quantile(confidence, 2.0 * r + 2.0)?;
    let scale = |power: f64| longest * libm::pow(power, 1.0 / shape);
    Ok(KnownShape {
        shape,
        scale: (r > 0.0).then(|| scale(total / r)),
        scale_lower: scale(2.0 * total / chi),
    })
}

impl KnownShape {
    /// One-sided lower bound of the life that a share does not reach.
    ///
    /// # Errors
    /// A share outside (0, 1).
    pub fn life_lower(&self, share: f64) -> Result<f64, Refusal> {
        let power = -libm::log1p(-probability(share)?);
        Ok(self.scale_lower * libm::pow(power, 1.0 / self.shape))
    }
}

/// One step of a survival curve.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    /// Time of one or more failures.
    pub time: f64,
    /// Share that survives it.
    pub survival: f64,
    /// Its standard error (Greenwood 1926); nothing once nobody survives.
    pub error: Option<f64>,
}

/// Survival without an assumed distribution (Kaplan and Meier 1958). An element that was still sound at the
/// time of a failure was at risk there.
///
/// # Errors
/// No life, lists of different length, a life that is not above zero.
pub fn survival(times: &[f64], events: &[bool]) -> Result<Vec<Step>, Refusal> {
    lives(times, events)?;
    let mut ends: Vec<f64> = times
        .iter()
        .zip(events)
        .filter(|(_, failed)| **failed)
        .map(|(t, _)| *t)
        .collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup();
    let (mut share, mut sum) = (1.0, 0.0);
    Ok(ends
        .into_iter()
        .map(|time| {
            let risk = times.iter().filter(|t| **t >= time).count() as f64;
            let failed = times
                .iter()
                .zip(events)
                .filter(|(t, failed)| **failed && **t == time)
                .count() as f64;
            share *= 1.0 - failed / risk;
            sum += failed / (risk * (risk - failed));
            Step {
                time,
                survival: share,
                error: (share > 0.0).then(|| share * libm::sqrt(sum)),
            }
        })
        .collect())
}
