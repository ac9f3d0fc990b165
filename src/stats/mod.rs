//! Statistics of figures, trends, samples and endurance.
//!
//! Every method refuses with a [`Reason`] where it cannot answer; none returns a number that does not
//! stand on its data. Quantile arguments are lower-tail probabilities, indices count from 0.

pub mod capability;
pub mod comparison;
pub mod control;
pub mod distribution;
pub mod endurance;
pub mod gauge;
mod incomplete;
pub mod life;
pub mod normality;
pub mod order;
pub mod proportion;
pub mod regression;
pub mod runs;
pub mod sampling;
pub mod summary;
pub mod tolerance;

/// Why a method gives no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Fewer observations than the method needs.
    TooFewPoints,
    /// Fewer groups than the method needs.
    TooFewGroups,
    /// A value that is not finite.
    NonFinite,
    /// No spread where the method divides by it.
    ZeroVariance,
    /// Lists that belong together differ in length.
    LengthMismatch,
    /// Groups, cells or subgroups of unequal size.
    Unbalanced,
    /// A count that is no whole number.
    NotInteger,
    /// Regressors that are equal or depend on each other.
    SingularDesign,
    /// Regressors too nearly dependent for the arithmetic.
    IllConditioned,
    /// Limits in the wrong order.
    BadLimits,
    /// No limit at all.
    MissingLimit,
    /// A probability outside its range.
    BadProbability,
    /// A parameter outside its range.
    BadParameter,
    /// A standard deviation that cannot be one.
    BadSd,
    /// A count below zero.
    NegativeCount,
    /// More events than units.
    CountExceedsN,
    /// A sample larger than its lot.
    SampleExceedsLot,
    /// An area, volume or time of observation that is not above zero.
    NonPositiveExposure,
    /// A life that is not above zero.
    NonPositiveTime,
    /// No failure where one at least is needed.
    NoEvents,
    /// A bound that never meets its limit.
    NoCrossing,
    /// A bound that lies beyond its limit from the start.
    BoundBeyondLimitAtStart,
    /// No plan within the lot meets both risks.
    NoPlan,
}

impl Reason {
    /// The reason as one word of letters and underscores.
    pub fn code(self) -> &'static str {
        match self {
            Self::TooFewPoints => "too_few_points",
            Self::TooFewGroups => "too_few_groups",
            Self::NonFinite => "non_finite",
            Self::ZeroVariance => "zero_variance",
            Self::LengthMismatch => "length_mismatch",
            Self::Unbalanced => "unbalanced",
            Self::NotInteger => "not_integer",
            Self::SingularDesign => "singular_design",
            Self::IllConditioned => "ill_conditioned",
            Self::BadLimits => "bad_limits",
            Self::MissingLimit => "missing_limit",
            Self::BadProbability => "bad_probability",
            Self::BadParameter => "bad_parameter",
            Self::BadSd => "bad_sd",
            Self::NegativeCount => "negative_count",
            Self::CountExceedsN => "count_exceeds_n",
            Self::SampleExceedsLot => "sample_exceeds_lot",
            Self::NonPositiveExposure => "non_positive_exposure",
            Self::NonPositiveTime => "non_positive_time",
            Self::NoEvents => "no_events",
            Self::NoCrossing => "no_crossing",
            Self::BoundBeyondLimitAtStart => "bound_beyond_limit_at_start",
            Self::NoPlan => "no_plan",
        }
    }
}

/// A method that gives no number, and why, in words for a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// What kind of reason.
    pub reason: Reason,
    /// The reason in words.
    pub why: String,
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.why)
    }
}

impl std::error::Error for Refusal {}

impl From<Refusal> for String {
    fn from(refusal: Refusal) -> Self {
        refusal.why
    }
}

/// A refusal with its words.
pub fn refuse<T>(reason: Reason, why: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal {
        reason,
        why: why.into(),
    })
}

/// Refuses what is not finite.
pub(crate) fn finite(values: &[f64]) -> Result<(), Refusal> {
    match values.iter().find(|x| !x.is_finite()) {
        None => Ok(()),
        Some(x) => refuse(Reason::NonFinite, say!("{x} is no finite number", x = x)),
    }
}

/// Refuses fewer than `least` values.
pub(crate) fn at_least(found: usize, least: usize) -> Result<(), Refusal> {
    match found >= least {
        true => Ok(()),
        false => refuse(
            Reason::TooFewPoints,
            say!(
                "{found} values, and at least {least} are needed",
                found = found,
                least = least
            ),
        ),
    }
}

/// Refuses what is no probability strictly between 0 and 1.
pub(crate) fn probability(p: f64) -> Result<f64, Refusal> {
    finite(&[p])?;
    match p > 0.0 && p < 1.0 {
        true => Ok(p),
        false => refuse(
            Reason::BadProbability,
            say!("{p} is no probability between 0 and 1", p = p),
        ),
    }
}

/// A whole number that is not negative.
pub(crate) fn count(x: f64) -> Result<f64, Refusal> {
    finite(&[x])?;
    if x < 0.0 {
        return refuse(
            Reason::NegativeCount,
            say!("{x} is no count: it is below zero", x = x),
        );
    }
    match x == x.trunc() {
        true => Ok(x),
        false => refuse(
            Reason::NotInteger,
            say!("{x} is no count: it is no whole number", x = x),
        ),
    }
}

/// Refuses groups that are fewer than two, or one of which is smaller than `least`.
pub(crate) fn groups(groups: &[Vec<f64>], least: usize) -> Result<(), Refusal> {
    groups.iter().try_for_each(|group| finite(group))?;
    if groups.len() < 2 {
        return refuse(
            Reason::TooFewGroups,
            say!(
                "{count} group, and at least 2 are needed to compare",
                count = groups.len()
            ),
        );
    }
    groups
        .iter()
        .try_for_each(|group| at_least(group.len(), least))
}

