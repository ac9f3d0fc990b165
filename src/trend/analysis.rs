//! What the values of a series say together, and what stands in the way of saying it.

use std::collections::BTreeMap;

use super::{Series, Standing};
use crate::stats::{
    capability::{self, Capability},
    control::{self, Individuals},
    distribution::{chi_squared_tail, normal_quantile},
    normality, order, proportion, regression,
    runs::{self, Pattern},
    summary, tolerance,
};

/// Fewer values than this give no limits.
pub const LEAST: usize = 8;
/// Fewer give limits that are called provisional (ISO 7870-2 asks 20 to 25 subgroups, from memory).
pub const FIRM: usize = 20;
/// Level below which a departure is spoken of.
pub const LEVEL: f64 = 0.05;
/// The same of each of the seven looks at the order of values.
pub const LEVEL_OF_ORDER: f64 = LEVEL / 7.0;
/// Independent normal values on their own limits give a first signal of weighted means, of cumulative sums, of nine on
/// one side, of six rising or falling, and of two of three far out once in 537, 382, 537, 421 and 494 values (300 simulated
/// series of 1000, episodes counted as here); the one that cries most often stands for all.
pub const VALUES_A_SIGNAL: f64 = 380.0;
/// Share of the population and confidence of what is said of the population.
pub const COVERAGE: f64 = 0.99;
/// Confidence of bounds.
pub const CONFIDENCE: f64 = 0.95;

/// Patterns that are looked for; more of them would cry out too often.
pub const LOOKED_FOR: [Pattern; 4] = [
    Pattern::OneBeyond3,
    Pattern::NineOneSide,
    Pattern::SixTrend,
    Pattern::TwoOfThreeBeyond2,
];

/// Centre and limits against which values are held.
#[derive(Debug, Clone)]
pub struct Control {
    /// Centre, in SI.
    pub centre: f64,
    /// Standard deviation between neighbours, in SI.
    pub sigma: f64,
    /// Limits, in SI.
    pub band: (f64, f64),
    /// Whether they are of earlier data.
    pub frozen: bool,
    /// Indices of members beyond the limits.
    pub beyond: Vec<usize>,
    /// Indices of members at which a pattern ends, with the pattern.
    pub patterns: Vec<(usize, Pattern)>,
}

/// Whether values look normal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Nothing speaks against it; with the probability.
    Normal(f64),
    /// Something does.
    NotNormal(f64),
    /// Too few values to say.
    Unknown,
}

/// What is said of a series.
#[derive(Debug, Clone)]
pub struct Analysis {
    /// Values that count and that no deviation explains, in SI.
    pub values: Vec<f64>,
    /// Their indices among the members.
    pub indices: Vec<usize>,
    /// Values with those that a deviation explains, in SI: what is said of the population stands on these.
    pub all: Vec<f64>,
    /// How many a deviation explains.
    pub set_aside: usize,
    /// Mean and standard deviation, in SI.
    pub mean_and_sd: Option<(f64, f64)>,
    /// Moving ranges and limits of the values that set limits.
    pub individuals: Option<Individuals>,
    /// What values are held against.
    pub control: Option<Control>,
    /// Autocorrelation of neighbours.
    pub neighbours: Option<f64>,
    /// Whether they look normal.
    pub shape: Shape,
    /// Capability by the normal distribution, where there is a limit.
    pub capability: Option<Result<Capability, String>>,
    /// Tolerance limit of normal data on the side of the limit.
    pub tolerance: Option<tolerance::Interval>,
    /// Share of the population inside the extreme values, whatever its distribution.
    pub free: Option<f64>,
    /// Elements of which any test was beyond the limit, all elements, and the upper bound of the share of such.
    pub beyond_limit: Option<(usize, usize, f64)>,
    /// Rise or fall in the order of production; the slope is from one value to the next.
    pub trend: Option<(regression::RankTrend, regression::MedianSlope)>,
    /// A single shift: where, by ranks.
    pub shift: Option<(order::RankShift, order::Shift)>,
    /// Values taken together before trend and shift are looked for: one, or more in a very long series.
    pub together: usize,
    /// Weighted means about the centre of the control limits: indices of members beyond their limits.
    pub weighted: Option<Vec<usize>>,
    /// Cumulative sums about it: indices of members at which they signal.
    pub cumulative: Option<Vec<usize>>,
    /// The value that stands apart most.
    pub apart: Option<(usize, normality::Grubbs)>,
}

