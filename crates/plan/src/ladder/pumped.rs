//! What is pumped into a stage, as far as a ball and its seat care: rate, volume, proppant, the
//! heaviest slurry.

use physics::Result;
use physics::ball::seat_erosion::Sand;
use physics::fluid::slurry::proppant_mass;
use quantity::*;
use well::Job;

use crate::rock::{changes, fracture_gradient, wanted_rate};
use crate::stages::Mixture;

/// A stage's treatment in sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pumped {
    /// Rate wanted, no higher than the limit of rate.
    pub rate: FlowRate,
    /// Fracture gradient.
    pub fracture_gradient: PressureGradient,
    /// Volume of slurry, spacers and flush not counted.
    pub slurry: Volume,
    /// Mass of proppant.
    pub proppant: Mass,
}

/// What is pumped into a stage. Of several changes the last one decides rate and gradient, and
/// all scale the volumes.
pub(super) fn pumped(job: &Job, stage: usize) -> Result<Pumped> {
    let treatment = &job.file.treatment;
    let scale: f64 = changes(job, stage).map(|c| c.scale.si()).product();
    let rate = wanted_rate(job, stage).min(job.file.limits.rate);
    let fracture_gradient = fracture_gradient(job, stage);
    let mut sum = Pumped { rate, fracture_gradient, slurry: Volume::ZERO, proppant: Mass::ZERO };
    for step in &treatment.step {
        let Some([_, end]) = Mixture::of_step(&job.file, step) else { continue };
        let mean = (step.from + step.to) * 0.5;
        let (mass, volume) = proppant_mass(step.clean_volume * scale, mean, end.grain_density())?;
        sum.slurry += volume;
        sum.proppant += mass;
    }
    Ok(sum)
}

/// The proppant of the stages below a stage, all of which went through its seat.
pub(super) fn sand_below(stages: &[Pumped], stage: usize) -> Vec<Sand> {
    stages.iter().take(stage.saturating_sub(1)).map(|p| Sand { mass: p.proppant, rate: p.rate }).collect()
}

/// Everything the schedule pumps, each step at its start and at its end.
fn mixtures(job: &Job) -> impl Iterator<Item = Mixture<'_>> {
    job.file.treatment.step.iter().filter_map(|s| Mixture::of_step(&job.file, s)).flatten()
}

/// The heaviest slurry of the schedule, with its density.
pub(super) fn heaviest(job: &Job) -> Result<Option<(Mixture<'_>, Density)>> {
    let mut most: Option<(Mixture<'_>, Density)> = None;
    for mixture in mixtures(job) {
        let density = mixture.slurry()?.density;
        if most.as_ref().is_none_or(|(_, d)| density > *d) {
            most = Some((mixture, density));
        }
    }
    Ok(most)
}

/// Density of the lightest fluid of the schedule.
pub(super) fn lightest(job: &Job) -> Option<Density> {
    mixtures(job).map(|m| m.fluid.density).min_by(Density::total_cmp)
}

/// Density of the fluid of the largest clean volume.
pub(super) fn main_fluid(job: &Job) -> Option<Density> {
    let volume = |name: &str| -> Volume {
        job.file.treatment.step.iter().filter(|s| s.fluid == name).map(|s| s.clean_volume).sum()
    };
    let fluids = job.file.fluid.iter().map(|f| (volume(&f.name), f.density));
    fluids.filter(|(v, _)| *v > Volume::ZERO).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, d)| d)
}
