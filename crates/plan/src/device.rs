//! A pressure device of the job file as a range: what it may act at, lot and scatter counted.

use quantity::*;
use well::job::Device;

/// Lowest, nominal and highest pressure a device may act at.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct DeviceRange {
    /// It will not act below.
    pub low: Pressure,
    /// Nominal at the temperature of use.
    pub nominal: Pressure,
    /// It will have acted by here.
    pub high: Pressure,
}

/// How many standard deviations of the scatter a range takes in.
const SIGMAS: f64 = 2.0;

/// The range of a device: the bias of the lot in full, being common to all pins, and two standard
/// deviations of the mean of `n` pins, `scatter / sqrt(n)`.
pub fn device_range(device: &Device) -> DeviceRange {
    let nominal = device.nominal * device.temperature_factor.si();
    let scatter = SIGMAS * device.pin_scatter.si() / (device.pins.max(1) as f64).sqrt();
    let half = device.lot_bias.si() + scatter;
    DeviceRange { low: nominal * (1.0 - half).max(0.0), nominal, high: nominal * (1.0 + half) }
}
