//! Ratings, stresses and the life of a ball on its seat.

use physics::ball::bearing::{PROJECTED_BEARING, PROJECTED_BEARING_LIMIT};
use physics::ball::cap_shear::CAP_SHEAR;
use physics::ball::clearance::Service;
use physics::ball::contact::SEAT_CONTACT;
use physics::ball::dissolution::{DISSOLUTION_TIME, DISSOLVING_BALL};
use physics::ball::ladder::Rung;
use physics::ball::rating::BALL_RATING;
use physics::ball::recession::RECESSION_AT_TEMPERATURE;
use physics::{Evaluation, Result};
use quantity::*;

use super::Desk;
use crate::ladder::duty::{Duty, dissolving};
use crate::ladder::hold::{derating, strength_temperature, worn, worst};
use crate::ladder::result::{RatingBasis, RungPlan};

impl Desk<'_> {
    pub(super) fn rating(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let drawn = Rung { ball: rung.ball, seat: rung.seat };
        let service = self.scene.service(drawn, duty)?;
        let (steps, note) = self.rating_steps(drawn, service, (rung.rating, rung.rating_basis, duty.rock))?;
        let steps: Vec<&Evaluation> = steps.iter().collect();
        self.say(rung, ("rating", "Rating of the ball on its seat"), rung.rating, &steps, note);
        let factor = self.scene.job.file.ball.safety_factor.si();
        let note = format!("expected differential times {factor} over the rating");
        self.say(rung, ("utilisation", "Share of the rating that is used"), rung.utilisation, &steps, &note);
        let note = format!("worst static differential times {factor} over the rating");
        let title = ("worst_utilisation", "Share of the rating that the worst static case uses");
        self.say(rung, title, rung.worst_utilisation, &steps, &note);
        let pumped = self.scene.job.file.rock.pumped_temperature.min(duty.rock);
        let Some((cooled, basis)) = self.scene.rating(drawn, service, pumped) else { return Ok(()) };
        let (steps, note) = self.rating_steps(drawn, service, (cooled, basis, pumped))?;
        let note = format!("the coolest the ball can be; {note}");
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let title = ("rating_when_cooled", "Rating at the temperature of the pumped fluid");
        self.say(rung, title, cooled, &steps, &note);
        Ok(())
    }

    /// The calls behind a rating: its value, what it was made of, and the temperature.
    fn rating_steps(
        &self,
        drawn: Rung,
        service: Service,
        (rating, basis, temperature): (Pressure, RatingBasis, Temperature),
    ) -> Result<(Vec<Evaluation>, &'static str)> {
        let at_worst = worst(drawn, service);
        match basis {
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
                let bearing = self.by_bearing(at_worst, temperature)?;
                Ok((vec![bearing], "the smallest ball on the largest seat in service"))
            }
            RatingBasis::Shear { .. } => {
                let shear = CAP_SHEAR.call().with("ball", at_worst.ball).with("seat", at_worst.seat);
                let shear = shear.with("pressure", rating).run()?;
                let note = "less than the bearing allows: at this differential the mean shear of the cap is the shear \
                            strength at the temperature";
                Ok((vec![self.by_bearing(at_worst, temperature)?, shear], note))
            }
        }
    }

    fn by_bearing(&self, at: Rung, temperature: Temperature) -> Result<Evaluation> {
        let ball = &self.scene.job.file.ball;
        let temperatures: Vec<Temperature> = ball.strength.iter().map(|r| r.temperature).collect();
        let strengths: Vec<Pressure> = ball.strength.iter().map(|r| r.bearing).collect();
        let factors = derating(ball);
        let call = self.on_seat(BALL_RATING.call(), at);
        let call = call.with("temperature", strength_temperature(ball, temperature));
        let call = call.list("temperatures", &temperatures).list("strengths", &strengths);
        call.number("weak_plane", factors.weak_plane).number("confinement", factors.confinement).run()
    }

    pub(super) fn stresses(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let drawn = Rung { ball: rung.ball, seat: rung.seat };
        let expected = rung.expected_differential;
        let contact = self.on_seat(SEAT_CONTACT.call(), drawn).with("pressure", expected).run()?;
        let note = "at the expected differential, sizes as drawn";
        self.say(
            rung,
            ("force_at_expected", "Axial force on the seat"),
            rung.force_at_expected,
            &[&contact],
            note,
        );
        let title = ("contact_circle", "Circle of contact, which seals");
        self.say(rung, title, rung.contact_circle, &[&contact], "sizes as drawn");
        let at_worst = worst(drawn, self.scene.service(drawn, duty)?);
        let note = "at the expected differential, the smallest ball on the largest seat in service";
        let bearing = self.on_seat(PROJECTED_BEARING.call(), at_worst).with("pressure", expected).run()?;
        let title = ("bearing_at_expected", "Projected bearing stress");
        self.say(rung, title, rung.bearing_at_expected, &[&bearing], note);
        let shear = CAP_SHEAR.call().with("ball", at_worst.ball).with("seat", at_worst.seat);
        let shear = shear.with("pressure", expected).run()?;
        self.say(
            rung,
            ("shear_at_expected", "Mean shear of the cap"),
            rung.shear_at_expected,
            &[&shear],
            note,
        );
        Ok(())
    }

    pub(super) fn life(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let (Some(life), Some(law)) = (&rung.life, dissolving(self.scene.job)) else { return Ok(()) };
        let ladder = &self.scene.job.file.ladder;
        let rate = RECESSION_AT_TEMPERATURE.call().with("recession", law.recession);
        let rate = rate.with("reference", law.reference).with("activation", law.activation);
        let rate = rate.with("temperature", duty.rock).run()?;
        let left = DISSOLVING_BALL.call().with("ball", rung.ball).with("recession", life.recession);
        let left = left.with("time", duty.time_in_fluid()).run()?;
        let title = ("ball_loss", "Diameter dissolved when the next ball has landed");
        let note = said!("{} in transit and {} in its stage", life.transit, life.stage_time);
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
