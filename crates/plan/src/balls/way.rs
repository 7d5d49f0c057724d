//! The way of a ball as the transport relation takes it, and the string as the pressure wave
//! sees it.

use physics::ball::terminal_velocity::Liquid;
use physics::ball::transit::Leg;
use physics::fluid::power_law::PowerLaw;
use physics::fluid::water_if97::water;
use physics::hydraulics::landing::LandingString;
use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
use physics::hydraulics::wave_speed::wave_speed;
use quantity::*;
use well::Job;
use well::job::{Fluid, Rheology, StringRole};

use crate::path::{FlowPath, PathPart, PathSegment};

/// Modulus of steel.
pub const YOUNG: Pressure = Pressure::gpa(207.0);
/// Poisson's ratio of steel.
pub const POISSON: f64 = 0.3;

/// The liquid round the ball: the clean fluid it rides in, a power-law fluid at its apparent
/// viscosity at the wall of the bore.
pub fn liquid(fluid: &Fluid, rate: FlowRate, bore: Diameter) -> physics::Result<Liquid> {
    let viscosity = match (fluid.rheology, fluid.flow_index, fluid.consistency) {
        (Rheology::PowerLaw, Some(n), Some(k)) => {
            let law = PowerLaw { n: n.si(), k };
            let shear = law.pipe_shear(fluid.density, rate / bore.circle(), bore)?;
            law.apparent_viscosity(shear.wall_shear_rate)?
        }
        _ => fluid.viscosity.unwrap_or(Viscosity::cp(1.0)),
    };
    Ok(Liquid { density: fluid.density, viscosity })
}

/// Legs from the wellhead to a depth: bores of the path, cut at the survey's stations so that the
/// inclination is followed.
pub(super) fn legs(job: &Job, path: &FlowPath, depth: MeasuredDepth, liquid: Liquid) -> Vec<Leg> {
    let segments = path.down_to(depth);
    let mut cuts: Vec<f64> = job.trajectory.stations().iter().map(|s| s.md.si()).collect();
    cuts.extend(segments.iter().flat_map(|s| [s.top.si(), s.bottom.si()]));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|b, a| *b - *a < 1e-3);
    let mut out = Vec::with_capacity(cuts.len());
    let mut at = 0;
    for pair in cuts.windows(2) {
        let (top, bottom) = (pair[0], pair[1]);
        let middle = 0.5 * (top + bottom);
        while segments.get(at).is_some_and(|s| s.bottom.si() < middle) {
            at += 1;
        }
        let Some(segment) = segments.get(at).filter(|s| s.top.si() <= middle) else { continue };
        out.push(Leg {
            length: Length::m(bottom - top),
            from: job.trajectory.inclination_at(MeasuredDepth::m(top)),
            to: job.trajectory.inclination_at(MeasuredDepth::m(bottom)),
            bore: segment.bore,
            liquid,
        });
    }
    out
}

/// Volumes of the path by bore: sections whose bores err on their own.
pub(super) fn sections(segments: &[PathSegment]) -> Vec<Volume> {
    crate::stages::pressure::bores(segments).iter().map(|b| b.length * b.bore.circle()).collect()
}

/// Outer diameter of the pipe of a segment: of its string, or of the tool's body.
fn outside(job: &Job, part: PathPart) -> Diameter {
    let string = |role| job.strings.iter().find(|s| s.table.role == role).map(|s| s.pipe.outer());
    match part {
        PathPart::Treating => string(StringRole::Treating),
        PathPart::Packer => Some(job.file.packer.mandrel_od),
        PathPart::CasingPacker => Some(job.file.casing_packer.od),
        PathPart::Sleeve => Some(job.file.sleeve.od),
        PathPart::Liner => string(StringRole::Liner),
    }
    .unwrap_or(Diameter::inch(4.5))
}

/// The string a pressure wave runs in, down to a depth: travel time over every bore, step of the bore at the seat.
pub fn string(
    job: &Job,
    path: &FlowPath,
    depth: MeasuredDepth,
    fluid: &Fluid,
) -> physics::Result<LandingString> {
    let (mut time, mut length) = (0.0, 0.0);
    let mut bore = job.file.sleeve.id;
    // Modulus of water at the pumped temperature and half the treating limit: it varies by 2 %
    // along the pipe.
    let pressure = AbsolutePressure::pa(0.5 * job.file.limits.treating_pressure.si() + constant::ATMOSPHERE);
    let modulus = water(job.file.rock.pumped_temperature, pressure)?.isentropic_modulus();
    for s in path.down_to(depth) {
        let wall = PipeWall { bore: s.bore, outside: outside(job, s.part), young: YOUNG, poisson: POISSON };
        let compliance = wall_compliance(&wall, WallTheory::Thick, Restraint::AnchoredThroughout)?;
        let speed = wave_speed(fluid.density, modulus, compliance)?;
        let span = (s.bottom - s.top).si();
        time += span / speed.si();
        length += span;
        if s.part == PathPart::Liner {
            bore = s.bore;
        }
    }
    let speed = if time > 0.0 { length / time } else { 1400.0 };
    Ok(LandingString {
        density: fluid.density,
        wave_speed: Velocity::m_per_s(speed),
        bore,
        length: Length::m(length),
    })
}
