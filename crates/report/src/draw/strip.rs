//! The lateral as a strip in rows: hole wall from the caliper, string, packers and sleeves, with
//! diameters drawn larger than depths and the factor written on the drawing.

use super::axis::{nice_step, tick_text};
use super::svg::{Anchor, Letters, Pen, Svg, ink};

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

/// An interval where a tool must not stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Barred {
    /// Upper end.
    pub from: f64,
    /// Lower end.
    pub to: f64,
}

/// The lateral as a strip.
#[derive(Debug, Clone, Default)]
pub struct StripPicture {
    /// Upper and lower depth.
    pub ends: (f64, f64),
    /// Hole: depth and diameter.
    pub hole: Vec<(f64, f64)>,
    /// Parts of the string.
    pub parts: Vec<Part>,
    /// Intervals where tools must not stand.
    pub barred: Vec<Barred>,
    /// Depth of the casing shoe.
    pub shoe: Option<f64>,
    /// Unit of depth.
    pub depth_unit: String,
    /// Diameter units in one depth unit (12 for inches in feet).
    pub per_depth: f64,
}

/// Room at the sides.
const SIDE: f64 = 14.0;
/// Room in a row for stage numbers and depths.
const WORDS: f64 = 26.0;

/// Draws the strip in rows of equal length on a sheet of the size given.
pub fn strip(picture: &StripPicture, size: (f64, f64), rows: usize) -> String {
    let rows = rows.max(1);
    let each = (picture.ends.1 - picture.ends.0) / rows as f64;
    let along = (size.0 - 2.0 * SIDE) / each.max(1e-9);
    let row_height = (size.1 - 24.0) / rows as f64;
    let widest = picture.hole.iter().map(|h| h.1).fold(1e-9, f64::max);
    let radial = (row_height - WORDS).max(4.0) / widest;
    let mut svg = Svg::new(size.0, size.1);
    for row in 0..rows {
        let top = picture.ends.0 + row as f64 * each;
        let middle = row as f64 * row_height + 12.0 + 0.5 * widest * radial;
        let row = Row { ends: (top, top + each), middle, along, radial, half: 0.5 * widest * radial };
        row.draw(&mut svg, picture);
    }
    let factor = radial * picture.per_depth / along;
    foot(&mut svg, factor, &picture.depth_unit);
    svg.finish()
}

fn foot(svg: &mut Svg, factor: f64, unit: &str) {
    let y = svg.height();
    let words = format!("NOT to scale: diameters drawn {} times depths.", tick_text(factor, 1.0));
    svg.text((SIDE, y - 14.0), &words, Letters::bold(7.0, Anchor::Start), ink::BLACK);
    let rest = format!("Depths in {unit}; heel at the left of the first row, toe at the right of the last.");
    svg.text((SIDE + 232.0, y - 14.0), &rest, Letters::plain(7.0, Anchor::Start), ink::BLACK);
    let mut x = SIDE;
    let keys = [
        (Pen::outlined(ink::ROCK, ink::GREY, 0.5), "hole, from the caliper"),
        (Pen::fill(PIPE), "pipe"),
        (Pen::fill(PACKER), "packer element"),
        (Pen::outlined("#ffffff", ink::BLUE, 0.9), "sleeve, with its stage"),
        (Pen::fill(ink::VERMILION).pale(), "no tool to stand here"),
    ];
    for (pen, text) in keys {
        svg.rect((x, y - 8.0), (10.0, 6.0), pen);
        svg.text((x + 13.0, y - 3.0), text, Letters::plain(7.0, Anchor::Start), ink::BLACK);
        x += 25.0 + 4.0 * text.chars().count() as f64;
    }
}

const PIPE: &str = "#b9c2c9";
const PACKER: &str = "#2f2f2f";

struct Row {
    ends: (f64, f64),
    middle: f64,
    along: f64,
    radial: f64,
    half: f64,
}

impl Row {
    fn x(&self, depth: f64) -> f64 {
        SIDE + (depth.clamp(self.ends.0, self.ends.1) - self.ends.0) * self.along
    }

    fn meets(&self, top: f64, bottom: f64) -> bool {
        bottom > self.ends.0 && top < self.ends.1
    }

