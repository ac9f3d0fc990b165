//! Numbers → SVG through plotters: axes, points, limit lines. Knows no figure.
//!
//! Colours are only keys here: each becomes a class, and the page's style sheet decides what it
//! looks like, so that dark pages and paper work. Text stays text.

mod axis;
mod code;
mod rows;
mod spark;
mod strip;
pub mod ways;

pub use code::code;
pub use spark::spark;
pub use strip::strip;

use std::fmt::Write as _;

use plotters::{
    coord::Shift,
    prelude::*,
    style::text_anchor::{HPos, Pos, VPos},
};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingErrorKind, FontTransform,
};

/// Pixels per unit of the view box: plotters hands whole pixels to its backend.
const FINE: u32 = 10;

const AXIS: RGBColor = RGBColor(0, 0, 1);
const GRID: RGBColor = RGBColor(0, 0, 2);
const TEXT: RGBColor = RGBColor(0, 0, 3);
const LINE: RGBColor = RGBColor(0, 0, 4);
const POINT: RGBColor = RGBColor(0, 0, 5);
const MARK: RGBColor = RGBColor(0, 0, 6);
const MEAN: RGBColor = RGBColor(0, 0, 7);
const CONTROL: RGBColor = RGBColor(0, 0, 8);
const LIMIT: RGBColor = RGBColor(0, 0, 9);
const ASIDE: RGBColor = RGBColor(0, 0, 10);
const EVENT: RGBColor = RGBColor(0, 0, 11);
const OTHER: RGBColor = RGBColor(0, 0, 12);

fn class(color: BackendColor) -> &'static str {
    [
        "axis", "grid", "text", "line", "point", "mark", "mean", "control", "limit", "aside",
        "event", "course",
    ]
    .get(usize::from(color.rgb.2).wrapping_sub(1))
    .copied()
    .unwrap_or("other")
}

/// Text for HTML and SVG.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// One point of a chart.
#[derive(Clone, Debug)]
pub struct Point {
    /// Where, in the units of the axes.
    pub x: f64,
    /// Where, in the units of the axes.
    pub y: f64,
    /// Where it leads.
    pub href: String,
    /// What it is.
    pub title: String,
    /// How it looks.
    pub look: Look,
}

/// How a point looks.
#[derive(Copy, Clone, Debug, PartialEq, Eq, Default)]
pub enum Look {
    /// Like the others.
    #[default]
    Plain,
    /// It stands out.
    Marked,
    /// It is shown and does not count.
    Aside,
}

/// A line through points that are no readings: a fit, a bound, an outline.
#[derive(Clone, Debug)]
pub struct Curve {
    /// Its points in order.
    pub points: Vec<(f64, f64)>,
    /// What it is: written at its end; nothing for none.
    pub label: String,
    /// A mean, a bound, a limit or a course of readings.
    pub kind: LevelKind,
}

/// A line down the chart: something happened there.
#[derive(Clone, Debug)]
pub struct Event {
    /// Where.
    pub x: f64,
    /// What.
    pub label: String,
    /// An event, or a limit.
    pub kind: LevelKind,
}

/// A level line across the chart.
#[derive(Clone, Debug)]
pub struct Level {
    /// Where.
    pub y: f64,
    /// What it is.
    pub label: String,
    /// Mean, control limit or limit.
    pub kind: LevelKind,
}

/// What a level line means.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum LevelKind {
    /// The mean.
    Mean,
    /// A control limit.
    Control,
    /// A limit of the specification.
    Limit,
    /// The course of one thing among several.
    Course,
    /// Something that happened.
    Event,
}

impl LevelKind {
    fn color(self) -> RGBColor {
        match self {
            LevelKind::Mean => MEAN,
            LevelKind::Control => CONTROL,
            LevelKind::Limit => LIMIT,
            LevelKind::Course => OTHER,
            LevelKind::Event => EVENT,
        }
    }
}

/// What to draw.
#[derive(Clone, Debug, Default)]
pub struct Chart {
    /// Unique on its page.
    pub id: String,
    /// Short.
    pub title: String,
    /// What it shows, for a reader who does not see it.
    pub description: String,
    /// One sentence under it; the title where it is empty.
    pub caption: String,
    /// Under the horizontal axis.
    pub x_label: String,
    /// Beside the vertical axis.
    pub y_label: String,
    /// In order.
    pub points: Vec<Point>,
    /// Levels.
    pub levels: Vec<Level>,
    /// Whether points are joined.
    pub joined: bool,
    /// Points after which the line is broken: nothing was recorded there.
    pub gaps: Vec<usize>,
    /// Fits, bounds, outlines.
    pub curves: Vec<Curve>,
    /// Lines down the chart.
    pub events: Vec<Event>,
    /// Whether the horizontal axis names things, not numbers.
    pub named: bool,
}