/// The x between two ends at which a function changes its sign: by inverse quadratic interpolation
/// where that can be trusted, else by halving (Chandrupatla 1997, Advances in Engineering Software
/// 28(3), from memory), until the ends are neighbours but for the last bit.
pub(crate) fn root(f: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let mut newest = (high, f(high));
    let mut across = (low, f(low));
    let mut share = 0.5;
    for _ in 0..200 {
        let x = newest.0 + share * (across.0 - newest.0);
        let here = (x, f(x));
        let third = match (here.1 < 0.0) == (newest.1 < 0.0) {
            true => newest,
            false => std::mem::replace(&mut across, newest),
        };
        newest = here;
        let best = match across.1.abs() < newest.1.abs() {
            true => across,
            false => newest,
        };
        let least = 2.0 * f64::EPSILON * best.0.abs() / (across.0 - newest.0).abs();
        if best.1 == 0.0 || least.is_nan() || least > 0.5 {
            return best.0;
        }
        let (p, q, r) = (newest, across, third);
        let (xi, phi) = ((p.0 - q.0) / (r.0 - q.0), (p.1 - q.1) / (r.1 - q.1));
        let trusted = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
        share = match trusted {
            true => {
                p.1 / (q.1 - p.1) * r.1 / (q.1 - r.1)
                    + (r.0 - p.0) / (q.0 - p.0) * p.1 / (r.1 - p.1) * q.1 / (r.1 - q.1)
            }
            false => 0.5,
        };
        share = share.max(least).min(1.0 - least);
    }
    newest.0
}

/// Below this standard deviation values differ by no more than the arithmetic that made them: a
/// conversion of units and a subtraction leave a few times the distance between two numbers.
pub(crate) fn rounding<'a>(values: impl IntoIterator<Item = &'a f64>) -> f64 {
    let largest = values
        .into_iter()
        .fold(0.0, |most: f64, x| most.max(x.abs()));
    8.0 * f64::EPSILON * largest
}

/// x².
pub(crate) fn square(x: f64) -> f64 {
    x * x
}

/// The smallest whole number from `low` on at which a condition that never turns back holds, up to `high`.
pub(crate) fn smallest(low: u64, high: u64, holds: impl Fn(u64) -> bool) -> Option<u64> {
    if !holds(high) {
        return None;
    }
    let (mut low, mut high) = (low, high);
    while low < high {
        let middle = low + (high - low) / 2;
        match holds(middle) {
            true => high = middle,
            false => low = middle + 1,
        }
    }
    Some(low)
}

#[cfg(test)]
mod tests {
    use super::{root, smallest};

    #[test]
    fn roots_are_found_in_as_many_steps_as_by_a_reference() {
        // Roots and evaluations of scipy 1.17.1, optimize._chandrupatla with its default tolerances, which are ours,
        // called with the upper end first. Evaluations are counted because a slower search finds the same root.
        type Case = (fn(f64) -> f64, f64, f64, f64, u32);
        let cases: [Case; 13] = [
            (
                |x| x * x * x - 2.0 * x - 5.0,
                2.0,
                3.0,
                2.0945514815423265,
                9,
            ),
            (|x| 1.0 - 1.0 / (x * x), 0.5, 1.51, 1.0, 9),
            (|x| x * x * x - 0.001, -10.0, 10.0, 0.1, 18),
            (|x| libm::exp(-x) - x, 0.0, 1.0, 0.5671432904097838, 7),
            (
                |x| (x - 3.0) * (x - 3.0) * (x - 3.0) + 0.001,
                0.0,
                5.0,
                2.9,
                16,
            ),
            (libm::log, 0.01, 50.0, 1.0, 13),
            (|x| libm::atan(x) - 1.0, -4.0, 40.0, 1.557407724654902, 13),
            (|x| x * x * x * x - 1e4, 0.0, 1000.0, 10.0, 16),
            (|x| x.sqrt() - 7.0, 1.0, 900.0, 49.0, 4),
            (|x| 1.0 / x - 1e-3, 1.0, 1e6, 1000.0, 18),
            (|x| 1e-6 * x * x - 1.0, 0.0, 5000.0, 1000.0, 10),
            (
                |x| libm::exp(-20.0 * x) - 1e-4,
                0.0,
                3.0,
                0.4605170185988091,
                15,
            ),
            (
                |x| x * (x * x + 1.0) + 3.0,
                -9.0,
                7.0,
                -1.2134116627622296,
                14,
            ),
        ];
        for (f, low, high, x, evaluations) in cases {
            let asked = std::cell::Cell::new(0);
            let found = root(
                |x| {
                    asked.set(asked.get() + 1);
                    f(x)
                },
                low,
                high,
            );
            assert!(
                (found - x).abs() <= 4.0 * f64::EPSILON * x.abs(),
                "{found} is not {x}"
            );
            assert_eq!(asked.get(), evaluations, "evaluations for the root {x}");
        }
    }

    #[test]
    fn the_smallest_is_found_in_few_steps() {
        for (low, high) in [(0, 1), (2, 1000), (7, 8), (5, 1 << 40)] {
            for wanted in [low, low + (high - low) / 3, high - 1, high] {
                let asked = std::cell::Cell::new(0);
                let found = smallest(low, high, |n| {
                    asked.set(asked.get() + 1);
                    n >= wanted
                });
                assert_eq!(found, Some(wanted));
                assert!(asked.get() <= 45, "{} questions", asked.get());
            }
        }
        assert_eq!(smallest(0, 9, |_| false), None);
    }
}
