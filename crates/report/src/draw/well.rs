//! The well: its path in the vertical section at true scale, and the lateral as a strip with the
//! diameters drawn larger, the factor written on it.

use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// A place on the path: distance along the section and depth, in the unit shown.
pub type Point = (f64, f64);

/// The path of the well with what stands in it, in the unit shown.
#[derive(Debug, Clone, Default)]
pub struct PathPicture {
    /// Path from the surface down.
    pub path: Vec<Point>,
    /// Part of the path that is cased, by number of its last point.
    pub cased_to: usize,
    /// Packers.
    pub packers: Vec<Point>,
    /// Sleeves with their stage.
    pub sleeves: Vec<(Point, usize)>,
    /// Casing packer.
    pub hanger: Option<Point>,
    /// Unit of both axes.
    pub unit: String,
    /// How many times depth is stretched against reach; 1 is true scale.
    pub stretch: f64,
}

/// Draws the path. Both axes have the same scale unless `stretch` is not 1, which is written on
/// the drawing.
pub fn path(picture: &PathPicture, width: f64, most_height: f64) -> String {
    let (left, top, foot) = (44.0, 10.0, 30.0);
    let reach = picture.path.iter().map(|p| p.0).fold(0.0, f64::max);
    let back = picture.path.iter().map(|p| p.0).fold(0.0, f64::min);
    let deep = picture.path.iter().map(|p| p.1).fold(1.0, f64::max);
    let stretch = if picture.stretch > 0.0 { picture.stretch } else { 1.0 };
    let span = (reach - back).max(1.0);
    let scale = ((width - left - 16.0) / span).min((most_height - top - foot) / (deep * stretch));
    let at = |p: Point| (left + (p.0 - back) * scale, top + p.1 * stretch * scale);
    let mut svg = Svg::new(width, top + deep * stretch * scale + foot);
    let base = at((back, deep)).1 + 6.0;
    grid(&mut svg, picture, (back, reach, deep), &at, base);
    let points: Vec<_> = picture.path.iter().map(|p| at(*p)).collect();
    let cased = points.get(..picture.cased_to.min(points.len())).unwrap_or_default();
    svg.polyline(&points, Pen::line(ink::BLACK, 1.0));
    svg.polyline(cased, Pen::line(ink::STEEL, 3.0));
    for p in &picture.packers {
        let (x, y) = at(*p);
        svg.rect((x - 1.2, y - 3.4), (2.4, 6.8), Pen::fill(ink::VERMILION));
    }
    for (p, stage) in &picture.sleeves {
        let (x, y) = at(*p);
        svg.circle((x, y), 1.7, Pen::outlined("#ffffff", ink::BLUE, 1.0));
        if *stage == 1 || stage % 5 == 0 {
            svg.text((x, y - 6.5), &stage.to_string(), Letters::plain(6.0, Anchor::Middle), ink::BLUE);
        }
    }
    if let Some(p) = picture.hanger {
        let (x, y) = at(p);
        svg.polygon(&[(x - 4.0, y - 3.0), (x + 4.0, y - 3.0), (x, y + 4.0)], Pen::fill(ink::GREEN));
    }
    let words = if (stretch - 1.0).abs() < 1e-9 {
        format!("True scale: depth and reach alike, {}", picture.unit)
    } else {
        format!("NOT to scale: depth drawn {stretch:.1} times reach, {}", picture.unit)
    };
    let key = format!("{words}.   bar: packer   ring: sleeve (stage number)   triangle: casing packer   thick: cased");
    svg.text((left, svg.height() - 4.0), &key, Letters::plain(6.5, Anchor::Start), ink::BLACK);
    svg.finish()
}

fn grid(svg: &mut Svg, picture: &PathPicture, (back, reach, deep): (f64, f64, f64), at: &dyn Fn(Point) -> (f64, f64), base: f64) {
    let step = step(deep.max(reach - back));
    let mut depth = 0.0;
    while depth <= deep {
        let (x0, y) = at((back, depth));
        let (x1, _) = at((reach, depth));
        svg.line((x0, y), (x1, y), Pen::line(ink::PALE, 0.4));
        svg.text((x0 - 4.0, y + 2.2), &format!("{depth:.0}"), Letters::plain(6.5, Anchor::End), ink::BLACK);
        depth += step;
    }
    let mut along = (back / step).ceil() * step;
    while along <= reach {
        let (x, y0) = at((along, 0.0));
        svg.line((x, y0), (x, base), Pen::line(ink::PALE, 0.4));
        svg.text((x, base + 8.0), &format!("{along:.0}"), Letters::plain(6.5, Anchor::Middle), ink::BLACK);
        along += step;
    }
    let _ = picture;
}

fn step(span: f64) -> f64 {
    let power = 10f64.powf((span.max(1.0) / 6.0).log10().floor());
    let lead = span / 6.0 / power;
    power * if lead <= 1.0 { 1.0 } else if lead <= 2.0 { 2.0 } else if lead <= 5.0 { 5.0 } else { 10.0 }
}

