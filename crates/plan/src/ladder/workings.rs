//! The workings of the ladder's figures: each evaluated once more through its relation.

use physics::ball::bearing::{PROJECTED_BEARING, PROJECTED_BEARING_LIMIT};
use physics::ball::cap_shear::CAP_SHEAR;
use physics::ball::clearance::{SEAT_INTERFERENCE, SEAT_PASSAGE};
use physics::ball::contact::SEAT_CONTACT;
use physics::ball::dissolution::{DISSOLUTION_TIME, DISSOLVING_BALL};
use physics::ball::ladder::Rung;
use physics::ball::rating::BALL_RATING;
use physics::ball::recession::RECESSION_AT_TEMPERATURE;
use physics::ball::seat_erosion::SEAT_EROSION;
use physics::fluid::slurry::SLURRY_DENSITY;
use physics::hydraulics::column::HYDROSTATIC_COLUMN;
use physics::hydraulics::port::PORT_LOSS;
use physics::hydraulics::seat::SEAT_LOSS;
use physics::hydraulics::seat_series::SEAT_SERIES;
use physics::hydraulics::step_down::NEAR_WELLBORE_LOSS;
use physics::practice::system::BALL_COUNT;
use physics::{Call, Evaluation, Result};
use quantity::*;

use super::count::{system, word};
use super::duty::{Duty, Scene, dissolving};
use super::hold::{WEAR_EXPONENT, calibration, derating, worn, worst};
use super::loss::shaped;
use super::result::{LadderPlan, RatingBasis, RungPlan};
use crate::Ledger;

