//! Uncertainty beyond the first order, and what a decision risks.
//!
//! Monte Carlo after JCGM 101:2008 with a fixed seed, so that a dossier gives the same bits again;
//! conformance probability and process risks after JCGM 106:2012.

use rand_chacha::{
    ChaCha8Rng,
    rand_core::{Rng as _, SeedableRng as _},
};
use statrs::distribution::{Continuous as _, ContinuousCDF as _, Gamma};

use crate::stats::distribution::{gamma_tails, integral, normal_cdf, t_tail};

/// The seed of every Monte Carlo run: published, so that anyone gets the same numbers.
pub const SEED: u64 = 20_260_711;

/// What is known of one input.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Spread {
    /// Known without doubt.
    Fixed(f64),
    /// Mean and standard deviation.
    Normal(f64, f64),
    /// Lowest and highest value, all between alike.
    Rectangular(f64, f64),
    /// Student's t about zero with so many degrees of freedom (JCGM 101:2008, 6.4.9).
    Student(u64),
}

/// Values of a result, in rising order.
#[derive(Clone, Debug)]
pub struct Sample {
    values: Vec<f64>,
}

/// From so many degrees of freedom on chi-squared is drawn at once, and not as a sum of squares.
const FEW: u64 = 100;

/// Random numbers of the fixed seed.
struct Dice {
    rng: ChaCha8Rng,
    kept: Option<f64>,
}

impl Dice {
    fn new(seed: u64) -> Dice {
        Dice {
            rng: ChaCha8Rng::seed_from_u64(seed),
            kept: None,
        }
    }

    /// Uniform between 0 and 1, neither reached.
    fn uniform(&mut self) -> f64 {
        ((self.rng.next_u64() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Standard normal, two at a time (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        if let Some(kept) = self.kept.take() {
            return kept;
        }
        let r = libm::sqrt(-2.0 * libm::log(self.uniform()));
        let angle = 2.0 * std::f64::consts::PI * self.uniform();
        self.kept = Some(r * libm::sin(angle));
        r * libm::cos(angle)
    }

    /// Chi-squared with many degrees of freedom, by rejection (Marsaglia and Tsang 2000).
    fn chi_squared(&mut self, degrees: f64) -> f64 {
        let d = degrees / 2.0 - 1.0 / 3.0;
        let c = 1.0 / libm::sqrt(9.0 * d);
        loop {
            let x = self.normal();
            let v = 1.0 + c * x;
            if v <= 0.0 {
                continue;
            }
            let v = v * v * v;
            if libm::log(self.uniform()) < 0.5 * x * x + d - d * v + d * libm::log(v) {
                return 2.0 * d * v;
            }
        }
    }

    fn draw(&mut self, spread: Spread) -> f64 {
        match spread {
            Spread::Fixed(value) => value,
            Spread::Normal(mean, sd) => mean + sd * self.normal(),
            Spread::Rectangular(low, high) => low + (high - low) * self.uniform(),
            Spread::Student(degrees) => {
                let top = self.normal();
                let squares: f64 = match degrees > FEW {
                    true => self.chi_squared(degrees as f64),
                    false => (0..degrees).map(|_| self.normal()).map(|z| z * z).sum(),
                };
                top / libm::sqrt(squares / degrees as f64)
            }
        }
    }
}

/// Draws inputs and computes a result from each draw.
///
/// # Errors
/// Fewer than 1000 trials, a spread that is none, or more than one draw in a hundred without a result.
pub fn monte_carlo(
    spreads: &[Spread],
    trials: usize,
    seed: u64,
    mut result: impl FnMut(&[f64]) -> Result<f64, String>,
) -> Result<Sample, String> {
    if trials < 1000 {
        return Err(say!(
            "{trials} trials: at least 1000 are needed",
            trials = trials
        ));
    }
    for spread in spreads {
        let good = match *spread {
            Spread::Fixed(value) => value.is_finite(),
            Spread::Normal(mean, sd) => mean.is_finite() && sd.is_finite() && sd >= 0.0,
            Spread::Rectangular(low, high) => low.is_finite() && high.is_finite() && low <= high,
            Spread::Student(degrees) => degrees > 0,
        };
        if !good {
            return Err(say!(
                "{spread} is no spread",
                spread = format_args!("{:?}", spread)
            ));
        }
    }
    let mut dice = Dice::new(seed);
    let (mut drawn, mut values, mut lost) =
        (vec![0.0; spreads.len()], Vec::with_capacity(trials), 0);
    for _ in 0..trials {
        for (slot, spread) in drawn.iter_mut().zip(spreads) {
            *slot = dice.draw(*spread);
        }
        match result(&drawn) {
            Ok(value) if value.is_finite() => values.push(value),
            Ok(_) | Err(_) => lost += 1,
        }
    }
    if lost * 100 > trials {
        return Err(say!(
            "{lost} of {trials} draws have no result: the formula does not hold over the whole spread",
            lost = lost,
            trials = trials
        ));
    }
    values.sort_by(f64::total_cmp);
    Ok(Sample { values })
}

#[expect(
    clippy::indexing_slicing,
    reason = "`monte_carlo` draws at least 1000 times and loses one draw in a hundred at most; quantiles lie inside"
)]
impl Sample {
    /// How many results.
    pub fn trials(&self) -> usize {
        self.values.len()
    }

