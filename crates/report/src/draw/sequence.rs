//! A sequence of pressures, one row a device: the window in which each acts, the gap that is left
//! to the next, and the pressures that must not be reached or are held.

use super::axis::{Axis, tick_text};
use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// One row: a device or a pressure that is held.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// What it does.
    pub kind: RowKind,
}

/// What a row shows.
#[derive(Debug, Clone)]
pub enum RowKind {
    /// A device that acts between two pressures.
    Window {
        /// It will not act below.
        low: f64,
        /// Expected.
        nominal: f64,
        /// It will have acted by here.
        high: f64,
    },
    /// A pressure that is held, such as a test.
    Held(f64),
    /// Room between two pressures, and where to go in it.
    Room {
        /// Not below.
        low: f64,
        /// Go to; none where there is no room.
        target: Option<f64>,
        /// Not above.
        high: f64,
    },
}

/// A pressure across all rows.
#[derive(Debug, Clone)]
pub struct Line {
    /// Its name.
    pub name: String,
    /// Where.
    pub at: f64,
    /// Whether it must not be passed.
    pub limit: bool,
}

/// The whole picture.
#[derive(Debug, Clone)]
pub struct SequencePicture {
    /// Label of the pressure axis, with its unit.
    pub label: String,
    /// Rows, the first to act on top.
    pub rows: Vec<Row>,
    /// Lines across.
    pub lines: Vec<Line>,
}

/// Room for the names at the left.
const NAMES: f64 = 150.0;
/// Height of a row.
const ROW: f64 = 21.0;

impl RowKind {
    fn span(&self) -> (f64, f64) {
        match self {
            RowKind::Window { low, high, .. } | RowKind::Room { low, high, .. } => (*low, *high),
            RowKind::Held(at) => (*at, *at),
        }
    }
}

/// Draws the sequence on a sheet of the width given.
pub fn sequence(picture: &SequencePicture, width: f64) -> String {
    let ends = picture.rows.iter().flat_map(|r| [r.kind.span().0, r.kind.span().1]);
    let axis = Axis::over(picture.label.clone(), ends.chain(picture.lines.iter().map(|l| l.at)), true);
    let top = 10.0 + 9.0 * picture.lines.len() as f64;
    let bottom = top + ROW * picture.rows.len().max(1) as f64;
    let mut svg = Svg::new(width, bottom + 44.0);
    let x = |value: f64| NAMES + axis.share(value) * (width - NAMES - 14.0);
    let (ticks, step) = axis.ticks(9);
    for tick in ticks {
        svg.line((x(tick), top), (x(tick), bottom), Pen::line(ink::PALE, 0.5));
        svg.text(
            (x(tick), bottom + 9.5),
            &tick_text(tick, step),
            Letters::plain(7.0, Anchor::Middle),
            ink::BLACK,
        );
    }
    svg.rect((NAMES, top), (width - NAMES - 14.0, bottom - top), Pen::line(ink::BLACK, 0.7));
    let label = (0.5 * (NAMES + width - 14.0), bottom + 20.5);
    svg.text(label, &axis.label, Letters::plain(7.5, Anchor::Middle), ink::BLACK);
    for (i, row) in picture.rows.iter().enumerate() {
        let y = top + ROW * (i as f64 + 0.5);
        let next = picture.rows.get(i + 1).map(|r| r.kind.span().0);
        one(&mut svg, row, next, y, &x);
    }
    for (i, line) in picture.lines.iter().enumerate() {
        across(&mut svg, line, (x(line.at), 8.0 + 9.0 * i as f64, bottom), width);
    }
    let rooms = picture.rows.iter().any(|r| matches!(r.kind, RowKind::Room { .. }));
    let key = if rooms {
        "Bar: from the pressure the step needs to the one it must not pass. Diamond: go to."
    } else {
        "Bar: from the lowest to the highest pressure at which it acts; tick: expected. Diamond: done. Arrow: what is left."
    };
    svg.text((6.0, bottom + 36.0), key, Letters::plain(7.0, Anchor::Start), ink::BLACK);
    svg.finish()
}

fn one(svg: &mut Svg, row: &Row, next: Option<f64>, y: f64, x: &dyn Fn(f64) -> f64) {
    svg.text((NAMES - 5.0, y + 2.5), &row.name, Letters::plain(7.0, Anchor::End), ink::BLACK);
    match row.kind {
        RowKind::Window { low, nominal, high } => {
            let wide = (x(high) - x(low)).max(1.2);
            svg.rect((x(low), y - 5.0), (wide, 10.0), Pen::outlined(ink::SKY, ink::BLUE, 0.8));
            svg.line((x(nominal), y - 5.0), (x(nominal), y + 5.0), Pen::line(ink::BLACK, 1.2));
            if let Some(next) = next {
                let colour = if next > high { ink::GREY } else { ink::VERMILION };
                svg.arrow((x(high), y + 0.5 * ROW), (x(next), y + 0.5 * ROW), colour);
            }
        }
        RowKind::Room { low, target, high } => {
            let (left, right) = (x(low.min(high)), x(low.max(high)));
            let colour = if target.is_some() { ink::GREEN } else { ink::VERMILION };
            svg.rect(
                (left, y - 5.0),
                ((right - left).max(1.2), 10.0),
                Pen::outlined(colour, colour, 0.8).pale(),
            );
            if let Some(at) = target {
                diamond(svg, (x(at), y));
            }
        }
        RowKind::Held(at) => diamond(svg, (x(at), y)),
    }
}

fn diamond(svg: &mut Svg, (x, y): (f64, f64)) {
    svg.polygon(&[(x, y - 5.0), (x + 4.0, y), (x, y + 5.0), (x - 4.0, y)], Pen::fill(ink::GREEN));
}

fn across(svg: &mut Svg, line: &Line, (x, y, bottom): (f64, f64, f64), width: f64) {
    let (colour, pen) = if line.limit {
        (ink::VERMILION, Pen::dashed(ink::VERMILION, 1.2))
    } else {
        (ink::GREEN, Pen::dashed(ink::GREEN, 1.0))
    };
    svg.line((x, y - 2.0), (x, bottom), pen);
    let left = x > 0.5 * width;
    let (dx, anchor) = if left { (-3.0, Anchor::End) } else { (3.0, Anchor::Start) };
    svg.halo((x + dx, y + 2.0), &line.name, Letters::bold(7.0, anchor), colour);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn overlapping_windows_are_marked_as_such() {
        let window = |name: &str, low: f64, high: f64| Row {
            name: name.into(),
            kind: RowKind::Window { low, nominal: 0.5 * (low + high), high },
        };
        let picture = |second: f64| SequencePicture {
            label: "psi".into(),
            rows: vec![window("first", 1000.0, 1200.0), window("second", second, 2000.0)],
            lines: vec![],
        };
        assert!(!sequence(&picture(1500.0), 500.0).contains(ink::VERMILION));
        assert!(sequence(&picture(1100.0), 500.0).contains(ink::VERMILION));
    }
}
