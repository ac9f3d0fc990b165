//! The course of a characteristic in a line of a table.

use std::fmt::Write as _;

use super::Look;

/// Width and height of the view box.
const SIZE: (f64, f64) = (160.0, 28.0);
/// Room for the dots at its edges.
const EDGE: f64 = 4.0;
/// So many points are drawn; of more, the lowest and the highest of each part of them.
const POINTS: usize = 160;

/// The values in order as a line, those that stand out as dots, the limits of control as a band behind it, and limits
/// that the picture reaches as lines. `window` is lowest and highest of the picture. Readers who do not see it have the words
/// beside it.
pub fn spark(
    values: &[(f64, Look)],
    band: (f64, f64),
    limits: &[f64],
    window: (f64, f64),
) -> String {
    let height = window.1 - window.0;
    if values.len() < 2 || !height.is_finite() || height <= 0.0 {
        return String::new();
    }
    let step = (SIZE.0 - 2.0 * EDGE) / (values.len() - 1) as f64;
    // Not as numbers for people: a drawing has decimal points in every language.
    let x = |i: usize| format!("{:.1}", EDGE + step * i as f64);
    let level = |y: f64| SIZE.1 - EDGE - (SIZE.1 - 2.0 * EDGE) * (y - window.0) / height;
    let y = |value: f64| format!("{:.1}", level(value.clamp(window.0, window.1)));
    let (width, mut out) = (SIZE.0, String::new());
    let _ = write!(
        out,
        "<svg class=\"spark\" viewBox=\"0 0 {width} {}\" aria-hidden=\"true\">",
        SIZE.1
    );
    let (top, bottom) = (y(band.1), y(band.0));
    let _ = write!(
        out,
        "<path class=\"band\" d=\"M0 {top}L{width} {top}L{width} {bottom}L0 {bottom}Z\"/>"
    );
    for limit in limits
        .iter()
        .filter(|limit| (window.0..=window.1).contains(*limit))
    {
        let at = y(*limit);
        let _ = write!(out, "<path class=\"limit\" d=\"M0 {at}L{width} {at}\"/>");
    }
    let line: Vec<String> = thinned(values)
        .map(|(i, value)| format!("{} {}", x(i), y(value)))
        .collect();
    let _ = write!(out, "<path class=\"line\" d=\"M{}\"/>", line.join("L"));
    let stands_out = values
        .iter()
        .enumerate()
        .filter(|(_, (_, look))| *look == Look::Marked);
    for (i, (value, _)) in stands_out.take(POINTS) {
        let (x, y) = (x(i), y(*value));
        let _ = write!(
            out,
            "<circle class=\"mark\" cx=\"{x}\" cy=\"{y}\" r=\"2.5\"/>"
        );
    }
    out + "</svg>"
}

/// The points of the line: all that count, or of many the lowest and the highest of each part, in order.
fn thinned(values: &[(f64, Look)]) -> impl Iterator<Item = (usize, f64)> {
    let counting = values
        .iter()
        .enumerate()
        .filter(|(_, (_, look))| *look != Look::Aside)
        .map(|(i, (value, _))| (i, *value));
    let all: Vec<(usize, f64)> = counting.collect();
    let part = (2 * all.len()).div_ceil(POINTS).max(1);
    let parts: Vec<Vec<(usize, f64)>> = match all.len() > POINTS {
        false => vec![all],
        true => all
            .chunks(part)
            .map(|part| {
                let by = |a: &&(usize, f64), b: &&(usize, f64)| a.1.total_cmp(&b.1);
                let ends = part
                    .iter()
                    .min_by(by)
                    .into_iter()
                    .chain(part.iter().max_by(by));
                let mut ends: Vec<(usize, f64)> = ends.copied().collect();
                ends.sort_by_key(|end| end.0);
                ends.dedup();
                ends
            })
            .collect(),
    };
    parts.into_iter().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_course_stands_in_its_box() {
        let values = [(1.0, Look::Plain), (9.0, Look::Marked), (2.0, Look::Plain)];
        let drawn = spark(&values, (0.0, 4.0), &[3.0, 99.0], (0.0, 4.0));
        // What lies beyond the picture is drawn at its edge; a limit beyond it is not drawn.
        assert!(
            drawn.contains("d=\"M4.0 19.0L80.0 4.0L156.0 14.0\""),
            "{drawn}"
        );
        assert!(drawn.contains("cx=\"80.0\" cy=\"4.0\""), "{drawn}");
        assert_eq!(drawn.matches("class=\"limit\"").count(), 1);
        assert_eq!(spark(&values[..1], (0.0, 1.0), &[], (0.0, 1.0)), "");
        assert_eq!(spark(&values, (0.0, 1.0), &[], (2.0, 2.0)), "");
        assert_eq!(
            spark(&values, (0.0, 1.0), &[], (f64::NEG_INFINITY, f64::INFINITY)),
            ""
        );
    }

    #[test]
    fn of_many_the_ends_are_drawn() {
        let mut values: Vec<(f64, Look)> =
            (0..5000).map(|i| (f64::from(i % 7), Look::Plain)).collect();
        values[3210].0 = 50.0;
        let points: Vec<(usize, f64)> = thinned(&values).collect();
        assert!(points.len() <= POINTS + 2 && points.contains(&(3210, 50.0)));
        assert!(points.array_windows().all(|[a, b]| a.0 < b.0));
    }
}
