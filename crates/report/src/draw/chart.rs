//! Charts with axes: bands, stacked columns, lines, steps and points over two numeric axes, with
//! limit lines and a key.

use super::axis::{Axis, tick_text};
use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// What a series looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// A line.
    Line,
    /// A dashed line.
    Dashed,
    /// Dots.
    Dots,
    /// A level for every point, as wide as its place: what holds from one to the next.
    Levels,
    /// A filled outline.
    Area,
}

/// One series.
#[derive(Debug, Clone)]
pub struct Series {
    /// Name in the key; left out of the key where empty.
    pub name: String,
    /// Points.
    pub points: Vec<(f64, f64)>,
    /// Look.
    pub mark: Mark,
    /// Colour.
    pub colour: &'static str,
}

/// A band between two lines over the same x.
#[derive(Debug, Clone)]
pub struct BandSeries {
    /// Name in the key.
    pub name: String,
    /// x, low, high.
    pub points: Vec<(f64, f64, f64)>,
    /// Colour.
    pub colour: &'static str,
}

/// One part of stacked columns: its share at every x, one on the other in the order given.
#[derive(Debug, Clone)]
pub struct Layer {
    /// Name in the key.
    pub name: String,
    /// x and height; what is negative hangs below zero.
    pub points: Vec<(f64, f64)>,
    /// Colour.
    pub colour: &'static str,
}

/// A limit across the chart.
#[derive(Debug, Clone)]
pub struct Limit {
    /// Its name, written beside it.
    pub name: String,
    /// Where it stands.
    pub at: f64,
    /// On the x axis and upright, or on the y axis and level.
    pub along: Along,
}

/// The axis a limit belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// An upright line.
    X,
    /// A level line.
    Y,
}

/// A word at a point.
#[derive(Debug, Clone)]
pub struct Label {
    /// Where.
    pub at: (f64, f64),
    /// What.
    pub text: String,
}

/// A chart.
#[derive(Debug, Clone)]
pub struct Chart {
    /// Size of the sheet.
    pub size: (f64, f64),
    /// Horizontal axis.
    pub x: Axis,
    /// Vertical axis.
    pub y: Axis,
    /// Bands, drawn first.
    pub bands: Vec<BandSeries>,
    /// Stacked columns.
    pub layers: Vec<Layer>,
    /// Series.
    pub series: Vec<Series>,
    /// Limits.
    pub limits: Vec<Limit>,
    /// Words at points.
    pub labels: Vec<Label>,
}

/// Most points a line is drawn with; longer ones keep their extremes.
const MOST_POINTS: usize = 1500;

/// Share of its place that a column takes.
const COLUMN: f64 = 0.62;

impl Chart {
    /// An empty chart.
    pub fn new(size: (f64, f64), x: Axis, y: Axis) -> Self {
        Self {
            size,
            x,
            y,
            bands: Vec::new(),
            layers: Vec::new(),
            series: Vec::new(),
            limits: Vec::new(),
            labels: Vec::new(),
        }
    }

    /// With a series.
    pub fn with(mut self, name: &str, mark: Mark, colour: &'static str, points: Vec<(f64, f64)>) -> Self {
        self.series.push(Series { name: name.into(), points, mark, colour });
        self
    }

    /// With a level limit.
    pub fn limit(mut self, name: impl Into<String>, at: f64) -> Self {
        self.limits.push(Limit { name: name.into(), at, along: Along::Y });
        self
    }

    /// With an upright limit.
    pub fn upright(mut self, name: impl Into<String>, at: f64) -> Self {
        self.limits.push(Limit { name: name.into(), at, along: Along::X });
        self
    }

    fn frame(&self) -> (f64, f64, f64, f64) {
        (50.0, 8.0, self.size.0 - 14.0, self.size.1 - 44.0)
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let (left, top, right, bottom) = self.frame();
        (left + self.x.share(x) * (right - left), bottom - self.y.share(y) * (bottom - top))
    }

    /// Width on paper of one on the x axis.
    fn one_wide(&self) -> f64 {
        let (left, _, right, _) = self.frame();
        ((right - left) / (self.x.ends.1 - self.x.ends.0)).abs()
    }

    /// Draws the chart.
    pub fn draw(&self) -> String {
        let mut svg = Svg::new(self.size.0, self.size.1);
        self.grid(&mut svg);
        self.bands.iter().for_each(|b| self.band(&mut svg, b));
        self.stacks(&mut svg);
        self.series.iter().for_each(|s| self.one(&mut svg, s));
        self.limits.iter().for_each(|l| self.limit_line(&mut svg, l));
        for (i, label) in self.labels.iter().enumerate() {
            // Every other name goes to the left, so that points side by side keep their names apart.
            let (x, y) = self.at(label.at);
            let (dx, anchor) = if i % 2 == 1 { (-4.0, Anchor::End) } else { (4.0, Anchor::Start) };
            svg.halo((x + dx, y - 3.0), &label.text, Letters::plain(7.0, anchor), ink::BLACK);
        }
        self.key(&mut svg);
        svg.finish()
    }