/// Records the workings of all figures.
pub(super) fn open(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let mut desk = Desk { scene, plan, ledger };
    let done = desk.counts().and_then(|()| desk.toe_loss());
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
        let call = SEAT_SERIES.call().list("seats", &seats).number("first_stage", self.scene.first_stage() as f64);
        let call = call.number("stage", stage as f64).with("rate", rate);
        shaped(self.scene.job, self.plan.clean_density, call).run()
    }

    fn rung(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let note = format!("by the method \"{}\"; {}", self.plan.method.word(), self.plan.bound_by);
        self.say(rung, ("ball", "Ball"), rung.ball, &[], &note);
        self.say(rung, ("seat", "Seat"), rung.seat, &[], &note);
        self.overlap(rung, duty)?;
        self.clearance(rung)?;
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
        note: &str,
    ) {
        let title = format!("{title}, stage {}", rung.stage);
        self.ledger.open(format!("ladder.{}.{name}", rung.stage), &title, value, steps, note);
    }

    /// The tolerances of a call.
    fn tolerances(&self, call: Call) -> Call {
        let ladder = &self.scene.job.file.ladder;
        call.with("ball_tolerance", ladder.ball_tolerance).with("seat_tolerance", ladder.seat_tolerance)
    }

    fn overlap(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let mut steps = Vec::new();
        if let Some(wear) = self.wear(rung, duty) {
            steps.push(wear?);
        }
        let overlap = self.tolerances(SEAT_INTERFERENCE.call().with("ball", rung.ball).with("seat", rung.seat));
        let overlap = overlap.with("seat_growth", rung.seat_growth).with("ball_loss", rung.ball_loss);
        steps.push(overlap.with("required", self.scene.job.file.ladder.least_interference).run()?);
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = "on the diameter; half of it per side";
        self.say(rung, ("interference", "Interference as drawn"), rung.interference, &steps, note);
        let title = ("least_interference", "Interference at the worst in service");
        let note = "tolerances, wear by the stages below, and what dissolves until its stage ends";
        self.say(rung, title, rung.least_interference, &steps, note);
        Ok(())
    }

    fn wear(&self, rung: &RungPlan, duty: &Duty) -> Option<Result<Evaluation>> {
        let law = calibration(self.scene.job)?;
        let masses: Vec<Mass> = duty.sand.iter().map(|s| s.mass).collect();
        let rates: Vec<FlowRate> = duty.sand.iter().map(|s| s.rate).collect();
        let call = SEAT_EROSION.call().with("seat", rung.seat).list("masses", &masses).list("rates", &rates);
        let call = call.with("wear", law.wear).with("wear_mass", law.mass).with("wear_rate", law.rate);
        Some(call.with("wear_bore", law.bore).number("exponent", WEAR_EXPONENT).run())
    }

    fn clearance(&mut self, rung: &RungPlan) -> Result<()> {
        let tightest = rung.passages.iter().min_by(|a, b| a.least.total_cmp(&b.least));
        let Some(tightest) = tightest.copied() else { return Ok(()) };
        let through = self.tolerances(SEAT_PASSAGE.call().with("ball", rung.ball).with("seat", tightest.seat));
        let through = through.with("required", self.scene.job.file.ladder.clearance).run()?;
        let note = format!("the tightest seat above is that of stage {}", tightest.stage);
        self.say(rung, ("clearance", "Least clearance through a seat above"), tightest.least, &[&through], &note);
        Ok(())
    }

    fn expected(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let file = &self.scene.job.file;
        let root = file.treatment.rate.si().max(f64::MIN_POSITIVE).sqrt();
        let near = NEAR_WELLBORE_LOSS.call().with("rate", duty.pumped.rate);
        let near = near.with("near_wellbore", RateRootLoss::si(file.treatment.near_wellbore.si() / root)).run()?;
        let ports = PORT_LOSS.call().with("rate", duty.pumped.rate).with("density", self.scene.heaviest.1);
        let ports = ports.number("count", file.sleeve.ports as f64).with("diameter", file.sleeve.port_diameter);
        let ports = ports.with("cd", file.sleeve.port_coefficient).run()?;
        let note = format!(
            "{} times {} plus near-wellbore and port friction is {}; less {} below the ball",
            duty.pumped.fracture_gradient, duty.tvd, duty.treating, duty.below
        );
        let title = ("expected_differential", "Differential the ball is expected to hold");
        self.say(rung, title, rung.expected_differential, &[&near, &ports], &note);
        Ok(())
    }

    fn worst_static(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let file = &self.scene.job.file;
        let (mixture, density) = &self.scene.heaviest;
        let mut steps = Vec::new();
        if mixture.proppant.is_some() {
            let slurry = SLURRY_DENSITY.call().with("clean_density", mixture.fluid.density);
            let slurry = slurry.with("proppant_density", mixture.grain_density());
            steps.push(slurry.with("concentration", mixture.concentration).run()?);
        }
        let column = HYDROSTATIC_COLUMN.call().with("top_pressure", file.limits.treating_pressure.absolute());
        let column = column.list("tvd", &[TrueVerticalDepth::ZERO, duty.tvd]);
        let column = column.list("temperature", &[file.rock.surface_temperature, duty.rock]);
        steps.push(column.word("fluid", "fixed").with("density", *density).run()?);
        let note = format!(
            "the column under the surface at its limit is {} gauge; less {} below the ball",
            duty.worst, duty.below
        );
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let title = ("worst_differential", "Differential of the worst static case");
        self.say(rung, title, rung.worst_differential, &steps, &note);
        Ok(())
    }

    /// Ball, seat and cone of a call.
    fn on_seat(&self, call: Call, rung: Rung) -> Call {
        let cone = self.scene.job.file.sleeve.seat_angle;
        call.with("ball", rung.ball).with("seat", rung.seat).with("half_angle", cone)
    }

    fn rating(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let (steps, note) = self.rating_steps(rung, duty)?;
        let steps: Vec<&Evaluation> = steps.iter().collect();
        self.say(rung, ("rating", "Rating of the ball on its seat"), rung.rating, &steps, note);
        let factor = self.scene.job.file.ball.safety_factor.si();
        let note = format!("expected differential times {factor} over the rating");
        self.say(rung, ("utilisation", "Share of the rating that is used"), rung.utilisation, &steps, &note);
        let note = format!("worst static differential times {factor} over the rating");
        let title = ("worst_utilisation", "Share of the rating that the worst static case uses");
        self.say(rung, title, rung.worst_utilisation, &steps, &note);
        Ok(())
    }

    fn rating_steps(&self, rung: &RungPlan, duty: &Duty) -> Result<(Vec<Evaluation>, &'static str)> {
        let drawn = Rung { ball: rung.ball, seat: rung.seat };
        let service = self.scene.service(drawn, duty)?;
        let at_worst = worst(drawn, service);
        match rung.rating_basis {
            RatingBasis::Tested { ball, seat, pressure, .. } => {
                let test = self.on_seat(PROJECTED_BEARING.call(), Rung { ball, seat });
                let test = test.with("pressure", pressure).run()?;
                let now = self.on_seat(PROJECTED_BEARING_LIMIT.call(), worn(drawn, service));
                let now = now.with("allowable", test.get::<Pressure>("bearing")?).run()?;
                let note = "a tested rating goes before a computed one; the lesser of the pressure of the test and of \
                            what its bearing stress allows after wear and dissolving";
                Ok((vec![test, now], note))
            }
            RatingBasis::Bearing { .. } => {
                Ok((vec![self.by_bearing(rung, at_worst)?], "the smallest ball on the largest seat in service"))
            }
            RatingBasis::Shear { .. } => {
                let shear = CAP_SHEAR.call().with("ball", at_worst.ball).with("seat", at_worst.seat);
                let shear = shear.with("pressure", rung.rating).run()?;
                let note = "less than the bearing allows: at this differential the mean shear of the cap is the shear \
                            strength at the temperature";
                Ok((vec![self.by_bearing(rung, at_worst)?, shear], note))
            }
        }
    }

    fn by_bearing(&self, rung: &RungPlan, at: Rung) -> Result<Evaluation> {
        let ball = &self.scene.job.file.ball;
        let temperatures: Vec<Temperature> = ball.strength.iter().map(|r| r.temperature).collect();
        let strengths: Vec<Pressure> = ball.strength.iter().map(|r| r.bearing).collect();
        let factors = derating(ball);
        let call = self.on_seat(BALL_RATING.call(), at).with("temperature", rung.temperature);
        let call = call.list("temperatures", &temperatures).list("strengths", &strengths);
        call.number("weak_plane", factors.weak_plane).number("confinement", factors.confinement).run()
    }

    fn stresses(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let drawn = Rung { ball: rung.ball, seat: rung.seat };
        let expected = rung.expected_differential;
        let contact = self.on_seat(SEAT_CONTACT.call(), drawn).with("pressure", expected).run()?;
        let note = "at the expected differential, sizes as drawn";
        self.say(rung, ("force_at_expected", "Axial force on the seat"), rung.force_at_expected, &[&contact], note);
        let at_worst = worst(drawn, self.scene.service(drawn, duty)?);
        let note = "at the expected differential, the smallest ball on the largest seat in service";
        let bearing = self.on_seat(PROJECTED_BEARING.call(), at_worst).with("pressure", expected).run()?;
        let title = ("bearing_at_expected", "Projected bearing stress");
        self.say(rung, title, rung.bearing_at_expected, &[&bearing], note);
        let shear = CAP_SHEAR.call().with("ball", at_worst.ball).with("seat", at_worst.seat);
        let shear = shear.with("pressure", expected).run()?;
        self.say(rung, ("shear_at_expected", "Mean shear of the cap"), rung.shear_at_expected, &[&shear], note);
        Ok(())
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

    fn life(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let (Some(life), Some(law)) = (&rung.life, dissolving(self.scene.job)) else { return Ok(()) };
        let ladder = &self.scene.job.file.ladder;
        let rate = RECESSION_AT_TEMPERATURE.call().with("recession", law.recession);
        let rate = rate.with("reference", law.reference).with("activation", law.activation);
        let rate = rate.with("temperature", duty.rock).run()?;
        let left = DISSOLVING_BALL.call().with("ball", rung.ball).with("recession", life.recession);
        let left = left.with("time", duty.time_in_fluid()).run()?;
        let title = ("ball_loss", "Diameter dissolved when the next ball has landed");
        let note = format!("{} in transit and {} in its stage", life.transit, life.stage_time);
        self.say(rung, title, rung.ball_loss, &[&rate, &left], &note);
        let passes = DISSOLUTION_TIME.call().with("ball", rung.ball - ladder.ball_tolerance);
        let passes = passes.with("seat", rung.seat + ladder.seat_tolerance + rung.seat_growth);
        let passes = passes.with("recession", life.recession).run()?;
        let title = ("passes_after", "Earliest time from launch at which it passes its seat");
        let note = "the smallest ball on the largest worn seat; an estimate on the early side";
        self.say(rung, title, life.passes_after, &[&rate, &passes], note);
        Ok(())
    }
}
