//! The numbers of a part of a formula over all steps of a series.

/// One number for every step, or one a step.
pub(super) enum Spread {
    /// The same in every step.
    One(f64),
    /// One a step.
    Each(Vec<f64>),
}

impl Spread {
    /// As numbers, one a step.
    pub(super) fn series(self, n: usize) -> Vec<f64> {
        match self {
            Spread::One(x) => vec![x; n],
            Spread::Each(all) => all,
        }
    }

    /// An operator on each.
    pub(super) fn map(self, op: impl Fn(f64) -> f64) -> Spread {
        match self {
            Spread::One(x) => Spread::One(op(x)),
            Spread::Each(all) => Spread::Each(all.into_iter().map(op).collect()),
        }
    }

    /// An operator on each with its like; both have as many steps.
    pub(super) fn with(self, other: Spread, op: impl Fn(f64, f64) -> f64) -> Spread {
        match (self, other) {
            (Spread::One(x), Spread::One(y)) => Spread::One(op(x, y)),
            (Spread::Each(all), Spread::One(y)) => {
                Spread::Each(all.into_iter().map(|x| op(x, y)).collect())
            }
            (Spread::One(x), Spread::Each(all)) => {
                Spread::Each(all.into_iter().map(|y| op(x, y)).collect())
            }
            (Spread::Each(left), Spread::Each(right)) => {
                Spread::Each(left.into_iter().zip(right).map(|(x, y)| op(x, y)).collect())
            }
        }
    }

    pub(super) fn is_finite(&self) -> bool {
        match self {
            Spread::One(x) => x.is_finite(),
            Spread::Each(all) => all.iter().all(|x| x.is_finite()),
        }
    }
}