    fn grid(&self, svg: &mut Svg) {
        let (left, top, right, bottom) = self.frame();
        let small = |anchor| Letters::plain(7.0, anchor);
        let ((xs, x_step), (ys, y_step)) = (self.x.ticks(10), self.y.ticks(7));
        for x in &xs {
            let (px, _) = self.at((*x, self.y.ends.0));
            svg.line((px, top), (px, bottom), Pen::line(ink::PALE, 0.5));
            svg.text((px, bottom + 9.5), &tick_text(*x, x_step), small(Anchor::Middle), ink::BLACK);
        }
        for y in &ys {
            let (_, py) = self.at((self.x.ends.0, *y));
            svg.line((left, py), (right, py), Pen::line(ink::PALE, 0.5));
            svg.text((left - 4.0, py + 2.5), &tick_text(*y, y_step), small(Anchor::End), ink::BLACK);
        }
        svg.rect((left, top), (right - left, bottom - top), Pen::line(ink::BLACK, 0.7));
        let middle = (0.5 * (left + right), bottom + 20.5);
        svg.text(middle, &self.x.label, Letters::plain(7.5, Anchor::Middle), ink::BLACK);
        let turned = Letters { turn: -90.0, ..Letters::plain(7.5, Anchor::Middle) };
        svg.text((9.0, 0.5 * (top + bottom)), &self.y.label, turned, ink::BLACK);
    }

    fn band(&self, svg: &mut Svg, band: &BandSeries) {
        let upper = band.points.iter().map(|(x, _, h)| self.at((*x, *h)));
        let lower = band.points.iter().rev().map(|(x, l, _)| self.at((*x, *l)));
        let outline: Vec<_> = upper.chain(lower).collect();
        svg.polygon(&outline, Pen::fill(band.colour).pale());
    }

    fn stacks(&self, svg: &mut Svg) {
        let wide = (self.one_wide() * COLUMN).clamp(1.0, 40.0);
        let count = self.layers.iter().map(|l| l.points.len()).max().unwrap_or(0);
        for place in 0..count {
            let (mut up, mut down) = (0.0, 0.0);
            for layer in &self.layers {
                let Some((x, height)) = layer.points.get(place).copied() else { continue };
                let base: &mut f64 = if height >= 0.0 { &mut up } else { &mut down };
                let (from, to) = (self.at((x, *base)), self.at((x, *base + height)));
                *base += height;
                let corner = (from.0 - 0.5 * wide, from.1.min(to.1));
                svg.rect(corner, (wide, (from.1 - to.1).abs()), Pen::fill(layer.colour));
            }
        }
    }

    fn one(&self, svg: &mut Svg, series: &Series) {
        match series.mark {
            Mark::Dots => {
                for p in &series.points {
                    svg.circle(self.at(*p), 1.9, Pen::outlined("#ffffff", series.colour, 1.1));
                }
            }
            Mark::Levels => {
                let half = 0.5 * self.one_wide() * 0.9;
                for p in &series.points {
                    let (x, y) = self.at(*p);
                    svg.line((x - half, y), (x + half, y), Pen::line(series.colour, 1.8));
                }
            }
            Mark::Area => {
                let points: Vec<_> = series.points.iter().map(|p| self.at(*p)).collect();
                svg.polygon(&points, Pen::outlined(series.colour, series.colour, 1.0).pale());
            }
            Mark::Line | Mark::Dashed => {
                let points: Vec<_> = thin(&series.points).into_iter().map(|p| self.at(p)).collect();
                let pen = match series.mark {
                    Mark::Dashed => Pen::dashed(series.colour, 1.2),
                    _ => Pen::line(series.colour, 1.3),
                };
                svg.polyline(&points, pen);
            }
        }
    }

    fn limit_line(&self, svg: &mut Svg, limit: &Limit) {
        let (left, top, right, bottom) = self.frame();
        let pen = Pen::dashed(ink::VERMILION, 1.2);
        match limit.along {
            Along::Y => {
                let (_, y) = self.at((self.x.ends.0, limit.at));
                svg.line((left, y), (right, y), pen);
                // The name goes below its line where the frame or another line stands close above.
                let above = |l: &&Limit| {
                    let gap = y - self.at((self.x.ends.0, l.at)).1;
                    l.along == Along::Y && gap > 0.0 && gap < 10.0
                };
                let below = y - top < 10.0 || self.limits.iter().any(|l| above(&l));
                let dy = if below { 7.5 } else { -2.5 };
                let letters = Letters::bold(7.0, Anchor::End);
                svg.halo((right - 3.0, y + dy), &limit.name, letters, ink::VERMILION);
            }
            Along::X => {
                let (x, _) = self.at((limit.at, self.y.ends.0));
                svg.line((x, top), (x, bottom), pen);
                let (dx, anchor) = if x < left + 60.0 { (3.0, Anchor::Start) } else { (-3.0, Anchor::End) };
                svg.halo((x + dx, top + 8.0), &limit.name, Letters::bold(7.0, anchor), ink::VERMILION);
            }
        }
    }

