//! Charts with axes: lines, steps, points and bands over two numeric axes, with limit lines.

use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// One axis.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Label with its unit.
    pub label: String,
    /// Ends; the first is at the left or bottom. A reversed pair turns the axis round.
    pub ends: (f64, f64),
}

impl Axis {
    /// An axis over the values, widened to round numbers, from zero where `from_zero`.
    pub fn over(label: impl Into<String>, values: impl Iterator<Item = f64>, from_zero: bool) -> Self {
        let (mut low, mut high) = values
            .filter(|v| v.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        if !low.is_finite() || !high.is_finite() {
            (low, high) = (0.0, 1.0);
        }
        if from_zero {
            low = low.min(0.0);
            high = high.max(0.0);
        }
        if high - low < 1e-12 * high.abs().max(1.0) {
            high = low + 1.0;
        }
        let step = nice_step(high - low, 6);
        Self { label: label.into(), ends: ((low / step).floor() * step, (high / step).ceil() * step) }
    }

    /// The same axis the other way round.
    pub fn reversed(mut self) -> Self {
        self.ends = (self.ends.1, self.ends.0);
        self
    }

    fn ticks(&self, most: usize) -> Vec<f64> {
        let (low, high) = (self.ends.0.min(self.ends.1), self.ends.0.max(self.ends.1));
        let step = nice_step(high - low, most);
        let first = (low / step - 1e-9).ceil();
        let last = (high / step + 1e-9).floor();
        let count = (last - first).clamp(0.0, 60.0) as usize;
        (0..=count).map(|i| (first + i as f64) * step).collect()
    }

    /// Share of the way from the first end to the second.
    fn share(&self, value: f64) -> f64 {
        (value - self.ends.0) / (self.ends.1 - self.ends.0)
    }
}

/// A step of 1, 2 or 5 times a power of ten that divides `span` into at most `most` parts.
fn nice_step(span: f64, most: usize) -> f64 {
    let rough = (span / most.max(1) as f64).max(1e-12);
    let power = 10f64.powf(rough.log10().floor());
    let lead = rough / power;
    power * if lead <= 1.0 { 1.0 } else if lead <= 2.0 { 2.0 } else if lead <= 5.0 { 5.0 } else { 10.0 }
}

fn tick_text(value: f64, step_of: f64) -> String {
    let decimals = (-step_of.log10().floor()).clamp(0.0, 4.0) as usize;
    quantity::number(value, decimals)
}

/// What a series looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// A line.
    Line,
    /// A dashed line.
    Dashed,
    /// Dots.
    Dots,
    /// Columns from zero.
    Columns,
}

/// One series.
#[derive(Debug, Clone)]
pub struct Series {
    /// Name in the key.
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

/// A limit across the chart.
#[derive(Debug, Clone)]
pub struct Limit {
    /// Its name, written beside it.
    pub name: String,
    /// Where it stands on the y axis.
    pub at: f64,
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
    /// Series.
    pub series: Vec<Series>,
    /// Limits.
    pub limits: Vec<Limit>,
}

/// Most points a line is drawn with; longer ones keep their extremes.
const MOST_POINTS: usize = 1500;

impl Chart {
    fn frame(&self) -> (f64, f64, f64, f64) {
        (46.0, 12.0, self.size.0 - 12.0, self.size.1 - 34.0)
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let (left, top, right, bottom) = self.frame();
        (left + self.x.share(x) * (right - left), bottom - self.y.share(y) * (bottom - top))
    }

    /// Draws the chart.
    pub fn draw(&self) -> String {
        let mut svg = Svg::new(self.size.0, self.size.1);
        self.grid(&mut svg);
        self.bands.iter().for_each(|b| self.band(&mut svg, b));
        self.series.iter().for_each(|s| self.one(&mut svg, s));
        self.limits.iter().for_each(|l| self.limit(&mut svg, l));
        self.key(&mut svg);
        svg.finish()
    }

