//! The sleeves of a job: closed, or opened by a ball or by pressure, each at its own scattered value.

use plan::Program;
use plan::device::{DeviceRange, device_range};
use quantity::*;
use rand_chacha::ChaCha12Rng;
use rand_distr::{Distribution, StandardNormal};
use well::Job;
use well::job::Device;

use crate::route::Route;

/// What a sleeve is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SleeveState {
    /// Closed.
    Closed,
    /// Open and taking fluid.
    Open,
    /// Open, with a ball on a seat above it: it takes no fluid.
    Isolated,
}

/// A sleeve in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Sleeve {
    /// Stage, 1 at the toe; 0 is the path at the toe that the first ball is pumped against.
    pub stage: usize,
    /// Measured depth of its ports.
    pub depth: MeasuredDepth,
    /// Vertical depth of its ports.
    pub tvd: TrueVerticalDepth,
    /// Volume from the meter.
    pub volume: Volume,
    /// Differential at which it opens.
    pub shear: Pressure,
    /// What it is doing.
    pub state: SleeveState,
    /// Flow area of the ports.
    pub ports: Area,
}

/// Value of a device drawn from its lot and its pins.
fn drawn(device: &Device, random: &mut ChaCha12Rng) -> Pressure {
    let mut normal = || -> f64 { StandardNormal.sample(random) };
    // The bias of a lot is a bound, taken as two standard deviations; the pins scatter about it.
    let lot = 0.5 * device.lot_bias.si() * normal();
    let pins = device.pin_scatter.si() / (device.pins.max(1) as f64).sqrt() * normal();
    let DeviceRange { low, nominal, high } = device_range(device);
    Pressure::pa((nominal.si() * (1.0 + lot + pins)).clamp(low.si(), high.si()))
}

/// The sleeves of a job, the path at the toe first, each with its value drawn.
pub fn sleeves(job: &Job, program: &Program, route: &Route, random: &mut ChaCha12Rng) -> Vec<Sleeve> {
    let Some(layout) = &program.layout else { return Vec::new() };
    let ball = &job.file.sleeve;
    let area = |n: usize, d: Diameter| d.circle() * n as f64;
    let by_ball = layout.stages.first().is_none_or(|s| s.sleeve.opened_by_ball);
    let mut out = Vec::with_capacity(layout.stages.len() + 1);
    if by_ball {
        out.push(Sleeve {
            stage: 0,
            depth: layout.toe_tool,
            tvd: job.trajectory.tvd_at(layout.toe_tool),
            volume: route.to_depth(layout.toe_tool),
            shear: Pressure::ZERO,
            state: SleeveState::Open,
            ports: area(ball.ports, ball.port_diameter),
        });
    }
    for s in &layout.stages {
        let pressed = job.file.toe.pressure_sleeve.as_ref().filter(|_| !s.sleeve.opened_by_ball);
        let (device, count, port) = pressed.map_or((&ball.shear, ball.ports, ball.port_diameter), |p| {
            (&p.opening, p.ports, p.port_diameter)
        });
        out.push(Sleeve {
            stage: s.stage,
            depth: s.sleeve.ports,
            tvd: s.sleeve.tvd,
            volume: route.to_depth(s.sleeve.ports),
            shear: drawn(device, random),
            state: SleeveState::Closed,
            ports: area(count, port),
        });
    }
    out
}