    fn key(&self, svg: &mut Svg) {
        let (left, _, _, _) = self.frame();
        let y = self.size.1 - 6.0;
        let mut x = left;
        let bands = self.bands.iter().map(|b| (&b.name, b.colour, Swatch::Pale));
        let layers = self.layers.iter().map(|l| (&l.name, l.colour, Swatch::Full));
        let lines = self.series.iter().map(|s| (&s.name, s.colour, Swatch::Mark(s.mark)));
        for (name, colour, swatch) in bands.chain(layers).chain(lines).filter(|(n, _, _)| !n.is_empty()) {
            swatch.draw(svg, (x, y), colour);
            svg.text((x + 17.0, y), name, Letters::plain(7.0, Anchor::Start), ink::BLACK);
            x += 29.0 + 3.95 * name.chars().count() as f64;
        }
    }
}

/// What stands before a name in the key.
#[derive(Debug, Clone, Copy)]
enum Swatch {
    Pale,
    Full,
    Mark(Mark),
}

impl Swatch {
    fn draw(self, svg: &mut Svg, (x, y): (f64, f64), colour: &str) {
        let level = ((x, y - 2.5), (x + 13.0, y - 2.5));
        match self {
            Swatch::Pale | Swatch::Mark(Mark::Area) => {
                svg.rect((x, y - 6.0), (13.0, 6.5), Pen::fill(colour).pale());
            }
            Swatch::Full => svg.rect((x + 3.0, y - 6.0), (8.0, 6.5), Pen::fill(colour)),
            Swatch::Mark(Mark::Dots) => {
                svg.circle((x + 7.0, y - 2.5), 1.9, Pen::outlined("#ffffff", colour, 1.1));
            }
            Swatch::Mark(Mark::Dashed) => svg.line(level.0, level.1, Pen::dashed(colour, 1.3)),
            Swatch::Mark(Mark::Line) => svg.line(level.0, level.1, Pen::line(colour, 1.4)),
            Swatch::Mark(Mark::Levels) => svg.line(level.0, level.1, Pen::line(colour, 1.8)),
        }
    }
}

/// Thins a long line, keeping the least and greatest y of every bucket.
fn thin(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    if points.len() <= MOST_POINTS {
        return points.to_vec();
    }
    let bucket = points.len().div_ceil(MOST_POINTS / 2);
    let mut out = Vec::with_capacity(MOST_POINTS + 2);
    for chunk in points.chunks(bucket) {
        let least = chunk.iter().enumerate().min_by(|a, b| a.1.1.total_cmp(&b.1.1));
        let greatest = chunk.iter().enumerate().max_by(|a, b| a.1.1.total_cmp(&b.1.1));
        if let (Some((i, a)), Some((j, b))) = (least, greatest) {
            if i <= j {
                out.extend([*a, *b]);
            } else {
                out.extend([*b, *a]);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_keep_their_spike() {
        let points: Vec<_> =
            (0..100_000).map(|i| (f64::from(i), if i == 51_234 { 9.0 } else { 0.0 })).collect();
        let short = thin(&points);
        assert!(short.len() <= MOST_POINTS + 2);
        assert!(short.iter().any(|(x, y)| *y == 9.0 && *x == 51_234.0));
    }

    #[test]
    fn a_limit_and_its_name_are_drawn_where_they_stand() {
        let y = Axis { label: "y".into(), ends: (0.0, 10.0), whole: false };
        let chart = Chart::new((200.0, 152.0), Axis::counted("stage", 4), y).limit("limit & more", 5.0);
        let (_, middle) = chart.at((1.0, 5.0));
        assert!((middle - 58.0).abs() < 1e-9);
        let text = chart.draw();
        assert!(text.contains("limit &amp; more") && text.contains("y1=\"58\""), "{text}");
    }

    #[test]
    fn stacked_columns_stand_on_one_another() {
        let y = Axis { label: "y".into(), ends: (-5.0, 10.0), whole: false };
        let mut chart = Chart::new((200.0, 202.0), Axis::counted("stage", 1), y);
        for height in [4.0, -2.0, 3.0] {
            chart.layers.push(Layer { name: "a".into(), points: vec![(1.0, height)], colour: ink::BLUE });
        }
        // 150 points for 15: 4 high is 40 tall from zero at 108, then 30 on top of it, and 20 below.
        let text = chart.draw();
        for corner in ["y=\"68\"", "y=\"108\"", "y=\"38\""] {
            assert!(text.contains(corner), "{corner} in {text}");
        }
    }
}
