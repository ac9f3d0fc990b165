//! Where the labels of lines down a chart go.

/// The width of a label, about, at so many pixels a unit.
pub fn width(label: &str, fine: i32) -> i32 {
    (label.chars().count() as i32 + 2) * 6 * fine
}

/// Where one label goes: to the left of its line or to the right of it, and how many rows down.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Whether it stands to the left of its line.
    pub to_left: bool,
    /// Rows below the top.
    pub down: usize,
}

/// Places the label of each line, given from left to right as (place, width of the label): to the right of its line, in the
/// first row that is free there; or to the left, where the next line would go through it and the left is free.
pub fn placed(lines: &[(i32, i32)], edge: i32) -> Vec<Row> {
    let mut ends: Vec<i32> = Vec::new();
    let mut out = Vec::new();
    for (i, &(line, width)) in lines.iter().enumerate() {
        let (before, after) = lines.split_at(i);
        let crossed = after
            .iter()
            .any(|(next, _)| (line + 1..line + width).contains(next));
        let free = line - width >= edge
            && before.iter().all(|(own, _)| *own <= line - width)
            && ends.first().is_none_or(|end| *end <= line - width);
        let to_left = crossed && free;
        let (from, to) = match to_left {
            true => (line - width, line),
            false => (line, line + width),
        };
        let down = ends
            .iter()
            .position(|end| *end <= from)
            .unwrap_or(ends.len());
        match ends.get_mut(down) {
            Some(end) => *end = to,
            None => ends.push(to),
        }
        out.push(Row { to_left, down });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_that_the_next_line_would_cross_goes_to_the_left_where_there_is_room() {
        let row = |to_left, down| Row { to_left, down };
        // Far apart: to the right of each.
        assert_eq!(
            placed(&[(100, 50), (300, 50)], 0),
            [row(false, 0), row(false, 0)]
        );
        // Close: the first to its left.
        assert_eq!(
            placed(&[(100, 50), (120, 50)], 0),
            [row(true, 0), row(false, 0)]
        );
        // No room at the edge: one below the other.
        assert_eq!(
            placed(&[(40, 50), (60, 50)], 0),
            [row(false, 0), row(false, 1)]
        );
        // Nor where another line stands.
        assert_eq!(
            placed(&[(90, 20), (100, 50), (120, 50)], 0),
            [row(true, 0), row(false, 0), row(false, 1)]
        );
    }
}
