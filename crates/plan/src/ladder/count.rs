//! How many balls a job takes, and which stage each opens.

use physics::practice::system::System;
use quantity::Diameter;
use well::Job;
use well::job::SystemKind;

use super::duty::Scene;

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
