//! A measured number that remembers where its uncertainty comes from.

use std::{slice, sync::Arc};

use super::{
    number,
    unit::{Dim, Unit},
};

/// One independent cause of uncertainty, named so that a reader can find it.
///
/// Two quantities are correlated exactly as far as they share causes: two tests on one rig share
/// its volume, not the repeatability of wetting.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cause {
    /// What it is: `upstream_volume`, `wetting_repeatability`.
    pub name: String,
    /// What shares it: an instrument, or one record alone.
    pub of: String,
    /// Degrees of freedom of its standard uncertainty; none when it is taken as known.
    pub degrees: Option<u64>,
    /// What gave its standard uncertainty, where that gave others too: all causes of one study and these degrees of freedom are
    /// wrong together, however many they are.
    pub study: Option<String>,
}

/// A number in SI, its dimension, and its uncertainty split by cause.
///
/// Invariant: the value and every share are finite.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity {
    /// The best estimate, in the coherent SI unit.
    pub value: f64,
    /// Its dimension.
    pub dim: Dim,
    /// By cause: sensitivity × standard uncertainty of the cause, signed, in SI.
    pub shares: Shares,
}

/// Shares of an uncertainty, each cause once, in the order of causes.
///
/// A plant has hundreds of thousands of figures, and many stand on others: causes are shared, not copied.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shares(Vec<(Arc<Cause>, f64)>);

impl Shares {
    /// Adds to the share of a cause.
    fn add(&mut self, cause: &Arc<Cause>, share: f64) {
        match self.0.binary_search_by(|(known, _)| known.cmp(cause)) {
            Ok(at) => {
                if let Some((_, own)) = self.0.get_mut(at) {
                    *own += share;
                }
            }
            // From zero on, so that nothing is ever a negative zero.
            Err(at) => self.0.insert(at, (cause.clone(), 0.0 + share)),
        }
    }

    /// The share of a cause; nothing where it has none.
    pub fn get(&self, cause: &Cause) -> Option<f64> {
        let found = self.0.binary_search_by(|(known, _)| (**known).cmp(cause));
        self.0.get(found.ok()?).map(|(_, share)| *share)
    }

    /// Causes and shares.
    pub fn iter(&self) -> impl Iterator<Item = (&Cause, f64)> {
        self.into_iter()
    }

    /// Whether there is no cause.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The causes.
    pub fn causes(&self) -> impl Iterator<Item = &Cause> {
        self.0.iter().map(|(cause, _)| &**cause)
    }
}

impl<'a> IntoIterator for &'a Shares {
    type Item = (&'a Cause, f64);
    type IntoIter =
        std::iter::Map<slice::Iter<'a, (Arc<Cause>, f64)>, fn(&(Arc<Cause>, f64)) -> (&Cause, f64)>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter().map(|(cause, share)| (&**cause, *share))
    }
}

impl Quantity {
    /// A number without doubt.
    pub fn exact(value: f64, dim: Dim) -> Quantity {
        Quantity {
            value,
            dim,
            shares: Shares::default(),
        }
    }

    /// Adds an independent cause with its standard uncertainty, in SI.
    pub fn with(mut self, cause: Cause, u: f64) -> Quantity {
        self.add(cause, u);
        self
    }

    /// The same in place.
    pub fn add(&mut self, cause: Cause, u: f64) {
        self.shares.add(&Arc::new(cause), u);
    }

    /// The standard uncertainty: the root of the sum of squared shares.
    pub fn u(&self) -> f64 {
        self.shares
            .iter()
            .map(|(_, share)| share * share)
            // From zero on: a sum over nothing would be a negative zero.
            .fold(0.0, |sum: f64, square| sum + square)
            .sqrt()
    }

