//! The two ways a completion of this kind is set and opened, and the order of their steps.

use crate::ball::count::{flag, number, whole};
use crate::error::{Error, Result};
use crate::registry::{Arguments, Input, Output, Outputs, Relation};
use quantity::Ratio;

/// How the open-hole packers are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Rubber swells in the fluid pumped round it; a ball opens every stage.
    FluidActivated,
    /// Pressure on a setting ball sets them; pressure alone opens stage 1.
    HydraulicSet,
}

/// A step of the job between the string on depth and the first treating ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Activation fluid goes down the string and up the annulus.
    PumpActivationFluid,
    /// The setting ball lands in the isolation tool at the toe.
    LandSettingBall,
    /// Pressure closes the isolation tool.
    SetIsolationTool,
    /// The packer in the casing is set.
    SetCasingPacker,
    /// Pressure sets the open-hole packers.
    SetOpenHolePackers,
    /// Pressure test.
    PressureTest,
    /// The rig leaves.
    MoveRigOff,
    /// The packers swell to the wall.
    WaitForSwell,
    /// A sleeve opens stage 1 by pressure alone.
    OpenStageOneByPressure,
    /// The ball for stage 1 goes down.
    BallForStageOne,
    /// The ball for stage 2 goes down.
    BallForStageTwo,
}

const STEPS: &[(&str, Step)] = &[
    ("pump_activation_fluid", Step::PumpActivationFluid),
    ("land_setting_ball", Step::LandSettingBall),
    ("set_isolation_tool", Step::SetIsolationTool),
    ("set_casing_packer", Step::SetCasingPacker),
    ("set_open_hole_packers", Step::SetOpenHolePackers),
    ("pressure_test", Step::PressureTest),
    ("move_rig_off", Step::MoveRigOff),
    ("wait_for_swell", Step::WaitForSwell),
    ("open_stage_1_by_pressure", Step::OpenStageOneByPressure),
    ("ball_for_stage_1", Step::BallForStageOne),
    ("ball_for_stage_2", Step::BallForStageTwo),
];

const WORDS: [&str; STEPS.len()] = {
    let mut words = [""; STEPS.len()];
    let mut i = 0;
    while i < STEPS.len() {
        words[i] = STEPS[i].0;
        i += 1;
    }
    words
};

impl System {
    /// Words of the choice.
    pub const WORDS: &'static [&'static str] = &["fluid_activated", "hydraulic_set"];

    /// The system of that word.
    pub fn of(word: &str) -> Self {
        match word {
            "hydraulic_set" => System::HydraulicSet,
            _ => System::FluidActivated,
        }
    }

    /// The steps from the string on depth to the first treating ball, in their order.
    ///
    /// ```text
    /// fluid-activated: activation fluid, casing packer, test, rig off, wait, ball for stage 1
    /// hydraulic-set: setting ball, isolation tool, casing packer, open-hole packers, test, stage 1 by
    /// pressure, ball for stage 2
    /// ```
    ///
    /// Range: these two systems.
    ///
    /// Where it breaks: a mixed string follows the program written for it.
    ///
    /// Source: trade_practice, order of the job.
    ///
    /// ```
    /// use physics::practice::system::{Step, System};
    /// let steps = System::FluidActivated.steps();
    /// assert_eq!(steps.first(), Some(&Step::PumpActivationFluid));
    /// assert_eq!(steps.last(), Some(&Step::BallForStageOne));
    /// ```
    pub fn steps(self) -> &'static [Step] {
        match self {
            System::FluidActivated => &[
                Step::PumpActivationFluid,
                Step::SetCasingPacker,
                Step::PressureTest,
                Step::MoveRigOff,
                Step::WaitForSwell,
                Step::BallForStageOne,
            ],
            System::HydraulicSet => &[
                Step::LandSettingBall,
                Step::SetIsolationTool,
                Step::SetCasingPacker,
                Step::SetOpenHolePackers,
                Step::PressureTest,
                Step::OpenStageOneByPressure,
                Step::BallForStageTwo,
            ],
        }
    }

    /// Balls that set packers and open nothing.
    pub fn setting_balls(self) -> usize {
        match self {
            System::FluidActivated => 0,
            System::HydraulicSet => 1,
        }
    }

    /// The first stage a ball opens.
    pub fn first_ball_stage(self) -> usize {
        match self {
            System::FluidActivated => 1,
            System::HydraulicSet => 2,
        }
    }

    /// Number of treating balls for a number of stages.
    ///
    /// ```text
    /// fluid-activated: N;   hydraulic-set: N - 1, with 1 setting ball before them
    /// ```
    ///
    /// - `N` number of stages
    ///
    /// Range: one ball a stage.
    ///
    /// Where it breaks: spares are not counted; sleeves worked by repeated balls of one size are another
    /// system.
    ///
    /// Source: trade_practice, ball count.
    ///
    /// ```
    /// use physics::practice::system::System;
    /// assert_eq!(System::FluidActivated.treating_balls(30), 30);
    /// assert_eq!(System::HydraulicSet.treating_balls(30), 29);
    /// ```
    pub fn treating_balls(self, stages: usize) -> usize {
        (stages + 1).saturating_sub(self.first_ball_stage())
    }

    /// The rung of the ladder, from 1 at the toe, that serves a stage; `None` for a stage that
    /// pressure opens.
    pub fn rung_of_stage(self, stage: usize) -> Option<usize> {
        (stage + 1).checked_sub(self.first_ball_stage()).filter(|rung| *rung > 0)
    }
}