impl Analysis {
    /// Whether the order of values matters, so that rules for independent values mislead.
    pub fn dependent(&self) -> bool {
        // Of independent values nineteen in twenty lie within.
        let bound = 1.96 / libm::sqrt(self.values.len() as f64);
        self.neighbours.is_some_and(|r| r.abs() > bound)
    }

    /// Whether a rise, a fall, a shift, runs, weighted means or cumulative sums stand out from what chance gives.
    ///
    /// Each of these seven looks has a seventh of the level, so that a series in which nothing happens is called
    /// drifting once in twenty at most, however long it is. Signals that follow each other count once; a chart that
    /// is looked at for long enough gives some by chance.
    pub fn drifts(&self) -> bool {
        let level = LEVEL_OF_ORDER;
        let by_chance = self.values.len() as f64 / VALUES_A_SIGNAL;
        let unlikely = |signals: Vec<usize>| {
            let episodes = self.episodes(signals);
            // As many and more of a Poisson count.
            episodes > 0.0
                && chi_squared_tail(2.0 * by_chance, 2.0 * episodes)
                    .is_ok_and(|fewer| 1.0 - fewer < level)
        };
        let runs = |wanted: Pattern| {
            let patterns = self.control.iter().flat_map(|control| &control.patterns);
            let own = patterns.filter(|(_, pattern)| *pattern == wanted);
            own.map(|(i, _)| *i).collect::<Vec<_>>()
        };
        let order = self.trend.is_some_and(|(trend, _)| trend.p < level)
            || self.shift.is_some_and(|(shift, _)| shift.counted < level);
        order
            || [&self.weighted, &self.cumulative]
                .into_iter()
                .flatten()
                .any(|signals| unlikely(signals.clone()))
            || LOOKED_FOR
                .into_iter()
                .filter(|pattern| *pattern != Pattern::OneBeyond3)
                .any(|pattern| unlikely(runs(pattern)))
    }

    /// How many times signals begin, those at values next to each other taken together.
    fn episodes(&self, members: Vec<usize>) -> f64 {
        let places = members
            .iter()
            .filter_map(|i| self.indices.binary_search(i).ok());
        let places: Vec<usize> = places.collect();
        let begun = places.array_windows().filter(|[a, b]| b - a > 1).count();
        begun as f64 + f64::from(!places.is_empty())
    }
}

/// Looks at a series.
pub fn of(series: &Series) -> Analysis {
    let (indices, values): (Vec<usize>, Vec<f64>) = series
        .setting()
        .map(|(i, member)| (i, member.value))
        .unzip();
    let individuals = control::individuals(&values)
        .ok()
        .filter(|chart| values.len() >= LEAST && chart.sigma > 0.0);
    let neighbours = summary::lag1_autocorrelation(&values)
        .ok()
        .filter(|_| values.len() >= LEAST);
    let all: Vec<f64> = series.counting().map(|(_, member)| member.value).collect();
    let shape = match normality::anderson_darling(&all) {
        Ok(test) if test.p < LEVEL => Shape::NotNormal(test.p),
        Ok(test) => Shape::Normal(test.p),
        Err(_) => Shape::Unknown,
    };
    let mut analysis = Analysis {
        mean_and_sd: summary::mean_and_sd(&values).ok(),
        individuals,
        control: None,
        neighbours,
        shape,
        capability: None,
        tolerance: None,
        free: None,
        beyond_limit: None,
        trend: None,
        shift: None,
        together: 1,
        weighted: None,
        cumulative: None,
        apart: None,
        set_aside: all.len() - values.len(),
        all,
        values,
        indices,
    };
    analysis.control = control_of(series, &analysis);
    population(series, &mut analysis);
    in_order(&mut analysis);
    analysis
}

