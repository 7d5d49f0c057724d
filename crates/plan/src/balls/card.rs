//! One ball's card: transit, spread, launch point, rate cut and landing.

use physics::ball::ball_velocity::Ride;
use physics::ball::landing_window::{Doubt, LandingVolume, landing_volume_spread, landing_window};
use physics::ball::terminal_velocity::{Ball, Liquid};
use physics::ball::transit::{RateStep, Road, Transit};
use physics::hydraulics::landing::LandingString;
use quantity::*;
use well::Job;
use well::job::Fluid;

use super::landing::{Setting, choose};
use super::result::{BallCard, LandingOption};
use super::way;
use crate::Band;
use crate::device::device_range;
use crate::ladder::RungPlan;
use crate::layout::{Layout, StagePlace};
use crate::path::FlowPath;
use crate::stages::{Mixture, StageLine, StagesPlan};

/// What all cards are made from.
pub(super) struct Desk<'a> {
    pub job: &'a Job,
    pub layout: &'a Layout,
    pub stages: &'a StagesPlan,
    pub path: &'a FlowPath,
    pub lines: &'a [StageLine],
    pub fluid: &'a Fluid,
}

/// What a card was made of, for its workings.
pub(super) struct Made {
    /// Volumes whose bores err on their own.
    pub sections: Vec<Volume>,
    /// Capacity of the bore at the seat.
    pub capacity: Capacity,
    /// One standard deviation of the seat's depth.
    pub depth_sigma: Length,
    /// Pumped over swept volume, job factor not counted.
    pub ratio: Ratio,
    /// What the ball rides in.
    pub liquid: Liquid,
    /// The string as the wave sees it.
    pub string: LandingString,
    /// Pipe between the seat and the open ports toe-ward.
    pub below: Length,
}

/// Inclination from which a ball is taken to ride on the wall. A tenth of a degree brings a ball of
/// these densities to the wall within a few lengths of a joint, and ten landings of a public data
/// set fell where a ball on the wall would: at 0.92 to 0.97 of the swept volume.
const ON_THE_WALL: Angle = Angle::deg(0.1);

/// A long time: the last step of a schedule goes on.
const ON: Time = Time::days(30.0);

impl<'a> Desk<'a> {
    /// The card of a rung; none where the layout has no such stage or no landing rate is given.
    pub(super) fn card(&self, rung: &RungPlan) -> physics::Result<Option<(BallCard, Made)>> {
        let Some(place) = self.layout.stage(rung.stage) else { return Ok(None) };
        let Some(setting) = self.setting(rung, place)? else { return Ok(None) };
        let options = setting.options()?;
        let Some(chosen) = choose(&options) else { return Ok(None) };
        let rate_before = if rung.stage > 1 { setting.rate_before } else { chosen.rate };
        let liquid = way::liquid(self.fluid, rate_before, setting.string.bore)?;
        let march = self.march(rung, place.sleeve.ports, liquid, (rate_before, chosen.rate))?;
        let (sections, capacity) = self.sections(place.sleeve.ports);
        let made = Made {
            sections,
            capacity,
            depth_sigma: place.sleeve.sigma,
            ratio: Ratio::of(march.pumped / march.swept),
            liquid,
            string: setting.string,
            below: setting.below,
        };
        let mut card = self.fill(rung, place, &made, (rate_before, chosen))?;
        card.transit = march.time;
        card.options = options;
        card.shear = setting.shear;
        Ok(Some((card, made)))
    }

    fn setting<'b>(&'b self, rung: &'b RungPlan, place: &StagePlace) -> physics::Result<Option<Setting<'b>>> {
        let before = rung.stage.saturating_sub(1);
        // The ball is launched while the stage toe-ward is pumped; the first one before any stage.
        let Some(line) = self.lines.get(before.max(1) - 1) else { return Ok(None) };
        let depth = place.sleeve.ports;
        let open_below = self.layout.stage(before).map_or(self.layout.toe_tool, |s| s.sleeve.ports);
        Ok(Some(Setting {
            job: self.job,
            string: way::string(self.job, self.path, depth, self.fluid)?,
            shear: device_range(&self.job.file.sleeve.shear),
            rung,
            line,
            rate_before: self.stages.stage(before.max(1)).map_or(FlowRate::ZERO, |s| s.planned_rate),
            below: (open_below - depth).max(Length::ZERO),
            fluid: Mixture::clean(self.fluid),
        }))
    }

