//! Numbers beside the axes.

use crate::ground::number::{fixed, places, significant};

/// A number on an axis: with as many places as tell one mark from the next.
pub(super) fn number(n: f64, (low, high): (f64, f64)) -> String {
    // Ticks stand at 1, 2 or 5 times a power of ten: over a span of ten and more they are whole.
    let digits = match high - low >= 10.0 {
        true => 0,
        false => places((high - low) / 20.0, 1),
    };
    match digits > 9 || low.abs().max(high.abs()) >= 1e7 {
        true => significant(n, 4),
        false => fixed(n, digits.max(0)),
    }
}