impl Chart {
    /// Every place that must be seen: of points, levels and curves.
    fn extent(&self) -> (Vec<f64>, Vec<f64>) {
        let along = |curve: &Curve, pick: fn(&(f64, f64)) -> f64| -> Vec<f64> {
            curve.points.iter().map(pick).collect()
        };
        let mut x: Vec<f64> = self.points.iter().map(|point| point.x).collect();
        let mut y: Vec<f64> = self.points.iter().map(|point| point.y).collect();
        x.extend(self.events.iter().map(|event| event.x));
        y.extend(self.levels.iter().map(|level| level.y));
        for curve in &self.curves {
            x.extend(along(curve, |point| point.0));
            y.extend(along(curve, |point| point.1));
        }
        (x, y)
    }
}

struct Svg {
    out: String,
    size: (u32, u32),
    links: std::vec::IntoIter<(String, String)>,
    open: Option<&'static str>,
}

impl Svg {
    fn u(v: i32) -> String {
        let text = format!("{:.1}", f64::from(v) / f64::from(FINE));
        text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
    }

    fn group(&mut self, class: &'static str) {
        if self.open == Some(class) {
            return;
        }
        if self.open.is_some() {
            self.out.push_str("</g>\n");
        }
        let _ = write!(self.out, "<g class=\"{class}\">");
        self.open = Some(class);
    }

    fn put(&mut self, color: BackendColor, shape: String) -> Drawn {
        if color.alpha > 0.0 {
            self.group(class(color));
            self.out.push_str(&shape);
        }
        Ok(())
    }
}

type Drawn = Result<(), DrawingErrorKind<std::convert::Infallible>>;

fn points(path: impl IntoIterator<Item = BackendCoord>) -> String {
    let list: Vec<String> = path
        .into_iter()
        .map(|(x, y)| format!("{},{}", Svg::u(x), Svg::u(y)))
        .collect();
    list.join(" ")
}

impl DrawingBackend for &mut Svg {
    type ErrorType = std::convert::Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }
    fn ensure_prepared(&mut self) -> Drawn {
        Ok(())
    }
    fn present(&mut self) -> Drawn {
        Ok(())
    }
    fn draw_pixel(&mut self, at: BackendCoord, color: BackendColor) -> Drawn {
        self.draw_rect(at, (at.0 + 1, at.1 + 1), &color, true)
    }
    fn draw_line<S: BackendStyle>(&mut self, a: BackendCoord, b: BackendCoord, style: &S) -> Drawn {
        self.put(
            style.color(),
            format!(
                "<path d=\"M{} {}L{} {}\"/>",
                Svg::u(a.0),
                Svg::u(a.1),
                Svg::u(b.0),
                Svg::u(b.1)
            ),
        )
    }
    fn draw_rect<S: BackendStyle>(
        &mut self,
        a: BackendCoord,
        b: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Drawn {
        if !fill {
            return Ok(());
        }
        let (x, y) = (a.0.min(b.0), a.1.min(b.1));
        let shape = format!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            Svg::u(x),
            Svg::u(y),
            Svg::u((a.0 - b.0).abs()),
            Svg::u((a.1 - b.1).abs())
        );
        self.put(style.color(), shape)
    }
    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Drawn {
        self.put(
            style.color(),
            format!("<polyline points=\"{}\"/>", points(path)),
        )
    }
    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Drawn {
        self.put(
            style.color(),
            format!("<polygon points=\"{}\"/>", points(path)),
        )
    }
    fn draw_circle<S: BackendStyle>(
        &mut self,
        at: BackendCoord,
        r: u32,
        style: &S,
        _: bool,
    ) -> Drawn {
        let circle = format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"",
            Svg::u(at.0),
            Svg::u(at.1),
            Svg::u(r as i32)
        );
        let shape = match self.links.next() {
            Some((href, title)) if href.is_empty() => {
                format!("{circle}><title>{}</title></circle>", escape(&title))
            }
            Some((href, title)) => format!(
                "<a href=\"{}\">{circle}><title>{}</title></circle></a>",
                escape(&href),
                escape(&title)
            ),
            None => format!("{circle}/>"),
        };
        self.put(style.color(), shape)
    }
    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, at: BackendCoord) -> Drawn {
        let anchor = match style.anchor().h_pos {
            HPos::Left => "",
            HPos::Center => " text-anchor=\"middle\"",
            HPos::Right => " text-anchor=\"end\"",
        };
        let dy = match style.anchor().v_pos {
            VPos::Top => "0.76",
            VPos::Center => "0.35",
            VPos::Bottom => "-0.2",
        };
        let (x, y) = (Svg::u(at.0), Svg::u(at.1));
        let turn = match style.transform() {
            FontTransform::None => String::new(),
            FontTransform::Rotate90 => format!(" transform=\"rotate(90 {x} {y})\""),
            FontTransform::Rotate180 => format!(" transform=\"rotate(180 {x} {y})\""),
            FontTransform::Rotate270 => format!(" transform=\"rotate(270 {x} {y})\""),
        };
        self.put(
            style.color(),
            format!(
                "<text x=\"{x}\" y=\"{y}\" dy=\"{dy}em\"{anchor}{turn}>{}</text>",
                escape(text)
            ),
        )
    }
    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        Ok((
            (text.chars().count() as f64 * style.size() * 0.55) as u32,
            style.size() as u32,
        ))
    }
}

