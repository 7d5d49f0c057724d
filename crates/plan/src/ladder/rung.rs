//! A rung in full: fits, contact, ratings, life.

use physics::Result;
use physics::ball::bearing::projected_bearing;
use physics::ball::cap_shear::cap_shear;
use physics::ball::clearance::Service;
use physics::ball::contact::{self, seat_contact};
use physics::ball::dissolution::{dissolution_time, dissolving_ball};
use physics::ball::ladder::Rung;
use quantity::*;

use super::duty::{Duty, Scene};
use super::hold::{seat_growth, strength_temperature, worst};
use super::loss::loss_of;
use super::result::{BallLife, Passage, Rest, RungPlan};

/// Why a rung cannot be worked out.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Fault {
    /// Nothing says what the ball holds at its temperature.
    NoRating,
    /// At its worst the ball passes its own seat.
    NoOverlap(Diameter),
    /// A relation refused its inputs.
    Refused(physics::Error),
}

impl From<physics::Error> for Fault {
    fn from(error: physics::Error) -> Self {
        Fault::Refused(error)
    }
}

/// The rung of a stage with those above it, toe-ward first.
pub(super) fn rung(
    scene: &Scene<'_>,
    drawn: Rung,
    above: &[Rung],
    duty: &Duty,
    clean: Density,
) -> std::result::Result<RungPlan, Fault> {
    let service = scene.service(drawn, duty)?;
    let least = scene.least_interference(drawn, service);
    if least <= Diameter::ZERO {
        return Err(Fault::NoOverlap(least));
    }
    let (rating, rating_basis) = scene.rating(drawn, service, duty.rock).ok_or(Fault::NoRating)?;
    let pumped = scene.job.file.rock.pumped_temperature.min(duty.rock);
    let (expected, worst_static) = (duty.expected(), duty.worst_static());
    let contact = seat_contact(drawn.ball, scene.seat(drawn.seat), expected)?;
    let at_worst = worst(drawn, service);
    let passages = passages(scene, drawn.ball, above, duty)?;
    let losses = above.iter().map(|r| loss_of(scene.job, r.seat, clean));
    let used = |differential| Ratio::of(scene.with_factor(differential) / rating);
    let tolerances = scene.tolerances();
    let interference = drawn.ball - drawn.seat;
    Ok(RungPlan {
        stage: duty.stage,
        ball: drawn.ball,
        seat: drawn.seat,
        interference,
        least_interference: least,
        greatest_interference: interference + tolerances.ball_tolerance + tolerances.seat_tolerance,
        clearance: passages.iter().map(|p| p.least).min_by(Diameter::total_cmp),
        passages,
        seat_growth: service.seat_growth,
        ball_loss: service.ball_loss,
        rest: match contact.rest {
            contact::Rest::Cone => Rest::Cone,
            contact::Rest::BoreEdge => Rest::BoreEdge,
        },
        contact_circle: contact.circle,
        temperature: strength_temperature(&scene.job.file.ball, duty.rock),
        rating,
        rating_basis,
        rating_when_cooled: scene.rating(drawn, service, pumped).map(|(p, _)| p),
        treating_pressure: duty.treating,
        pressure_below: duty.below,
        worst_pressure: duty.worst,
        expected_differential: expected,
        worst_differential: worst_static,
        utilisation: used(expected),
        worst_utilisation: used(worst_static),
        force_at_expected: contact.force,
        bearing_at_expected: projected_bearing(at_worst.ball, scene.seat(at_worst.seat), expected)?,
        shear_at_expected: cap_shear(at_worst.ball, at_worst.seat, expected)?.0,
        seat_loss: loss_of(scene.job, drawn.seat, clean)?,
        loss_above: losses.sum::<Result<RateSquaredLoss>>()?,
        life: life(drawn, service, duty)?,
    })
}

/// A ball through every seat above its own.
fn passages(scene: &Scene<'_>, ball: Diameter, above: &[Rung], duty: &Duty) -> Result<Vec<Passage>> {
    let tolerances = scene.tolerances();
    let passage = |(i, rung): (usize, &Rung)| {
        let fit = scene.passage(ball, rung.seat);
        let growth = seat_growth(scene.job, rung.seat, &duty.sand)?;
        Ok(Passage {
            stage: duty.stage + 1 + i,
            seat: rung.seat,
            nominal: fit.nominal,
            least: fit.least,
            greatest: fit.nominal + tolerances.ball_tolerance + tolerances.seat_tolerance + growth,
        })
    };
    above.iter().enumerate().map(passage).collect()
}

/// What a dissolving ball loses, and when it would pass its seat.
fn life(drawn: Rung, service: Service, duty: &Duty) -> Result<Option<BallLife>> {
    let Some(recession) = duty.recession.filter(|k| *k > RecessionRate::ZERO) else { return Ok(None) };
    let smallest = drawn.ball - service.ball_tolerance;
    let largest = drawn.seat + service.seat_tolerance + service.seat_growth;
    Ok(Some(BallLife {
        recession,
        transit: duty.transit,
        stage_time: duty.stage_time,
        lost_at_landing: drawn.ball - dissolving_ball(drawn.ball, recession, duty.transit)?,
        lost_at_end: service.ball_loss,
        passes_after: dissolution_time(smallest, largest, recession)?,
    }))
}