    /// Mean and standard deviation.
    pub fn mean_and_sd(&self) -> (f64, f64) {
        let n = self.values.len() as f64;
        let shift = self.values[self.values.len() / 2];
        let mean = self.values.iter().map(|x| x - shift).sum::<f64>() / n;
        let squares: f64 = self
            .values
            .iter()
            .map(|x| x - shift - mean)
            .map(|x| x * x)
            .sum();
        (shift + mean, libm::sqrt(squares / (n - 1.0)))
    }

    /// Coverage interval with equal tails.
    pub fn symmetric(&self, p: f64) -> (f64, f64) {
        let last = self.values.len() - 1;
        let at = |q: f64| self.values[(libm::round(q * last as f64) as usize).min(last)];
        (at((1.0 - p) / 2.0), at((1.0 + p) / 2.0))
    }

    /// The shortest coverage interval.
    pub fn shortest(&self, p: f64) -> (f64, f64) {
        let n = self.values.len();
        let inside = (libm::ceil(p * n as f64) as usize).clamp(1, n - 1);
        let ends = (0..n - inside).map(|i| (self.values[i], self.values[i + inside]));
        let best = ends.min_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
        best.unwrap_or((self.values[0], self.values[n - 1]))
    }
}

/// Probability that a value lies within its limits, its knowledge being normal (JCGM 106:2012, clause 7), or, with
/// finitely many degrees of freedom, Student's t about the value in units of u (JCGM 101:2008, 6.4.9).
///
/// # Errors
/// An uncertainty or a number of degrees of freedom that is not above zero: no measurement is exact.
pub fn conformance(value: f64, u: f64, degrees: f64, (low, high): Ends) -> Result<f64, String> {
    if !(u > 0.0 && u.is_finite()) {
        return Err(say!("u must be above zero: no measurement is exact").into());
    }
    // Beyond a million the two agree to the sixth digit.
    let tail = |t: f64| -> Result<f64, String> {
        match degrees < 1e6 {
            true => Ok(t_tail(t, degrees)?),
            false => Ok(normal_cdf(-t)),
        }
    };
    // Each tail by itself: the difference of two numbers near one would lose its digits.
    let below = low.map_or(Ok(0.0), |low| tail((value - low) / u))?;
    let above = high.map_or(Ok(0.0), |high| tail((high - value) / u))?;
    Ok((1.0 - below - above).max(0.0))
}

/// What is known of a process before an item is measured.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Prior {
    /// Mean and standard deviation.
    Normal(f64, f64),
    /// Shape and scale; above zero.
    Gamma(f64, f64),
}

impl Prior {
    fn check(self) -> Result<Prior, String> {
        let (a, b) = match self {
            Prior::Normal(_, sd) => (1.0, sd),
            Prior::Gamma(shape, scale) => (shape, scale),
        };
        match a > 0.0 && b > 0.0 && a.is_finite() && b.is_finite() {
            true => Ok(self),
            false => Err(say!(
                "{what} is no distribution of a process",
                what = format_args!("{:?}", self)
            )),
        }
    }

