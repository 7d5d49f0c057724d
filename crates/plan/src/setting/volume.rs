//! The closed string: its volume, how it gives under pressure, and how fast a ball may land in it.

use physics::Result;
use physics::fluid::water_if97::{Water, water};
use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
use physics::hydraulics::sealed_pressure::SealedVolume;
use physics::hydraulics::wave_speed::wave_speed;
use quantity::*;
use well::Job;
use well::job::StringRole;

use super::devices::column;
use crate::layout::Layout;
use crate::path::{FlowPath, PathPart};

/// Modulus of steel.
pub(super) const YOUNG: Pressure = Pressure::gpa(207.0);
/// Poisson's ratio of steel.
pub(super) const POISSON: f64 = 0.3;

/// All of one bore and wall of the string.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub bore: Diameter,
    pub outside: Diameter,
    pub volume: Volume,
}

/// The string from the surface down to the toe tool, closed there.
#[derive(Debug, Clone)]
pub(super) struct ClosedString {
    pub parts: Vec<Part>,
    /// Water at its middle.
    pub water: Water,
    pub volume: Volume,
    /// Volume it takes per pressure, m³/Pa.
    storage: f64,
}

impl ClosedString {
    /// Of a job with its layout.
    pub fn of(job: &Job, layout: &Layout) -> Result<Self> {
        let parts = parts(job, layout);
        let middle = job.trajectory.tvd_at(MeasuredDepth::m(0.5 * layout.toe_tool.si()));
        let pressure = job.file.setting.test_pressure * 0.5 + column(job.file.setting.inside_density, middle);
        let water = water(job.rock_temperature(middle), pressure.absolute())?;
        let mut storage = 0.0;
        for part in &parts {
            storage += part.sealed(&water)?.volume_to_pump(UNIT)?.si() / UNIT.si();
        }
        let volume = parts.iter().map(|p| p.volume).sum();
        Ok(Self { parts, water, volume, storage })
    }

    /// Volume it holds at a pressure beyond what it holds without.
    pub fn held(&self, pressure: GaugePressure) -> Volume {
        Volume::m3(self.storage * pressure.si())
    }

    /// Compressibility of fluid and walls together.
    pub fn compressibility(&self) -> Compressibility {
        Compressibility::per_pa(if self.volume.si() > 0.0 { self.storage / self.volume.si() } else { 0.0 })
    }
}

/// The pressure at which the storage is taken; it is the same at any.
const UNIT: Pressure = Pressure::mpa(1.0);

impl Part {
    /// As a sealed volume.
    pub fn sealed(&self, water: &Water) -> Result<SealedVolume> {
        let wall = PipeWall { bore: self.bore, outside: self.outside, young: YOUNG, poisson: POISSON };
        let compliance = wall_compliance(&wall, WallTheory::Thick, Restraint::AnchoredThroughout)?;
        Ok(SealedVolume::liquid(self.volume, water.isothermal_modulus(), compliance))
    }
}

/// Parts of the string, those of one bore and wall together.
fn parts(job: &Job, layout: &Layout) -> Vec<Part> {
    let mut out: Vec<Part> = Vec::new();
    for s in FlowPath::of(job, layout).down_to(layout.toe_tool) {
        let Some(outside) = body(job, s.part).filter(|od| *od > s.bore) else { continue };
        let volume = (s.bottom - s.top) * s.bore.circle();
        match out.iter_mut().find(|p| p.bore == s.bore && p.outside == outside) {
            Some(part) => part.volume += volume,
            None => out.push(Part { bore: s.bore, outside, volume }),
        }
    }
    out
}

/// Outer diameter of the wall round a bore; the packers' mandrel, not their element.
fn body(job: &Job, part: PathPart) -> Option<Diameter> {
    let role = match part {
        PathPart::CasingPacker => return Some(job.file.casing_packer.od),
        PathPart::Packer => return Some(job.file.packer.mandrel_od),
        PathPart::Sleeve => return Some(job.file.sleeve.od),
        PathPart::Treating => StringRole::Treating,
        PathPart::Liner => StringRole::Liner,
    };
    job.strings.iter().find(|s| s.table.role == role).map(|s| s.pipe.outer())
}

/// A ball or plug that lands: the bore, the wave, and the rate at which the blow, doubled by a pump
/// that keeps its rate, reaches a pressure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Landing {
    pub bore: Diameter,
    pub outside: Diameter,
    pub wave_speed: Velocity,
    pub rate: FlowRate,
}

/// Highest rate of landing whose blow, doubled at the pump, stays at `room`.
pub(super) fn landing(job: &Job, string: &ClosedString, room: Pressure) -> Result<Option<Landing>> {
    let Some(liner) = job.liner() else { return Ok(None) };
    let (bore, outside) = (liner.bore(), liner.pipe.outer());
    let density = job.file.setting.inside_density;
    let wall = PipeWall { bore, outside, young: YOUNG, poisson: POISSON };
    let compliance = wall_compliance(&wall, WallTheory::Thick, Restraint::AnchoredThroughout)?;
    let wave_speed = wave_speed(density, string.water.isentropic_modulus(), compliance)?;
    // 2 rho a U = room
    let velocity = Velocity::m_per_s(room.max(Pressure::ZERO).si() / (2.0 * density.si() * wave_speed.si()));
    Ok(Some(Landing { bore, outside, wave_speed, rate: velocity * bore.circle() }))
}
