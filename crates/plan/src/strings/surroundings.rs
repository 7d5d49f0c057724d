//! Pressures and temperatures round the strings in every load case.

use physics::packer::surface_pressure::{Reference, surface_pressure};
use quantity::*;
use well::Job;
use well::job::{AfterSetting, SystemKind};

use super::result::LoadCase;
use crate::device::device_range;
use crate::layout::Layout;
use crate::rock::fracture_gradient;
use crate::stages::Mixture;

/// A place in the well, or the mean of places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Measured depth.
    pub md: MeasuredDepth,
    /// Vertical depth.
    pub tvd: TrueVerticalDepth,
}

/// A column: the pressure on it, its weight by vertical depth, and what it loses along the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FluidColumn {
    /// Pressure at the surface.
    pub surface: GaugePressure,
    /// Weight per vertical depth.
    pub weight: PressureGradient,
    /// Friction per measured depth.
    pub loss: PressureGradient,
}

/// Longest step of a mean over the hole, m.
const STEP: f64 = 10.0;

impl FluidColumn {
    /// A column at rest.
    pub fn still(surface: GaugePressure, weight: PressureGradient) -> Self {
        Self { surface, weight, loss: PressureGradient::ZERO }
    }

    /// Pressure at a place. A column is linear in depth: at the mean of places it is their mean.
    pub fn at(&self, spot: Spot) -> GaugePressure {
        self.surface + self.weight * Length::m(spot.tvd.si()) - self.loss * Length::m(spot.md.si())
    }
}

/// What surrounds the strings of a job.
pub struct Surroundings<'a> {
    /// The job.
    pub job: &'a Job,
    /// Where its tools stand.
    pub layout: &'a Layout,
    /// Density of the heaviest mixture that is pumped.
    pub heaviest: Density,
    /// Surface pressure that sets every packer fully.
    pub setting_pressure: GaugePressure,
    toe: Spot,
    friction: PressureGradient,
}

impl<'a> Surroundings<'a> {
    /// Of a job with its layout.
    pub fn new(job: &'a Job, layout: &'a Layout) -> physics::Result<Self> {
        let toe_depth = layout.stages.first().map_or(layout.toe_tool, |s| s.sleeve.ports);
        let mut out = Self {
            job,
            layout,
            heaviest: heaviest(job)?,
            setting_pressure: setting_pressure(job, layout)?,
            toe: Spot { md: toe_depth, tvd: job.trajectory.tvd_at(toe_depth) },
            friction: PressureGradient::ZERO,
        };
        out.friction = out.friction_to_toe();
        Ok(out)
    }

    /// A place on the hole.
    pub fn spot(&self, md: MeasuredDepth) -> Spot {
        Spot { md, tvd: self.job.trajectory.tvd_at(md) }
    }

    /// The sleeve of stage 1.
    pub fn toe(&self) -> Spot {
        self.toe
    }