    #[expect(
        clippy::expect_used,
        reason = "shape and scale were checked when the prior was made"
    )]
    fn gamma(shape: f64, scale: f64) -> Gamma {
        Gamma::new(shape, 1.0 / scale).expect("checked before")
    }

    fn density(self, x: f64) -> f64 {
        match self {
            Prior::Normal(mean, sd) => {
                let z = (x - mean) / sd;
                libm::exp(-0.5 * z * z) / (sd * libm::sqrt(2.0 * std::f64::consts::PI))
            }
            Prior::Gamma(shape, scale) => Prior::gamma(shape, scale).pdf(x),
        }
    }

    fn below(self, x: f64) -> f64 {
        match self {
            Prior::Normal(mean, sd) => normal_cdf((x - mean) / sd),
            Prior::Gamma(shape, scale) if x > 0.0 => Prior::gamma(shape, scale).cdf(x),
            Prior::Gamma(..) => 0.0,
        }
    }

    fn above(self, x: f64) -> f64 {
        match self {
            Prior::Normal(mean, sd) => normal_cdf((mean - x) / sd),
            Prior::Gamma(shape, scale) => gamma_tails(x / scale, shape).1,
        }
    }

    /// Where practically all of it lies.
    fn range(self) -> (f64, f64) {
        match self {
            Prior::Normal(mean, sd) => (mean - 12.0 * sd, mean + 12.0 * sd),
            Prior::Gamma(shape, scale) => (0.0, scale * (shape + 12.0 * libm::sqrt(shape) + 40.0)),
        }
    }
}

/// Limits of a tolerance or of acceptance; open where absent.
pub type Ends = (Option<f64>, Option<f64>);

/// Refuses limits that are none, or stand in the wrong order.
fn ends((low, high): Ends) -> Result<(), String> {
    match (low, high) {
        (None, None) => Err(say!("no limit to judge against").into()),
        (Some(low), Some(high)) if low >= high => Err(say!(
            "the lower limit {lower} is not below the upper {upper}",
            lower = low,
            upper = high
        )),
        _ => Ok(()),
    }
}

/// The share of a process outside its tolerance.
///
/// # Errors
/// A distribution that is none.
pub fn nonconforming(prior: Prior, (low, high): Ends) -> Result<f64, String> {
    let prior = prior.check()?;
    ends((low, high))?;
    Ok(low.map_or(0.0, |low| prior.below(low)) + high.map_or(0.0, |high| prior.above(high)))
}

/// Integral over a part of a process; nothing where the part is empty.
fn integrate(from: f64, to: f64, f: impl Fn(f64) -> f64) -> f64 {
    match to > from {
        true => integral(f, from, to, 400),
        false => 0.0,
    }
}

/// The share of all items that is accepted although it does not conform: global consumer's risk
/// (JCGM 106:2012, clause 9), the error of measurement being normal.
///
/// # Errors
/// An uncertainty that is not above zero, or a distribution that is none.
pub fn consumer_risk(
    prior: Prior,
    u: f64,
    tolerance: Ends,
    acceptance: Ends,
) -> Result<f64, String> {
    ends(tolerance)?;
    ends(acceptance)?;
    let accepted = accepted(u, acceptance)?;
    let prior = prior.check()?;
    let (first, last) = prior.range();
    let f = |x: f64| prior.density(x) * accepted(x);
    let below = tolerance
        .0
        .map_or(0.0, |low| integrate(first, low.min(last), f));
    let above = tolerance
        .1
        .map_or(0.0, |high| integrate(high.max(first), last, f));
    Ok(below + above)
}

/// The share of all items that is not accepted although it conforms: global producer's risk.
///
/// # Errors
/// As [`consumer_risk`].
pub fn producer_risk(
    prior: Prior,
    u: f64,
    tolerance: Ends,
    acceptance: Ends,
) -> Result<f64, String> {
    ends(tolerance)?;
    ends(acceptance)?;
    let accepted = accepted(u, acceptance)?;
    let prior = prior.check()?;
    let (first, last) = prior.range();
    let from = tolerance.0.map_or(first, |low| low.max(first));
    let to = tolerance.1.map_or(last, |high| high.min(last));
    Ok(integrate(from, to, |x| {
        prior.density(x) * (1.0 - accepted(x))
    }))
}

