//! The workings of the ladder's figures: each evaluated once more through its relation.

mod fits;
mod hold;
mod pressure;

use physics::ball::ladder::Rung;
use physics::hydraulics::seat::SEAT_LOSS;
use physics::hydraulics::seat_series::SEAT_SERIES;
use physics::practice::system::BALL_COUNT;
use physics::{Call, Evaluation, Result};
use quantity::*;

use super::count::{system, word};
use super::duty::{Duty, Scene};
use super::loss::shaped;
use super::result::{LadderPlan, RungPlan};
use crate::Ledger;

/// Records the workings of all figures.
pub(super) fn open(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let mut desk = Desk { scene, plan, ledger };
    let done = desk.counts().and_then(|()| desk.toe_loss()).and_then(|()| desk.bores());
    desk.ledger.take("the workings of the ladder", done);
    for rung in &plan.rungs {
        let Some(duty) = scene.duty_of(rung.stage) else { continue };
        let done = desk.rung(rung, duty);
        desk.ledger.take(&format!("the workings of the rung of stage {}", rung.stage), done);
    }
}

struct Desk<'a> {
    scene: &'a Scene<'a>,
    plan: &'a LadderPlan,
    ledger: &'a mut Ledger,
}

impl Desk<'_> {
    fn counts(&mut self) -> Result<()> {
        let stages = self.scene.stages() as f64;
        let kind = word(system(self.scene.job));
        let count = BALL_COUNT.call().word("system", kind).number("stages", stages).run()?;
        let all = Ratio::of(self.plan.balls as f64);
        self.ledger.open("ladder.balls", "Balls the job takes", all, &[&count], "spares are not counted");
        let fit = Ratio::of(self.plan.stages_that_fit as f64);
        let note = format!("what binds: {}", self.plan.bound_by);
        self.ledger.open("ladder.stages_that_fit", "Stages the sizes and limits allow", fit, &[], &note);
        Ok(())
    }

    fn toe_loss(&mut self) -> Result<()> {
        let series = self.series(1)?;
        let note = "all seats above stage 1, clean fluid; times the rate squared, and for a slurry times its density \
                    over the clean fluid's, it is the pressure the ladder costs the toe";
        let title = "Loss of the ladder to the toe stage, per rate squared";
        self.ledger.open("ladder.toe_loss", title, self.plan.toe_loss, &[&series], note);
        Ok(())
    }

    /// The loss of the seats above a stage at its rate.
    fn series(&self, stage: usize) -> Result<Evaluation> {
        let seats: Vec<Diameter> = self.plan.rungs.iter().map(|r| r.seat).collect();
        let rate = self.scene.duty_of(stage).map_or(FlowRate::ZERO, |d| d.pumped.rate);
        let call =
            SEAT_SERIES.call().list("seats", &seats).number("first_stage", self.scene.first_stage() as f64);
        let call = call.number("stage", stage as f64).with("rate", rate);
        shaped(self.scene.job, self.plan.clean_density, call).run()
    }

    fn rung(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let note = format!("by the method \"{}\"; {}", self.plan.method.word(), self.plan.bound_by);
        self.say(rung, ("ball", "Ball"), rung.ball, &[], &note);
        self.say(rung, ("seat", "Seat"), rung.seat, &[], &note);
        self.overlap(rung, duty)?;
        self.clearance(rung)?;
        self.temperature(rung, duty)?;
        self.expected(rung, duty)?;
        self.worst_static(rung, duty)?;
        self.rating(rung, duty)?;
        self.stresses(rung, duty)?;
        self.seat_losses(rung, duty)?;
        self.life(rung, duty)
    }

    /// Records a figure of a rung: its name and title, value, steps and note.
    fn say(
        &mut self,
        rung: &RungPlan,
        (name, title): (&str, &str),
        value: impl Into<Value>,
        steps: &[&Evaluation],
        note: impl Into<Text>,
    ) {
        let title = format!("{title}, stage {}", rung.stage);
        self.ledger.open(format!("ladder.{}.{name}", rung.stage), &title, value, steps, note);
    }

    /// The tolerances of a call.
    fn tolerances(&self, call: Call) -> Call {
        let ladder = &self.scene.job.file.ladder;
        call.with("ball_tolerance", ladder.ball_tolerance).with("seat_tolerance", ladder.seat_tolerance)
    }

    /// Ball, seat and cone of a call.
    fn on_seat(&self, call: Call, rung: Rung) -> Call {
        let cone = self.scene.job.file.sleeve.seat_angle;
        call.with("ball", rung.ball).with("seat", rung.seat).with("half_angle", cone)
    }

    fn seat_losses(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let own = SEAT_LOSS.call().with("seat", rung.seat).with("rate", duty.pumped.rate);
        let own = shaped(self.scene.job, self.plan.clean_density, own).run()?;
        let note = "clean fluid; met by the flow to the stages below, never by its own stage";
        self.say(rung, ("seat_loss", "Loss of its own seat per rate squared"), rung.seat_loss, &[&own], note);
        let above = self.series(rung.stage)?;
        let note = "clean fluid; the seats between the surface and its ports";
        let title = ("loss_above", "Loss of the seats above it per rate squared");
        self.say(rung, title, rung.loss_above, &[&above], note);
        Ok(())
    }
}
