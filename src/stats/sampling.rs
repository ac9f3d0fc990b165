//! Acceptance sampling: what a plan protects against, and the smallest plan that does.

use super::{
    Reason, Refusal, at_least, count,
    distribution::{beta_quantile, noncentral_t_cdf, noncentral_t_quantile, normal_quantile},
    finite, probability,
    proportion::binomial_at_most,
    refuse, root, smallest,
    summary::mean_and_sd,
};

/// Where a share of failing units is found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Model {
    /// In a process, of which the sample is a part (type B).
    Binomial,
    /// In one lot of this size, of which the sample is drawn without putting back (type A).
    Hypergeometric {
        /// Units of the lot.
        lot: f64,
    },
    /// As rare events on many units.
    Poisson,
}

/// Accept when at most c units of a sample of n fail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    /// Sample size.
    pub n: f64,
    /// Acceptance number.
    pub c: f64,
}

impl Plan {
    fn checked(self) -> Result<Self, Refusal> {
        finite(&[self.n, self.c])?;
        count(self.c)?;
        count(self.n)?;
        at_least(self.n as usize, 1)?;
        Ok(self)
    }
}

/// Probability that a plan accepts (NIST/SEMATECH e-Handbook 6.2.3.2). `quality` is the share of failing units; for one
/// lot it is their number.
///
/// # Errors
/// A plan that cannot be; a share outside [0, 1]; more failing units than the lot has; a sample larger than it.
pub fn acceptance(plan: Plan, quality: f64, model: Model) -> Result<f64, Refusal> {
    let Plan { n, c } = plan.checked()?;
    finite(&[quality])?;
    if let Model::Hypergeometric { lot } = model {
        let (lot, failing) = (count(lot)?, count(quality)?);
        if n > lot {
            return refuse(
                Reason::SampleExceedsLot,
                say!("a sample of {n} from a lot of {lot}", n = n, lot = lot),
            );
        }
        if failing > lot {
            return refuse(
                Reason::CountExceedsN,
                say!(
                    "{failing} failing units in a lot of {lot}",
                    failing = failing,
                    lot = lot
                ),
            );
        }
        return Ok(without_return(c, n, failing, lot));
    }
    if !(0.0..=1.0).contains(&quality) {
        return refuse(
            Reason::BadProbability,
            say!("{quality} is no share between 0 and 1", quality = quality),
        );
    }
    Ok(match model {
        Model::Poisson if quality == 0.0 => 1.0,
        Model::Poisson => super::distribution::poisson_at_most(c, n * quality),
        _ => binomial_at_most(c, n, quality),
    })
}

/// At most c failing units among n drawn from a lot: terms of the hypergeometric distribution, each from
/// the one before.
fn without_return(c: f64, n: f64, failing: f64, lot: f64) -> f64 {
    let sound = lot - failing;
    let first = (n - sound).max(0.0);
    let last = n.min(failing);
    if c >= last {
        return 1.0;
    }
    let mode = libm::floor((n + 1.0) * (failing + 1.0) / (lot + 2.0)).clamp(first, last);
    let (mut accepted, mut rejected) = (0.0, 0.0);
    let mut count = |k: f64, term: f64| match k <= c {
        true => accepted += term,
        false => rejected += term,
    };
    // From the most likely number outwards, each term from its neighbour: far out they vanish without harm.
    let (mut k, mut term) = (mode, 1.0);
    while k <= last {
        count(k, term);
        term *= (failing - k) * (n - k) / ((k + 1.0) * (sound - n + k + 1.0));
        k += 1.0;
    }
    (k, term) = (mode, 1.0);
    while k > first {
        term *= k * (sound - n + k) / ((failing - k + 1.0) * (n - k + 1.0));
        k -= 1.0;
        count(k, term);
    }
    accepted / (accepted + rejected)
}

