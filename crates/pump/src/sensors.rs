//! What the instruments make of what happened: faults of meters, gauges and recorder, and noise.

use quantity::*;
use rand_chacha::ChaCha12Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, StandardNormal};

use crate::fault::FaultKind;
use crate::fault::armed::Faults;
use crate::record::Sample;

/// Noise of the instruments, one standard deviation each.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Noise {
    /// Of pressures.
    pub pressure: Pressure,
    /// Of rates, as a share.
    pub rate: Ratio,
    /// Of the concentration, as a share.
    pub concentration: Ratio,
    /// Of densities, as a share.
    pub density: Ratio,
}

impl Default for Noise {
    /// 5 psi, half a per cent of rate, 2 % of concentration, 0.2 % of density: assumed.
    fn default() -> Self {
        Self {
            pressure: Pressure::psi(5.0),
            rate: Ratio::of(0.005),
            concentration: Ratio::of(0.02),
            density: Ratio::of(0.002),
        }
    }
}

/// Turns what happened into what is recorded.
pub(crate) fn recorded(samples: &mut Vec<Sample>, faults: &mut Faults, noise: Option<Noise>, seed: u64) {
    let instruments: Vec<_> = faults.all().filter_map(|(f, begun)| Some((*f, begun?))).collect();
    for (fault, from) in instruments {
        let over = fault.over.si();
        let lasts = match fault.kind {
            FaultKind::MeterDrift => {
                drift(samples, from, over, fault.size.si());
                false
            }
            FaultKind::GaugeFault => {
                freeze(samples, from, from + over);
                true
            }
            FaultKind::ClockSkew => {
                late(samples, from, over);
                false
            }
            FaultKind::MissingSamples => {
                samples.retain(|s| !(from..from + over).contains(&s.time.si()));
                true
            }
            _ => false,
        };
        if lasts {
            faults.end(fault.kind, fault.stage, from + over);
        }
    }
    if let Some(noise) = noise {
        add(samples, &noise, seed);
    }
}

/// The meter reads too much by a share that grows.
fn drift(samples: &mut [Sample], from: f64, over: f64, most: f64) {
    let mut last = (Volume::ZERO, Volume::ZERO);
    let (mut job, mut stage) = ((Volume::ZERO, Volume::ZERO), (Volume::ZERO, Volume::ZERO));
    let mut on = 0;
    for s in samples.iter_mut() {
        let grown = if over > 0.0 {
            ((s.time.si() - from) / over).clamp(0.0, 1.0)
        } else {
            f64::from(s.time.si() >= from)
        };
        let wrong = most * grown;
        let more = ((s.job_slurry - last.0) * wrong, (s.job_clean - last.1) * wrong);
        last = (s.job_slurry, s.job_clean);
        if s.stage != on {
            (on, stage) = (s.stage, (Volume::ZERO, Volume::ZERO));
        }
        job = (job.0 + more.0, job.1 + more.1);
        stage = (stage.0 + more.0, stage.1 + more.1);
        s.job_slurry += job.0;
        s.job_clean += job.1;
        s.stage_slurry += stage.0;
        s.stage_clean += stage.1;
        s.slurry_rate = s.slurry_rate * (1.0 + wrong);
        s.clean_rate = s.clean_rate * (1.0 + wrong);
    }
}

/// The gauge keeps its value for a while.
fn freeze(samples: &mut [Sample], from: f64, until: f64) {
    let mut held = None;
    for s in samples.iter_mut().filter(|s| (from..until).contains(&s.time.si())) {
        s.treating_pressure = *held.get_or_insert(s.treating_pressure);
    }
}

/// The pressure is written down late.
fn late(samples: &mut [Sample], from: f64, delay: f64) {
    let true_ones: Vec<(f64, GaugePressure)> =
        samples.iter().map(|s| (s.time.si(), s.treating_pressure)).collect();
    for s in samples.iter_mut().filter(|s| s.time.si() >= from) {
        let then = s.time.si() - delay;
        let at = true_ones.partition_point(|(t, _)| *t <= then + 1e-9).saturating_sub(1);
        s.treating_pressure = true_ones.get(at).map_or(s.treating_pressure, |x| x.1);
    }
}

fn add(samples: &mut [Sample], noise: &Noise, seed: u64) {
    // Another stream than that of the sleeves: with or without noise they shear alike.
    let mut random = ChaCha12Rng::seed_from_u64(seed);
    random.set_stream(1);
    let mut normal = || -> f64 { StandardNormal.sample(&mut random) };
    for s in samples.iter_mut() {
        let mut gauge =
            |p: GaugePressure| GaugePressure::from_si((p.si() + noise.pressure.si() * normal()).max(0.0));
        s.treating_pressure = gauge(s.treating_pressure);
        s.annulus_pressure = gauge(s.annulus_pressure);
        let mut share = |of: Ratio| (1.0 + of.si() * normal()).max(0.0);
        let rate = share(noise.rate);
        s.slurry_rate = s.slurry_rate * rate;
        s.clean_rate = s.clean_rate * rate;
        s.concentration = s.concentration * share(noise.concentration);
        s.density = s.density * share(noise.density);
    }
}
