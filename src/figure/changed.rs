//! What became different in the method of a figure from one version of the program to the next.
//!
//! A dossier lives longer than a version. Where a later one computes a figure otherwise, a check of an
//! older copy must tell that apart from a figure that was altered: what changed, since when, and whether
//! the value may differ or its uncertainty alone.

use super::{Figure, From};

/// What a change of a method touches.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Touched {
    /// The uncertainty, and with it perhaps a verdict; the value comes out as before.
    Uncertainty,
    /// The value too.
    Value,
}

/// One change of a method.
#[derive(Copy, Clone, Debug)]
pub struct Changed {
    /// The figure's identity.
    pub figure: &'static str,
    /// The first version that computes it so.
    pub since: (u64, u64, u64),
    /// What it touches.
    pub touched: Touched,
}

const fn value(figure: &'static str) -> Changed {
    Changed {
        figure,
        since: (0, 2, 0),
        touched: Touched::Value,
    }
}

const fn uncertainty(figure: &'static str) -> Changed {
    Changed {
        figure,
        since: (0, 2, 0),
        touched: Touched::Uncertainty,
    }
}

/// Every change of a method since 0.1.0, by figure; the change log says why.
pub static CHANGED: &[Changed] = &[
    // What leaves its line below the pressure up to which it is fitted is not fitted away.
    value("bubble-point"),
    // The scatter of readings about their mean is a cause of its own.
    uncertainty("membrane-bubble-point"),
    uncertainty("membrane-thickness"),
    // The scatter of points about their curve is a cause of its own.
    uncertainty("flow-resistance"),
    uncertainty("flow-resistance-quadratic"),
    // The flows of modules are brought to the temperature of the assembly's test.
    value("join-residual"),
    // What was lost in every other step of a trace is a gap.
    value("hold-time-proven"),
    value("hold-time-full"),
    value("f0-proven"),
    value("f0-full"),
    // A cycle of steam that was never hot proves nothing.
    value("cycles-proven"),
    // Quantiles of the beta, gamma and t distributions are found otherwise: another last digit.
    value("cycle-reliability"),
    value("cycles-supported"),
    value("element-cycles-supported"),
    value("log-reduction-bound"),
    // Sums of squares are taken of differences from one reading: another last digit.
    value("repeatability"),
    value("reproducibility"),
    // What is stated beside the diameter of the core joins its tolerance.
    uncertainty("pleat-room"),
];

/// The versions that were released before this one: only their pages are not made again.
pub const EARLIER: &[&str] = &["0.1.0"];

/// The three numbers of a version.
pub fn version(text: &str) -> Option<(u64, u64, u64)> {
    let mut numbers = text.split(['.', '-']).map(|word| word.parse().ok());
    Some((numbers.next()??, numbers.next()??, numbers.next()??))
}

/// What changed in the method of a figure, or in that of a figure it stands on, since a version (`0.1.0`); nothing
/// where it is as it was, or where the version cannot be read.
pub fn touched_since(figure: &Figure, of: &str) -> Option<Touched> {
    let old = version(of)?;
    let own = CHANGED
        .iter()
        .filter(|changed| changed.figure == figure.id && changed.since > old)
        .map(|changed| changed.touched)
        .max();
    let inputs = (figure.formula)().variables();
    let below = inputs.into_iter().filter_map(|input| match input.from {
        From::Figures(below, _) => touched_since(below, of),
        // Room to a limit is counted in uncertainties: any change of one is a change of the value.
        From::Margins(_) => CHANGED
            .iter()
            .any(|changed| changed.since > old)
            .then_some(Touched::Value),
        _ => None,
    });
    own.into_iter().chain(below).max()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures;

    #[test]
    fn a_change_counts_for_what_stands_on_it_and_not_for_what_came_after() {
        let named = |id: &str| {
            let mut all = figures::ALL.iter();
            *all.find(|figure| figure.id == id).unwrap()
        };
        assert_eq!(
            touched_since(named("water-flow"), "0.1.0"),
            Some(Touched::Uncertainty)
        );
        assert_eq!(
            touched_since(named("smallest-margin"), "0.1.0"),
            Some(Touched::Value)
        );
        assert_eq!(touched_since(named("diffusive-flow"), "0.1.0"), None);
        assert_eq!(touched_since(named("water-flow"), "0.2.0"), None);
        assert_eq!(touched_since(named("water-flow"), "of old"), None);
        for changed in CHANGED {
            named(changed.figure);
        }
    }
}
