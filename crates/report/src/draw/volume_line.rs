//! The way of one ball along the volume pumped since it was launched: where the rate is cut, where
//! to look for the landing, and where it counts as missing.

use super::axis::{Axis, tick_text};
use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// Volumes since launch, in the unit shown.
#[derive(Debug, Clone)]
pub struct VolumeLine {
    /// Label of the line, with its unit.
    pub label: String,
    /// The rate is cut.
    pub cut: f64,
    /// Look for the landing from here.
    pub opens: f64,
    /// Landing: P10, P50, P90.
    pub band: (f64, f64, f64),
    /// Late past this.
    pub closes: f64,
    /// Missing past this.
    pub missing: f64,
    /// Decimals of the volumes.
    pub decimals: usize,
}

/// Room at the right of the line for its label.
const LABEL: f64 = 102.0;

/// Draws the line from a little before the cut; what lies before is not drawn.
pub fn volume_line(line: &VolumeLine, width: f64) -> String {
    let mut svg = Svg::new(width, 34.0);
    let span = (line.missing - line.cut).max(1e-9);
    let axis = Axis {
        label: String::new(),
        ends: (line.cut - 0.03 * span, line.missing + 0.03 * span),
        whole: false,
    };
    let (left, right, y) = (10.0, width - LABEL, 20.0);
    let x = |v: f64| left + axis.share(v) * (right - left);
    let (ticks, step) = axis.ticks(8);
    svg.line((left, y), (right, y), Pen::line(ink::BLACK, 0.8));
    for tick in ticks {
        svg.line((x(tick), y), (x(tick), y + 3.0), Pen::line(ink::BLACK, 0.5));
        svg.text((x(tick), y + 10.0), &tick_text(tick, step), Letters::plain(7.0, Anchor::Middle), ink::GREY);
    }
    svg.rect((x(line.opens), y - 6.0), (x(line.closes) - x(line.opens), 6.0), Pen::fill(ink::SKY).pale());
    svg.rect((x(line.band.0), y - 6.0), (x(line.band.2) - x(line.band.0), 6.0), Pen::fill(ink::SKY));
    svg.line((x(line.band.1), y - 8.0), (x(line.band.1), y), Pen::line(ink::BLACK, 1.4));
    let n = |v: f64| quantity::number(v, line.decimals);
    let (cut, missing) = (format!("cut the rate {}", n(line.cut)), format!("missing {}", n(line.missing)));
    mark(&mut svg, x(line.cut), y, (&cut, Anchor::Start, ink::BLACK));
    mark(&mut svg, x(line.missing), y, (&missing, Anchor::End, ink::VERMILION));
    let look = format!("look {} to {}, most likely {}", n(line.opens), n(line.closes), n(line.band.1));
    let middle = 0.5 * (x(line.opens) + x(line.closes));
    // The words keep clear of those at both sides, however close the volumes are.
    let half = 0.5 * wide(&look) + 6.0;
    let (from, to) = (x(line.cut) + wide(&cut) + half, x(line.missing) - wide(&missing) - half);
    let middle = middle.max(from).min(to.max(from));
    svg.text((middle, y - 11.0), &look, Letters::bold(7.0, Anchor::Middle), ink::BLACK);
    svg.text((right + 6.0, y + 2.5), &line.label, Letters::plain(7.0, Anchor::Start), ink::GREY);
    svg.finish()
}

/// Width of a bold text of the size used here, near enough.
fn wide(text: &str) -> f64 {
    4.9 * text.chars().count() as f64
}

fn mark(svg: &mut Svg, x: f64, y: f64, (text, anchor, colour): (&str, Anchor, &str)) {
    svg.line((x, y - 9.0), (x, y + 3.0), Pen::line(colour, 1.2));
    svg.text((x, y - 11.0), text, Letters::bold(7.0, anchor), colour);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_over_the_line_keep_apart() {
        let line = VolumeLine {
            label: "bbl".into(),
            cut: 100.0,
            opens: 101.0,
            band: (102.0, 104.0, 106.0),
            closes: 108.0,
            missing: 200.0,
            decimals: 1,
        };
        let text = volume_line(&line, 500.0);
        let at = |word: &str| -> f64 {
            let row = text.lines().find(|l| l.contains(word)).unwrap();
            row.split('"').nth(1).unwrap().parse().unwrap()
        };
        let look = "look 101.0 to 108.0, most likely 104.0";
        let left = at(look) - 0.5 * wide(look);
        assert!(left > at("cut the rate") + wide("cut the rate 100.0"), "{text}");
    }
}
