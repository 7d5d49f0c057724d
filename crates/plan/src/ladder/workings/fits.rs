//! Overlaps and clearances.

use physics::ball::clearance::{SEAT_INTERFERENCE, SEAT_PASSAGE};
use physics::ball::seat_erosion::SEAT_EROSION;
use physics::{Evaluation, Result};
use quantity::*;

use super::Desk;
use crate::ladder::duty::Duty;
use crate::ladder::hold::{WEAR_EXPONENT, calibration};
use crate::ladder::result::{BorePart, RungPlan};

impl Desk<'_> {
    pub(super) fn overlap(&mut self, rung: &RungPlan, duty: &Duty) -> Result<()> {
        let mut steps = Vec::new();
        if let Some(wear) = self.wear(rung, duty).transpose()? {
            let note = "the proppant of the stages below, before its ball lands";
            self.say(rung, ("seat_growth", "Growth of the seat"), rung.seat_growth, &[&wear], note);
            steps.push(wear);
        }
        let overlap =
            self.tolerances(SEAT_INTERFERENCE.call().with("ball", rung.ball).with("seat", rung.seat));
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

    pub(super) fn clearance(&mut self, rung: &RungPlan) -> Result<()> {
        let tightest = rung.passages.iter().min_by(|a, b| a.least.total_cmp(&b.least));
        let Some(tightest) = tightest.copied() else { return Ok(()) };
        let through =
            self.tolerances(SEAT_PASSAGE.call().with("ball", rung.ball).with("seat", tightest.seat));
        let through = through.with("required", self.scene.job.file.ladder.clearance).run()?;
        let note = format!("the tightest seat above is that of stage {}", tightest.stage);
        self.say(
            rung,
            ("clearance", "Least clearance through a seat above"),
            tightest.least,
            &[&through],
            &note,
        );
        Ok(())
    }

    /// Every bore above the seats, and the setting ball.
    pub(super) fn bores(&mut self) -> Result<()> {
        let ladder = &self.scene.job.file.ladder;
        let bores = self.plan.bores.iter().enumerate();
        for (i, row) in bores.filter(|(_, b)| b.part != BorePart::Seat) {
            let (Some(ball), Some(clearance)) = (row.ball, row.clearance) else { continue };
            let through = SEAT_PASSAGE.call().with("ball", ball).with("seat", row.bore);
            let through =
                through.with("ball_tolerance", ladder.ball_tolerance).with("required", row.wanted).run()?;
            let title = format!("Clearance of the largest ball through the {}", row.name);
            let note = "a bore is passed like a seat; drifts and tool bores are taken as the least there is";
            self.ledger.open(format!("ladder.bore.{}", i + 1), &title, clearance, &[&through], note);
        }
        let Some(setting) = self.plan.setting_ball else { return Ok(()) };
        let overlap = SEAT_INTERFERENCE.call().with("ball", setting.ball).with("seat", setting.seat);
        let overlap = self.tolerances(overlap).run()?;
        let title = "Interference of the setting ball at the worst of the tolerances";
        let figure = "ladder.setting_ball.least_interference";
        self.ledger.open(figure, title, setting.least_interference, &[&overlap], "on the diameter");
        let tightest = self.plan.rungs.iter().map(|r| r.seat).min_by(Diameter::total_cmp);
        let (Some(clearance), Some(seat)) = (setting.clearance, tightest) else { return Ok(()) };
        let through = self.tolerances(SEAT_PASSAGE.call().with("ball", setting.ball).with("seat", seat));
        let through = through.with("required", ladder.clearance).run()?;
        let title = "Least clearance of the setting ball through a seat";
        let note = "the tightest seat is that of the smallest frac ball";
        self.ledger.open("ladder.setting_ball.clearance", title, clearance, &[&through], note);
        Ok(())
    }
}
