//! What the rock asks of a packer, and what the supplier says it holds.

use quantity::*;
use well::Job;
use well::job::Packer;

/// Differential a packer must hold at a depth, with its factor: the treating pressure at the
/// sleeve on one side, the pore pressure on the other.
///
/// `needed = factor * ((fracture gradient - pore gradient) * TVD + near-wellbore friction)`. The
/// pore pressure stands for the neighbour because a stage that has closed may have bled down to
/// it; taking the neighbour's closure pressure instead would ask for less.
pub fn packer_duty(job: &Job, depth: MeasuredDepth) -> Pressure {
    let tvd = Length::m(job.trajectory.tvd_at(depth).si());
    let rock = &job.file.rock;
    let excess = (rock.fracture_gradient - rock.pore_gradient) * tvd;
    (excess + job.file.treatment.near_wellbore) * job.file.limits.packer_factor.si()
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
