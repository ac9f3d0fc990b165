//! The decision rule. Pure: a value, its uncertainty and a limit in, a verdict out.

use std::sync::OnceLock;

use crate::{
    ground::{number, place::Place, quantity::Quantity, unit::Unit},
    metrology, stats,
};

/// The coverage factor of an expanded uncertainty: 2 for a normal distribution (95.45 %), and the
/// quantile of Student's t for as much where degrees of freedom are stated, cut down to a whole
/// number (JCGM 100:2008, G.6.4).
pub fn coverage(quantity: &Quantity) -> f64 {
    /// Each figure asks several times, and nearly all for few degrees.
    static FACTORS: [OnceLock<f64>; 1024] = [const { OnceLock::new() }; 1024];
    let degrees = quantity.whole_degrees();
    if !degrees.is_finite() {
        return 2.0;
    }
    // A whole number, and beyond a million the two agree to the sixth digit.
    let degrees = degrees.min(1e6);
    match FACTORS.get(degrees as usize) {
        Some(known) => *known.get_or_init(|| coverage_factor(degrees)),
        None => coverage_factor(degrees),
    }
}

fn coverage_factor(degrees: f64) -> f64 {
    stats::distribution::t_quantile(stats::distribution::normal_cdf(2.0), degrees)
        .map_or(2.0, |t| t.max(2.0))
}

/// The coverage factor in words: `k = 2`, or `k = 2.11 from 19 degrees of freedom`.
pub fn coverage_text(quantity: &Quantity) -> String {
    match quantity.whole_degrees() {
        // Beyond, k is 2 to the second digit.
        degrees if degrees > 1000.0 => "k = 2".into(),
        degrees if degrees.is_finite() => say!(
            "k = {k} from {degrees} degrees of freedom",
            k = number::fixed(coverage(quantity), 2),
            degrees = number::significant(degrees, 4)
        ),
        _ => "k = 2".into(),
    }
}

/// The expanded uncertainty with its unit.
pub fn expanded(quantity: &Quantity, unit: &Unit) -> String {
    let expanded = coverage(quantity) * quantity.u() / unit.factor;
    number::with_unit(&number::fixed(expanded, number::places(expanded, 2)), unit)
}

/// What was decided about a figure.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Beyond the limit even with the whole guard band in its favour.
    DoesNotConform,
    /// The uncertainty straddles the limit.
    Undecided,
    /// Data is missing; never a pass.
    NotEvaluated,
    /// Inside the limit even with the whole guard band against it.
    Conforms,
    /// Only reported.
    NoLimit,
}

impl Verdict {
    /// In words, in English: what machines read.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Conforms => word!("conforms"),
            Verdict::Undecided => word!("undecided"),
            Verdict::DoesNotConform => word!("does not conform"),
            Verdict::NoLimit => word!("no limit"),
            Verdict::NotEvaluated => word!("not evaluated"),
        }
    }

    /// In words, in the language of the run.
    pub fn said(self) -> &'static str {
        say!(self.words())
    }

    /// For style sheets and machines.
    pub fn key(self) -> &'static str {
        match self {
            Verdict::Conforms => "conforms",
            Verdict::Undecided => "undecided",
            Verdict::DoesNotConform => "fails",
            Verdict::NoLimit => "no-limit",
            Verdict::NotEvaluated => "not-evaluated",
        }
    }

    /// The glyph beside the word: our own set of strokes, told apart in black and white.
    pub fn glyph(self) -> &'static str {
        match self {
            Verdict::Conforms => "⊢",
            Verdict::Undecided => "≬",
            Verdict::DoesNotConform => "⊣",
            Verdict::NoLimit => "·",
            Verdict::NotEvaluated => "∅",
        }
    }
}

/// How a value is held against its limit.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Decision {
    /// With a guard band of so many expanded uncertainties (JCGM 106:2012, 8.3.2).
    Guarded(f64),
    /// Guarded rejection: what is outside by less than the guard band is still accepted, so that
    /// who rejects is sure (JCGM 106:2012, 8.3.3).
    Rejection(f64),
    /// The value alone decides: counts, statistics of a sampling plan, and bounds that carry
    /// their own confidence.
    Plain,
    /// In standard uncertainties: explained above the first level, blocking above the second.
    Levels(f64, f64),
}

