//! How much pressure may be used to circulate before anything is to be set.

use physics::Result;
use physics::packer::surface_pressure::surface_pressure;
use quantity::*;
use well::Job;

use super::devices::reference;
use super::result::{DeviceWindow, Outside};

/// A limit of circulation and the device it protects.
#[derive(Debug, Clone, Copy)]
pub(super) struct Circulating<'a> {
    pub limit: GaugePressure,
    pub device: &'a DeviceWindow,
    /// Share of the device's lowest pressure, at the device.
    pub difference: Pressure,
}

/// The lowest pressure at the surface at which any device sees the share of its lowest pressure;
/// never below zero. A device rated in absolute pressure has the weight of the column on it
/// already: the share is taken of its lowest at the surface.
pub(super) fn circulating<'a>(job: &Job, devices: &'a [DeviceWindow]) -> Result<Option<Circulating<'a>>> {
    let share = job.file.setting.circulating_share.si();
    let inside = job.file.setting.inside_density;
    let mut lowest: Option<Circulating<'a>> = None;
    for device in devices {
        let difference = device.range.low * share;
        let limit = match device.outside {
            Outside::Annulus => surface_pressure(
                difference,
                inside,
                device.tvd,
                reference(job, Outside::Annulus, device.tvd),
            )?,
            _ => device.low * share,
        };
        if lowest.is_none_or(|l| limit < l.limit) {
            lowest = Some(Circulating { limit, device, difference });
        }
    }
    Ok(lowest.map(|l| Circulating { limit: l.limit.max(GaugePressure::ZERO), ..l }))
}
