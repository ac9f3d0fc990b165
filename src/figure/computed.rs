//! What came out for a figure of one subject, and all that is needed to repeat it.

use std::sync::Arc;

use super::{Figure, FigureId, Input, ReportedValue, Subject};
use crate::{
    ground::{number, place::Place, quantity::Quantity},
    verdict::{Judgement, Verdict},
};

/// Where the numbers of one input came from.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub enum Origin {
    /// As written in a record, each value where it stands.
    Readings(smallvec::SmallVec<[(Box<str>, Place); 1]>),
    /// A column of a trace, from row to row: so many values.
    Rows {
        first: Place,
        last: Place,
        count: usize,
    },
    /// A contribution of the specification.
    Contribution { text: String, at: Place },
    /// Laid down in the figure's definition.
    Constant { source: &'static str },
    /// Other figures.
    Figures(Vec<FigureId>),
    /// The specification has no such contribution: taken as zero.
    NoContribution,
}

/// One input with its numbers.
#[derive(Clone, Debug)]
pub struct Term {
    /// The input, which every figure of one definition shares.
    pub input: Arc<Input>,
    /// The numbers, in SI; of the rows of a trace the first and the last only (`Graph::given` draws them all).
    pub values: smallvec::SmallVec<[f64; 2]>,
    /// Sensitivity coefficient to each, in SI; none for the rows of a trace, zero for other series of readings without doubt.
    pub slopes: smallvec::SmallVec<[f64; 2]>,
    /// Where they came from.
    pub origin: Origin,
}

impl Term {
    /// How many numbers the input stands for.
    pub fn count(&self) -> usize {
        match self.origin {
            Origin::Rows { count, .. } => count,
            _ => self.values.len(),
        }
    }

    /// The numbers as a reader meets them, in the input's unit: a few one by one, the rows of a trace from the first to the
    /// last, of many others the least and the largest.
    pub fn shown(&self) -> String {
        const FEW: usize = 12;
        let unit = &self.input.unit;
        let show = |si: f64| number::with_unit(&number::significant(unit.of_si(si), 7), unit);
        let span = |first: f64, last: f64| {
            say!(
                "{count} values, {first} to {last}",
                count = self.count(),
                first = show(first),
                last = show(last)
            )
        };
        match (&self.values[..], &self.origin) {
            ([], _) => "–".into(),
            ([first, .., last], Origin::Rows { .. }) => say!(
                "{count} rows, the first {first}, the last {last}",
                count = self.count(),
                first = show(*first),
                last = show(*last)
            ),
            (few, _) if few.len() <= FEW => {
                few.iter().copied().map(show).collect::<Vec<_>>().join("; ")
            }
            (many, _) => span(
                many.iter().copied().fold(f64::INFINITY, f64::min),
                many.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            ),
        }
    }
}

/// A number with all that is needed to repeat it.
#[derive(Clone, Debug)]
pub struct Worked {
    /// The result.
    pub quantity: Quantity,
    /// The inputs, in the order of the formula.
    pub terms: Vec<Term>,
    /// Contributions that act on the result as a whole.
    pub direct: Vec<(String, Place)>,
    /// Contributions of the specification that this figure cannot use, and why.
    pub unused: Vec<String>,
}

/// A figure of one subject: its number or why there is none, and what was decided.
pub struct Computed {
    /// Its identity.
    pub id: FigureId,
    /// Its definition.
    pub figure: &'static Figure,
    /// The record it is of.
    pub subject: Subject,
    /// The number, or why there is none.
    pub worked: Result<Worked, String>,
    /// The decision, where a limit is laid down and there is a number.
    pub judgement: Option<Judgement>,
    /// Why there is a limit but no decision.
    pub undecidable: Option<String>,
    /// What the second order would add to the number, in SI, where the decision uses its uncertainty
    /// ([`Figure::second_order`]).
    pub second_order: Option<Result<f64, String>>,
    /// What was reported.
    pub reported: Option<ReportedValue>,
}

impl Computed {
    /// The verdict.
    pub fn verdict(&self) -> Verdict {
        match (&self.worked, &self.judgement) {
            (Err(_), _) => Verdict::NotEvaluated,
            (Ok(_), Some(judgement)) => judgement.verdict,
            (Ok(_), None) if self.undecidable.is_some() => Verdict::NotEvaluated,
            (Ok(_), None) => Verdict::NoLimit,
        }
    }

    /// The number with its uncertainty, or a dash.
    pub fn shown(&self) -> String {
        match &self.worked {
            Ok(worked) => worked.quantity.show(&self.figure.unit),
            Err(_) => "–".into(),
        }
    }

    /// The number, where there is one.
    pub fn quantity(&self) -> Option<&Quantity> {
        self.worked.as_ref().ok().map(|worked| &worked.quantity)
    }

    /// The formula with a number in place of each letter, for a reader with a pocket calculator.
    pub fn with_numbers(&self) -> Option<String> {
        let worked = self.worked.as_ref().ok()?;
        Some((self.figure.formula)().text_with(&|input| {
            let Some(term) = worked.terms.iter().find(|term| *term.input == input) else {
                return input.symbol.to_owned();
            };
            match &term.values[..] {
                [one] => {
                    let shown = number::with_unit(
                        &number::significant(input.unit.of_si(*one), 8),
                        &input.unit,
                    );
                    match shown.contains(' ') {
                        true => format!("({shown})"),
                        false => shown,
                    }
                }
                _ => say!(
                    "{input} ({count} values)",
                    input = input.symbol,
                    count = term.count()
                ),
            }
        }))
    }
}
