//! A small writer of SVG: what the drawings need and no more. Lengths are points.

use std::fmt::Write as _;

/// Colours that stay apart for colour-blind eyes and in grey print (after a published palette
/// for colour-blind readers, Okabe and Ito 2008); shape and text always say the same.
pub mod ink {
    /// Text and outlines.
    pub const BLACK: &str = "#1b1b1b";
    /// Secondary lines.
    pub const GREY: &str = "#7a7a7a";
    /// Grid and fills in the background.
    pub const PALE: &str = "#dcdcdc";
    /// Steel.
    pub const STEEL: &str = "#5b6670";
    /// Rock.
    pub const ROCK: &str = "#e9e1d2";
    /// First series.
    pub const BLUE: &str = "#0072b2";
    /// Second series.
    pub const ORANGE: &str = "#e69f00";
    /// Third series.
    pub const GREEN: &str = "#009e73";
    /// Limits.
    pub const VERMILION: &str = "#d55e00";
    /// Fourth series.
    pub const PURPLE: &str = "#cc79a7";
    /// Fluids.
    pub const SKY: &str = "#56b4e9";
}

/// How a shape is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Pen<'a> {
    /// Line colour; none for no line.
    pub stroke: Option<&'a str>,
    /// Line width.
    pub width: f64,
    /// Fill colour; none for no fill.
    pub fill: Option<&'a str>,
    /// Dash pattern, such as "4 2".
    pub dash: Option<&'a str>,
    /// How opaque a fill is, 1 in full.
    pub opacity: f64,
}

impl<'a> Pen<'a> {
    /// A line.
    pub fn line(colour: &'a str, width: f64) -> Self {
        Self { stroke: Some(colour), width, fill: None, dash: None, opacity: 1.0 }
    }

    /// A dashed line.
    pub fn dashed(colour: &'a str, width: f64) -> Self {
        Self { dash: Some("4 2.5"), ..Self::line(colour, width) }
    }

    /// A fill without outline.
    pub fn fill(colour: &'a str) -> Self {
        Self { stroke: None, width: 0.0, fill: Some(colour), dash: None, opacity: 1.0 }
    }

    /// A fill with an outline.
    pub fn outlined(fill: &'a str, stroke: &'a str, width: f64) -> Self {
        Self { stroke: Some(stroke), width, fill: Some(fill), dash: None, opacity: 1.0 }
    }

    /// The same with a fill that lets what is below it be seen.
    pub fn pale(self) -> Self {
        Self { opacity: 0.25, ..self }
    }

    fn attributes(&self) -> String {
        let mut out = format!(" fill=\"{}\"", self.fill.unwrap_or("none"));
        if self.opacity < 1.0 {
            let _ = write!(out, " fill-opacity=\"{}\"", num(self.opacity));
        }
        if let Some(colour) = self.stroke {
            let _ = write!(out, " stroke=\"{colour}\" stroke-width=\"{}\"", num(self.width));
        }
        if let Some(dash) = self.dash {
            let _ = write!(out, " stroke-dasharray=\"{dash}\"");
        }
        out
    }
}

/// Where a text stands against its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The text starts at the point.
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

/// How a text is set.
#[derive(Debug, Clone, Copy)]
pub struct Letters {
    /// Size.
    pub size: f64,
    /// Where it stands.
    pub anchor: Anchor,
    /// Whether it is bold.
    pub bold: bool,
    /// Turned by this many degrees.
    pub turn: f64,
}

impl Letters {
    /// Plain text.
    pub fn plain(size: f64, anchor: Anchor) -> Self {
        Self { size, anchor, bold: false, turn: 0.0 }
    }

    /// Bold text.
    pub fn bold(size: f64, anchor: Anchor) -> Self {
        Self { bold: true, ..Self::plain(size, anchor) }
    }
}

/// A number with two decimals at most; what is not finite becomes zero, which never happens for
/// figures that left a relation.
pub fn num(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" || text.is_empty() { "0".into() } else { text.to_string() }
}

/// Escapes text for XML.
pub fn escape(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .map(|c| match c {
            '&' => "&amp;".to_string(),
            '<' => "&lt;".to_string(),
            '>' => "&gt;".to_string(),
            '"' => "&quot;".to_string(),
            c => c.to_string(),
        })
        .collect()
}