/// A limit as laid down.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// Least allowed, in SI.
    pub low: Option<f64>,
    /// Most allowed, in SI.
    pub high: Option<f64>,
    /// As a person reads it: `≤ 42.0 mL/min`.
    pub text: String,
    /// Where it was laid down, when a record says so.
    pub at: Option<Place>,
    /// How values are held against it.
    pub decision: Decision,
}

/// A verdict with all that is needed to repeat it.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// The limit.
    pub limit: Limit,
    /// The width of the guard band, in SI.
    pub guard: f64,
    /// Room to the nearer limit in standard uncertainties, where they take part in the decision; negative outside.
    pub margin: Option<f64>,
    /// The probability that the true value is inside the limit, knowledge of it being normal
    /// (JCGM 106:2012, clause 7), or Student's where degrees of freedom are stated; the rest is the specific
    /// consumer's risk.
    pub conformance: Option<f64>,
}

impl Judgement {
    /// The conformance probability in percent; never rounded up to certainty.
    pub fn probability(&self) -> Option<String> {
        self.conformance.map(|p| match 100.0 * p {
            percent if percent > 99.99 => say!("above 99.99 %").into(),
            percent if percent < 0.01 => say!("below 0.01 %").into(),
            percent => {
                let places = if (1.0..=99.0).contains(&percent) {
                    1
                } else {
                    2
                };
                format!("{} %", number::fixed(percent, places))
            }
        })
    }
}

/// Holds a quantity against a limit.
///
/// Compares unrounded values; an end of the limit belongs to it. A difference in the last bits of
/// the conversion to SI is no difference.
pub fn judge(quantity: &Quantity, limit: &Limit) -> Judgement {
    judge_among(quantity, limit, 0.0)
}

/// The same for a figure that stands on operands of the same kind, the largest of which is given in SI: a small
/// difference of large values carries their last bits.
pub fn judge_among(quantity: &Quantity, limit: &Limit, operand: f64) -> Judgement {
    let (value, u) = (quantity.value, quantity.u());
    let slack = (1e-12 * value.abs()).max(8.0 * f64::EPSILON * operand);
    let from_low = limit.low.map_or(f64::INFINITY, |low| value - low + slack);
    let from_high = limit
        .high
        .map_or(f64::INFINITY, |high| high - value + slack);
    let room = from_low.min(from_high);
    // A value that decides alone has no room in standard uncertainties.
    let margin = match limit.decision {
        Decision::Plain => None,
        Decision::Levels(explain, _) => (u > 0.0).then(|| explain - value.abs() / u),
        Decision::Guarded(_) | Decision::Rejection(_) => (u > 0.0).then(|| room / u),
    };
    let (verdict, guard) = match limit.decision {
        Decision::Plain if room >= 0.0 => (Verdict::Conforms, 0.0),
        Decision::Plain => (Verdict::DoesNotConform, 0.0),
        Decision::Levels(..) if u == 0.0 => (Verdict::NotEvaluated, 0.0),
        Decision::Levels(explain, block) => match value / u {
            // As far below zero as above: wetting, temperature or swapped modules; then the test shows nothing.
            ratio if ratio.abs() > block => (Verdict::DoesNotConform, block * u),
            ratio if ratio.abs() > explain => (Verdict::Undecided, explain * u),
            _ => (Verdict::Conforms, explain * u),
        },
        Decision::Guarded(width) => {
            let guard = width * coverage(quantity) * u;
            // Without an uncertainty a guarded decision cannot be made (rule R44).
            let verdict = match room {
                _ if u == 0.0 && width > 0.0 => Verdict::NotEvaluated,
                room if room >= guard => Verdict::Conforms,
                room if room >= -guard && width > 0.0 => Verdict::Undecided,
                _ => Verdict::DoesNotConform,
            };
            (verdict, guard)
        }
        Decision::Rejection(width) => {
            let guard = width * coverage(quantity) * u;
            let verdict = match room {
                _ if u == 0.0 => Verdict::NotEvaluated,
                room if room >= -guard => Verdict::Conforms,
                _ => Verdict::DoesNotConform,
            };
            (verdict, guard)
        }
    };
    let conformance = match limit.decision {
        Decision::Guarded(_) | Decision::Rejection(_) => {
            metrology::conformance(value, u, quantity.whole_degrees(), (limit.low, limit.high)).ok()
        }
        Decision::Plain | Decision::Levels(..) => None,
    };
    Judgement {
        verdict,
        limit: limit.clone(),
        guard,
        margin,
        conformance,
    }
}

