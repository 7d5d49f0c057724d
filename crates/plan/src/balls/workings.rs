//! Workings of a ball card's headline figures.

use physics::Evaluation;
use physics::ball::ball_velocity::BALL_VELOCITY;
use physics::ball::landing_window::{LANDING_VOLUME_SPREAD, LANDING_WINDOW};
use physics::hydraulics::joukowsky::BALL_IMPACT;
use physics::hydraulics::landing::LANDING_STAIRCASE;
use quantity::*;
use well::Job;

use super::card::Made;
use super::result::BallCard;
use crate::Ledger;

/// Records what the landing volume, the launch point and the signature of a card open to.
pub(super) fn open_card(job: &Job, card: &BallCard, made: &Made, ledger: &mut Ledger) {
    let figures = evaluate(job, card, made);
    let Some([spread, window, ride, stairs, impact]) = ledger.take("the workings of a ball", figures) else {
        return;
    };
    let at = |what: &str| format!("ball.{}.{what}", card.stage);
    let of = |what: &str| format!("{what} of the ball of stage {}", card.stage);
    ledger.open(
        at("landing"),
        &of("Landing volume"),
        card.landing.p50,
        &[&ride, &spread],
        "The ball is marched along the survey through every bore under the rates of the card; pumped over swept \
         volume is the ratio. The first step shows its velocity in the level liner at the rate before the cut. \
         P10 and P90 are 1.2816 standard deviations to either side.",
    );
    ledger.open(
        at("window"),
        &of("Landing window"),
        card.window_closes,
        &[&window],
        "Past this the ball is late.",
    );
    ledger.open(
        at("launch"),
        &of("Launch point"),
        card.launch_at,
        &[&spread],
        "Slurry volume of the stage being pumped, plus the lines from meter to launcher, plus the spacer ahead of \
         the ball. The spacer is the job file's, or longer where the ball at its earliest (P10) would land before \
         the last proppant is past the open sleeve.",
    );
    ledger.open(
        at("rise"),
        &of("Surface rise at landing"),
        card.chosen.signature.rise,
        &[&stairs],
        "Without friction; friction rounds the steps. The sleeve is taken at its nominal value.",
    );
    ledger.open(
        at("impact"),
        &of("Pressure difference at landing"),
        card.chosen.impact,
        &[&impact, &stairs],
        "The greater of the step on both sides and the rise at which the sleeve opens at the top of its range.",
    );
}

fn evaluate(job: &Job, card: &BallCard, made: &Made) -> physics::Result<[Evaluation; 5]> {
    let program = &job.file.ball_program;
    let spread = LANDING_VOLUME_SPREAD
        .call()
        .list("volumes", &made.sections)
        .with("ratio", card.carrying)
        .with("capacity", made.capacity)
        .with("meter", program.meter_sigma)
        .with("bore", program.bore_sigma)
        .with("depth", made.depth_sigma)
        .with("carrying", program.carry_sigma)
        .run()?;
    let window = LANDING_WINDOW
        .call()
        .with("swept", card.swept)
        .with("ratio", made.ratio)
        .with("factor", program.job_factor)
        .run()?;
    let ride = BALL_VELOCITY
        .call()
        .with("ball", card.ball)
        .with("ball_density", job.file.ball.density)
        .with("fluid_density", made.liquid.density)
        .with("viscosity", made.liquid.viscosity)
        .with("rolling", program.rolling_resistance)
        .with("bore", made.string.bore)
        .with("inclination", Angle::deg(90.0))
        .with("rate", card.rate_before)
        .run()?;
    Ok([spread, window, ride, stairs(job, card, made)?, impact(card, made)?])
}

fn stairs(job: &Job, card: &BallCard, made: &Made) -> physics::Result<Evaluation> {
    LANDING_STAIRCASE
        .call()
        .with("density", made.string.density)
        .with("wave_speed", made.string.wave_speed)
        .with("bore", made.string.bore)
        .with("length", made.string.length)
        .with("rate", card.landing_rate)
        .with("opening_pressure", card.shear.nominal)
        .with("treating_pressure", card.chosen.before)
        .with("trip_pressure", job.file.limits.trip)
        .run()
}

fn impact(card: &BallCard, made: &Made) -> physics::Result<Evaluation> {
    BALL_IMPACT
        .call()
        .with("density", made.string.density)
        .with("rate", card.landing_rate)
        .with("bore_above", made.string.bore)
        .with("bore_below", made.string.bore)
        .with("wave_speed", made.string.wave_speed)
        .with("length_below", made.below)
        .with("seat", card.seat)
        .run()
}