/// The indices among the members of what stands at these places in the list of indices.
fn named(indices: &[usize], places: &[usize]) -> Vec<usize> {
    let known = places.iter().map(|place| indices.get(*place));
    known.flatten().copied().collect()
}

/// Frozen limits where there are any, else those of the values themselves.
fn control_of(series: &Series, analysis: &Analysis) -> Option<Control> {
    let (centre, sigma, band, frozen) = match (&series.frozen, &analysis.individuals) {
        (Some(frozen), _) => (frozen.centre, frozen.sigma(), frozen.band, true),
        (None, Some(chart)) => (chart.centre, chart.sigma, chart.limits, false),
        (None, None) => return None,
    };
    // Frozen limits judge what was made since; what was made before is where they came from, or older.
    let judged = |i: &usize| match (&series.frozen, series.member(*i).when) {
        (Some(frozen), Some(when)) => when.date() >= frozen.since,
        _ => true,
    };
    let places = |found: Vec<usize>| -> Vec<usize> {
        let named = named(&analysis.indices, &found);
        named.into_iter().filter(judged).collect()
    };
    let beyond = places(control::beyond(&analysis.values, band));
    let mut patterns = Vec::new();
    for pattern in LOOKED_FOR {
        // Where neighbours depend on each other, only a point beyond the limits says anything.
        if pattern != Pattern::OneBeyond3 && analysis.dependent() {
            continue;
        }
        let ends = runs::ends(&analysis.values, centre, sigma, pattern, pattern.length());
        let ends = places(ends.unwrap_or_default());
        patterns.extend(ends.into_iter().map(|i| (i, pattern)));
    }
    patterns.sort_by_key(|(i, _)| *i);
    Some(Control {
        centre,
        sigma,
        band,
        frozen,
        beyond,
        patterns,
    })
}

/// Elements of which any test went beyond the limit, and how many elements there are.
fn elements_beyond(series: &Series) -> (usize, usize) {
    let limits = series.limits;
    let beyond = |x: f64| {
        // A limit and a value that were written alike may differ in the last bit after conversion.
        let slack = 1e-12 * x.abs();
        limits.lower.is_some_and(|low| x < low - slack)
            || limits.upper.is_some_and(|high| x > high + slack)
    };
    let mut all: BTreeMap<&str, bool> = BTreeMap::new();
    for member in &series.members {
        *all.entry(&member.of).or_default() |= beyond(member.value);
    }
    (all.values().filter(|beyond| **beyond).count(), all.len())
}

/// Capability, tolerance limit, share beyond the limit, outlier: on every value that counts, whether a
/// deviation explains it or not.
fn population(series: &Series, analysis: &mut Analysis) {
    let limits = series.limits;
    let side = match (limits.lower, limits.upper) {
        (Some(_), Some(_)) => tolerance::Side::Both,
        (Some(_), None) => tolerance::Side::Lower,
        (None, Some(_)) => tolerance::Side::Upper,
        (None, None) => return,
    };
    let values = &analysis.all;
    if values.len() < LEAST {
        return;
    }
    let (beyond, elements) = elements_beyond(series);
    let bound = proportion::share_upper(beyond as f64, elements as f64, CONFIDENCE);
    analysis.beyond_limit = bound.ok().map(|bound| (beyond, elements, bound));
    let ends = if side == tolerance::Side::Both { 2 } else { 1 };
    analysis.free = tolerance::free_coverage(values.len() as u64, ends, CONFIDENCE).ok();
    analysis.capability = Some(match analysis.shape {
        Shape::NotNormal(_) => Err(say!(
            "the values do not look normal: an index built on a normal distribution would mislead"
        )
        .into()),
        _ => capability::performance(values, limits, CONFIDENCE).map_err(String::from),
    });
    if !matches!(analysis.shape, Shape::NotNormal(_)) {
        analysis.tolerance = tolerance::interval(values, COVERAGE, CONFIDENCE, side).ok();
    }
    analysis.apart = normality::grubbs(values, LEVEL, normality::End::Either)
        .ok()
        .and_then(|grubbs| Some((series.counting().nth(grubbs.index)?.0, grubbs)));
}