/// A limit in words for two ends in a unit.
pub fn limit_text(low: Option<f64>, high: Option<f64>, unit: &Unit) -> String {
    let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 6), unit);
    match (low, high) {
        (Some(low), Some(high)) => format!("{} {} {}", show(low), say!("to"), show(high)),
        (Some(low), None) => format!("≥ {}", show(low)),
        (None, Some(high)) => format!("≤ {}", show(high)),
        (None, None) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::{quantity::Cause, unit::ONE};

    fn verdict(value: f64, u: f64, decision: Decision) -> Verdict {
        let limit = Limit {
            low: None,
            high: Some(10.0),
            text: String::new(),
            at: None,
            decision,
        };
        let cause = Cause {
            name: "gauge".into(),
            of: String::new(),
            degrees: None,
            study: None,
        };
        judge(&Quantity::exact(value, ONE.dim).with(cause, u), &limit).verdict
    }

    #[test]
    fn the_verdicts_meet_where_the_guard_band_ends() {
        let guarded = |value| verdict(value, 0.5, Decision::Guarded(1.0));
        assert_eq!(guarded(9.0), Verdict::Conforms);
        assert_eq!(guarded(9.000_001), Verdict::Undecided);
        assert_eq!(guarded(11.0), Verdict::Undecided);
        assert_eq!(guarded(11.000_001), Verdict::DoesNotConform);
        assert_eq!(
            verdict(9.0, 0.0, Decision::Guarded(1.0)),
            Verdict::NotEvaluated
        );
    }

    #[test]
    fn simple_acceptance_knows_no_doubt() {
        assert_eq!(
            verdict(10.0, 0.5, Decision::Guarded(0.0)),
            Verdict::Conforms
        );
        assert_eq!(
            verdict(10.000_001, 0.5, Decision::Guarded(0.0)),
            Verdict::DoesNotConform
        );
        assert_eq!(verdict(10.0, 0.0, Decision::Plain), Verdict::Conforms);
    }

    #[test]
    fn a_residual_is_explained_above_three_and_blocks_above_five_standard_uncertainties() {
        let levels = |value| verdict(value, 0.5, Decision::Levels(3.0, 5.0));
        assert_eq!(levels(1.5), Verdict::Conforms);
        assert_eq!(levels(1.6), Verdict::Undecided);
        assert_eq!(levels(2.6), Verdict::DoesNotConform);
        assert_eq!(levels(-1.5), Verdict::Conforms);
        assert_eq!(levels(-2.0), Verdict::Undecided);
        assert_eq!(levels(-9.0), Verdict::DoesNotConform);
    }

    #[test]
    fn a_guarded_rejection_refuses_only_what_is_surely_outside() {
        let guarded = |value| verdict(value, 0.5, Decision::Rejection(1.0));
        assert_eq!(guarded(11.0), Verdict::Conforms);
        assert_eq!(guarded(11.000_001), Verdict::DoesNotConform);
        assert_eq!(
            verdict(9.0, 0.0, Decision::Rejection(1.0)),
            Verdict::NotEvaluated
        );
    }

    /// JCGM 100:2008, table G.2, column 95.45 % (from memory).
    #[test]
    fn coverage_factors_as_in_the_guide() {
        for (degrees, k) in [
            (1, 13.97),
            (2, 4.53),
            (3, 3.31),
            (4, 2.87),
            (5, 2.65),
            (10, 2.28),
            (20, 2.13),
            (50, 2.05),
        ] {
            let cause = Cause {
                name: "repeated".into(),
                of: String::new(),
                degrees: Some(degrees),
                study: None,
            };
            let quantity = Quantity::exact(1.0, ONE.dim).with(cause, 0.1);
            assert!((coverage(&quantity) - k).abs() < 0.005, "{degrees}");
        }
        assert_eq!(coverage(&Quantity::exact(1.0, ONE.dim)), 2.0);
    }

    #[test]
    fn a_probability_is_never_rounded_up_to_certainty() {
        let limit = Limit {
            low: Some(0.0),
            high: None,
            text: String::new(),
            at: None,
            decision: Decision::Guarded(1.0),
        };
        let shown = |value| {
            let cause = Cause {
                name: "gauge".into(),
                of: String::new(),
                degrees: None,
                study: None,
            };
            judge(&Quantity::exact(value, ONE.dim).with(cause, 1.0), &limit).probability()
        };
        assert_eq!(shown(0.0).as_deref(), Some("50.0 %"));
        assert_eq!(shown(9.0).as_deref(), Some("above 99.99 %"));
        assert_eq!(shown(-9.0).as_deref(), Some("below 0.01 %"));
        // The normal distribution below 1.96 standard deviations.
        assert_eq!(shown(1.959_963_984_540_054).as_deref(), Some("97.5 %"));
    }

    #[test]
    fn room_margin_and_guard_are_counted_from_the_nearer_limit() {
        let cause = Cause {
            name: "gauge".into(),
            of: String::new(),
            degrees: None,
            study: None,
        };
        let of = |low, high, decision| {
            let limit = Limit {
                low,
                high,
                text: String::new(),
                at: None,
                decision,
            };
            judge(
                &Quantity::exact(7.0, ONE.dim).with(cause.clone(), 0.5),
                &limit,
            )
        };
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let both = of(Some(5.0), Some(10.0), Decision::Guarded(0.5));
        assert!(near(both.margin.unwrap(), 4.0));
        assert!(near(both.guard, 0.5));
        assert_eq!(both.verdict, Verdict::Conforms);
        let upper = of(Some(1.0), Some(8.5), Decision::Guarded(1.5));
        assert!(near(upper.margin.unwrap(), 3.0) && near(upper.guard, 1.5));
        let rejected = of(None, Some(6.6), Decision::Rejection(0.3));
        assert!(near(rejected.margin.unwrap(), -0.8) && near(rejected.guard, 0.3));
        assert_eq!(rejected.verdict, Verdict::DoesNotConform);
        let levels = of(None, None, Decision::Levels(20.0, 30.0));
        assert!(near(levels.margin.unwrap(), 6.0) && near(levels.guard, 10.0));
        let blocked = of(None, None, Decision::Levels(3.0, 5.0));
        assert_eq!(blocked.verdict, Verdict::DoesNotConform);
        assert!(near(blocked.guard, 2.5) && near(blocked.margin.unwrap(), -11.0));
        let explained = of(None, None, Decision::Levels(9.0, 15.0));
        assert_eq!(explained.verdict, Verdict::Undecided);
        assert!(near(explained.guard, 4.5));
        assert_eq!(of(None, Some(6.9), Decision::Plain).margin, None);
        // Φ(4) − 0 and Φ(4) with Φ(6) taken off: tables of the normal distribution.
        assert!(near(
            both.conformance.unwrap(),
            1.0 - 3.167_124_183_312e-5 - 9.865_9e-10
        ));
    }

    #[test]
    fn an_expanded_uncertainty_is_printed_with_its_unit() {
        let cause = Cause {
            name: "gauge".into(),
            of: String::new(),
            degrees: Some(4),
            study: None,
        };
        let quantity = Quantity::exact(2e5, crate::ground::unit::BAR.dim).with(cause, 1e4);
        assert_eq!(expanded(&quantity, &crate::ground::unit::BAR), "0.29 bar");
        assert_eq!(
            coverage_text(&quantity),
            "k = 2.87 from 4 degrees of freedom"
        );
    }

    #[test]
    fn each_verdict_has_a_stroke_of_its_own() {
        let all = [
            Verdict::Conforms,
            Verdict::Undecided,
            Verdict::DoesNotConform,
            Verdict::NotEvaluated,
            Verdict::NoLimit,
        ];
        for read in [Verdict::glyph, Verdict::words, Verdict::key] {
            let mut seen: Vec<&str> = all.iter().map(|verdict| read(*verdict)).collect();
            assert!(seen.iter().all(|text| !text.is_empty()));
            seen.sort_unstable();
            seen.dedup();
            assert_eq!(seen.len(), all.len());
        }
    }
}
