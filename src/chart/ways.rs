//! Where things came from and went: columns of names joined by lines.

use std::fmt::Write as _;

use super::escape;

/// One thing in a column.
#[derive(Clone, Debug)]
pub struct Stop {
    /// Its name.
    pub name: String,
    /// Where it leads; empty for nowhere.
    pub href: String,
    /// Places in the next column that it went into.
    pub into: Vec<usize>,
}

/// Things in columns, each with its heading, drawn from left to right.
#[derive(Clone, Debug)]
pub struct Ways {
    /// Unique on its page.
    pub id: String,
    /// What it shows, for a reader who does not see it.
    pub words: String,
    /// Columns.
    pub columns: Vec<(String, Vec<Stop>)>,
}

const WIDTH: usize = 720;
const ROW: usize = 20;
const HEAD: usize = 26;

impl Ways {
    /// As an SVG element; nothing where a column is empty.
    pub fn svg(&self) -> Option<String> {
        if self.columns.len() < 2 || self.columns.iter().any(|(_, stops)| stops.is_empty()) {
            return None;
        }
        let tallest = self.columns.iter().map(|(_, stops)| stops.len()).max()?;
        let height = HEAD + ROW * tallest + 6;
        let id = &self.id;
        let mut out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart ways\" viewBox=\"0 0 {WIDTH} {height}\" role=\"document\" aria-labelledby=\"{id}-t {id}-d\"><title id=\"{id}-t\">{}</title><desc id=\"{id}-d\">{}</desc>",
            say!("Genealogy"),
            escape(&self.words)
        );
        self.lines(&mut out, tallest);
        self.names(&mut out, tallest);
        let _ = write!(
            out,
            "</svg><figcaption aria-hidden=\"true\">{}</figcaption>",
            escape(&self.words)
        );
        Some(out)
    }

    fn x(&self, column: usize) -> usize {
        column * WIDTH / self.columns.len()
    }

    /// The middle of a stop: short columns stand in the middle of tall ones. In tenths of a pixel.
    fn y(&self, column: usize, stop: usize, tallest: usize) -> usize {
        let own = self.columns.get(column).map_or(0, |(_, stops)| stops.len());
        HEAD * 10 + ROW * 5 * (tallest - own) + ROW * 10 * stop + ROW * 5
    }

    fn lines(&self, out: &mut String, tallest: usize) {
        out.push_str("<g class=\"course\">");
        for (column, (_, stops)) in self.columns.iter().enumerate() {
            for (i, stop) in stops.iter().enumerate() {
                let from = self.x(column) + 8 + stop.name.chars().count() * 7;
                for into in &stop.into {
                    let (a, b) = (
                        self.y(column, i, tallest),
                        self.y(column + 1, *into, tallest),
                    );
                    let to = self.x(column + 1).saturating_sub(4);
                    let middle = (from.min(to) + to) / 2;
                    let _ = write!(
                        out,
                        "<path d=\"M{} {}C{middle} {} {middle} {} {to} {}\"/>",
                        from.min(to),
                        tenth(a),
                        tenth(a),
                        tenth(b),
                        tenth(b)
                    );
                }
            }
        }
        out.push_str("</g>");
    }

    fn names(&self, out: &mut String, tallest: usize) {
        out.push_str("<g class=\"text\">");
        for (column, (heading, stops)) in self.columns.iter().enumerate() {
            let x = self.x(column);
            let _ = write!(
                out,
                "<text class=\"head\" x=\"{x}\" y=\"14\">{}</text>",
                escape(heading)
            );
            for (i, stop) in stops.iter().enumerate() {
                let y = tenth(self.y(column, i, tallest) + 40);
                let text = format!("<text x=\"{x}\" y=\"{y}\">{}</text>", escape(&stop.name));
                match &*stop.href {
                    "" => out.push_str(&text),
                    href => {
                        let _ = write!(out, "<a href=\"{}\">{text}</a>", escape(href));
                    }
                }
            }
        }
        out.push_str("</g>");
    }
}

fn tenth(n: usize) -> String {
    match n % 10 {
        0 => (n / 10).to_string(),
        rest => format!("{}.{rest}", n / 10),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_way_is_drawn_and_every_name_leads_somewhere() {
        let stop = |name: &str, into: Vec<usize>| Stop {
            name: name.into(),
            href: format!("{name}.html"),
            into,
        };
        let ways = Ways {
            id: "g".into(),
            words: "two <rolls>".into(),
            columns: vec![
                ("rolls".into(), vec![stop("a", vec![0]), stop("b", vec![0])]),
                ("modules".into(), vec![stop("c", Vec::new())]),
            ],
        };
        let out = ways.svg().unwrap();
        assert_eq!(out.matches("<path").count(), 2);
        assert_eq!(out.matches("<a href=").count(), 3);
        assert!(out.contains("two &lt;rolls&gt;"));
        let empty = Ways {
            columns: vec![("rolls".into(), Vec::new()), ("x".into(), Vec::new())],
            ..ways
        };
        assert!(empty.svg().is_none());
    }
}