    /// Effective degrees of freedom (Welch and Satterthwaite; JCGM 100:2008, G.4.1); infinite when
    /// every cause is taken as known.
    pub fn degrees(&self) -> f64 {
        let fourth = |x: f64| x * x * x * x;
        // Variances that one study estimated are one estimate: they are added before they are squared.
        let mut estimates: smallvec::SmallVec<[(&str, u64, f64); 4]> = smallvec::SmallVec::new();
        for (cause, share) in &self.shares {
            let Some(degrees) = cause.degrees else {
                continue;
            };
            let study = cause.study.as_deref().unwrap_or_default();
            let known = estimates
                .iter_mut()
                .find(|own| !study.is_empty() && (own.0, own.1) == (study, degrees));
            match known {
                Some(own) => own.2 += share * share,
                None => estimates.push((study, degrees, share * share)),
            }
        }
        let lost: f64 = estimates
            .iter()
            .map(|(_, degrees, variance)| variance * variance / (*degrees).max(1) as f64)
            .sum();
        // The sum over nothing may be a negative zero.
        if lost > 0.0 {
            fourth(self.u()) / lost
        } else {
            f64::INFINITY
        }
    }

    /// Effective degrees of freedom cut down to a whole number (JCGM 100:2008, G.6.4), at least one; infinite
    /// where every cause is taken as known. What rounding alone takes from a whole number does not count.
    pub fn whole_degrees(&self) -> f64 {
        (self.degrees() * (1.0 + 1e-9)).floor().max(1.0)
    }

    /// First-order propagation (JCGM 100:2008, 5.2): each input's shares, scaled by its slope,
    /// are added cause by cause. Correlation needs no further term.
    pub fn propagate<'a>(
        value: f64,
        dim: Dim,
        inputs: impl IntoIterator<Item = (f64, &'a Quantity)>,
    ) -> Quantity {
        let mut shares = Shares::default();
        for (slope, input) in inputs {
            for (cause, share) in &input.shares.0 {
                shares.add(cause, slope * share);
            }
        }
        shares.0.shrink_to_fit();
        Quantity { value, dim, shares }
    }

    /// Printed in a unit: the uncertainty to two significant digits, the value to the same place.
    pub fn show(&self, unit: &Unit) -> String {
        let u = self.u() / unit.factor;
        match u {
            0.0 => self.bare(unit),
            _ => {
                let places = number::places(u, 2);
                let value = number::fixed(unit.of_si(self.value), places);
                number::with_unit(&format!("{value} ± {}", number::fixed(u, places)), unit)
            }
        }
    }

    /// The value alone, to the place that its uncertainty allows (four digits without one; a whole number as it is).
    pub fn number(&self, unit: &Unit) -> String {
        let (value, u) = (unit.of_si(self.value), self.u() / unit.factor);
        match u {
            0.0 if value == value.trunc() && value.abs() < 1e6 => number::fixed(value, 0),
            0.0 => number::significant(value, 4),
            _ => number::fixed(value, number::places(u, 2)),
        }
    }

    /// The value alone with its unit.
    pub fn bare(&self, unit: &Unit) -> String {
        number::with_unit(&self.number(unit), unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::unit::BAR;

    #[test]
    fn a_shared_cause_cancels_in_a_difference_and_adds_up_in_a_sum() {
        let gauge = || Cause {
            name: "calibration".into(),
            of: "PG-07".into(),
            degrees: None,
            study: None,
        };
        let reading = |value| Quantity::exact(value, BAR.dim).with(gauge(), 0.002e5);
        let (a, b) = (reading(2.5e5), reading(2.4e5));
        assert_eq!(
            Quantity::propagate(0.1e5, BAR.dim, [(1.0, &a), (-1.0, &b)]).u(),
            0.0
        );
        assert_eq!(
            Quantity::propagate(4.9e5, BAR.dim, [(1.0, &a), (1.0, &b)]).u(),
            400.0
        );
        assert_eq!(a.show(&BAR), "2.5000 ± 0.0020 bar");
        assert_eq!(a.degrees(), f64::INFINITY);
    }

    /// JCGM 100:2008, G.4.1, example: 0.25 %, 0.57 % and 0.82 % with 9, 4 and 14 degrees of freedom
    /// for 10, 5 and 15 repeated observations give 19.0 (figures of the guide from memory).
    #[test]
    fn degrees_of_freedom_as_in_the_guide() {
        let mut q = Quantity::exact(1.0, crate::ground::unit::Dim::NONE);
        for (u, n) in [(0.0025, 9), (0.0057, 4), (0.0082, 14)] {
            let cause = Cause {
                name: n.to_string(),
                of: String::new(),
                degrees: Some(n),
                study: None,
            };
            q = q.with(cause, u);
        }
        assert!((q.degrees() - 19.0).abs() < 0.05, "{}", q.degrees());
    }
}
