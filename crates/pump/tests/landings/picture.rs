//! The picture of docs/real-landings.md: ten landings and four rings, measured and modelled.

use super::compare::{FOLLOWED, Landed, Rung};

/// Paper and panels, points.
const WIDTH: f64 = 1000.0;
const HEIGHT: f64 = 612.0;
const PANEL: (f64, f64) = (152.0, 135.0);
const LEFT: f64 = 38.0;
const PITCH: (f64, f64) = (194.0, 180.0);
const MODEL: &str = "#d55e00";
const SEEN: &str = "#0072b2";

/// A panel of the paper with its own scales.
struct Panel {
    left: f64,
    top: f64,
    x: (f64, f64),
    y: (f64, f64),
}

impl Panel {
    fn at(place: usize, top: f64, (x, y): ((f64, f64), (f64, f64))) -> Self {
        let (column, row) = ((place % 5) as f64, (place / 5) as f64);
        Self { left: LEFT + PITCH.0 * column, top: top + PITCH.1 * row, x, y }
    }

    fn point(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let share = |v: f64, (low, high): (f64, f64)| (v - low) / (high - low);
        (self.left + share(x, self.x) * PANEL.0, self.top + PANEL.1 - share(y, self.y) * PANEL.1)
    }

    fn frame(&self, title: &str, xs: &[f64], ys: &[f64]) -> String {
        let (l, t, w, h) = (self.left, self.top, PANEL.0, PANEL.1);
        let mut out = format!(
            "<rect x=\"{l:.1}\" y=\"{t:.1}\" width=\"{w:.1}\" height=\"{h:.1}\" fill=\"none\" stroke=\"#7a7a7a\"/>\n\
             <text x=\"{l:.1}\" y=\"{:.1}\" font-weight=\"bold\">{title}</text>\n",
            t - 5.0
        );
        for tick in xs {
            let x = self.point((*tick, self.y.0)).0;
            out += &format!(
                "<line x1=\"{x:.1}\" y1=\"{t:.1}\" x2=\"{x:.1}\" y2=\"{:.1}\" stroke=\"#e4e4e4\"/>\
                 <text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{tick}</text>\n",
                t + h,
                t + h + 13.0
            );
        }
        for tick in ys {
            let y = self.point((self.x.0, *tick)).1;
            out += &format!(
                "<line x1=\"{l:.1}\" y1=\"{y:.1}\" x2=\"{:.1}\" y2=\"{y:.1}\" stroke=\"#e4e4e4\"/>\
                 <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{tick}</text>\n",
                l + w,
                l - 3.0,
                y + 4.0
            );
        }
        out
    }

    fn curve(&self, points: &[(f64, f64)], colour: &str) -> String {
        let inside = points.iter().filter(|(x, _)| (self.x.0..=self.x.1).contains(x));
        let drawn: Vec<String> = inside
            .map(|p| {
                let (x, y) = self.point(*p);
                format!("{x:.1},{y:.1}")
            })
            .collect();
        format!(
            "<polyline points=\"{}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"1.4\"/>\n",
            drawn.join(" ")
        )
    }

    fn dots(&self, points: &[(f64, f64)]) -> String {
        let inside = points.iter().filter(|(x, _)| (self.x.0..=self.x.1).contains(x));
        inside
            .map(|p| {
                let (x, y) = self.point(*p);
                format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"2\" fill=\"{SEEN}\"/>\n")
            })
            .collect()
    }
}

fn landing(place: usize, l: &Landed<'_>) -> String {
    let panel = Panel::at(place, 52.0, ((-5.0, FOLLOWED), (-100.0, 1600.0)));
    let title = format!("Stage {}, {:.0} ft", l.stage.number, l.stage.depth);
    // steps of the model are much finer than the paper
    let thin: Vec<_> = l.modelled.iter().step_by(8).copied().collect();
    panel.frame(&title, &[-5.0, 0.0, 5.0, 10.0, 15.0], &[0.0, 500.0, 1000.0, 1500.0])
        + &panel.curve(&thin, MODEL)
        + &panel.dots(&l.measured)
}

fn ring(place: usize, stage: u32, r: &Rung) -> String {
    let panel = Panel::at(place, 52.0 + 2.0 * PITCH.1 + 40.0, ((0.0, 25.0), (-1.0, 1.0)));
    let lags = |of: &[f64]| of.iter().enumerate().map(|(lag, v)| (lag as f64, *v)).collect::<Vec<_>>();
    panel.frame(&format!("Stage {stage}"), &[0.0, 5.0, 10.0, 15.0, 20.0, 25.0], &[-1.0, 0.0, 1.0])
        + &panel.curve(&lags(&r.model_likeness), MODEL)
        + &panel.curve(&lags(&r.likeness), SEEN)
        + &panel.dots(&lags(&r.likeness))
}

/// The picture as SVG.
pub fn draw(landings: &[Landed<'_>], rings: &[(u32, &Rung)]) -> String {
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" font-family=\"sans-serif\" \
         font-size=\"11\" fill=\"#1b1b1b\">\n<rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"#ffffff\"/>\n\
         <text x=\"{LEFT}\" y=\"18\" font-size=\"13\">Rise of the surface pressure, psi, over seconds from the onset: \
         <tspan fill=\"{SEEN}\">measured, once a second</tspan>, <tspan fill=\"{MODEL}\">model</tspan></text>\n"
    );
    for (place, l) in landings.iter().enumerate() {
        out += &landing(place, l);
    }
    out += &format!(
        "<text x=\"{LEFT}\" y=\"{:.1}\" font-size=\"13\">Rings of the shut well: likeness to itself over the lag, s: \
         <tspan fill=\"{SEEN}\">measured</tspan>, <tspan fill=\"{MODEL}\">model</tspan></text>\n",
        52.0 + 2.0 * PITCH.1 + 8.0
    );
    for (place, (stage, r)) in rings.iter().enumerate() {
        out += &ring(place, *stage, r);
    }
    out + "</svg>\n"
}