/// The share of failing units that a plan accepts with some probability (binomial).
///
/// # Errors
/// A plan that cannot be; a probability outside (0, 1); a plan that accepts everything.
pub fn quality_accepted_at(plan: Plan, accepted: f64) -> Result<f64, Refusal> {
    let Plan { n, c } = plan.checked()?;
    let p = probability(accepted)?;
    if c >= n {
        return refuse(
            Reason::BadParameter,
            say!(
                "a plan that accepts with {c} failures of {n} rejects nothing",
                c = c,
                n = n
            ),
        );
    }
    beta_quantile(1.0 - p, c + 1.0, n - c)
}

/// Both points that a plan must meet: the good quality is accepted but for the producer's risk, the bad one
/// with no more than the consumer's. Qualities as in [`acceptance`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Points {
    /// Quality to be accepted.
    pub good: f64,
    /// Quality to be rejected.
    pub bad: f64,
    /// Risk that the good one is rejected.
    pub producer: f64,
    /// Risk that the bad one is accepted.
    pub consumer: f64,
}

impl Points {
    fn checked(self, most: f64) -> Result<Self, Refusal> {
        finite(&[self.good, self.bad, self.producer, self.consumer])?;
        probability(self.producer)?;
        probability(self.consumer)?;
        if !(0.0..=most).contains(&self.good) || !(0.0..=most).contains(&self.bad) {
            return refuse(
                Reason::BadProbability,
                say!(
                    "{good} and {bad} are no qualities",
                    good = self.good,
                    bad = self.bad
                ),
            );
        }
        match self.bad > self.good {
            true => Ok(self),
            false => refuse(
                Reason::BadLimits,
                say!(
                    "the quality to reject, {bad}, is not worse than the one to accept, {good}",
                    bad = self.bad,
                    good = self.good
                ),
            ),
        }
    }
}

/// The smallest sample, with its acceptance number, that meets both points.
///
/// # Errors
/// Points that contradict each other, or that no sample of the lot meets.
pub fn design(points: Points, model: Model) -> Result<Plan, Refusal> {
    let most = match model {
        Model::Hypergeometric { lot } => count(lot)?,
        _ => 1.0,
    };
    let points = points.checked(most)?;
    let largest = match model {
        Model::Hypergeometric { lot } => lot as u64,
        // Nobody draws more; two qualities that need more are one and the same for inspection.
        _ => 1_000_000,
    };
    let accepts = |n: f64, c: f64, quality: f64| acceptance(Plan { n, c }, quality, model);
    // The sample grows with the acceptance number: the first number that serves is the smallest.
    for c in 0..largest.min(5_000) {
        let c = c as f64;
        let safe = |n: u64| accepts(n as f64, c, points.bad).is_ok_and(|p| p <= points.consumer);
        let Some(n) = smallest(c as u64 + 1, largest, safe) else {
            break;
        };
        if accepts(n as f64, c, points.good)? >= 1.0 - points.producer {
            return Ok(Plan { n: n as f64, c });
        }
    }
    refuse(
        Reason::NoPlan,
        say!(
            "no sample that could be drawn meets both risks; inspect every unit, or set the two qualities further apart"
        ),
    )
}

/// What a variables plan decides: distances of the mean from its limits in standard deviations, and whether
/// each reaches the acceptance constant (ISO 3951-1, from memory). Two limits are held apart, each for itself.
#[derive(Debug, Clone, Copy)]
pub struct ByVariables {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Distance above the lower limit.
    pub lower: Option<f64>,
    /// Distance below the upper limit.
    pub upper: Option<f64>,
    /// Whether each distance is at least the constant.
    pub accepted: bool,
}