    fn fill(
        &self,
        rung: &RungPlan,
        place: &StagePlace,
        made: &Made,
        (rate_before, chosen): (FlowRate, LandingOption),
    ) -> physics::Result<BallCard> {
        let program = &self.job.file.ball_program;
        let before = rung.stage.saturating_sub(1);
        let swept = self.tree() + self.path.volume_to(place.sleeve.ports);
        let carrying = made.ratio.si() * program.job_factor.si();
        let spread = self.spread(made, carrying)?;
        let window = landing_window(swept, made.ratio.si(), program.job_factor.si())?;
        let ports_before = self.stages.stage(before).map(|s| self.tree() + s.volume_to_ports);
        let spacer_ahead = self.spacer(ports_before, spread.p10);
        let stage_slurry = self.stages.stage(before).map_or(Volume::ZERO, |s| s.slurry);
        let rate_cut_at = self.cut(spread.p10);
        let spacing = ports_before.map(|v| v - swept);
        let over = |v: Volume| (spread.p50 + spacer_ahead - v).max(Volume::ZERO);
        Ok(BallCard {
            stage: rung.stage,
            launched_during: before,
            ball: rung.ball,
            ball_tolerance: self.job.file.ladder.ball_tolerance,
            material: self.job.file.ball.material.clone(),
            seat: rung.seat,
            seat_tolerance: self.job.file.ladder.seat_tolerance,
            seat_depth: place.sleeve.ports,
            swept,
            carrying: Ratio::of(carrying),
            landing: Band { p10: spread.p10, p50: spread.p50, p90: spread.p90 },
            sigma: spread.sigma,
            window_opens: window.opens,
            window_closes: window.closes,
            missing_at: window.closes.max(spread.p90) + program.search_beyond,
            spacing,
            spacing_sigmas: spacing.map(|v| Ratio::of(v / spread.sigma)),
            spacer_ahead,
            launch_at: stage_slurry + self.job.file.launcher.line_volume + spacer_ahead,
            rate_cut_at,
            rate_before,
            landing_rate: chosen.rate,
            transit: Time::ZERO,
            slow_time: slow_time(spread.p50, rate_cut_at, rate_before, &chosen),
            over_displacement: ports_before.map_or(Volume::ZERO, over),
            chosen,
            options: Vec::new(),
            shear: device_range(&self.job.file.sleeve.shear),
        })
    }

    fn tree(&self) -> Volume {
        self.job.file.launcher.tree_volume
    }

    /// Volume since launch at which the rate is cut.
    fn cut(&self, earliest: Volume) -> Volume {
        (earliest - self.job.file.ball_program.cut_before).max(Volume::ZERO)
    }

    /// The march of the ball: pumping rate to the cut, landing rate from there. The cut hangs on
    /// the landing volume, which hangs on the cut; two rounds settle it to a fraction of a barrel.
    fn march(
        &self,
        rung: &RungPlan,
        depth: MeasuredDepth,
        liquid: Liquid,
        (before, landing): (FlowRate, FlowRate),
    ) -> physics::Result<Transit> {
        let ball = Ball { diameter: rung.ball, density: self.job.file.ball.density };
        let ride = Ride {
            rolling: self.job.file.ball_program.rolling_resistance.si(),
            wall_from: ON_THE_WALL,
            ..Ride::new(ball)
        };
        let legs = way::legs(self.job, self.path, depth, liquid);
        let road = Road::new(&ride, &legs)?;
        let mut march = road.march(&[RateStep { rate: before, lasting: ON }])?;
        if landing >= before {
            return Ok(march);
        }
        for _ in 0..2 {
            let fast = RateStep { rate: before, lasting: self.cut(march.pumped) / before };
            march = road.march(&[fast, RateStep { rate: landing, lasting: ON }])?;
        }
        Ok(march)
    }

    /// Volumes by bore down to a depth, and the capacity of the bore there.
    fn sections(&self, depth: MeasuredDepth) -> (Vec<Volume>, Capacity) {
        let segments = self.path.down_to(depth);
        let mut sections = way::sections(&segments);
        sections.push(self.tree());
        let bore = segments.last().map_or(self.job.file.sleeve.id, |s| s.bore);
        (sections, Capacity::m3_per_m(bore.circle().si()))
    }

    fn spread(&self, made: &Made, carrying: f64) -> physics::Result<LandingVolume> {
        let program = &self.job.file.ball_program;
        let doubt = Doubt {
            meter: program.meter_sigma.si(),
            bore: program.bore_sigma.si(),
            depth: made.depth_sigma,
            carrying: program.carry_sigma.si(),
        };
        landing_volume_spread(&made.sections, carrying, made.capacity, doubt)
    }

    /// Clean fluid ahead of the ball: what the job file asks, or what it takes for the last
    /// proppant to be past the open sleeve when the ball lands at its earliest.
    fn spacer(&self, ports_before: Option<Volume>, earliest: Volume) -> Volume {
        let wanted = self.job.file.ball_program.spacer_ahead;
        ports_before.map_or(wanted, |ports| wanted.max(ports - earliest))
    }
}

fn slow_time(landing: Volume, cut: Volume, before: FlowRate, chosen: &LandingOption) -> Time {
    if chosen.rate >= before || chosen.rate.si() <= 0.0 {
        return Time::ZERO;
    }
    let slow = (landing - cut).max(Volume::ZERO);
    slow / chosen.rate - slow / before
}
