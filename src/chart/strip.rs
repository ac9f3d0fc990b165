//! The decision on a line.

use std::fmt::Write as _;

use super::escape;

/// The decision on a line: limit, guard band, value with its expanded uncertainty.
pub fn strip(
    value: f64,
    expanded: f64,
    low: Option<f64>,
    high: Option<f64>,
    guard: f64,
    words: &str,
) -> String {
    let ends = [
        Some(value - expanded),
        Some(value + expanded),
        low.map(|x| x - guard),
        low.map(|x| x + guard),
        high.map(|x| x - guard),
        high.map(|x| x + guard),
    ];
    let (min, max) = ends
        .iter()
        .flatten()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| {
            (a.min(*x), b.max(*x))
        });
    let width = (max - min).max(1e-300);
    // Not as a number for people: a drawing has decimal points in every language.
    let place = |x: f64| format!("{:.1}", 12.0 + 296.0 * (x - min) / width);
    let mut out = format!(
        "<svg class=\"strip\" viewBox=\"0 0 320 28\" role=\"img\" aria-label=\"{}\"><path class=\"axis\" d=\"M4 14L316 14\"/>",
        escape(words)
    );
    for limit in [low, high].into_iter().flatten() {
        if guard > 0.0 {
            let (a, b) = (place(limit - guard), place(limit + guard));
            let _ = write!(out, "<path class=\"guard\" d=\"M{a} 14L{b} 14\"/>");
        }
        let x = place(limit);
        let _ = write!(out, "<path class=\"limit\" d=\"M{x} 3L{x} 25\"/>");
    }
    let (a, b, c) = (
        place(value - expanded),
        place(value + expanded),
        place(value),
    );
    let _ = write!(
        out,
        "<path class=\"doubt\" d=\"M{a} 14L{b} 14M{a} 10L{a} 18M{b} 10L{b} 18\"/><circle class=\"value\" cx=\"{c}\" cy=\"14\" r=\"4\"/></svg>"
    );
    out
}
