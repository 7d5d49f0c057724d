//! The path of the well in the vertical section: all of it at true scale, or a part of it with
//! depth stretched and the stretch written on the drawing.

use super::axis::{Axis, tick_text};
use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// A place on the path: distance along the section and depth, in the unit shown.
pub type Point = (f64, f64);

/// The path of the well with what stands in it, in the unit shown.
#[derive(Debug, Clone, Default)]
pub struct PathPicture {
    /// Path from its upper end down.
    pub path: Vec<Point>,
    /// How many points of it are cased.
    pub cased: usize,
    /// Packers.
    pub packers: Vec<Point>,
    /// Sleeves with their stage.
    pub sleeves: Vec<(Point, usize)>,
    /// Casing packer.
    pub hanger: Option<Point>,
    /// Shoe of the liner.
    pub shoe: Option<Point>,
    /// Unit of both axes.
    pub unit: String,
}

/// How depth is drawn against reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scale {
    /// Both alike.
    True,
    /// Depth stretched so that the drawing takes the height given.
    Stretched,
}

/// Room left for the numbers of the axes and the key.
const MARGIN: (f64, f64, f64, f64) = (46.0, 8.0, 12.0, 46.0);

struct Place {
    reach: Axis,
    depth: Axis,
    /// Points on paper for one unit of reach and of depth.
    scale: (f64, f64),
}

impl Place {
    fn new(picture: &PathPicture, scale: Scale, size: (f64, f64)) -> Self {
        let (left, top, right, foot) = MARGIN;
        let room = (size.0 - left - right, size.1 - top - foot);
        let reach = close(picture.path.iter().map(|p| p.0));
        let depth = close(picture.path.iter().map(|p| p.1));
        let span = |a: &Axis| (a.ends.1 - a.ends.0).max(1e-9);
        let (across, down) = (room.0 / span(&reach), room.1 / span(&depth));
        let scale = match scale {
            Scale::True => (across.min(down), across.min(down)),
            Scale::Stretched => (across, down),
        };
        Self { reach, depth, scale }
    }

    fn at(&self, p: Point) -> (f64, f64) {
        (
            MARGIN.0 + (p.0 - self.reach.ends.0) * self.scale.0,
            MARGIN.1 + (p.1 - self.depth.ends.0) * self.scale.1,
        )
    }

    fn height(&self) -> f64 {
        MARGIN.1 + (self.depth.ends.1 - self.depth.ends.0) * self.scale.1 + MARGIN.3
    }

    fn grid(&self, svg: &mut Svg) {
        let ((left, top), (right, bottom)) = (
            self.at((self.reach.ends.0, self.depth.ends.0)),
            self.at((self.reach.ends.1, self.depth.ends.1)),
        );
        svg.rect((left, top), (right - left, bottom - top), Pen::line(ink::GREY, 0.5));
        let (depths, step) = self.depth.ticks(9);
        for depth in depths {
            let (_, y) = self.at((0.0, depth));
            svg.line((left, y), (right, y), Pen::line(ink::PALE, 0.4));
            let at = (left - 4.0, y + 2.2);
            svg.text(at, &tick_text(depth, step), Letters::plain(7.0, Anchor::End), ink::BLACK);
        }
        let (reaches, step) = self.reach.ticks(9);
        for reach in reaches {
            let (x, _) = self.at((reach, 0.0));
            svg.line((x, top), (x, bottom), Pen::line(ink::PALE, 0.4));
            let at = (x, bottom + 9.0);
            svg.text(at, &tick_text(reach, step), Letters::plain(7.0, Anchor::Middle), ink::BLACK);
        }
    }
}

/// An axis that ends little beyond the values.
fn close(values: impl Iterator<Item = f64>) -> Axis {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
    let room = 0.03 * (high - low).max(1.0);
    let ends = if low.is_finite() { (low - room, high + room) } else { (0.0, 1.0) };
    Axis { label: String::new(), ends, whole: false }
}

/// Draws the path on a sheet of at most the size given.
pub fn path(picture: &PathPicture, scale: Scale, size: (f64, f64)) -> String {
    let place = Place::new(picture, scale, size);
    let mut svg = Svg::new(size.0, place.height());
    place.grid(&mut svg);
    let points: Vec<_> = picture.path.iter().map(|p| place.at(*p)).collect();
    let cased = points.get(..picture.cased.min(points.len())).unwrap_or_default();
    svg.polyline(&points, Pen::line(ink::BLACK, 1.0));
    svg.polyline(cased, Pen::line(ink::STEEL, 3.0));
    tools(&mut svg, picture, &place);
    words(&mut svg, picture, &place, scale);
    svg.finish()
}

