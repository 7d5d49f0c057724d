//! How many balls a job takes, which stage each opens, and the list of them.

use physics::practice::system::System;
use quantity::*;
use well::Job;
use well::job::SystemKind;

use super::duty::Scene;
use super::result::{LedgerBall, RungPlan};

/// The kind of system, as the facts of the trade count its balls.
pub(super) fn system(job: &Job) -> System {
    match job.file.system.kind {
        SystemKind::FluidActivated => System::FluidActivated,
        SystemKind::HydraulicSet => System::HydraulicSet,
    }
}

/// The word of the system in the register.
pub(super) fn word(system: System) -> &'static str {
    match system {
        System::FluidActivated => "fluid_activated",
        System::HydraulicSet => "hydraulic_set",
    }
}

impl Scene<'_> {
    /// Number of stages.
    pub fn stages(&self) -> usize {
        self.duties.len()
    }

    /// Number of balls that open stages.
    pub fn frac_balls(&self) -> usize {
        system(self.job).treating_balls(self.stages())
    }

    /// Stage of the smallest of them.
    pub fn first_stage(&self) -> usize {
        system(self.job).first_ball_stage()
    }

    /// The setting ball, where the system has one.
    pub fn setting_ball(&self) -> Option<Diameter> {
        self.job.file.toe.setting_ball.filter(|_| system(self.job).setting_balls() > 0)
    }
}

/// The balls to have on location, in the order of launching.
pub(super) fn ledger(scene: &Scene<'_>, rungs: &[RungPlan]) -> Vec<LedgerBall> {
    let tolerance = scene.job.file.ladder.ball_tolerance;
    let setting = scene.setting_ball().map(|ball| (None, ball));
    let all = setting.into_iter().chain(rungs.iter().map(|r| (Some(r.stage), r.ball)));
    let one = |(i, (stage, diameter)): (usize, (Option<usize>, Diameter))| LedgerBall {
        order: i + 1,
        stage,
        diameter,
        smallest: diameter - tolerance,
        largest: diameter + tolerance,
        mass: scene.job.file.ball.density * Volume::m3(std::f64::consts::PI / 6.0 * diameter.si().powi(3)),
    };
    all.enumerate().map(one).collect()
}