/// Looks in the order in which they are drawn, with their colour keys.
const LOOKS: [(Look, RGBColor); 3] = [
    (Look::Aside, ASIDE),
    (Look::Plain, POINT),
    (Look::Marked, MARK),
];

/// Draws a chart as an SVG element.
///
/// # Errors
/// In words, when there is nothing to draw or a number is not finite.
pub fn svg(chart: &Chart) -> Result<String, String> {
    const SIZE: (u32, u32) = (720, 300);
    let (x, y) = chart.extent();
    let drawn = chart.points.len()
        + chart
            .curves
            .iter()
            .map(|curve| curve.points.len())
            .sum::<usize>();
    if drawn < 2 || x.iter().chain(&y).any(|n| !n.is_finite()) {
        return Err(say!("there is nothing to draw").into());
    }
    let ends = |all: &[f64]| {
        all.iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), n| {
                (low.min(*n), high.max(*n))
            })
    };
    let ((first, last), (low, high)) = (ends(&x), ends(&y));
    let pad = ((high - low) * 0.08).max(high.abs() * 1e-6).max(1e-12);
    let side = ((last - first) * 0.02).max(1e-9);

    let id = &chart.id;
    let mut out = String::with_capacity(16 << 10);
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" viewBox=\"0 0 {} {}\" role=\"document\" aria-labelledby=\"{id}-t {id}-d\"><title id=\"{id}-t\">{}</title><desc id=\"{id}-d\">{}</desc>",
        SIZE.0,
        SIZE.1,
        escape(&chart.title),
        escape(&chart.description)
    );
    let links: Vec<(String, String)> = LOOKS
        .iter()
        .flat_map(|(look, _)| chart.points.iter().filter(|point| point.look == *look))
        .map(|point| (point.href.clone(), point.title.clone()))
        .collect();
    let mut backend = Svg {
        out,
        size: (SIZE.0 * FINE, SIZE.1 * FINE),
        links: links.into_iter(),
        open: None,
    };
    draw(
        &mut backend,
        chart,
        (first - side, last + side),
        (low - pad, high + pad),
    )
    .map_err(|error| error.to_string())?;
    let mut out = backend.out;
    if backend.open.is_some() {
        out.push_str("</g>\n");
    }
    // Seen under the drawing; a reader who hears it has the title inside.
    out.push_str("</svg><figcaption aria-hidden=\"true\">");
    let caption = match &*chart.caption {
        "" => &chart.title,
        caption => caption,
    };
    out.push_str(&escape(caption));
    out.push_str("</figcaption>");
    Ok(out)
}

