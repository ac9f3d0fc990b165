//! The decision rule. Pure: a value, its uncertainty and a limit in, a verdict out.

use crate::ground::{number, place::Place, quantity::Quantity, unit::Unit};

/// The coverage factor of an expanded uncertainty: k = 2, about 95 % for a normal distribution
/// (JCGM 100:2008, G.6.6).
pub const COVERAGE: f64 = 2.0;

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
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::Conforms => "conforms",
            Verdict::Undecided => "undecided",
            Verdict::DoesNotConform => "does not conform",
            Verdict::NoLimit => "no limit",
            Verdict::NotEvaluated => "not evaluated",
        }
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
    /// With a guard band of so many expanded uncertainties (JCGM 106:2012, clause 8).
    Guarded(f64),
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
    /// Room to the nearer limit, in SI; negative outside.
    pub room: f64,
    /// The same in standard uncertainties, where they take part in the decision.
    pub margin: Option<f64>,
}

/// Holds a quantity against a limit.
///
/// Compares unrounded values; an end of the limit belongs to it. A difference in the last bits of
/// the conversion to SI is no difference.
pub fn judge(quantity: &Quantity, limit: &Limit) -> Judgement {
    let (value, u) = (quantity.value, quantity.u());
    let slack = 1e-12 * value.abs();
    let from_low = limit.low.map_or(f64::INFINITY, |low| value - low + slack);
    let from_high = limit
        .high
        .map_or(f64::INFINITY, |high| high - value + slack);
    let room = from_low.min(from_high);
    // A value that decides alone has no room in standard uncertainties.
    let (room, margin) = match limit.decision {
        Decision::Plain => (room, None),
        Decision::Levels(explain, _) => (
            explain * u - value.abs(),
            (u > 0.0).then(|| explain - value.abs() / u),
        ),
        Decision::Guarded(_) => (room, (u > 0.0).then(|| room / u)),
    };
    let (verdict, guard) = match limit.decision {
        Decision::Plain if room >= 0.0 => (Verdict::Conforms, 0.0),
        Decision::Plain => (Verdict::DoesNotConform, 0.0),
        Decision::Levels(..) if u == 0.0 => (Verdict::NotEvaluated, 0.0),
        Decision::Levels(explain, block) => match value / u {
            ratio if ratio > block => (Verdict::DoesNotConform, block * u),
            // As far below zero as above: wetting, temperature or swapped modules.
            ratio if ratio.abs() > explain => (Verdict::Undecided, explain * u),
            _ => (Verdict::Conforms, explain * u),
        },
        Decision::Guarded(width) => {
            let guard = width * COVERAGE * u;
            // Without an uncertainty a guarded decision cannot be made (rule R44).
            let verdict = match room {
                _ if u == 0.0 && width > 0.0 => Verdict::NotEvaluated,
                room if room >= guard => Verdict::Conforms,
                room if room >= -guard && width > 0.0 => Verdict::Undecided,
                _ => Verdict::DoesNotConform,
            };
            (verdict, guard)
        }
    };
    Judgement {
        verdict,
        limit: limit.clone(),
        guard,
        room,
        margin,
    }
}

/// A limit in words for two ends in a unit.
pub fn limit_text(low: Option<f64>, high: Option<f64>, unit: &Unit) -> String {
    let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 6), unit);
    match (low, high) {
        (Some(low), Some(high)) => format!("{} to {}", show(low), show(high)),
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
        assert_eq!(levels(-9.0), Verdict::Undecided);
    }
}
