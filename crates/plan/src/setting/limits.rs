//! Ceilings of the pressure in the string: what closes the well, pipe, connections, sleeves, ball.

use quantity::*;
use well::Job;
use well::assemble::PipeString;
use well::job::StringRole;
use well::tubular::Connection;

use super::devices::{column, lowest_outside, outside_pressure, toe_spot};
use super::result::{LimitKind, Outside, PressureLimit};
use crate::Ledger;
use crate::ladder::SettingBallRating;
use crate::layout::Layout;

/// All ceilings, the lowest first.
pub(super) fn limits(
    job: &Job,
    layout: &Layout,
    ball: Option<&SettingBallRating>,
    ledger: &mut Ledger,
) -> Vec<PressureLimit> {
    let rating = job.file.setting.surface_rating;
    let mut out = vec![PressureLimit {
        kind: LimitKind::Surface,
        name: "wellhead or tree while setting".into(),
        depth: None,
        rating,
        factor: Ratio::of(1.0),
        outside: GaugePressure::ZERO,
        column: Pressure::ZERO,
        ceiling: rating.gauge(),
        used: Ratio::ZERO,
        source: "setting.surface_rating".into(),
    }];
    for string in job.strings.iter().filter(|s| s.table.role != StringRole::Casing) {
        out.extend(pipe(job, string, ledger));
    }
    let sleeves = Rating {
        kind: LimitKind::Sleeve,
        name: "body of the sleeves".into(),
        pressure: job.file.sleeve.rating,
        factor: Ratio::of(1.0),
        source: job.file.sleeve.source.clone(),
    };
    let places: Vec<_> = layout.stages.iter().map(|s| s.sleeve.ports).collect();
    out.extend(sleeves.lowest(job, &places, lowest_outside));
    if let Some(ball) = ball {
        let seat = Rating {
            kind: LimitKind::SettingBall,
            name: "setting ball on its seat".into(),
            pressure: ball.pressure,
            factor: job.file.ball.safety_factor,
            source: job.file.ball.source.clone(),
        };
        out.extend(seat.lowest(job, &[toe_spot(job, layout).depth], lowest_outside));
    }
    out.sort_by(|a, b| a.ceiling.total_cmp(&b.ceiling));
    out
}

/// Pressure outside at a depth.
type OutsideAt = fn(&Job, TrueVerticalDepth) -> GaugePressure;

/// The annulus, which stands outside a string above the casing packer.
fn annulus(job: &Job, tvd: TrueVerticalDepth) -> GaugePressure {
    outside_pressure(job, Outside::Annulus, tvd)
}

/// A rating of the wall between inside and outside.
struct Rating {
    kind: LimitKind,
    name: String,
    pressure: Pressure,
    factor: Ratio,
    source: String,
}

impl Rating {
    /// The ceiling of the pressure in the string at the depth where it is lowest.
    fn lowest(&self, job: &Job, depths: &[MeasuredDepth], outside: OutsideAt) -> Option<PressureLimit> {
        self.lowest_over(job, depths, (job.file.setting.inside_density, outside))
    }

    /// The ceiling over a column of a density at the depth where it is lowest.
    fn lowest_over(
        &self,
        job: &Job,
        depths: &[MeasuredDepth],
        (inside, outside): (Density, OutsideAt),
    ) -> Option<PressureLimit> {
        let at = |depth: &MeasuredDepth| {
            let tvd = job.trajectory.tvd_at(*depth);
            let outside = outside(job, tvd);
            let column = column(inside, tvd);
            PressureLimit {
                kind: self.kind,
                name: self.name.clone(),
                depth: Some(*depth),
                rating: self.pressure,
                factor: self.factor,
                outside,
                column,
                ceiling: outside + self.pressure / self.factor.si().max(1.0) - column,
                used: Ratio::ZERO,
                source: self.source.clone(),
            }
        };
        depths.iter().map(at).min_by(|a, b| a.ceiling.total_cmp(&b.ceiling))
    }
}

/// Internal yield of a string, and its connection's rating where one is stated.
fn pipe(job: &Job, string: &PipeString, ledger: &mut Ledger) -> Vec<PressureLimit> {
    // Outside the liner stands the lower of the annulus and what stands there after setting.
    let outside: OutsideAt = if string.table.role == StringRole::Liner { lowest_outside } else { annulus };
    let depths = depths(job, string.table.top, string.table.bottom);
    let mut out: Vec<PressureLimit> = internal_yield(job, string, ledger)
        .and_then(|r| r.lowest(job, &depths, outside))
        .into_iter()
        .collect();
    if let Connection::Rated(c) = &string.pipe.spec().connection
        && let Some(pressure) = c.internal
    {
        let name = format!("connection of the {}", string.table.name);
        let (factor, source) = (job.file.limits.burst_factor, c.source.clone());
        let rating = Rating { kind: LimitKind::Connection, name, pressure, factor, source };
        out.extend(rating.lowest(job, &depths, outside));
    }
    out
}

/// The highest pressure on the annulus that the casing round the casing packer allows: nothing
/// outside it at the surface, formation pressure at depth.
pub(super) fn casing(job: &Job, layout: &Layout, ledger: &mut Ledger) -> Option<PressureLimit> {
    let depth = layout.casing_packer_top;
    let holds = |s: &&PipeString| {
        s.table.role == StringRole::Casing && s.table.top <= depth && s.table.bottom >= depth
    };
    let string = job.strings.iter().filter(holds).min_by(|a, b| a.bore().total_cmp(&b.bore()))?;
    let rating = internal_yield(job, string, ledger)?;
    let formation: OutsideAt = |job, tvd| outside_pressure(job, Outside::Formation, tvd);
    let sides = (job.file.setting.outside_density, formation);
    rating.lowest_over(job, &depths(job, string.table.top, depth), sides)
}

/// Internal yield of a string with its factor.
fn internal_yield(job: &Job, string: &PipeString, ledger: &mut Ledger) -> Option<Rating> {
    match string.pipe.internal_yield() {
        Ok(rated) => Some(Rating {
            kind: LimitKind::Burst,
            name: format!("internal yield of the {}", string.table.name),
            pressure: rated.value,
            factor: job.file.limits.burst_factor,
            source: rated.origin_text(),
        }),
        Err(e) => {
            ledger.say(e.finding().field("string"));
            None
        }
    }
}

/// Depths at which a load straight in vertical depth can be worst: both ends and the survey's
/// stations between.
pub(super) fn depths(job: &Job, top: MeasuredDepth, bottom: MeasuredDepth) -> Vec<MeasuredDepth> {
    let stations = job.trajectory.stations().iter().map(|s| s.md).filter(|d| *d > top && *d < bottom);
    [top, bottom].into_iter().chain(stations).collect()
}
