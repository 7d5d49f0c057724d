//! The survey file: what a gyro and a measurement-while-drilling tool read along a path, and
//! the position they report by minimum curvature.

use super::noise::Noise;
use super::path::{self, Point};
use super::unit::Unit;
use super::vector::{Vector, angles, dot, from_angles};

/// How a path was surveyed.
pub struct Plan {
    /// Lines of the head, without their marks.
    pub head: &'static [&'static str],
    /// Unit of the file.
    pub unit: Unit,
    /// Bottom of the gyro run.
    pub gyro: f64,
    /// Depth and text of remarks that stand between the stations.
    pub remarks: &'static [(f64, &'static str)],
    /// Depths between which stations are a joint apart.
    pub dense: (f64, f64),
    /// Azimuth of the vertical section.
    pub section: f64,
}

/// A station as the file has it, depths in the file's unit.
struct Station {
    depth: f64,
    inclination: f64,
    azimuth: f64,
    tool: &'static str,
}

/// The text of the file.
pub fn text(plan: &Plan, points: &[Point], noise: &mut Noise) -> String {
    let stations = stations(plan, points, noise);
    let mut out: String = plan.head.iter().map(|line| format!("# {line}\n")).collect();
    let (long, per) = (plan.unit.symbol(), plan.unit.curvature_symbol());
    out += &format!(
        "MD ({long}),Inc (deg),Azi (deg),TVD ({long}),North ({long}),East ({long}),VS ({long}),DLS ({per}),Remark\n"
    );
    let mut place: Vector = [0.0; 3];
    let mut before: Option<&Station> = None;
    let mut remarks = plan.remarks.iter().peekable();
    for station in &stations {
        let bend = before.map_or(0.0, |b| advance(&mut place, b, station));
        let length = before.map_or(0.0, |b| station.depth - b.depth);
        let severity =
            if length > 0.0 { bend.to_degrees() / length * plan.unit.curvature_length() } else { 0.0 };
        while let Some((_, remark)) =
            remarks.next_if(|(depth, _)| plan.unit.of_metres(*depth) < station.depth)
        {
            out += &format!("# {remark}\n");
        }
        out += &line(plan, station, place, severity);
        before = Some(station);
    }
    out
}

fn line(plan: &Plan, s: &Station, place: Vector, severity: f64) -> String {
    let section = plan.section.to_radians();
    let along = place[0] * libm::cos(section) + place[1] * libm::sin(section);
    let decimals = plan.unit.depth_decimals();
    let [north, east, down] = [place[0], place[1], place[2]].map(tidy);
    format!(
        "{:.decimals$},{:.2},{:.2},{down:.2},{north:.2},{east:.2},{:.2},{:.2},{}\n",
        s.depth,
        s.inclination,
        s.azimuth,
        tidy(along),
        severity,
        s.tool
    )
}

/// No negative zero.
fn tidy(value: f64) -> f64 {
    if value.abs() < 0.005 { 0.0 } else { value }
}

/// Moves `place` from one station to the next along the arc of least curvature; gives the bend.
fn advance(place: &mut Vector, from: &Station, to: &Station) -> f64 {
    let (a, b) = (from_angles(from.inclination, from.azimuth), from_angles(to.inclination, to.azimuth));
    let bend = libm::acos(dot(a, b).clamp(-1.0, 1.0));
    // RF = 2/beta tan(beta/2)
    let ratio = if bend < 1e-6 { 1.0 } else { 2.0 / bend * libm::tan(bend / 2.0) };
    let half = 0.5 * (to.depth - from.depth) * ratio;
    for (p, (x, y)) in place.iter_mut().zip(a.iter().zip(&b)) {
        *p += half * (x + y);
    }
    bend
}

/// Where the tool was read, and what it read.
fn stations(plan: &Plan, points: &[Point], noise: &mut Noise) -> Vec<Station> {
    let bottom = points.last().map_or(0.0, |p| p.depth + path::STEP);
    let mut list = vec![Station { depth: 0.0, inclination: 0.0, azimuth: 0.0, tool: "Tie-in" }];
    let mut depth = 0.0;
    loop {
        let gyro = depth < plan.gyro;
        depth += match depth {
            _ if gyro => 30.48,
            d if d > plan.dense.0 && d < plan.dense.1 => 9.5 + 0.1 * noise.normal(),
            _ => 28.7 + 0.25 * noise.normal(),
        };
        if depth > bottom - 12.0 {
            break;
        }
        list.push(read(plan, points, depth, noise));
    }
    let last = list.last().map_or((0.0, 0.0), |s| (s.inclination, s.azimuth));
    let depth = plan.unit.rounded(bottom);
    list.push(Station { depth, inclination: last.0, azimuth: last.1, tool: "Projection to TD" });
    list
}

fn read(plan: &Plan, points: &[Point], depth: f64, noise: &mut Noise) -> Station {
    let gyro = depth <= plan.gyro + 1.0;
    let direction = path::at(points, depth).map_or([0.0, 0.0, 1.0], |p| p.direction);
    let (inclination, azimuth) = angles(direction);
    let (tilt, turn) = if gyro { (0.02, 0.05) } else { (0.04, 0.15) };
    let swing = turn / libm::sin(inclination.to_radians()).max(0.02);
    let azimuth = (azimuth + swing.min(4.0) * noise.normal()).rem_euclid(360.0);
    Station {
        depth: plan.unit.rounded(depth),
        inclination: hundredths((inclination + tilt * noise.normal()).abs()),
        azimuth: hundredths(azimuth).rem_euclid(360.0),
        tool: if gyro { "Gyro" } else { "MWD" },
    }
}

fn hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}