    fn draw(&self, svg: &mut Svg, picture: &StripPicture) {
        let outline = self.outline(&picture.hole);
        if outline.len() > 2 {
            svg.polygon(&outline, Pen::outlined(ink::ROCK, ink::GREY, 0.4));
        }
        for b in picture.barred.iter().filter(|b| self.meets(b.from, b.to)) {
            let (x0, x1) = (self.x(b.from), self.x(b.to));
            svg.rect(
                (x0, self.middle - self.half),
                (x1 - x0, 2.0 * self.half),
                Pen::fill(ink::VERMILION).pale(),
            );
        }
        for kind in [PartKind::Pipe, PartKind::Packer, PartKind::Sleeve] {
            picture
                .parts
                .iter()
                .filter(|p| p.kind == kind && self.meets(p.top, p.bottom))
                .for_each(|p| self.part(svg, p));
        }
        if let Some(shoe) = picture.shoe.filter(|s| *s >= self.ends.0 && *s < self.ends.1) {
            let x = self.x(shoe);
            svg.line(
                (x, self.middle - self.half - 4.0),
                (x, self.middle + self.half + 4.0),
                Pen::line(ink::BLACK, 1.6),
            );
            svg.text(
                (x, self.middle - self.half - 5.0),
                "casing shoe",
                Letters::plain(7.0, Anchor::Middle),
                ink::BLACK,
            );
        }
        self.depths(svg);
    }

    /// The wall: the readings inside the row, and one beyond each end cut there.
    fn outline(&self, hole: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let first = hole.partition_point(|h| h.0 < self.ends.0).saturating_sub(1);
        let last = (hole.partition_point(|h| h.0 <= self.ends.1) + 1).min(hole.len());
        let inside = hole.get(first..last).unwrap_or_default();
        let wall = |side: f64| {
            inside
                .iter()
                .map(move |h| (self.x(h.0), self.middle + side * 0.5 * h.1 * self.radial))
                .collect::<Vec<_>>()
        };
        wall(-1.0).into_iter().chain(wall(1.0).into_iter().rev()).collect()
    }

    fn depths(&self, svg: &mut Svg) {
        let y = self.middle + self.half;
        let step = nice_step(self.ends.1 - self.ends.0, 10);
        let mut depth = (self.ends.0 / step).ceil() * step;
        while depth <= self.ends.1 {
            let x = self.x(depth);
            svg.line((x, y + 1.0), (x, y + 4.0), Pen::line(ink::BLACK, 0.5));
            svg.text((x, y + 10.5), &tick_text(depth, step), Letters::plain(7.0, Anchor::Middle), ink::BLACK);
            depth += step;
        }
    }

    fn part(&self, svg: &mut Svg, part: &Part) {
        let (x0, x1) = (self.x(part.top), self.x(part.bottom));
        let half = 0.5 * part.od * self.radial;
        let pen = match part.kind {
            PartKind::Pipe => Pen::fill(PIPE),
            PartKind::Packer => Pen::fill(PACKER),
            PartKind::Sleeve => Pen::outlined("#ffffff", ink::BLUE, 0.9),
        };
        let wide = (x1 - x0).max(if part.kind == PartKind::Pipe { 0.0 } else { 2.0 });
        svg.rect((x0, self.middle - half), (wide, 2.0 * half), pen);
        if let (PartKind::Sleeve, Some(stage)) = (part.kind, part.stage) {
            let at = (0.5 * (x0 + x1), self.middle - self.half - 3.0);
            svg.text(at, &stage.to_string(), Letters::bold(7.0, Anchor::Middle), ink::BLUE);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_factor_on_the_drawing_is_that_of_the_drawing() {
        let hole = vec![(0.0, 6.0), (500.0, 6.0), (1000.0, 6.0)];
        let picture = StripPicture {
            ends: (0.0, 1000.0),
            hole,
            depth_unit: "ft".into(),
            per_depth: 12.0,
            ..StripPicture::default()
        };
        let text = strip(&picture, (528.0, 90.0), 1);
        // Half a point a foot; 40 points for six inches: 80 a foot, 160 times.
        assert!(text.contains("diameters drawn 160 times depths"), "{text}");
    }

    #[test]
    fn the_wall_reaches_both_ends_of_a_row() {
        let row = Row { ends: (10.0, 20.0), middle: 0.0, along: 1.0, radial: 1.0, half: 3.0 };
        let outline = row.outline(&[(0.0, 6.0), (15.0, 6.0), (30.0, 6.0)]);
        let xs: Vec<f64> = outline.iter().map(|p| p.0).collect();
        assert_eq!(xs, [SIDE, SIDE + 5.0, SIDE + 10.0, SIDE + 10.0, SIDE + 5.0, SIDE]);
    }
}