fn tools(svg: &mut Svg, picture: &PathPicture, place: &Place) {
    for p in &picture.packers {
        let (x, y) = place.at(*p);
        svg.rect((x - 1.0, y - 3.6), (2.0, 7.2), Pen::fill(ink::VERMILION));
    }
    let last = picture.sleeves.iter().map(|(_, stage)| *stage).max().unwrap_or(0);
    for (p, stage) in &picture.sleeves {
        let (x, y) = place.at(*p);
        svg.circle((x, y), 1.6, Pen::outlined("#ffffff", ink::BLUE, 1.0));
        if *stage == 1 || *stage == last || stage % 5 == 0 {
            let letters = Letters::bold(7.0, Anchor::Middle);
            svg.halo((x, y - 6.5), &stage.to_string(), letters, ink::BLUE);
        }
    }
    if let Some(p) = picture.hanger {
        let (x, y) = place.at(p);
        svg.polygon(&[(x - 4.0, y - 4.0), (x + 4.0, y - 4.0), (x, y + 4.0)], Pen::fill(ink::GREEN));
    }
    if let Some(p) = picture.shoe {
        let (x, y) = place.at(p);
        svg.rect((x - 2.0, y - 2.0), (4.0, 4.0), Pen::fill(ink::BLACK));
    }
}

fn words(svg: &mut Svg, picture: &PathPicture, place: &Place, scale: Scale) {
    let words = match scale {
        Scale::True => "True scale, depth and reach alike".to_string(),
        Scale::Stretched => {
            format!("NOT to scale: depth drawn {:.1} times reach", place.scale.1 / place.scale.0.max(1e-9))
        }
    };
    let left = MARGIN.0;
    let foot = svg.height();
    let axes = format!(
        "Across: distance along the vertical section, {0}. Down: true vertical depth, {0}.",
        picture.unit
    );
    svg.text((left, foot - 17.0), &axes, Letters::plain(7.0, Anchor::Start), ink::BLACK);
    svg.text((left, foot - 5.0), &words, Letters::bold(7.0, Anchor::Start), ink::BLACK);
    let (x, y) = (left + 8.0 + 4.5 * words.chars().count() as f64, foot - 7.5);
    svg.rect((x, y - 3.6), (2.0, 7.2), Pen::fill(ink::VERMILION));
    let x = word(svg, (x, y), "packer");
    svg.circle((x, y), 1.6, Pen::outlined("#ffffff", ink::BLUE, 1.0));
    let x = word(svg, (x, y), "sleeve, with its stage");
    svg.polygon(&[(x - 4.0, y - 4.0), (x + 4.0, y - 4.0), (x, y + 4.0)], Pen::fill(ink::GREEN));
    let x = word(svg, (x, y), "casing packer");
    svg.line((x - 5.0, y), (x + 5.0, y), Pen::line(ink::STEEL, 3.0));
    word(svg, (x, y), "cased");
}

/// A word of the key behind its sign; where the next sign stands.
fn word(svg: &mut Svg, (x, y): (f64, f64), text: &str) -> f64 {
    svg.text((x + 8.0, y + 2.5), text, Letters::plain(7.0, Anchor::Start), ink::BLACK);
    x + 22.0 + 4.0 * text.chars().count() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture() -> PathPicture {
        PathPicture { path: vec![(0.0, 0.0), (0.0, 1000.0), (2000.0, 1100.0)], ..PathPicture::default() }
    }

    #[test]
    fn true_scale_is_the_same_both_ways() {
        let place = Place::new(&picture(), Scale::True, (500.0, 600.0));
        let (a, b) = (place.at((0.0, 0.0)), place.at((100.0, 100.0)));
        assert!(((b.0 - a.0) - (b.1 - a.1)).abs() < 1e-9);
        assert!(place.height() <= 600.0 + 1e-9);
    }

    #[test]
    fn a_stretched_drawing_says_so() {
        let text = path(&picture(), Scale::Stretched, (500.0, 600.0));
        assert!(text.contains("NOT to scale: depth drawn"));
        assert!(path(&picture(), Scale::True, (500.0, 600.0)).contains("True scale"));
    }
}
