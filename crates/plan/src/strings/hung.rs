//! Buoyed weight of what hangs below a place.

use physics::Evaluation;
use physics::tubular::buoyed_weight::{BUOYED_WEIGHT, HUNG_WEIGHT, HungSection, hung_weight};
use quantity::*;
use well::Job;
use well::job::StringRole;

use crate::layout::{ItemKind, Layout, TallyRow};

/// A stretch of one buoyed weight per length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HungStretch {
    /// What it is.
    pub kind: ItemKind,
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// Mass in air.
    pub mass: Mass,
    /// Buoyed weight per length.
    pub weight: ForcePerLength,
    /// Vertical extent.
    pub vertical: Length,
}

/// Everything below the casing packer, toe to heel, and the treating strings above it.
#[derive(Debug, Clone, PartialEq)]
pub struct Hanging {
    below: Vec<HungStretch>,
    above: Vec<HungStretch>,
}

impl Hanging {
    /// The strings of a job in its setting fluids.
    pub fn of(job: &Job, layout: &Layout) -> physics::Result<Self> {
        let below = liner(job, layout);
        let mut above = Vec::new();
        for string in job.strings.iter().filter(|s| s.table.role == StringRole::Treating) {
            let (top, bottom) = (string.table.top, string.table.bottom.min(layout.casing_packer_top));
            let setting = &job.file.setting;
            let weight = physics::tubular::buoyed_weight::buoyed_weight(
                string.pipe.tube(),
                string.pipe.weight(),
                setting.inside_density,
                setting.outside_density,
            )?;
            let length = (bottom - top).max(Length::ZERO);
            let (mass, vertical) = (string.pipe.weight() * length, extent(job, top, bottom));
            above.push(HungStretch { kind: ItemKind::Joint, top, bottom, mass, weight, vertical });
        }
        Ok(Self { below, above })
    }

    /// Buoyed weight along the hole of the liner below a depth, no friction.
    pub fn liner_below(&self, job: &Job, depth: MeasuredDepth) -> physics::Result<Force> {
        hung_weight(&sections(job, &self.below, depth))
    }

    /// The same of the treating strings below a depth with the liner hung on them.
    pub fn string_below(&self, job: &Job, depth: MeasuredDepth) -> physics::Result<Force> {
        let all: Vec<HungStretch> = self.below.iter().chain(&self.above).copied().collect();
        hung_weight(&sections(job, &all, depth))
    }

    /// Mass in air of everything below the casing packer.
    pub fn mass(&self) -> Mass {
        self.below.iter().map(|s| s.mass).sum()
    }

    /// Its buoyed weight, as if it hung straight down.
    pub fn buoyed(&self) -> Force {
        self.below.iter().map(|s| along(s.weight, s.bottom - s.top)).sum()
    }

    /// Its buoyed weight times the sine of the inclination: what presses on the low side, bends
    /// left out.
    pub fn on_the_wall(&self) -> Force {
        let side = |s: &HungStretch| {
            let length = (s.bottom - s.top).si();
            Length::m((length * length - s.vertical.si().powi(2)).max(0.0).sqrt())
        };
        self.below.iter().map(|s| along(s.weight.abs(), side(s))).sum()
    }

    /// The call behind [`Hanging::liner_below`] at the casing packer, equal weights together, and
    /// that of the weight of the liner's pipe.
    pub fn workings(&self, job: &Job) -> physics::Result<Vec<Evaluation>> {
        let mut groups: Vec<(ForcePerLength, Length)> = Vec::new();
        for s in &self.below {
            let same = |w: ForcePerLength| (w.si() - s.weight.si()).abs() <= 1e-9 * s.weight.si().abs();
            match groups.iter_mut().find(|(w, _)| same(*w)) {
                Some((_, vertical)) => *vertical += s.vertical,
                None => groups.push((s.weight, s.vertical)),
            }
        }
        let (weights, verticals): (Vec<_>, Vec<_>) = groups.into_iter().unzip();
        let mut out = Vec::new();
        if let Some(liner) = job.liner() {
            let call = BUOYED_WEIGHT
                .call()
                .with("mass", liner.pipe.weight())
                .with("outer", liner.pipe.outer())
                .with("inner", liner.pipe.inner());
            let setting = &job.file.setting;
            let call = call.with("inside_density", setting.inside_density);
            out.push(call.with("outside_density", setting.outside_density).run()?);
        }
        out.push(HUNG_WEIGHT.call().list("weights", &weights).list("verticals", &verticals).run()?);
        Ok(out)
    }
}

fn along(weight: ForcePerLength, length: Length) -> Force {
    Force::n(weight.si() * length.si())
}

fn extent(job: &Job, top: MeasuredDepth, bottom: MeasuredDepth) -> Length {
    job.trajectory.tvd_at(bottom.max(top)) - job.trajectory.tvd_at(top)
}

/// The part of the stretches below a depth.
fn sections(job: &Job, stretches: &[HungStretch], depth: MeasuredDepth) -> Vec<HungSection> {
    let below = stretches.iter().filter(|s| s.bottom > depth);
    below
        .map(|s| {
            let vertical = if s.top >= depth { s.vertical } else { extent(job, depth, s.bottom) };
            HungSection { weight: s.weight, vertical }
        })
        .collect()
}

/// Every row of the tally below the casing packer: its mass with the fluid inside, less the fluid
/// it displaces.
fn liner(job: &Job, layout: &Layout) -> Vec<HungStretch> {
    let setting = &job.file.setting;
    let mut last: Option<&TallyRow> = None;
    let mut out = Vec::with_capacity(layout.tally.len());
    for row in &layout.tally {
        let before = |f: fn(&TallyRow) -> f64| last.map_or(0.0, f);
        let mass = row.mass.si() - before(|r| r.mass.si());
        let inside = row.inside.si() - before(|r| r.inside.si());
        let outside = inside + row.steel.si() - before(|r| r.steel.si());
        last = Some(row);
        if row.kind == ItemKind::CasingPacker {
            continue;
        }
        // w L = m + rho_i V_i - rho_o V_o, times g
        let buoyed = mass + setting.inside_density.si() * inside - setting.outside_density.si() * outside;
        let length = row.length.si().max(1e-9);
        out.push(HungStretch {
            kind: row.kind,
            top: row.top,
            bottom: row.bottom,
            mass: Mass::kg(mass),
            weight: ForcePerLength::n_per_m(Mass::kg(buoyed).weight().si() / length),
            vertical: extent(job, row.top, row.bottom),
        });
    }
    out
}
