//! The picture of docs/real-hole.md: hole size, bends, packers and sleeves over the lateral.

use plan::layout::Layout;

use super::real_hole::{BIT, LARGEST_HOLE, SHARPEST, TOTAL_DEPTH};

/// Depths shown, ft.
const SHOWN: (f64, f64) = (11_100.0, TOTAL_DEPTH + 20.0);
/// Readings are drawn as the smallest and largest of so many feet.
const BIN: f64 = 15.0;
/// Paper, points.
const WIDTH: f64 = 1000.0;
const HEIGHT: f64 = 470.0;
const LEFT: f64 = 60.0;
const RIGHT: f64 = 16.0;

/// A strip of the paper with its own scale.
struct Track {
    top: f64,
    bottom: f64,
    low: f64,
    high: f64,
}

impl Track {
    fn y(&self, value: f64) -> f64 {
        self.bottom - (value - self.low) / (self.high - self.low) * (self.bottom - self.top)
    }

    fn frame(&self, title: &str, ticks: &[f64]) -> String {
        let mut out = format!(
            "<rect x=\"{LEFT}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\" fill=\"none\" stroke=\"#7a7a7a\"/>\n\
             <text x=\"{LEFT}\" y=\"{:.1}\" font-weight=\"bold\">{title}</text>\n",
            self.top,
            WIDTH - LEFT - RIGHT,
            self.bottom - self.top,
            self.top - 6.0
        );
        for tick in ticks {
            let y = self.y(*tick);
            out += &line((LEFT, y), (WIDTH - RIGHT, y), "stroke=\"#dcdcdc\"");
            out += &format!(
                "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{tick}</text>\n",
                LEFT - 5.0,
                y + 4.0
            );
        }
        out
    }

    fn limit(&self, value: f64, words: &str) -> String {
        let y = self.y(value);
        line((LEFT, y), (WIDTH - RIGHT, y), "stroke=\"#d55e00\" stroke-dasharray=\"6 3\"")
            + &format!("<text x=\"{:.1}\" y=\"{:.1}\" fill=\"#d55e00\">{words}</text>\n", LEFT + 4.0, y - 3.0)
    }
}

fn x(depth: f64) -> f64 {
    LEFT + (depth - SHOWN.0) / (SHOWN.1 - SHOWN.0) * (WIDTH - LEFT - RIGHT)
}

fn line((x1, y1): (f64, f64), (x2, y2): (f64, f64), how: &str) -> String {
    format!("<line x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\" {how}/>\n")
}

/// Hole size as a band: smallest and largest of each bin.
fn band(readings: &[(f64, f64)], track: &Track) -> String {
    let bins = ((SHOWN.1 - SHOWN.0) / BIN).ceil() as usize;
    let (mut over, mut under) = (Vec::new(), Vec::new());
    for bin in 0..bins {
        let top = SHOWN.0 + BIN * bin as f64;
        let inside = || readings.iter().filter(|(d, _)| (top..top + BIN).contains(d)).map(|(_, s)| *s);
        let (large, small) = (inside().fold(0.0, f64::max), inside().fold(99.0, f64::min));
        if large > 0.0 {
            over.push(format!("{:.1},{:.1}", x(top + 0.5 * BIN), track.y(large)));
            under.push(format!("{:.1},{:.1}", x(top + 0.5 * BIN), track.y(small)));
        }
    }
    under.reverse();
    format!(
        "<polygon points=\"{} {}\" fill=\"#56b4e9\" stroke=\"#0072b2\"/>\n",
        over.join(" "),
        under.join(" ")
    )
}

fn bends(courses: &[(f64, f64, f64)], track: &Track) -> String {
    let shown = courses.iter().filter(|(a, b, _)| *b > SHOWN.0 && *a < SHOWN.1);
    let bar = |(a, b, severity): &(f64, f64, f64)| {
        let (left, top) = (x(a.max(SHOWN.0)), track.y(severity.min(track.high)));
        let colour = if *severity > SHARPEST { "#e69f00" } else { "#5b6670" };
        format!(
            "<rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"{:.1}\" height=\"{:.1}\" fill=\"{colour}\"/>\n",
            x(*b) - left,
            track.bottom - top
        )
    };
    shown.map(bar).collect()
}

