//! The operations of one evaluation, and slopes from one walk back over them.

/// A number and its slopes: `by[i]` is the partial derivative with respect to binding `i`.
#[derive(Clone, Debug, PartialEq)]
pub struct Slopes {
    /// The number.
    pub value: f64,
    /// Its partial derivatives.
    pub by: Vec<f64>,
}

/// Every operation in the order in which it was done; slopes come from one walk back.
pub(super) struct Tape {
    values: Vec<f64>,
    /// Whether a slope is asked for that goes through this.
    asked: Vec<bool>,
    /// Result, operand, partial derivative.
    edges: Vec<(usize, usize, f64)>,
}

#[expect(
    clippy::indexing_slicing,
    reason = "every place is a slot of the bindings that the tape began with, or one that `push` gave out"
)]
impl Tape {
    /// A tape that begins with the values of a formula's variables.
    pub(super) fn new(values: Vec<f64>, asked: Vec<bool>) -> Tape {
        Tape {
            values,
            asked,
            edges: Vec::new(),
        }
    }

    pub(super) fn asked(&self, index: usize) -> bool {
        self.asked[index]
    }

    pub(super) fn at(&self, index: usize) -> f64 {
        self.values[index]
    }

    pub(super) fn push(
        &mut self,
        value: f64,
        operands: impl IntoIterator<Item = (usize, f64)>,
    ) -> usize {
        let index = self.values.len();
        self.values.push(value);
        let before = self.edges.len();
        for (operand, slope) in operands {
            if self.asked[operand] {
                self.edges.push((index, operand, slope));
            }
        }
        self.asked.push(self.edges.len() > before);
        index
    }

    pub(super) fn slopes(&self, result: usize, width: usize) -> Vec<f64> {
        let mut by = vec![0.0; self.values.len()];
        by[result] = f64::from(self.asked[result]);
        for (result, operand, slope) in self.edges.iter().rev() {
            by[*operand] += by[*result] * slope;
        }
        by.truncate(width);
        by
    }
}
