//! What the operators do to numbers, and their partial derivatives.

use super::{Binary, Unary};

impl Unary {
    pub(super) fn value(self, x: f64) -> f64 {
        match self {
            Unary::Neg => -x,
            Unary::Cos => libm::cos(x),
            Unary::Sqrt => libm::sqrt(x),
            Unary::Square => x * x,
            Unary::Log10 => libm::log10(x),
        }
    }

    pub(super) fn slope(self, x: f64) -> f64 {
        match self {
            Unary::Neg => -1.0,
            Unary::Cos => -libm::sin(x),
            Unary::Sqrt => 0.5 / libm::sqrt(x),
            Unary::Square => 2.0 * x,
            Unary::Log10 => std::f64::consts::LOG10_E / x,
        }
    }
}

impl Binary {
    pub(super) fn value(self, x: f64, y: f64) -> f64 {
        match self {
            Binary::Add => x + y,
            Binary::Sub => x - y,
            Binary::Mul => x * y,
            Binary::Div => x / y,
        }
    }

    /// By the left operand and by the right one.
    pub(super) fn slopes(self, x: f64, y: f64) -> (f64, f64) {
        match self {
            Binary::Add => (1.0, 1.0),
            Binary::Sub => (1.0, -1.0),
            Binary::Mul => (y, x),
            Binary::Div => (1.0 / y, -x / (y * y)),
        }
    }
}