/// The system of a call.
pub(crate) const SYSTEM: Input = Input::choice("system", System::WORDS, "how the open-hole packers are set");
/// The number of stages of a call.
pub(crate) const STAGES: Input = Input::new::<Ratio>("stages", "number of stages");
/// The stage of a call.
pub(crate) const STAGE: Input = Input::new::<Ratio>("stage", "stage, 1 at the toe");

/// Stage and number of stages of a call.
pub(crate) fn stage_of(relation: &'static str, a: &Arguments) -> Result<(usize, usize)> {
    let stages = whole(relation, "stages", a.get("stages")?, 1.0)?;
    let stage = whole(relation, "stage", a.get("stage")?, 1.0)?;
    if stage > stages {
        return Err(Error::NoSolution {
            relation,
            what: format!("stage {stage} is asked of a completion of {stages} stages"),
            hint: "Stages are counted from 1 at the toe to the number of stages at the heel.",
        });
    }
    Ok((stage, stages))
}

/// Balls of a job: setting ball and treating balls.
///
/// ```text
/// fluid-activated: N treating balls;  hydraulic-set: 1 setting ball + N - 1 treating balls
/// ```
pub static BALL_COUNT: Relation = Relation {
    name: "ball_count",
    title: "Balls a completion of a number of stages takes",
    equation: "fluid-activated: N; hydraulic-set: 1 setting ball + (N - 1)",
    source: "trade_practice, ball count",
    range: "one ball a stage; no spares, no repeated balls",
    inputs: &[SYSTEM, STAGES],
    outputs: &[
        Output::new::<Ratio>("setting_balls", "balls that set packers and open no stage"),
        Output::new::<Ratio>("treating_balls", "balls that open stages"),
        Output::new::<Ratio>("total", "all balls"),
    ],
    evaluate: |a| {
        let system = System::of(a.word("system")?);
        let stages = whole("ball_count", "stages", a.get("stages")?, 1.0)?;
        let (setting, treating) = (system.setting_balls(), system.treating_balls(stages));
        Ok(Outputs::new()
            .put("setting_balls", number(setting))
            .put("treating_balls", number(treating))
            .put("total", number(setting + treating)))
    },
};

/// How a stage is opened, and by which ball of the ladder.
///
/// ```text
/// fluid-activated: stage k by ball k;  hydraulic-set: stage 1 by pressure, stage k by ball k - 1
/// ```
pub static STAGE_OPENING: Relation = Relation {
    name: "stage_opening",
    title: "How a stage is opened: by which ball of the ladder, or by pressure",
    equation: "fluid-activated: ball k; hydraulic-set: stage 1 by pressure, then ball k - 1",
    source: "trade_practice, opening of stages",
    range: "one ball a stage",
    inputs: &[SYSTEM, STAGE, STAGES],
    outputs: &[
        Output::new::<Ratio>("opened_by_ball", "1 when a ball opens it"),
        Output::new::<Ratio>("opened_by_pressure", "1 when pressure alone opens it"),
        Output::new::<Ratio>("rung", "rung of the ladder, 1 the smallest ball; 0 for none"),
    ],
    evaluate: |a| {
        let (stage, _) = stage_of("stage_opening", a)?;
        let rung = System::of(a.word("system")?).rung_of_stage(stage);
        Ok(Outputs::new()
            .put("opened_by_ball", flag(rung.is_some()))
            .put("opened_by_pressure", flag(rung.is_none()))
            .put("rung", number(rung.unwrap_or(0))))
    },
};

/// Place of a step in the order of the job.
///
/// ```text
/// fluid-activated: activation fluid, casing packer, test, rig off, wait, ball for stage 1
/// hydraulic-set: setting ball, isolation tool, casing packer, open-hole packers, test, stage 1 by
/// pressure, ball for stage 2
/// ```
pub static JOB_STEP: Relation = Relation {
    name: "job_step",
    title: "Place of a step in the order of the job, from string on depth to first treating ball",
    equation: "order of the step in its system, from 1",
    source: "trade_practice, order of the job",
    range: "the two systems named",
    inputs: &[SYSTEM, Input::choice("step", &WORDS, "step of the job")],
    outputs: &[
        Output::new::<Ratio>("order", "place of the step, from 1"),
        Output::new::<Ratio>("of", "number of steps"),
    ],
    evaluate: |a| {
        let (word, system) = (a.word("step")?, System::of(a.word("system")?));
        let step = STEPS.iter().find(|(w, _)| *w == word).map(|(_, s)| *s);
        let place = system.steps().iter().position(|s| Some(*s) == step);
        match place {
            Some(i) => Ok(Outputs::new().put("order", number(i + 1)).put("of", number(system.steps().len()))),
            None => Err(Error::NoSolution {
                relation: "job_step",
                what: format!("`{word}` is no step of this system"),
                hint: "Ask for a step of the other system, or for another step.",
            }),
        }
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_belongs_to_a_system_and_stands_once() {
        for (word, step) in STEPS {
            let places =
                System::WORDS.iter().map(|w| System::of(w).steps().iter().filter(|s| *s == step).count());
            let counts: Vec<usize> = places.collect();
            assert!(counts.iter().all(|c| *c <= 1) && counts.iter().sum::<usize>() >= 1, "{word}");
        }
    }

    #[test]
    fn rungs_and_balls_agree() {
        for system in [System::FluidActivated, System::HydraulicSet] {
            for stages in 1..60 {
                let rungs = (1..=stages).filter_map(|k| system.rung_of_stage(k));
                assert!(rungs.eq(1..=system.treating_balls(stages)));
            }
        }
        assert_eq!(System::HydraulicSet.rung_of_stage(1), None);
    }
}