    /// Mean of the places of a stretch of hole, over its measured length.
    pub fn mean(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Spot {
        let length = (bottom - top).si();
        if length <= 0.0 {
            return self.spot(top);
        }
        let steps = ((length / STEP).ceil() as usize).clamp(1, 5_000);
        let tvd =
            |i: usize| self.job.trajectory.tvd_at(top + Length::m(length * i as f64 / steps as f64)).si();
        // trapezoids
        let inner: f64 = (1..steps).map(tvd).sum();
        let mean = (0.5 * (tvd(0) + tvd(steps)) + inner) / steps as f64;
        Spot { md: top + Length::m(0.5 * length), tvd: TrueVerticalDepth::m(mean) }
    }

    /// The column in the bore of treating string and liner.
    pub fn bore(&self, case: LoadCase) -> FluidColumn {
        let (setting, limits) = (&self.job.file.setting, &self.job.file.limits);
        let set = setting.inside_density.gradient();
        let heavy = self.heaviest.gradient();
        match case {
            LoadCase::RunIn => FluidColumn::still(GaugePressure::ZERO, set),
            LoadCase::Setting => FluidColumn::still(self.setting_pressure, set),
            LoadCase::Test => FluidColumn::still(setting.test_pressure, set),
            LoadCase::Treating => FluidColumn {
                surface: limits.treating_pressure,
                weight: self.clean_density().gradient(),
                loss: self.friction,
            },
            LoadCase::Screenout => FluidColumn::still(limits.treating_pressure, heavy),
            LoadCase::Trip => FluidColumn::still(limits.trip, heavy),
            LoadCase::Flowback => FluidColumn::still(GaugePressure::ZERO, PressureGradient::ZERO),
            LoadCase::ShutIn => FluidColumn::still(self.pore().at(self.toe), PressureGradient::ZERO),
        }
    }

    /// The column behind a landed ball whose sleeve stays shut: the pumps go to their trip with
    /// clean fluid in the bore.
    pub fn shut_sleeve(&self) -> FluidColumn {
        FluidColumn::still(self.job.file.limits.trip, self.clean_density().gradient())
    }

    /// The column in the annulus of the treating string.
    pub fn annulus(&self, case: LoadCase) -> FluidColumn {
        let (setting, limits) = (&self.job.file.setting, &self.job.file.limits);
        let surface = match case {
            LoadCase::RunIn | LoadCase::Trip | LoadCase::ShutIn => GaugePressure::ZERO,
            LoadCase::Setting | LoadCase::Test => setting.annulus_pressure,
            LoadCase::Treating | LoadCase::Screenout => limits.annulus_pressure,
            LoadCase::Flowback => limits.annulus_limit,
        };
        FluidColumn::still(surface, setting.outside_density.gradient())
    }

    /// What stands outside the liner.
    pub fn open_hole(&self, case: LoadCase) -> FluidColumn {
        let before = matches!(case, LoadCase::RunIn | LoadCase::Setting | LoadCase::Test);
        let trapped = self.job.file.setting.after_setting == AfterSetting::Trapped;
        if before || trapped { self.annulus(LoadCase::RunIn) } else { self.pore() }
    }

    /// The column of pore pressure.
    pub fn pore(&self) -> FluidColumn {
        FluidColumn::still(GaugePressure::ZERO, self.job.file.rock.pore_gradient)
    }

    /// The pressure at which the rock at a place takes fluid, friction near the wellbore included.
    pub fn fracture(&self, spot: Spot) -> GaugePressure {
        // Stages are listed from the toe up: the first that starts above the place holds it.
        let stage = self.layout.stages.iter().find(|s| s.heel_end <= spot.md).map(|s| s.stage);
        let rock = self.job.file.rock.fracture_gradient;
        let gradient = stage.map_or(rock, |n| fracture_gradient(self.job, n));
        (gradient * Length::m(spot.tvd.si()) + self.job.file.treatment.near_wellbore).gauge()
    }

    /// How much warmer than the undisturbed rock the pipe is; for a mean of places, the mean.
    pub fn warming(&self, case: LoadCase, spot: Spot) -> TemperatureDifference {
        let rock = self.job.rock_temperature(spot.tvd);
        match case {
            LoadCase::RunIn | LoadCase::Setting | LoadCase::Test | LoadCase::ShutIn => {
                TemperatureDifference::ZERO
            }
            LoadCase::Treating | LoadCase::Screenout | LoadCase::Trip => {
                self.job.file.rock.pumped_temperature - rock
            }
            LoadCase::Flowback => self.job.rock_temperature(self.toe.tvd) - rock,
        }
    }

    /// Stretch that open-hole packers lock in when they set under pressure: the difference at
    /// which they are fully set; none where they swell.
    pub fn locked_difference(&self) -> Pressure {
        let set_by_pressure = self.job.file.system.kind == SystemKind::HydraulicSet;
        self.job.file.packer.full_set.filter(|_| set_by_pressure).unwrap_or(Pressure::ZERO)
    }

    fn clean_density(&self) -> Density {
        let file = &self.job.file;
        let named = file.treatment.step.first().and_then(|s| file.fluid.iter().find(|f| f.name == s.fluid));
        named.map_or(file.setting.inside_density, |f| f.density)
    }

    /// Friction per length that leaves the fracture pressure at the toe when the surface is at
    /// the treating limit; none where the column is too light to reach it.
    fn friction_to_toe(&self) -> PressureGradient {
        let limit = self.job.file.limits.treating_pressure;
        let still = FluidColumn::still(limit, self.clean_density().gradient()).at(self.toe);
        let left = (still - self.fracture(self.toe)).max(Pressure::ZERO);
        left / Length::m(self.toe.md.si().max(1.0))
    }
}

/// Density of the heaviest mixture of the schedule; that of the setting fluid where there is none.
fn heaviest(job: &Job) -> physics::Result<Density> {
    let mut heaviest: Option<Density> = None;
    for mixture in job.file.treatment.step.iter().filter_map(|s| Mixture::of_step(&job.file, s)).flatten() {
        let density = mixture.slurry()?.density;
        heaviest = Some(heaviest.map_or(density, |h| h.max(density)));
    }
    Ok(heaviest.unwrap_or(job.file.setting.inside_density))
}

/// Surface pressure at which every packer and the toe tool have had their highest setting difference.
fn setting_pressure(job: &Job, layout: &Layout) -> physics::Result<GaugePressure> {
    let setting = &job.file.setting;
    let outside = Reference::Annulus(setting.annulus_pressure, setting.outside_density);
    let casing_packer = job.file.casing_packer.full_set.max(device_range(&job.file.casing_packer.start).high);
    let mut tools = vec![(layout.casing_packer_top, casing_packer)];
    let open_hole = job.file.packer.start.as_ref().zip(job.file.packer.full_set);
    if let Some((start, full_set)) = open_hole.filter(|_| job.file.system.kind == SystemKind::HydraulicSet) {
        let difference = full_set.max(device_range(start).high);
        tools.extend(layout.stages.iter().map(|s| (s.packer.top, difference)));
    }
    if let Some(isolation) = &job.file.toe.isolation {
        tools.push((layout.toe_tool, device_range(isolation).high));
    }
    let mut highest = GaugePressure::ZERO;
    for (depth, difference) in tools {
        let tvd = job.trajectory.tvd_at(depth);
        highest = highest.max(surface_pressure(difference, setting.inside_density, tvd, outside)?);
    }
    Ok(highest)
}
