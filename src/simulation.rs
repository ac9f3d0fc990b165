//! A figure's uncertainty by Monte Carlo, held against the linear result (JCGM 101:2008, clause 8).

use std::collections::BTreeMap;

use crate::{
    figure::Computed,
    formula::Bindings,
    graph::Graph,
    ground::{number, quantity::Cause},
    metrology::{SEED, Spread, monte_carlo},
    plant::Plant,
    stats, verdict,
};

/// What so many draws of all causes give, beside the linear result. All in SI.
#[derive(Clone, Debug, PartialEq)]
pub struct Simulation {
    /// How many draws.
    pub trials: usize,
    /// Mean of the draws.
    pub mean: f64,
    /// Their standard deviation.
    pub sd: f64,
    /// Interval with equal tails that covers 95.45 %.
    pub interval: (f64, f64),
    /// The same by the linear result: value ± U.
    pub linear: (f64, f64),
    /// How far the ends may differ: half of the second significant digit of u (JCGM 101:2008,
    /// 7.9.2), and three times the standard error of the drawn ends.
    pub tolerance: f64,
}

impl Simulation {
    /// Whether the linear result is good enough.
    pub fn agrees(&self) -> bool {
        (self.interval.0 - self.linear.0).abs() <= self.tolerance
            && (self.interval.1 - self.linear.1).abs() <= self.tolerance
    }
}

/// Draws every cause of a figure anew: normal, or Student's t where degrees of freedom are stated.
///
/// Figures below enter with the shares that they have; what acts on the result as a whole is added
/// to it.
///
/// # Errors
/// In words: a figure without a number or without an uncertainty, or a formula that does not hold
/// over the spread of its inputs.
#[expect(
    clippy::indexing_slicing,
    reason = "causes, inputs and slopes are those of the one evaluation that gave the figure its quantity"
)]
pub fn simulate(
    graph: &Graph,
    plant: &Plant,
    computed: &Computed,
    trials: usize,
) -> Result<Simulation, String> {
    let worked = computed.worked.as_ref().map_err(Clone::clone)?;
    let quantity = &worked.quantity;
    if quantity.u() == 0.0 {
        return Err(say!("it has no uncertainty").into());
    }
    let given = graph.given(plant, computed)?;
    let formula = (computed.figure.formula)();
    let causes: Vec<&Cause> = quantity.shares.causes().collect();
    let index: BTreeMap<&Cause, usize> = causes.iter().enumerate().map(|(i, c)| (*c, i)).collect();
    // Which inputs each cause moves, and by how much.
    let mut moved: Vec<(usize, usize, f64)> = Vec::new();
    for (i, (_, input)) in given.iter().enumerate() {
        for (cause, share) in &input.shares {
            moved.push((i, index[cause], share));
        }
    }
    let (_, slopes) = computed.figure.evaluate(&formula, &given)?;
    let mut direct: Vec<f64> = quantity.shares.iter().map(|(_, share)| share).collect();
    for (i, cause, share) in &moved {
        direct[*cause] -= slopes[*i] * share;
    }
    let spreads: Vec<Spread> = causes
        .iter()
        .map(|cause| match cause.degrees {
            Some(degrees) => Spread::Student(degrees.max(1)),
            None => Spread::Normal(0.0, 1.0),
        })
        .collect();
    let centre: Vec<f64> = given.iter().map(|(_, input)| input.value).collect();
    let sample = monte_carlo(&spreads, trials, SEED, |z| {
        let mut values = centre.clone();
        for (input, cause, share) in &moved {
            values[*input] += share * z[*cause];
        }
        let bound = Bindings::new(
            given
                .iter()
                .zip(&values)
                .map(|((input, _), x)| (*input, *x)),
        );
        let whole: f64 = direct.iter().zip(z).map(|(share, z)| share * z).sum();
        Ok(formula.value(&bound)? + whole)
    })?;
    let coverage = 2.0 * stats::distribution::normal_cdf(2.0) - 1.0;
    let (mean, sd) = sample.mean_and_sd();
    let expanded = verdict::coverage(quantity) * quantity.u();
    let tail = (1.0 - coverage) / 2.0;
    // Standard error of a quantile, its density taken as the normal one at two standard deviations.
    let density = libm::exp(-2.0) / libm::sqrt(2.0 * std::f64::consts::PI);
    let error = libm::sqrt(tail * (1.0 - tail) / sample.trials() as f64) / density * sd;
    let digit = libm::pow(10.0, libm::floor(libm::log10(quantity.u())) - 1.0);
    Ok(Simulation {
        trials: sample.trials(),
        mean,
        sd,
        interval: sample.symmetric(coverage),
        linear: (quantity.value - expanded, quantity.value + expanded),
        tolerance: 0.5 * digit + 3.0 * error,
    })
}

/// As lines of text, in the figure's unit.
pub fn lines(simulation: &Simulation, computed: &Computed) -> Vec<String> {
    let unit = &computed.figure.unit;
    let places = number::places(simulation.sd / unit.factor, 3);
    let show = |si: f64| number::fixed(unit.of_si(si), places);
    let width = number::fixed(simulation.sd / unit.factor, places);
    let mut lines = vec![
        say!(
            "Monte Carlo (JCGM 101:2008), {trials} draws, seed {what}",
            trials = simulation.trials,
            what = SEED
        ),
        say!(
            "  mean {mean}, standard deviation {width}",
            mean = show(simulation.mean),
            width = width
        ),
    ];
    for (name, (low, high)) in [
        (say!("drawn"), simulation.interval),
        (say!("linear"), simulation.linear),
    ] {
        lines.push(number::with_unit(
            &say!(
                "  95.45 % {name} {low} to {high}",
                name = format_args!("{:<7}", name),
                low = show(low),
                high = show(high)
            ),
            unit,
        ));
    }
    let tolerance = number::fixed(simulation.tolerance / unit.factor, places);
    lines.push(match simulation.agrees() {
        true => say!("  The ends agree within {tolerance}: the linear result is good enough.", tolerance = tolerance),
        false => say!("  The ends differ by more than {tolerance}, half of the second digit of u: the verdict stands on the linear result all the same, so where the limit lies near look at the drawn interval before you sign.", tolerance = tolerance),
    });
    lines
}
