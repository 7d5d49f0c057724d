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

#[cfg(test)]
mod tests {
    use super::*;

    fn job() -> Job {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/shallow-oil");
        well::read_job(&well::Folder(folder)).value.unwrap()
    }

    fn device(psi: f64, reference: Measured) -> Device {
        let (nominal, none) = (Pressure::psi(psi), Ratio::ZERO);
        let (one, source) = (Ratio::of(1.0), String::new());
        Device {
            nominal,
            lot_bias: none,
            pin_scatter: none,
            pins: 1,
            reference,
            temperature_factor: one,
            source,
        }
    }

    fn deep(kind: DeviceKind) -> Spot {
        Spot { kind, stage: Some(1), depth: MeasuredDepth::m(4000.0), tvd: TrueVerticalDepth::m(2500.0) }
    }

    /// 2500 m, 2500 psi wanted: 2500.0 psi with equal fluids; 3211.2 psi with 1000 kg/m³ inside and
    /// 1200 kg/m³ outside; 1788.8 psi the other way round.
    #[test]
    fn unlike_columns_shift_the_window() {
        let mut job = job();
        for (inside, outside, surface) in
            [(1100.0, 1100.0, 2500.0), (1000.0, 1200.0, 3211.2), (1200.0, 1000.0, 1788.8)]
        {
            job.file.setting.inside_density = Density::kg_per_m3(inside);
            job.file.setting.outside_density = Density::kg_per_m3(outside);
            let w = window(&job, deep(DeviceKind::Packer), &device(2500.0, Measured::Differential), None)
                .unwrap();
            assert!((w.low.in_psi() - surface).abs() < 0.05, "{}", w.low);
            assert!((w.differential(w.low).in_psi() - 2500.0).abs() < 1e-6);
            let held = GaugePressure::psi(300.0);
            job.file.setting.annulus_pressure = held;
            let held = window(&job, deep(DeviceKind::Packer), &device(2500.0, Measured::Differential), None)
                .unwrap();
            assert!((held.low.in_psi() - surface - 300.0).abs() < 0.05);
            job.file.setting.annulus_pressure = GaugePressure::ZERO;
        }
    }

    /// An absolute device does not feel the annulus; a differential one feels what stands there
    /// after setting.
    #[test]
    fn absolute_and_differential_are_told_apart() {
        let mut job = job();
        let column = column(job.file.setting.inside_density, TrueVerticalDepth::m(2500.0));
        let sleeve = |job: &Job, reference| {
            window(job, deep(DeviceKind::PressureSleeve), &device(9000.0, reference), None).unwrap()
        };
        let absolute = sleeve(&job, Measured::Absolute);
        let straight = 9000.0 - column.in_psi() - 14.6959;
        assert!((absolute.low.in_psi() - straight).abs() < 0.01);
        job.file.setting.outside_density = Density::kg_per_m3(1900.0);
        assert_eq!(sleeve(&job, Measured::Absolute).low, absolute.low);
        let pore = job.file.rock.pore_gradient * Length::m(2500.0);
        let formation = sleeve(&job, Measured::Differential);
        assert!((formation.low.in_psi() - (9000.0 + pore.in_psi() - column.in_psi())).abs() < 0.01);
        job.file.setting.after_setting = AfterSetting::Trapped;
        let trapped = sleeve(&job, Measured::Differential);
        let annulus = super::column(Density::kg_per_m3(1900.0), TrueVerticalDepth::m(2500.0));
        assert!((trapped.low.in_psi() - (9000.0 + annulus.in_psi() - column.in_psi())).abs() < 0.01);
        assert_eq!(trapped.outside, Outside::Trapped);
    }
}