/// So many values are compared pair by pair; of more, means of neighbours are.
const PAIRED: usize = 2000;
/// Weight and width of weighted means, slack and limit of cumulative sums: usual choices (NIST/SEMATECH e-Handbook
/// 6.3.2.3 and 6.3.2.4).
pub const WEIGHTED: (f64, f64) = (0.2, 3.0);
/// See [`WEIGHTED`].
pub const CUMULATIVE: (f64, f64) = (0.5, 5.0);

/// Trend and shift.
fn in_order(analysis: &mut Analysis) {
    if analysis.values.len() < LEAST {
        return;
    }
    let together = analysis.values.len().div_ceil(PAIRED);
    let values: Vec<f64> = analysis
        .values
        .chunks(together)
        .filter_map(|chunk| summary::mean(chunk).ok())
        .collect();
    let places: Vec<f64> = (0..values.len()).map(|i| (i * together) as f64).collect();
    analysis.together = together;
    analysis.trend = regression::mann_kendall(&values)
        .ok()
        .zip(regression::theil_sen(&places, &values, CONFIDENCE).ok());
    let shortest = (values.len() / 7).max(3).min(values.len() / 2);
    analysis.shift = order::pettitt(&values)
        .ok()
        .zip(order::shift(&values, shortest).ok());
    if let Some((rank, shift)) = &mut analysis.shift {
        rank.after *= together;
        shift.after *= together;
    }
    let Some(control) = &analysis.control else {
        return;
    };
    let (centre, sigma) = (control.centre, control.sigma);
    let named = |found: &[usize]| named(&analysis.indices, found);
    // A single value far out is pointed out by the chart itself; clipped at the limits of control it does
    // not pass for a drift.
    let clipped: Vec<f64> = analysis
        .values
        .iter()
        .map(|x| x.clamp(centre - 3.0 * sigma, centre + 3.0 * sigma))
        .collect();
    let (weight, width) = WEIGHTED;
    analysis.weighted = control::weighted(&clipped, centre, sigma, weight, width)
        .ok()
        .map(|chart| named(&chart.beyond.0));
    let (slack, limit) = CUMULATIVE;
    analysis.cumulative = control::cumulative(&clipped, centre, sigma, slack, limit)
        .ok()
        .map(|chart| {
            let (upper, lower) = &chart.signals;
            let mut all = [&upper[..], &lower[..]].concat();
            all.sort_unstable();
            named(&all)
        });
}

/// Heights of a normal curve of an area, for a picture.
pub fn bell(mean: f64, sd: f64, area: f64) -> Vec<(f64, f64)> {
    (0..=80)
        .map(|i| {
            let z = -4.0 + f64::from(i) * 0.1;
            let height = area / sd * crate::stats::distribution::normal_density(z);
            (mean + z * sd, height)
        })
        .collect()
}

/// Points of a normal probability plot: quantile of the place, value.
pub fn probability_plot(values: &[f64]) -> Vec<(f64, f64)> {
    let n = values.len() as f64;
    summary::sorted(values)
        .into_iter()
        .enumerate()
        .filter_map(|(i, x)| Some((normal_quantile((i as f64 + 0.5) / n).ok()?, x)))
        .collect()
}

/// How many values stand aside: measured again, not accepted, explained.
pub fn aside(series: &Series) -> (usize, usize, usize) {
    let count = |wanted: fn(&Standing) -> bool| {
        series
            .members
            .iter()
            .filter(|member| wanted(&member.standing))
            .count()
    };
    (
        count(|standing| *standing == Standing::Repeated),
        count(|standing| *standing == Standing::NotAccepted),
        count(|standing| matches!(standing, Standing::Explained(_))),
    )
}