/// Packers as bars through all tracks, sleeves as triangles below.
fn tools(layout: &Layout, (top, bottom): (f64, f64)) -> String {
    let mut out = String::new();
    for stage in &layout.stages {
        let (a, b) = (x(stage.packer.element_top.in_ft()), x(stage.packer.element_bottom.in_ft()));
        out += &format!(
            "<rect x=\"{a:.1}\" y=\"{top:.1}\" width=\"{:.1}\" height=\"{:.1}\" fill=\"#009e73\" fill-opacity=\"0.75\"/>\n",
            (b - a).max(2.0),
            bottom - top
        );
        let ports = x(stage.sleeve.ports.in_ft());
        let foot = bottom + 14.0;
        out += &format!(
            "<polygon points=\"{ports:.1},{:.1} {:.1},{foot:.1} {:.1},{foot:.1}\" fill=\"#1b1b1b\"/>\n\
             <text x=\"{ports:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{}</text>\n",
            bottom + 4.0,
            ports - 5.0,
            ports + 5.0,
            foot + 13.0,
            stage.stage
        );
    }
    out
}

/// The picture as SVG: readings (ft, in) and courses (ft, ft, deg/100 ft) at the tally's depths.
pub fn draw(readings: &[(f64, f64)], courses: &[(f64, f64, f64)], layout: &Layout) -> String {
    let hole = Track { top: 34.0, bottom: 220.0, low: 8.2, high: 8.9 };
    let bend = Track { top: 250.0, bottom: 350.0, low: 0.0, high: 7.0 };
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" font-family=\"sans-serif\" \
         font-size=\"12\" fill=\"#1b1b1b\">\n<rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"#ffffff\"/>\n"
    );
    out += &hole.frame("Hole size, in", &[8.2, 8.3, 8.4, 8.5, 8.6, 8.7, 8.8, 8.9]);
    out += &bend.frame("Dogleg severity, deg/100 ft", &[0.0, 2.0, 4.0, 6.0]);
    out += &bends(courses, &bend);
    out += &tools(layout, (hole.top, bend.bottom));
    out += &band(readings, &hole);
    out += &line(
        (LEFT, hole.y(BIT)),
        (WIDTH - RIGHT, hole.y(BIT)),
        "stroke=\"#1b1b1b\" stroke-dasharray=\"2 3\"",
    );
    out += &format!("<text x=\"{:.1}\" y=\"{:.1}\">bit</text>\n", LEFT + 4.0, hole.y(BIT) + 12.0);
    out += &hole.limit(LARGEST_HOLE, "largest hole of the packer");
    out += &bend.limit(SHARPEST, "sharpest bend of the packer");
    for depth in (112..=144).step_by(4).map(|d| f64::from(d) * 100.0) {
        out += &line((x(depth), bend.bottom), (x(depth), bend.bottom + 4.0), "stroke=\"#7a7a7a\"");
        out += &format!(
            "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{depth}</text>\n",
            x(depth),
            400.0
        );
    }
    out += &format!(
        "<text x=\"{LEFT}\" y=\"418\">measured depth, ft; the toe is on the right</text>\n\
         <rect x=\"{LEFT}\" y=\"436\" width=\"12\" height=\"12\" fill=\"#009e73\"/>\
         <text x=\"{:.1}\" y=\"447\">packer element</text>\n\
         <polygon points=\"{:.1},436 {:.1},448 {:.1},448\"/>\
         <text x=\"{:.1}\" y=\"447\">sleeve, with its stage</text>\n\
         <rect x=\"{:.1}\" y=\"436\" width=\"12\" height=\"12\" fill=\"#56b4e9\" stroke=\"#0072b2\"/>\
         <text x=\"{:.1}\" y=\"447\">caliper, smallest to largest of {BIN} ft</text>\n\
         <rect x=\"{:.1}\" y=\"436\" width=\"12\" height=\"12\" fill=\"#e69f00\"/>\
         <text x=\"{:.1}\" y=\"447\">course too sharp for the packer</text>\n</svg>\n",
        LEFT + 18.0,
        LEFT + 136.0,
        LEFT + 130.0,
        LEFT + 142.0,
        LEFT + 148.0,
        LEFT + 300.0,
        LEFT + 318.0,
        LEFT + 540.0,
        LEFT + 558.0
    );
    out
}