fn draw(
    backend: &mut Svg,
    chart: &Chart,
    x: (f64, f64),
    y: (f64, f64),
) -> Result<(), Box<dyn std::error::Error>> {
    let fine = FINE as i32;
    let area: DrawingArea<&mut Svg, Shift> = backend.into_drawing_area();
    let text = |size: i32| ("sans-serif", size * fine).into_font().color(&TEXT);
    let mut context = ChartBuilder::on(&area)
        .margin_top(8 * fine)
        .margin_right(90 * fine)
        .x_label_area_size(38 * fine)
        .y_label_area_size(64 * fine)
        .build_cartesian_2d(x.0..x.1, y.0..y.1)?;
    context
        .configure_mesh()
        .disable_x_mesh()
        .x_labels(if chart.named { 0 } else { 8 })
        .y_labels(6)
        .axis_style(AXIS)
        .bold_line_style(GRID)
        .light_line_style(TRANSPARENT)
        .label_style(text(12))
        .axis_desc_style(text(12))
        .x_desc(&chart.x_label)
        .y_desc(&chart.y_label)
        .x_label_formatter(&|n| axis::counted(*n, x, &chart.points))
        .y_label_formatter(&|n| axis::number(*n, y))
        .draw()?;
    let mut events: Vec<&Event> = chart.events.iter().collect();
    events.sort_by(|a, b| a.x.total_cmp(&b.x));
    let at = |event: &&Event| context.backend_coord(&(event.x, y.1)).0;
    let line = |event| (at(event), rows::width(&event.label, fine));
    let lines: Vec<(i32, i32)> = events.iter().map(line).collect();
    let (edge, top) = context.backend_coord(&(x.0, y.1));
    let rows = rows::placed(&lines, edge);
    for ((event, (at, _)), row) in events.iter().zip(lines).zip(rows) {
        let color = event.kind.color();
        context.draw_series(LineSeries::new([(event.x, y.0), (event.x, y.1)], color))?;
        let (side, aside) = match row.to_left {
            true => (HPos::Right, -3 * fine),
            false => (HPos::Left, 3 * fine),
        };
        let style = text(10).pos(Pos::new(side, VPos::Top));
        let down = row.down as i32 * 12 * fine;
        area.draw_text(&event.label, &style, (at + aside, top + down))?;
    }
    // Labels at the right that would lie on each other are moved apart, the highest first.
    let mut labels: Vec<(i32, &str)> = Vec::new();
    for level in &chart.levels {
        context.draw_series(LineSeries::new(
            [(x.0, level.y), (x.1, level.y)],
            level.kind.color(),
        ))?;
        labels.push((context.backend_coord(&(x.1, level.y)).1, &level.label));
    }
    for curve in &chart.curves {
        context.draw_series(LineSeries::new(
            curve.points.iter().copied(),
            curve.kind.color(),
        ))?;
        if let (Some(last), false) = (curve.points.last(), curve.label.is_empty()) {
            labels.push((context.backend_coord(last).1, &curve.label));
        }
    }
    labels.sort();
    let (right, mut free) = (context.backend_coord(&(x.1, y.0)).0, i32::MIN);
    for (at, label) in labels {
        let at = at.max(free);
        free = at + 12 * fine;
        let style = text(11).pos(Pos::new(HPos::Left, VPos::Center));
        area.draw_text(label, &style, (right + 4 * fine, at))?;
    }
    if chart.joined {
        let mut from = 0;
        let ends = chart.gaps.iter().map(|gap| gap + 1);
        for to in ends.chain([chart.points.len()]) {
            // What does not count is no part of the line.
            let piece = chart
                .points
                .get(from..to)
                .unwrap_or_default()
                .iter()
                .filter(|point| point.look != Look::Aside);
            context.draw_series(LineSeries::new(piece.map(|point| (point.x, point.y)), LINE))?;
            from = to;
        }
    }
    let size = if chart.points.len() > 80 { 2 } else { 3 } * fine;
    for (look, color) in LOOKS {
        let larger = if look == Look::Marked { fine } else { 0 };
        context.draw_series(
            chart
                .points
                .iter()
                .filter(|point| point.look == look)
                .map(|point| Circle::new((point.x, point.y), size + larger, color.filled())),
        )?;
    }
    area.present()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chart_has_words_and_links_and_no_colour_of_its_own() {
        let points = (0..5)
            .map(|i| Point {
                x: f64::from(i),
                y: f64::from(i * i),
                href: format!("a.html#{i}"),
                title: format!("<{i}>"),
                look: if i == 3 { Look::Marked } else { Look::Plain },
            })
            .collect();
        let levels = vec![Level {
            y: 4.0,
            label: "mean".into(),
            kind: LevelKind::Mean,
        }];
        let chart = Chart {
            id: "c".into(),
            title: "T & t".into(),
            description: "d".into(),
            x_label: "x".into(),
            y_label: "y".into(),
            points,
            levels,
            joined: true,
            ..Chart::default()
        };
        let out = svg(&chart).unwrap();
        assert!(
            out.contains("T &amp; t")
                && out.contains("&lt;3&gt;")
                && out.contains("class=\"mark\"")
                && out.contains("a.html#4")
        );
        assert!(!out.contains("fill=\"#") && !out.contains("stroke=\"#"));
        assert_eq!(out, svg(&chart).unwrap());
        assert!(
            svg(&Chart {
                points: Vec::new(),
                ..chart
            })
            .is_err()
        );
    }
}
