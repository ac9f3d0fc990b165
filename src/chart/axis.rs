//! Numbers beside the axes.

use super::Point;
use crate::ground::number::{fixed, places, significant};

/// A number on an axis along which things are counted: nothing stands between two of them.
pub(super) fn counted(n: f64, ends: (f64, f64), points: &[Point]) -> String {
    let whole = |x: f64| (x - x.round()).abs() < 1e-9;
    match (points.iter().all(|point| whole(point.x)), whole(n)) {
        (true, true) if ends.1.abs() < 1e7 => fixed(n, 0),
        (true, false) if !points.is_empty() => String::new(),
        _ => number(n, ends),
    }
}

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
