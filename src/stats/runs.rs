//! Patterns of successive points on a chart, by what they are.

use super::{Reason, Refusal, finite, refuse};

/// A pattern (ISO 7870-2, from memory). Each one that is looked for raises the rate of false alarms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// One point beyond three standard deviations.
    OneBeyond3,
    /// Nine in succession on one side of the centre.
    NineOneSide,
    /// Six in succession strictly rising or strictly falling.
    SixTrend,
    /// Fourteen in succession alternating up and down.
    FourteenAlternating,
    /// At least two of three in succession beyond two standard deviations on one side.
    TwoOfThreeBeyond2,
    /// At least four of five in succession beyond one standard deviation on one side.
    FourOfFiveBeyond1,
    /// Fifteen in succession within one standard deviation.
    FifteenWithin1,
    /// Eight in succession outside one standard deviation, on either side.
    EightOutside1,
}

/// All patterns.
pub const PATTERNS: [Pattern; 8] = [
    Pattern::OneBeyond3,
    Pattern::NineOneSide,
    Pattern::SixTrend,
    Pattern::FourteenAlternating,
    Pattern::TwoOfThreeBeyond2,
    Pattern::FourOfFiveBeyond1,
    Pattern::FifteenWithin1,
    Pattern::EightOutside1,
];

impl Pattern {
    /// Points that one window of the pattern covers.
    pub fn length(self) -> usize {
        match self {
            Self::OneBeyond3 => 1,
            Self::NineOneSide => 9,
            Self::SixTrend => 6,
            Self::FourteenAlternating => 14,
            Self::TwoOfThreeBeyond2 => 3,
            Self::FourOfFiveBeyond1 => 5,
            Self::FifteenWithin1 => 15,
            Self::EightOutside1 => 8,
        }
    }

    /// The pattern in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::OneBeyond3 => say!("one point beyond three standard deviations"),
            Self::NineOneSide => say!("nine points in succession on one side of the centre"),
            Self::SixTrend => say!("six points in succession rising, or falling"),
            Self::FourteenAlternating => {
                say!("fourteen points in succession alternating up and down")
            }
            Self::TwoOfThreeBeyond2 => {
                say!("two of three points in succession beyond two standard deviations on one side")
            }
            Self::FourOfFiveBeyond1 => {
                say!("four of five points in succession beyond one standard deviation on one side")
            }
            Self::FifteenWithin1 => {
                say!("fifteen points in succession within one standard deviation")
            }
            Self::EightOutside1 => {
                say!("eight points in succession outside one standard deviation")
            }
        }
    }

    fn holds(self, z: &[f64]) -> bool {
        let beyond = |limit: f64, least: usize| {
            [1.0, -1.0]
                .iter()
                .any(|side| z.iter().filter(|z| *side * **z > limit).count() >= least)
        };
        let steps = || z.array_windows().map(|[a, b]| b - a);
        match self {
            Self::OneBeyond3 => z.iter().all(|z| z.abs() > 3.0),
            Self::NineOneSide => beyond(0.0, z.len()),
            Self::SixTrend => steps().all(|d| d > 0.0) || steps().all(|d| d < 0.0),
            Self::FourteenAlternating => {
                let steps: Vec<f64> = steps().collect();
                steps.array_windows().all(|[a, b]| a * b < 0.0)
            }
            Self::TwoOfThreeBeyond2 => beyond(2.0, 2),
            Self::FourOfFiveBeyond1 => beyond(1.0, 4),
            Self::FifteenWithin1 => z.iter().all(|z| z.abs() < 1.0),
            Self::EightOutside1 => z.iter().all(|z| z.abs() > 1.0),
        }
    }
}

/// Indices at which a window ends over which the pattern holds.
///
/// # Errors
/// A value that is not finite; a standard deviation that is not above zero; a window of no point.
pub fn ends(
    x: &[f64],
    centre: f64,
    sigma: f64,
    pattern: Pattern,
    length: usize,
) -> Result<Vec<usize>, Refusal> {
    finite(x)?;
    super::at_least(x.len(), 1)?;
    finite(&[centre, sigma])?;
    if sigma <= 0.0 {
        let reason = if sigma < 0.0 {
            Reason::BadSd
        } else {
            Reason::ZeroVariance
        };
        return refuse(
            reason,
            say!(
                "{sigma} is no standard deviation to count in",
                sigma = sigma
            ),
        );
    }
    if length == 0 {
        return refuse(Reason::BadParameter, say!("a window of no point"));
    }
    // What lies on a limit, to the last digits that its subtraction leaves, lies on it: whole standard deviations are limits.
    let z: Vec<f64> = x
        .iter()
        .map(|x| {
            let z = (x - centre) / sigma;
            let slack = 8.0 * f64::EPSILON * (x.abs() + centre.abs()) / sigma;
            let whole = libm::round(z);
            if (z - whole).abs() <= slack { whole } else { z }
        })
        .collect();
    Ok(z.windows(length)
        .enumerate()
        .filter(|(_, window)| pattern.holds(window))
        .map(|(start, _)| start + length - 1)
        .collect())
}