/// Judges a sample by its mean and standard deviation.
///
/// # Errors
/// Fewer than two values, values that are all equal, no limit, limits in the wrong order.
pub fn by_variables(
    x: &[f64],
    lower: Option<f64>,
    upper: Option<f64>,
    k: f64,
) -> Result<ByVariables, Refusal> {
    finite(&[k])?;
    lower
        .iter()
        .chain(&upper)
        .try_for_each(|limit| finite(&[*limit]))?;
    let (mean, sd) = mean_and_sd(x)?;
    match (lower, upper) {
        (None, None) => return refuse(Reason::MissingLimit, say!("no limit to judge against")),
        (Some(lower), Some(upper)) if lower >= upper => {
            return refuse(
                Reason::BadLimits,
                say!(
                    "the lower limit {lower} is not below the upper {upper}",
                    lower = lower,
                    upper = upper
                ),
            );
        }
        _ => {}
    }
    if sd == 0.0 {
        return refuse(
            Reason::ZeroVariance,
            say!("all values are equal: the resolution of the instrument hides their spread"),
        );
    }
    let (lower, upper) = (
        lower.map(|limit| (mean - limit) / sd),
        upper.map(|limit| (limit - mean) / sd),
    );
    Ok(ByVariables {
        mean,
        sd,
        lower,
        upper,
        accepted: lower.into_iter().chain(upper).all(|q| q >= k),
    })
}

/// Probability that a variables plan with one limit accepts a share of failing units.
///
/// # Errors
/// Fewer than two values; a share outside [0, 1].
pub fn variables_acceptance(n: usize, k: f64, share: f64) -> Result<f64, Refusal> {
    finite(&[k, share])?;
    at_least(n, 2)?;
    // Nothing fails, or everything does.
    if share == 0.0 || share == 1.0 {
        return Ok(1.0 - share);
    }
    let nf = n as f64;
    let shift = -libm::sqrt(nf) * normal_quantile(share)?;
    // The upper tail, by the mirror image: one less a number near one would lose its digits.
    noncentral_t_cdf(-k * libm::sqrt(nf), nf - 1.0, -shift)
}

/// The share of failing units that a variables plan with one limit accepts with some probability.
///
/// # Errors
/// Fewer than two values; a probability outside (0, 1).
pub fn variables_quality_accepted_at(n: usize, k: f64, accepted: f64) -> Result<f64, Refusal> {
    probability(accepted)?;
    let (low, high) = (1e-9, 1.0 - 1e-9);
    variables_acceptance(n, k, low)?;
    let f = |share: f64| accepted - variables_acceptance(n, k, share).unwrap_or(f64::NAN);
    // A plan may be so sharp, or so weak, that no share between the ends is accepted so often.
    match f(low) < 0.0 && f(high) > 0.0 {
        true => Ok(root(f, low, high)),
        false => refuse(
            Reason::NoPlan,
            say!("no share between 10^-9 and 1 - 10^-9 is accepted with that probability"),
        ),
    }
}

/// The smallest sample of a variables plan with one limit that meets both points, and the acceptance
/// constants that serve.
///
/// # Errors
/// Points that contradict each other.
pub fn variables_design(points: Points) -> Result<(usize, f64, f64), Refusal> {
    let points = points.checked(1.0)?;
    let (bad, good) = (
        -normal_quantile(points.bad)?,
        -normal_quantile(points.good)?,
    );
    let constants = |n: f64| -> Result<(f64, f64), Refusal> {
        let root = libm::sqrt(n);
        Ok((
            noncentral_t_quantile(1.0 - points.consumer, n - 1.0, root * bad)? / root,
            noncentral_t_quantile(points.producer, n - 1.0, root * good)? / root,
        ))
    };
    let serves = |n: u64| constants(n as f64).is_ok_and(|(least, most)| least <= most);
    let Some(reach) = (1..40).map(|power| 1_u64 << power).find(|n| serves(*n)) else {
        return refuse(
            Reason::NoPlan,
            say!("no sample of a countable size meets both risks"),
        );
    };
    let n = smallest(2, reach, serves).unwrap_or(reach);
    let (least, most) = constants(n as f64)?;
    Ok((n as usize, least, most))
}
