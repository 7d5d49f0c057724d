//! Every device that pressure works, at its own depth, with its range brought to the surface.

use physics::Result;
use physics::packer::surface_pressure::{Reference, surface_pressure};
use quantity::*;
use well::Job;
use well::job::{AfterSetting, Device, Reference as Measured, SystemKind};

use super::result::{DeviceKind, DeviceWindow, Outside};
use crate::device::device_range;
use crate::layout::Layout;

/// Where a device stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub kind: DeviceKind,
    pub stage: Option<usize>,
    pub depth: MeasuredDepth,
    pub tvd: TrueVerticalDepth,
}

/// Pressure of a column at rest.
pub(super) fn column(density: Density, tvd: TrueVerticalDepth) -> Pressure {
    density.gradient() * Length::m(tvd.si())
}

/// Pressure outside the string at a depth, gauge.
pub(super) fn outside_pressure(job: &Job, outside: Outside, tvd: TrueVerticalDepth) -> GaugePressure {
    let setting = &job.file.setting;
    match outside {
        // What is trapped is the annulus as it stood when the packers set.
        Outside::Annulus | Outside::Trapped => {
            setting.annulus_pressure + column(setting.outside_density, tvd)
        }
        Outside::Formation => (job.file.rock.pore_gradient * Length::m(tvd.si())).gauge(),
        Outside::Absolute => AbsolutePressure::ZERO.gauge(),
    }
}

/// What stands outside between packers that have set.
pub(super) fn after_setting(job: &Job) -> Outside {
    match job.file.setting.after_setting {
        AfterSetting::Trapped => Outside::Trapped,
        AfterSetting::Formation => Outside::Formation,
    }
}

/// The lower of the pressures that may stand outside the liner before and after setting.
pub(super) fn lowest_outside(job: &Job, tvd: TrueVerticalDepth) -> GaugePressure {
    outside_pressure(job, Outside::Annulus, tvd).min(outside_pressure(job, after_setting(job), tvd))
}

/// The other side of a device for the relation.
pub(super) fn reference(job: &Job, outside: Outside, tvd: TrueVerticalDepth) -> Reference {
    let setting = &job.file.setting;
    match outside {
        Outside::Annulus => Reference::Annulus(setting.annulus_pressure, setting.outside_density),
        Outside::Trapped | Outside::Formation => Reference::AtDepth(outside_pressure(job, outside, tvd)),
        Outside::Absolute => Reference::Chamber(AbsolutePressure::ZERO),
    }
}

/// The window of a device at its spot. `full_set` is a differential whatever the device that starts
/// it measures against.
pub(super) fn window(
    job: &Job,
    spot: Spot,
    device: &Device,
    full_set: Option<Pressure>,
) -> Result<DeviceWindow> {
    let differential = match spot.kind {
        DeviceKind::PressureSleeve => after_setting(job),
        _ => Outside::Annulus,
    };
    let outside = match device.reference {
        Measured::Absolute => Outside::Absolute,
        Measured::Differential => differential,
    };
    let inside = job.file.setting.inside_density;
    let at_surface = |p: Pressure, outside: Outside| {
        surface_pressure(p, inside, spot.tvd, reference(job, outside, spot.tvd))
    };
    let range = device_range(device);
    Ok(DeviceWindow {
        device: spot.kind,
        stage: spot.stage,
        depth: spot.depth,
        tvd: spot.tvd,
        outside,
        outside_pressure: outside_pressure(job, outside, spot.tvd),
        column: column(inside, spot.tvd),
        range,
        low: at_surface(range.low, outside)?,
        nominal: at_surface(range.nominal, outside)?,
        high: at_surface(range.high, outside)?,
        full_set,
        full_set_at: full_set.map(|p| at_surface(p, differential)).transpose()?,
    })
}

/// Where the casing packer sets: its middle.
pub(super) fn casing_packer_spot(job: &Job, layout: &Layout) -> Spot {
    let depth = layout.casing_packer_top + job.file.casing_packer.length / 2.0;
    Spot { kind: DeviceKind::CasingPacker, stage: None, depth, tvd: job.trajectory.tvd_at(depth) }
}

/// The seat of the toe tool.
pub(super) fn toe_spot(job: &Job, layout: &Layout) -> Spot {
    let depth = layout.toe_tool;
    Spot { kind: DeviceKind::Isolation, stage: None, depth, tvd: job.trajectory.tvd_at(depth) }
}

/// Open-hole packers at the middle of their elements, toe first.
pub(super) fn packer_spots(layout: &Layout) -> impl Iterator<Item = Spot> + '_ {
    layout.stages.iter().map(|s| Spot {
        kind: DeviceKind::Packer,
        stage: Some(s.stage),
        depth: s.packer.element_top + (s.packer.element_bottom - s.packer.element_top) / 2.0,
        tvd: s.packer.tvd,
    })
}

/// A device of the job file, as far as the kind of system has it.
pub(super) fn device_of(job: &Job, kind: DeviceKind) -> Option<&Device> {
    let (file, by_pressure) = (&job.file, job.file.system.kind == SystemKind::HydraulicSet);
    match kind {
        DeviceKind::CasingPacker => Some(&file.casing_packer.start),
        _ if !by_pressure => None,
        DeviceKind::Isolation => file.toe.isolation.as_ref(),
        DeviceKind::Packer => file.packer.start.as_ref(),
        DeviceKind::PressureSleeve => file.toe.pressure_sleeve.as_ref().map(|s| &s.opening),
    }
}

/// Every device in the order it is to act.
pub(super) fn devices(job: &Job, layout: &Layout) -> Result<Vec<DeviceWindow>> {
    let sleeve = layout.stages.first().map(|stage| Spot {
        kind: DeviceKind::PressureSleeve,
        stage: Some(stage.stage),
        depth: stage.sleeve.ports,
        tvd: stage.sleeve.tvd,
    });
    let spots = [toe_spot(job, layout), casing_packer_spot(job, layout)].into_iter();
    let mut out = Vec::new();
    for spot in spots.chain(packer_spots(layout)).chain(sleeve) {
        let Some(device) = device_of(job, spot.kind) else { continue };
        let full_set = match spot.kind {
            DeviceKind::CasingPacker => Some(job.file.casing_packer.full_set),
            DeviceKind::Packer => job.file.packer.full_set,
            DeviceKind::Isolation | DeviceKind::PressureSleeve => None,
        };
        out.push(window(job, spot, device, full_set)?);
    }
    Ok(out)
}
