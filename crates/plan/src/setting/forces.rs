//! Forces of setting: pistons, the closed toe, the casing packer in its test, the stages' thrust.

use physics::Result;
use physics::packer::hydraulic_set::{ring_piston_force, seat_end_load};
use physics::packer::packer_thrust::{contact_required, packer_thrust};
use quantity::*;
use well::Job;

use super::devices::{after_setting, casing_packer_spot, column, lowest_outside, outside_pressure, toe_spot};
use super::result::{DeviceKind, DeviceWindow, PackerThrust, PistonForce};
use crate::layout::Layout;

/// Friction of rubber on rock for the contact stress: an assumption, listed as such.
pub(super) const FRICTION: f64 = 0.3;

/// Area of the piston of a device, where the supplier gives it.
pub(super) fn piston_area(job: &Job, kind: DeviceKind) -> Option<Area> {
    let packer = &job.file.packer;
    match kind {
        DeviceKind::CasingPacker => job.file.casing_packer.piston_area,
        DeviceKind::Packer => {
            let (outer, inner) = (packer.piston_od?, packer.piston_id?);
            (outer > inner).then(|| outer.ring(inner))
        }
        DeviceKind::Isolation | DeviceKind::PressureSleeve => None,
    }
}

/// Forces of every setting piston whose area is known. An open-hole packer's is a ring.
pub(super) fn pistons(
    job: &Job,
    devices: &[DeviceWindow],
    highest: GaugePressure,
) -> Result<Vec<PistonForce>> {
    let mut out = Vec::new();
    for device in devices {
        let Some(area) = piston_area(job, device.device) else { continue };
        let force = |difference: Pressure| -> Result<Force> {
            match (device.device, job.file.packer.piston_od, job.file.packer.piston_id) {
                (DeviceKind::Packer, Some(outer), Some(inner)) => ring_piston_force(difference, outer, inner),
                _ => Ok(difference * area),
            }
        };
        out.push(PistonForce {
            device: device.device,
            stage: device.stage,
            area,
            at_start: force(device.range.nominal)?,
            at_full_set: force(device.full_set.unwrap_or(device.range.high))?,
            at_highest: force(device.differential(highest))?,
        });
    }
    Ok(out)
}

/// Differential across the closed toe at a pressure at the surface, at its most.
pub(super) fn toe_differential(job: &Job, layout: &Layout, surface: GaugePressure) -> Pressure {
    let tvd = toe_spot(job, layout).tvd;
    surface + column(job.file.setting.inside_density, tvd) - lowest_outside(job, tvd)
}

/// Force down the string at the closed toe.
pub(super) fn end_load(job: &Job, layout: &Layout, surface: GaugePressure) -> Result<Force> {
    let bore = job.liner().map_or(job.file.sleeve.id, |l| l.bore());
    seat_end_load(toe_differential(job, layout, surface), bore)
}

/// Differential across the casing packer with a pressure on the annulus, annulus over below.
pub(super) fn casing_packer_differential(job: &Job, layout: &Layout, annulus: GaugePressure) -> Pressure {
    let tvd = casing_packer_spot(job, layout).tvd;
    let above = annulus + column(job.file.setting.outside_density, tvd);
    above - outside_pressure(job, after_setting(job), tvd)
}

/// Thrust on every packer by the differential it must hold.
pub(super) fn thrusts(job: &Job, layout: &Layout) -> Result<Vec<PackerThrust>> {
    let packer = &job.file.packer;
    let of = |place: &crate::layout::StagePlace| {
        let (differential, hole) = (place.packer.needed, place.packer.hole.worst);
        let thrust = packer_thrust(differential, hole, packer.mandrel_od)?;
        let contact_stress = contact_required(thrust, FRICTION, hole, packer.element_length)?;
        Ok(PackerThrust { stage: place.stage, differential, hole, thrust, contact_stress })
    };
    layout.stages.iter().map(of).collect()
}