/// A drawing being made.
#[derive(Debug, Clone)]
pub struct Svg {
    width: f64,
    height: f64,
    body: String,
}

impl Svg {
    /// An empty sheet.
    pub fn new(width: f64, height: f64) -> Self {
        Self { width, height, body: String::new() }
    }

    /// Width of the sheet.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// Height of the sheet.
    pub fn height(&self) -> f64 {
        self.height
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen<'_>) {
        let (a, b, c, d) = (num(from.0), num(from.1), num(to.0), num(to.1));
        let _ =
            writeln!(self.body, "<line x1=\"{a}\" y1=\"{b}\" x2=\"{c}\" y2=\"{d}\"{}/>", pen.attributes());
    }

    /// A rectangle by its corner and size.
    pub fn rect(&mut self, corner: (f64, f64), size: (f64, f64), pen: Pen<'_>) {
        let (x, y, w, h) = (num(corner.0), num(corner.1), num(size.0.max(0.0)), num(size.1.max(0.0)));
        let _ = writeln!(
            self.body,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"{}/>",
            pen.attributes()
        );
    }

    /// A circle.
    pub fn circle(&mut self, centre: (f64, f64), radius: f64, pen: Pen<'_>) {
        let (x, y, r) = (num(centre.0), num(centre.1), num(radius.max(0.0)));
        let _ = writeln!(self.body, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"{}/>", pen.attributes());
    }

    /// A line through points.
    pub fn polyline(&mut self, points: &[(f64, f64)], pen: Pen<'_>) {
        self.points("polyline", points, pen);
    }

    /// A closed shape.
    pub fn polygon(&mut self, points: &[(f64, f64)], pen: Pen<'_>) {
        self.points("polygon", points, pen);
    }

    fn points(&mut self, tag: &str, points: &[(f64, f64)], pen: Pen<'_>) {
        let list =
            points.iter().map(|(x, y)| format!("{},{}", num(*x), num(*y))).collect::<Vec<_>>().join(" ");
        let _ =
            writeln!(self.body, "<{tag} points=\"{list}\"{} stroke-linejoin=\"round\"/>", pen.attributes());
    }

    /// A text.
    pub fn text(&mut self, at: (f64, f64), text: &str, letters: Letters, colour: &str) {
        self.letters(at, text, letters, &format!("fill=\"{colour}\""));
    }

    /// A text with a white rim, to be read across lines.
    pub fn halo(&mut self, at: (f64, f64), text: &str, letters: Letters, colour: &str) {
        let rim = "stroke=\"#ffffff\" stroke-width=\"2.4\" stroke-linejoin=\"round\" paint-order=\"stroke\"";
        self.letters(at, text, letters, &format!("fill=\"{colour}\" {rim}"));
    }

    fn letters(&mut self, at: (f64, f64), text: &str, letters: Letters, paint: &str) {
        let anchor = match letters.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let (x, y) = (num(at.0), num(at.1));
        let weight = if letters.bold { " font-weight=\"bold\"" } else { "" };
        let turn = if letters.turn == 0.0 {
            String::new()
        } else {
            format!(" transform=\"rotate({} {x} {y})\"", num(letters.turn))
        };
        let size = num(letters.size);
        let text = escape(text);
        let _ = writeln!(
            self.body,
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\" {paint}{weight}{turn}>{text}</text>"
        );
    }

    /// An arrow from one point to another, for dimensions.
    pub fn arrow(&mut self, from: (f64, f64), to: (f64, f64), colour: &str) {
        self.line(from, to, Pen::line(colour, 0.6));
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy);
        if length <= 0.0 {
            return;
        }
        let (ux, uy) = (dx / length, dy / length);
        let head = 3.0_f64.min(length);
        let side = |s: f64| (to.0 - head * ux + s * 0.4 * head * uy, to.1 - head * uy - s * 0.4 * head * ux);
        self.polygon(&[to, side(1.0), side(-1.0)], Pen::fill(colour));
    }

    /// The finished drawing.
    pub fn finish(self) -> String {
        let (w, h) = (num(self.width), num(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}pt\" height=\"{h}pt\" viewBox=\"0 0 {w} {h}\" font-family=\"DejaVu Sans, sans-serif\">\n{}</svg>\n",
            self.body
        )
    }
}
