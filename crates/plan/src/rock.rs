//! What the rock asks of a packer, and what the supplier says it holds.

use quantity::*;
use well::Job;
use well::job::{Packer, StageChange};

/// Changes of the treatment that hold for a stage, in the order of the job file.
pub fn changes(job: &Job, stage: usize) -> impl Iterator<Item = &StageChange> {
    job.file.treatment.change.iter().filter(move |c| (c.from_stage..=c.to_stage).contains(&stage))
}

/// Fracture gradient of a stage: the last change that names one, or the rock's.
pub fn fracture_gradient(job: &Job, stage: usize) -> PressureGradient {
    changes(job, stage).filter_map(|c| c.fracture_gradient).last().unwrap_or(job.file.rock.fracture_gradient)
}

/// Rate wanted for a stage: the last change that names one, or the treatment's.
pub fn wanted_rate(job: &Job, stage: usize) -> FlowRate {
    changes(job, stage).filter_map(|c| c.rate).last().unwrap_or(job.file.treatment.rate)
}

/// Differential the packer of a stage must hold at a depth, with its factor: the treating pressure
/// at the sleeve on one side, the pore pressure on the other. It stands between its stage and the
/// next one heel-ward; the one that asks more decides.
///
/// `needed = factor * ((fracture gradient - pore gradient) * TVD + near-wellbore friction)`, gradient
/// and rate of the stage; the friction goes with the square root of rate. The pore pressure stands for the neighbour because a stage that has closed may have bled down to
/// it; taking the neighbour's closure pressure instead would ask for less.
pub fn packer_duty(job: &Job, depth: MeasuredDepth, stage: usize) -> Pressure {
    let tvd = Length::m(job.trajectory.tvd_at(depth).si());
    let treatment = &job.file.treatment;
    let nominal = treatment.rate.si().max(f64::MIN_POSITIVE);
    let asked = |stage: usize| {
        let excess = (fracture_gradient(job, stage) - job.file.rock.pore_gradient) * tvd;
        excess + treatment.near_wellbore * (wanted_rate(job, stage).si().max(0.0) / nominal).sqrt()
    };
    asked(stage).max(asked(stage + 1)) * job.file.limits.packer_factor.si()
}

/// Differential a packer holds in a hole of a size at a temperature, from the supplier's rows.
/// The next larger hole and the next hotter row that are given decide, so nothing is taken from
/// beyond the chart; none where the hole or the temperature is beyond it.
pub fn packer_rating(packer: &Packer, hole: Diameter, temperature: Temperature) -> Option<Pressure> {
    let rows = &packer.rating;
    let beyond = |a: f64, b: f64| a >= b - 1e-9 * b.abs();
    let hotter = rows.iter().filter(|r| beyond(r.temperature.si(), temperature.si()));
    let level = hotter.map(|r| r.temperature).min_by(Temperature::total_cmp)?;
    let mut at: Vec<_> = rows.iter().filter(|r| r.temperature == level).collect();
    at.sort_by(|a, b| a.hole.total_cmp(&b.hole));
    let next = at.iter().position(|r| beyond(r.hole.si(), hole.si()))?;
    let upper = at.get(next)?;
    let Some(lower) = next.checked_sub(1).and_then(|i| at.get(i)) else { return Some(upper.pressure) };
    let share = (hole - lower.hole) / (upper.hole - lower.hole);
    Some(lower.pressure + (upper.pressure - lower.pressure) * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chart_is_never_left() {
        let (file, _) = well::job::read_job_file(include_str!("../../../jobs/long-lateral/job.toml"));
        let packer = file.value.unwrap().packer;
        let at = |inch: f64, c: f64| packer_rating(&packer, Diameter::inch(inch), Temperature::deg_c(c));
        let rows: Vec<_> = packer.rating.iter().map(|r| r.hole).collect();
        let largest = rows.iter().copied().fold(Diameter::ZERO, Diameter::max);
        assert!(at(largest.in_inch() + 0.01, 100.0).is_none());
        assert!(at(6.0, 1000.0).is_none());
        let mut last = Pressure::gpa(9.0);
        for i in 0..80 {
            let Some(p) = at(5.9 + 0.01 * f64::from(i), 100.0) else { break };
            assert!(p <= last, "a larger hole raises the rating");
            last = p;
        }
    }
}
