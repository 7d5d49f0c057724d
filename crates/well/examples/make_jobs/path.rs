//! A drilled path: vertical, build and lateral, steered by slides between rotated stretches.
//! Lengths in metres, angles in degrees, curvatures in degrees per 30 m.

use super::noise::Noise;
use super::vector::{Vector, across, from_angles, scaled_sum, unit};

/// Distance between the points of a path.
pub const STEP: f64 = 0.25;
/// Length drilled between decisions in the build: one joint.
const JOINT: f64 = 9.5;

/// What the directional driller was asked for.
pub struct Plan {
    /// Measured depth of the bottom.
    pub total: f64,
    /// Measured depth where the build starts.
    pub kickoff: f64,
    /// Azimuth of the lateral.
    pub azimuth: f64,
    /// Build rates, each held up to an inclination.
    pub build: &'static [(f64, f64)],
    /// Inclination steered to, by measured depth.
    pub lateral: &'static [(f64, f64)],
    /// Length of a stand of drill pipe.
    pub stand: f64,
    /// Build or turn of the motor when it slides.
    pub motor: f64,
}

/// One point of the path.
#[derive(Clone, Copy)]
pub struct Point {
    /// Measured depth.
    pub depth: f64,
    /// Direction: north, east, down.
    pub direction: Vector,
    /// Whether the bit slid here.
    pub sliding: bool,
}

/// The bit on its way down.
struct Bit {
    points: Vec<Point>,
    direction: Vector,
}

impl Bit {
    fn depth(&self) -> f64 {
        self.points.len() as f64 * STEP
    }

    /// Drills one step, bending by `curvature` toward `side`.
    fn drill(&mut self, curvature: f64, side: Vector, sliding: bool) {
        self.points.push(Point { depth: self.depth(), direction: self.direction, sliding });
        let bend = (curvature * STEP / 30.0).to_radians();
        self.direction = unit(scaled_sum(self.direction, 1.0, side, bend));
    }

    fn inclination(&self) -> f64 {
        super::vector::angles(self.direction).0
    }
}

/// Drills the plan.
pub fn drill(plan: &Plan, noise: &mut Noise) -> Vec<Point> {
    let mut bit = Bit { points: Vec::new(), direction: [0.0, 0.0, 1.0] };
    vertical(plan, &mut bit, noise);
    build(plan, &mut bit, noise);
    lateral(plan, &mut bit, noise);
    bit.points
}

/// Near vertical: the tilt wanders.
fn vertical(plan: &Plan, bit: &mut Bit, noise: &mut Noise) {
    let count = (plan.kickoff / STEP) as usize;
    let north = noise.along(count, 0.010, STEP, 320.0);
    let east = noise.along(count, 0.010, STEP, 320.0);
    for (i, (n, e)) in north.iter().zip(&east).enumerate() {
        let start = (i as f64 * STEP / 150.0).min(1.0);
        bit.direction = unit([n * start, e * start, 1.0]);
        bit.drill(0.0, [0.0; 3], false);
    }
}

/// The build, joint by joint, each with its own yield and toolface error.
fn build(plan: &Plan, bit: &mut Bit, noise: &mut Noise) {
    let target = from_angles(90.0, plan.azimuth);
    for (until, rate) in plan.build {
        while bit.inclination() < *until && bit.depth() < plan.total {
            let curvature = rate * (1.0 + 0.10 * noise.normal());
            let error = 0.10 * noise.normal();
            for _ in 0..(JOINT / STEP) as usize {
                if bit.inclination() >= *until {
                    break;
                }
                let up = across(target, bit.direction);
                let side = unit(scaled_sum(up, 1.0, super::vector::cross(bit.direction, up), error));
                bit.drill(curvature, side, true);
            }
        }
    }
}

/// The lateral, stand by stand: a slide when the bit is off its course, then rotation with the
/// assembly's own tendency.
fn lateral(plan: &Plan, bit: &mut Bit, noise: &mut Noise) {
    while bit.depth() < plan.total {
        let wanted = between(plan.lateral, bit.depth());
        let (inclination, azimuth) = super::vector::angles(bit.direction);
        let off = libm::hypot(inclination - wanted, azimuth - plan.azimuth);
        let (drop, walk) = (0.85 * noise.normal() - 0.15, 0.70 * noise.normal() + 0.30);
        let error = 0.15 * noise.normal();
        let slide = if off > 1.1 { (off / plan.motor * 30.0).clamp(3.0, 0.45 * plan.stand) } else { 0.0 };
        let target = from_angles(wanted, plan.azimuth);
        for i in 0..(plan.stand / STEP) as usize {
            if bit.depth() >= plan.total {
                break;
            }
            let up = across([0.0, 0.0, -1.0], bit.direction);
            let right = super::vector::cross(bit.direction, up);
            if (i as f64) * STEP < slide {
                let toward = across(target, bit.direction);
                let side = unit(scaled_sum(toward, 1.0, super::vector::cross(bit.direction, toward), error));
                bit.drill(plan.motor, side, true);
            } else {
                let side = scaled_sum(up, drop, right, walk);
                bit.drill(1.0, side, false);
            }
        }
    }
}

/// Linear between rows, constant beyond them.
fn between(rows: &[(f64, f64)], at: f64) -> f64 {
    let after = rows.iter().position(|(d, _)| *d > at);
    match after {
        Some(0) => rows.first().map_or(90.0, |r| r.1),
        Some(i) => {
            let ((d0, v0), (d1, v1)) = (rows[i - 1], rows[i]);
            v0 + (v1 - v0) * (at - d0) / (d1 - d0)
        }
        None => rows.last().map_or(90.0, |r| r.1),
    }
}

/// The point at a depth.
pub fn at(points: &[Point], depth: f64) -> Option<&Point> {
    let index = (depth.max(0.0) / STEP) as usize;
    points.get(index).or(points.last())
}