/// A part of the string in the strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Upper end.
    pub top: f64,
    /// Lower end.
    pub bottom: f64,
    /// Outer diameter.
    pub od: f64,
    /// What it is.
    pub kind: PartKind,
    /// Stage, where it has one.
    pub stage: Option<usize>,
}

/// What a part of the strip is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartKind {
    /// Pipe.
    Pipe,
    /// Packer element.
    Packer,
    /// Sleeve.
    Sleeve,
}

/// The lateral as a strip: hole wall from the caliper, string, packers and sleeves.
#[derive(Debug, Clone, Default)]
pub struct StripPicture {
    /// Upper and lower depth.
    pub ends: (f64, f64),
    /// Hole: depth and diameter.
    pub hole: Vec<Point>,
    /// Parts of the string.
    pub parts: Vec<Part>,
    /// Unit of depth.
    pub depth_unit: String,
    /// Diameter units in one depth unit (12 for inches in feet).
    pub per_depth: f64,
    /// How many times diameters are drawn larger than depths; written on the drawing.
    pub factor: f64,
}

/// Draws the strip in rows of equal length.
pub fn strip(picture: &StripPicture, width: f64, rows: usize) -> String {
    let rows = rows.max(1);
    let (left, right) = (40.0, 12.0);
    let each = (picture.ends.1 - picture.ends.0) / rows as f64;
    let scale = (width - left - right) / each.max(1e-9);
    let radial = scale / picture.per_depth * picture.factor;
    let widest = picture.hole.iter().map(|h| h.1).fold(1.0, f64::max);
    let row_height = widest * radial + 30.0;
    let mut svg = Svg::new(width, row_height * rows as f64 + 14.0);
    for row in 0..rows {
        let top = picture.ends.0 + row as f64 * each;
        let frame = Row { top, bottom: top + each, left, middle: (row as f64 + 0.5) * row_height, scale, radial };
        frame.draw(&mut svg, picture);
    }
    let foot = format!(
        "NOT to scale: diameters drawn {:.0} times depths. Depths in {}; the heel is to the left. Wall: caliper. Dark block: packer element. Numbered: sleeve.",
        picture.factor, picture.depth_unit
    );
    svg.text((left, svg.height() - 3.0), &foot, Letters::plain(6.5, Anchor::Start), ink::BLACK);
    svg.finish()
}

struct Row {
    top: f64,
    bottom: f64,
    left: f64,
    middle: f64,
    scale: f64,
    radial: f64,
}

impl Row {
    fn x(&self, depth: f64) -> f64 {
        self.left + (depth.clamp(self.top, self.bottom) - self.top) * self.scale
    }

    fn draw(&self, svg: &mut Svg, picture: &StripPicture) {
        let inside: Vec<Point> = picture.hole.iter().copied().filter(|h| h.0 >= self.top && h.0 <= self.bottom).collect();
        let wall = |side: f64| inside.iter().map(move |h| (self.x(h.0), self.middle + side * 0.5 * h.1 * self.radial));
        let outline: Vec<_> = wall(-1.0).chain(wall(1.0).collect::<Vec<_>>().into_iter().rev()).collect();
        if outline.len() > 2 {
            svg.polygon(&outline, Pen::outlined(ink::ROCK, ink::GREY, 0.5));
        }
        for part in picture.parts.iter().filter(|p| p.bottom > self.top && p.top < self.bottom) {
            self.part(svg, part);
        }
        let mark = (self.bottom - self.top) / 5.0;
        for i in 0..=5 {
            let depth = self.top + f64::from(i) * mark;
            let y = self.middle + 0.5 * picture.hole.iter().map(|h| h.1).fold(1.0, f64::max) * self.radial + 9.0;
            svg.text((self.x(depth), y), &format!("{depth:.0}"), Letters::plain(6.0, Anchor::Middle), ink::BLACK);
        }
    }

    fn part(&self, svg: &mut Svg, part: &Part) {
        let (x0, x1) = (self.x(part.top), self.x(part.bottom));
        let half = 0.5 * part.od * self.radial;
        let pen = match part.kind {
            PartKind::Pipe => Pen::fill("#b9c2c9"),
            PartKind::Packer => Pen::outlined("#2f2f2f", ink::VERMILION, 0.6),
            PartKind::Sleeve => Pen::outlined("#ffffff", ink::BLUE, 0.9),
        };
        let wide = (x1 - x0).max(if part.kind == PartKind::Pipe { 0.0 } else { 1.6 });
        svg.rect((x0, self.middle - half), (wide, 2.0 * half), pen);
        if let (PartKind::Sleeve, Some(stage)) = (part.kind, part.stage) {
            let at = (0.5 * (x0 + x1), self.middle - half - 3.0);
            svg.text(at, &stage.to_string(), Letters::bold(6.0, Anchor::Middle), ink::BLUE);
        }
    }
}