    fn grid(&self, svg: &mut Svg) {
        let (left, top, right, bottom) = self.frame();
        let small = |anchor| Letters::plain(7.0, anchor);
        let (xs, ys) = (self.x.ticks(9), self.y.ticks(7));
        let gap = |t: &[f64]| t.windows(2).next().map_or(1.0, |w| w[1] - w[0]);
        for x in &xs {
            let (px, _) = self.at((*x, self.y.ends.0));
            svg.line((px, top), (px, bottom), Pen::line(ink::PALE, 0.5));
            svg.text((px, bottom + 10.0), &tick_text(*x, gap(&xs)), small(Anchor::Middle), ink::BLACK);
        }
        for y in &ys {
            let (_, py) = self.at((self.x.ends.0, *y));
            svg.line((left, py), (right, py), Pen::line(ink::PALE, 0.5));
            svg.text((left - 4.0, py + 2.5), &tick_text(*y, gap(&ys)), small(Anchor::End), ink::BLACK);
        }
        svg.rect((left, top), (right - left, bottom - top), Pen::line(ink::BLACK, 0.7));
        let middle = (0.5 * (left + right), bottom + 21.0);
        svg.text(middle, &self.x.label, Letters::plain(7.5, Anchor::Middle), ink::BLACK);
        let turned = Letters { turn: -90.0, ..Letters::plain(7.5, Anchor::Middle) };
        svg.text((9.0, 0.5 * (top + bottom)), &self.y.label, turned, ink::BLACK);
    }

    fn band(&self, svg: &mut Svg, band: &BandSeries) {
        let upper = band.points.iter().map(|(x, _, h)| self.at((*x, *h)));
        let lower = band.points.iter().rev().map(|(x, l, _)| self.at((*x, *l)));
        let outline: Vec<_> = upper.chain(lower).collect();
        let pale = format!("{}44", band.colour);
        svg.polygon(&outline, Pen::fill(&pale));
    }

    fn one(&self, svg: &mut Svg, series: &Series) {
        match series.mark {
            Mark::Dots => {
                for p in &series.points {
                    svg.circle(self.at(*p), 1.8, Pen::outlined("#ffffff", series.colour, 1.0));
                }
            }
            Mark::Columns => {
                let (left, _, right, _) = self.frame();
                let wide = ((right - left) / (series.points.len().max(1) as f64) * 0.6).clamp(1.0, 18.0);
                for (x, y) in &series.points {
                    let (px, py) = self.at((*x, *y));
                    let (_, base) = self.at((*x, 0.0));
                    svg.rect((px - 0.5 * wide, py.min(base)), (wide, (py - base).abs()), Pen::fill(series.colour));
                }
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

    fn limit(&self, svg: &mut Svg, limit: &Limit) {
        let (left, _, right, _) = self.frame();
        let (_, y) = self.at((self.x.ends.0, limit.at));
        svg.line((left, y), (right, y), Pen::dashed(ink::VERMILION, 1.2));
        svg.text((right - 3.0, y - 2.5), &limit.name, Letters::bold(7.0, Anchor::End), ink::VERMILION);
    }

    fn key(&self, svg: &mut Svg) {
        let (left, _, _, _) = self.frame();
        let y = self.size.1 - 4.0;
        let mut x = left;
        let names = self.bands.iter().map(|b| (&b.name, b.colour, None));
        let names = names.chain(self.series.iter().map(|s| (&s.name, s.colour, Some(s.mark))));
        for (name, colour, mark) in names.filter(|(n, _, _)| !n.is_empty()) {
            match mark {
                None => svg.rect((x, y - 6.0), (14.0, 6.0), Pen::fill(&format!("{colour}44"))),
                Some(Mark::Dots) => svg.circle((x + 7.0, y - 3.0), 1.8, Pen::outlined("#ffffff", colour, 1.0)),
                Some(Mark::Columns) => svg.rect((x + 3.0, y - 6.0), (8.0, 6.0), Pen::fill(colour)),
                Some(Mark::Dashed) => svg.line((x, y - 3.0), (x + 14.0, y - 3.0), Pen::dashed(colour, 1.3)),
                Some(Mark::Line) => svg.line((x, y - 3.0), (x + 14.0, y - 3.0), Pen::line(colour, 1.4)),
            }
            svg.text((x + 18.0, y), name, Letters::plain(7.0, Anchor::Start), ink::BLACK);
            x += 30.0 + 4.1 * name.chars().count() as f64;
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
        let points: Vec<_> = (0..100_000).map(|i| (f64::from(i), if i == 51_234 { 9.0 } else { 0.0 })).collect();
        let short = thin(&points);
        assert!(short.len() <= MOST_POINTS + 2);
        assert!(short.iter().any(|(x, y)| *y == 9.0 && *x == 51_234.0));
    }

    #[test]
    fn steps_are_round() {
        assert_eq!(nice_step(10.0, 5), 2.0);
        assert_eq!(nice_step(0.7, 7), 0.1);
        let axis = Axis::over("x", [0.3, 9.2].into_iter(), true);
        assert_eq!(axis.ends, (0.0, 10.0));
    }
}
