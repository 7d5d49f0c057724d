//! What is pumped into a stage, as far as a ball and its seat care: rate, volume, proppant, the
//! heaviest slurry.

use physics::Result;
use physics::ball::seat_erosion::Sand;
use physics::fluid::slurry::{proppant_mass, slurry};
use quantity::*;
use well::Job;
use well::job::{StageChange, Step};

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

/// Changes that hold for a stage, in the order of the job file; the last one decides.
fn changes(job: &Job, stage: usize) -> impl DoubleEndedIterator<Item = &StageChange> {
    job.file.treatment.change.iter().filter(move |c| (c.from_stage..=c.to_stage).contains(&stage))
}

/// What is pumped into a stage.
pub(super) fn pumped(job: &Job, stage: usize) -> Result<Pumped> {
    let treatment = &job.file.treatment;
    let last = || changes(job, stage).rev();
    let rate = last().find_map(|c| c.rate).unwrap_or(treatment.rate).min(job.file.limits.rate);
    let gradient = last().find_map(|c| c.fracture_gradient).unwrap_or(job.file.rock.fracture_gradient);
    let scale = last().next().map_or(1.0, |c| c.scale.si());
    let mut sum = Pumped { rate, fracture_gradient: gradient, slurry: Volume::ZERO, proppant: Mass::ZERO };
    for step in &treatment.step {
        let clean = step.clean_volume * scale;
        let (mass, volume) = match grain(job, step) {
            Some(grain) => proppant_mass(clean, (step.from + step.to) * 0.5, grain)?,
            None => (Mass::ZERO, clean),
        };
        sum.slurry += volume;
        sum.proppant += mass;
    }
    Ok(sum)
}

/// The proppant of the stages below a stage, all of which went through its seat.
pub(super) fn sand_below(stages: &[Pumped], stage: usize) -> Vec<Sand> {
    stages.iter().take(stage.saturating_sub(1)).map(|p| Sand { mass: p.proppant, rate: p.rate }).collect()
}

fn grain(job: &Job, step: &Step) -> Option<Density> {
    let name = step.proppant.as_deref()?;
    job.file.proppant.iter().find(|p| p.name == name).map(|p| p.grain_density)
}

fn density(job: &Job, step: &Step) -> Option<Density> {
    job.file.fluid.iter().find(|f| f.name == step.fluid).map(|f| f.density)
}

/// A slurry of the schedule and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Heaviest {
    /// Density of the slurry.
    pub density: Density,
    /// Clean fluid.
    pub clean: Density,
    /// Grain density and concentration, if it carries proppant.
    pub proppant: Option<(Density, Concentration)>,
}

/// The heaviest slurry of the schedule.
pub(super) fn heaviest(job: &Job) -> Result<Option<Heaviest>> {
    let mut most: Option<Heaviest> = None;
    for step in &job.file.treatment.step {
        let Some(clean) = density(job, step) else { continue };
        let proppant = grain(job, step).map(|g| (g, step.from.max(step.to)));
        let density = match proppant {
            Some((grain, concentration)) => slurry(clean, grain, concentration)?.density,
            None => clean,
        };
        if most.is_none_or(|m| density > m.density) {
            most = Some(Heaviest { density, clean, proppant });
        }
    }
    Ok(most)
}

/// Density of the lightest fluid of the schedule.
pub(super) fn lightest(job: &Job) -> Option<Density> {
    job.file.treatment.step.iter().filter_map(|s| density(job, s)).min_by(Density::total_cmp)
}

/// Density of the fluid of the largest clean volume.
pub(super) fn main_fluid(job: &Job) -> Option<Density> {
    let volume = |name: &str| -> Volume {
        job.file.treatment.step.iter().filter(|s| s.fluid == name).map(|s| s.clean_volume).sum()
    };
    let fluids = job.file.fluid.iter().map(|f| (volume(&f.name), f.density));
    fluids.filter(|(v, _)| *v > Volume::ZERO).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, d)| d)
}
