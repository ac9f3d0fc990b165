//! The decision on a line.

use std::fmt::Write as _;

use super::escape;

/// The decision on a line: limit, guard band, value with its expanded uncertainty; `shown` and `limit` are the value and the limit
/// as text, `words` the whole for a reader who does not see it.
pub fn strip(
    value: f64,
    expanded: f64,
    (low, high): (Option<f64>, Option<f64>),
    guard: f64,
    (shown, limit_text): (&str, &str),
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
        "<svg class=\"strip\" viewBox=\"0 0 320 50\" role=\"img\" aria-label=\"{}\"><path class=\"axis\" d=\"M4 25L316 25\"/>",
        escape(words)
    );
    let mut first = None;
    for limit in [low, high].into_iter().flatten() {
        if guard > 0.0 {
            let (a, b) = (place(limit - guard), place(limit + guard));
            let _ = write!(out, "<path class=\"guard\" d=\"M{a} 25L{b} 25\"/>");
        }
        let x = place(limit);
        first = first.or(Some(limit));
        let _ = write!(out, "<path class=\"limit\" d=\"M{x} 15L{x} 35\"/>");
    }
    let (a, b, c) = (
        place(value - expanded),
        place(value + expanded),
        place(value),
    );
    let _ = write!(
        out,
        "<path class=\"doubt\" d=\"M{a} 25L{b} 25M{a} 21L{a} 29M{b} 21L{b} 29\"/><circle class=\"value\" cx=\"{c}\" cy=\"25\" r=\"4\"/>"
    );
    // The limit is named above the line, the value below it.
    for (at, y, text) in [(first, 10, limit_text), (Some(value), 47, shown)] {
        let Some(at) = at else { continue };
        let anchor = match (at - min) / width {
            part if part < 0.3 => "start",
            part if part > 0.7 => "end",
            _ => "middle",
        };
        let _ = write!(
            out,
            "<text x=\"{}\" y=\"{y}\" text-anchor=\"{anchor}\">{}</text>",
            place(at),
            escape(text)
        );
    }
    out + "</svg>"
}