/// The probability that an item of a true value is accepted.
fn accepted(u: f64, (low, high): Ends) -> Result<impl Fn(f64) -> f64, String> {
    if !(u > 0.0 && u.is_finite()) {
        return Err(say!("u must be above zero: no measurement is exact").into());
    }
    Ok(move |x: f64| {
        let under = high.map_or(1.0, |high| normal_cdf((high - x) / u));
        let over = low.map_or(0.0, |low| normal_cdf((low - x) / u));
        under - over
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By definition: the middle of the cell of width 2⁻⁵³ that was drawn.
    #[test]
    fn a_uniform_number_is_the_middle_of_its_cell() {
        let (mut dice, mut rng) = (Dice::new(SEED), ChaCha8Rng::seed_from_u64(SEED));
        let cells = libm::pow(2.0, 53.0);
        for _ in 0..8 {
            let cell = (rng.next_u64() >> 11) as f64;
            let beside = dice.uniform() * cells - cell;
            // A cell above 2⁵² has no middle among the doubles.
            assert!(beside == 0.5 || cell > cells / 2.0, "{beside}");
        }
    }

    /// JCGM 101:2008, 9.2.3: four rectangular inputs of unit standard deviation.
    #[test]
    fn four_rectangular_inputs_cover_as_irwin_and_hall_have_it() {
        let a = libm::sqrt(3.0);
        let sample = monte_carlo(&[Spread::Rectangular(-a, a); 4], 400_000, SEED, |x| {
            Ok(x.iter().sum())
        })
        .unwrap();
        let exact = 2.0 * a * (2.0 - libm::pow(0.6, 0.25));
        let (low, high) = sample.symmetric(0.95);
        assert!(
            (high - exact).abs() < 0.02 && (low + exact).abs() < 0.02,
            "{low} {high} {exact}"
        );
        let (low, high) = sample.shortest(0.95);
        assert!(high - low <= 2.0 * exact + 0.04);
        let (mean, sd) = sample.mean_and_sd();
        assert!(mean.abs() < 0.01 && (sd - 2.0).abs() < 0.01);
    }

    /// JCGM 106:2012, 9.5.4: 4.2 % outside, 0.8 % accepted all the same (seen in a public notebook).
    #[test]
    fn a_bearing_process_risks_what_the_guide_says() {
        let prior = Prior::Gamma(4.0, 0.25);
        let limit = (None, Some(2.0));
        assert!((nonconforming(prior, limit).unwrap() - 0.042).abs() < 5e-4);
        assert!((consumer_risk(prior, 0.25, limit, limit).unwrap() - 0.008).abs() < 5e-4);
        // All items are accepted or not, conforming or not.
        let whole = producer_risk(prior, 0.25, limit, limit).unwrap();
        assert!(whole > 0.0 && whole < 0.05);
    }

    #[test]
    fn no_measurement_is_exact() {
        assert!(conformance(1.0, 0.0, f64::INFINITY, (None, Some(2.0))).is_err());
        assert!(consumer_risk(Prior::Normal(0.0, 1.0), 0.0, (None, None), (None, None)).is_err());
        assert!(monte_carlo(&[Spread::Normal(0.0, -1.0)], 1000, SEED, |x| Ok(x[0])).is_err());
        assert!(monte_carlo(&[], 10, SEED, |_| Ok(0.0)).is_err());
        assert!(
            monte_carlo(&[Spread::Normal(0.0, 1.0)], 1000, SEED, |x| if x[0] > 0.0 {
                Ok(1.0)
            } else {
                Err(String::new())
            })
            .is_err()
        );
    }

    #[test]
    fn both_tails_count() {
        let p = conformance(0.0, 1.0, f64::INFINITY, (Some(-1.0), Some(1.0))).unwrap();
        assert!((p - 0.682_689_492_137_085_9).abs() < 1e-12);
        assert!(conformance(50.0, 1.0, f64::INFINITY, (Some(-1.0), Some(1.0))).unwrap() < 1e-15);
    }

    #[test]
    fn draws_have_the_mean_and_the_spread_that_were_asked_for() {
        let drawn = |spread: Spread| {
            let sample = monte_carlo(&[spread], 200_000, SEED, |x| Ok(x[0])).unwrap();
            assert_eq!(sample.trials(), 200_000);
            let (mean, sd) = sample.mean_and_sd();
            (mean, sd, sample.symmetric(0.95))
        };
        let (mean, sd, (low, high)) = drawn(Spread::Normal(7.0, 0.5));
        assert!((mean - 7.0).abs() < 0.01 && (sd - 0.5).abs() < 0.005);
        assert!((low - 6.02).abs() < 0.02 && (high - 7.98).abs() < 0.02);
        let (mean, sd, (low, high)) = drawn(Spread::Rectangular(3.0, 5.0));
        assert!((mean - 4.0).abs() < 0.01 && (sd - 1.0 / libm::sqrt(3.0)).abs() < 0.005);
        assert!((low - 3.05).abs() < 0.01 && (high - 4.95).abs() < 0.01);
        // Student's t with 5 degrees of freedom: variance 5/3, quantile 2.571.
        let (mean, sd, (low, high)) = drawn(Spread::Student(5));
        assert!(mean.abs() < 0.02 && (sd - libm::sqrt(5.0 / 3.0)).abs() < 0.02);
        assert!((low + 2.571).abs() < 0.06 && (high - 2.571).abs() < 0.06);
        assert_eq!(drawn(Spread::Fixed(2.5)).0, 2.5);
    }

    /// The shortest interval of an exponential distribution begins at its beginning.
    #[test]
    fn the_shortest_interval_of_a_skewed_result_is_not_the_symmetric_one() {
        let sample = monte_carlo(&[Spread::Rectangular(0.0, 1.0)], 200_000, SEED, |x| {
            Ok(-libm::log(1.0 - x[0]))
        })
        .unwrap();
        let (low, high) = sample.shortest(0.95);
        assert!(low < 0.01 && (high - 2.9957).abs() < 0.05, "{low} {high}");
        let (low, high) = sample.symmetric(0.95);
        assert!((low - 0.0253).abs() < 0.005 && (high - 3.689).abs() < 0.08);
    }

    /// Φ at 1.5 and 2.5 standard deviations, tables of the normal distribution.
    #[test]
    fn a_probability_counts_distances_in_uncertainties() {
        let p = conformance(10.3, 0.2, f64::INFINITY, (Some(10.0), None)).unwrap();
        assert!((p - 0.933_192_798_731_142).abs() < 1e-12, "{p}");
        let p = conformance(10.3, 0.2, f64::INFINITY, (None, Some(10.8))).unwrap();
        assert!((p - 0.993_790_334_674_224).abs() < 1e-12, "{p}");
    }

    /// A normal process: Φ(−2) + 1 − Φ(2.4) from tables of the normal distribution; the accepted share from the sum
    /// of both variances.
    #[test]
    fn both_risks_of_a_normal_process() {
        let prior = Prior::Normal(10.0, 0.5);
        let ends = (Some(9.0), Some(11.2));
        let out = nonconforming(prior, ends).unwrap();
        assert!(
            (out - (0.022_750_131_948_179 + 0.008_197_535_924_596)).abs() < 1e-12,
            "{out}"
        );
        // What is accepted and what is not, conforming and not, is everything.
        let (consumer, producer) = (
            consumer_risk(prior, 0.2, ends, ends).unwrap(),
            producer_risk(prior, 0.2, ends, ends).unwrap(),
        );
        assert!(consumer > 0.0 && consumer < out && producer > 0.0);
        let total = libm::sqrt(0.25 + 0.04);
        let accepted = normal_cdf(1.2 / total) - normal_cdf(-1.0 / total);
        assert!((1.0 - out - producer + consumer - accepted).abs() < 1e-10);
        assert!(nonconforming(Prior::Normal(0.0, 0.0), ends).is_err());
        assert!(nonconforming(Prior::Gamma(0.0, 1.0), ends).is_err());
    }
}
