//! The hole the bit left: its diameter as a caliper reads it, and the rate it was drilled at.

use super::noise::{Noise, bump, plateau};
use super::path::{self, Point};
use super::rock::Rock;
use super::unit::INCH;

/// What the hole looks like. Diameters in inches, depths in metres.
pub struct Plan {
    /// Bit size.
    pub bit: f64,
    /// Usual diameter over the bit's.
    pub over: f64,
    /// Length of a stand: the hole is a little wider where the pipe stood at connections.
    pub stand: f64,
    /// Elongated by breakout: from, to, how much.
    pub breakout: &'static [(f64, f64, f64)],
    /// Washed out: middle, half length, how much.
    pub washout: &'static [(f64, f64, f64)],
    /// Tight: middle, half length, how much.
    pub tight: &'static [(f64, f64, f64)],
    /// Rate of penetration when rotating, m/h.
    pub rate: f64,
}

/// Diameter (m) and rate of penetration (m/h) at each depth.
pub struct Bore {
    /// Diameter.
    pub diameter: Vec<f64>,
    /// Rate of penetration.
    pub rate: Vec<f64>,
}

/// Cuts the hole.
pub fn cut(plan: &Plan, points: &[Point], rock: &Rock, depths: &[f64], step: f64, noise: &mut Noise) -> Bore {
    let count = depths.len();
    let rough = noise.along(count, 0.008, step, 0.8);
    let slow = noise.along(count, 0.014, step, 35.0);
    let soft = noise.along(count, 0.16, step, 3.5);
    let ledges = ledges(plan, points, depths, noise);
    let spiral: Vec<f64> = noise.along(count, 0.012, step, 60.0);
    let diameter = (0..count).map(|i| {
        let at = depths[i];
        let shale = rock.shale[i];
        let washed = (shale * shale * (0.54 + soft[i])).clamp(0.0, 0.80);
        let turns = spiral[i].max(0.0) * libm::sin(at * std::f64::consts::TAU / 1.1);
        let local: f64 = ledges.iter().map(|(c, half, size)| size * bump(at, *c, *half)).sum();
        let named = plan.washout.iter().map(|(c, half, size)| size * bump(at, *c, *half)).fold(0.0, f64::max);
        let broken =
            plan.breakout.iter().map(|(a, b, size)| size * plateau(at, *a, *b, 6.0)).fold(0.0, f64::max);
        let tight: f64 = plan.tight.iter().map(|(c, half, size)| size * bump(at, *c, *half)).sum();
        let ragged = broken * (0.8 + soft[i]);
        plan.bit + plan.over + rough[i] + slow[i] + turns + washed + local + named + ragged - tight
    });
    let diameter = diameter.map(|d| d * INCH).collect();
    Bore { diameter, rate: rate(plan, points, rock, depths, step, noise) }
}

/// Places where the hole is wider or narrower for a metre or so: connections, slides, cake.
fn ledges(plan: &Plan, points: &[Point], depths: &[f64], noise: &mut Noise) -> Vec<(f64, f64, f64)> {
    let (top, bottom) = (depths.first().copied().unwrap_or(0.0), depths.last().copied().unwrap_or(0.0));
    let mut list = Vec::new();
    let mut at = top + noise.between(0.0, plan.stand);
    while at < bottom {
        list.push((at, noise.between(0.35, 0.9), noise.gap(0.055).min(0.28)));
        at += plan.stand + 0.2 * noise.normal();
    }
    for pair in points.windows(2).filter(|w| w[0].sliding != w[1].sliding && w[1].depth > top) {
        list.push((pair[1].depth, noise.between(0.3, 0.8), noise.gap(0.05).min(0.20)));
    }
    for at in noise.places(top, bottom, 130.0) {
        list.push((at, noise.between(0.3, 0.8), -noise.gap(0.045).min(0.13)));
    }
    list
}

fn rate(
    plan: &Plan,
    points: &[Point],
    rock: &Rock,
    depths: &[f64],
    step: f64,
    noise: &mut Noise,
) -> Vec<f64> {
    let slow = noise.along(depths.len(), 0.12, step, 25.0);
    let fast = noise.along(depths.len(), 0.06, step, 1.0);
    let mut smooth = plan.rate;
    (0..depths.len())
        .map(|i| {
            let sliding = path::at(points, depths[i]).is_some_and(|p| p.sliding);
            let wanted = plan.rate * if sliding { 0.40 } else { 1.0 } * (1.0 - 0.35 * rock.shale[i]);
            smooth += (wanted - smooth) * step / 0.6;
            (smooth * (1.0 + slow[i] + fast[i])).max(1.0)
        })
        .collect()
}
