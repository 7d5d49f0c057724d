//! The rate ceiling: the highest rate at which no mixture of the schedule breaks a limit.

use physics::hydraulics::power::hydraulic_power;
use physics::solve::brent;
use quantity::*;
use well::Job;

use super::mixture::Mixture;
use super::pressure::StageLine;

/// What holds the rate of a stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum BoundBy {
    /// The treating pressure limit.
    Pressure,
    /// The hydraulic power on location, spares kept.
    Power,
    /// The highest rate of iron, meters and pumps.
    Iron,
    /// The rate wanted; no limit is met.
    Wanted,
}

impl BoundBy {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            BoundBy::Pressure => "treating pressure",
            BoundBy::Power => "hydraulic power",
            BoundBy::Iron => "iron and meters",
            BoundBy::Wanted => "rate wanted",
        }
    }
}

/// The slowest rate that counts as pumping.
pub const SLOWEST: FlowRate = FlowRate::bbl_per_min(0.5);

/// Hydraulic power on location, spares kept.
pub fn power_on_location(job: &Job) -> Power {
    let e = &job.file.equipment;
    e.pump_power * e.pumps.saturating_sub(e.spare_pumps) as f64
}

/// Highest rate within pressure, power and iron, and what holds it; none where even the slowest
/// rate breaks a limit.
pub fn rate_ceiling(
    job: &Job,
    line: &StageLine,
    mixtures: &[Mixture<'_>],
) -> physics::Result<Option<(FlowRate, BoundBy)>> {
    let limits = &job.file.limits;
    let power = power_on_location(job);
    let over = |q: FlowRate| -> physics::Result<(f64, f64)> {
        let Some(worst) = line.worst(q, mixtures)? else { return Ok((-1.0, -1.0)) };
        let parts = worst.parts;
        let pressure = parts.surface.si() - limits.treating_pressure.si();
        let surface = parts.surface.max(GaugePressure::ZERO);
        Ok((pressure, hydraulic_power(surface, q)?.si() - power.si()))
    };
    let worst = |q: FlowRate| over(q).map(|(p, w)| (p > 0.0, w > 0.0));
    if worst(SLOWEST)? != (false, false) {
        return Ok(None);
    }
    let top = limits.rate;
    match worst(top)? {
        (false, false) => Ok(Some((top, BoundBy::Iron))),
        (by_pressure, by_power) => {
            let root = |pick: fn((f64, f64)) -> f64| {
                let f = |q: f64| over(FlowRate::m3_per_s(q)).map_or(f64::NAN, pick);
                brent(f, SLOWEST.si(), top.si(), 1e-9).map(FlowRate::m3_per_s)
            };
            let pressure = by_pressure.then(|| root(|o| o.0)).flatten();
            let horses = by_power.then(|| root(|o| o.1)).flatten();
            Ok(match (pressure, horses) {
                (Some(p), Some(h)) if h < p => Some((h, BoundBy::Power)),
                (Some(p), _) => Some((p, BoundBy::Pressure)),
                (None, Some(h)) => Some((h, BoundBy::Power)),
                (None, None) => None,
            })
        }
    }
}
