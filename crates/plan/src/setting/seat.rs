//! The setting ball on its seat against the highest pressure of setting and test.

use physics::Evaluation;
use physics::ball::bearing::{PROJECTED_BEARING, PROJECTED_BEARING_LIMIT};
use physics::ball::cap_shear::CAP_SHEAR;
use quantity::*;
use well::Job;

use super::result::SettingSeat;
use crate::ladder::{RatingBasis, SettingBallRating};

/// The seat with what it has to hold.
pub(super) fn seat(job: &Job, rating: &SettingBallRating, differential: Pressure) -> SettingSeat {
    let needed = differential * job.file.ball.safety_factor.si();
    let utilisation = if rating.pressure.si() > 0.0 { needed / rating.pressure } else { f64::MAX };
    SettingSeat {
        ball: rating.ball,
        seat: rating.seat,
        temperature: rating.temperature,
        rating: rating.pressure,
        basis: basis(rating.basis).into(),
        differential,
        utilisation: Ratio::of(utilisation),
    }
}

fn basis(basis: RatingBasis) -> &'static str {
    match basis {
        RatingBasis::Tested { .. } => {
            "a tested rating of the supplier, of this ball and seat, a harder case or one of more interference: the lesser of \
             the pressure of the test and of what its bearing stress allows"
        }
        RatingBasis::Bearing { .. } => {
            "computed: bearing on the ring between seat and ball at the worst of the tolerances"
        }
        RatingBasis::Shear { .. } => {
            "computed: shear of the cap over the bore at the worst of the tolerances"
        }
    }
}

/// What the rating opens to.
pub(super) fn rating_steps(job: &Job, rating: &SettingBallRating) -> physics::Result<Vec<Evaluation>> {
    let tolerance = (job.file.ladder.ball_tolerance, job.file.ladder.seat_tolerance);
    let worst = (rating.ball - tolerance.0, rating.seat + tolerance.1);
    let on_seat = |call: physics::Call, (ball, seat): (Diameter, Diameter)| {
        call.with("ball", ball).with("seat", seat).with("half_angle", job.file.sleeve.seat_angle)
    };
    match rating.basis {
        RatingBasis::Tested { ball, seat, pressure, .. } => {
            let test = on_seat(PROJECTED_BEARING.call(), (ball, seat)).with("pressure", pressure).run()?;
            let now = on_seat(PROJECTED_BEARING_LIMIT.call(), (rating.ball, rating.seat));
            let now = now.with("allowable", test.get::<Pressure>("bearing")?).run()?;
            Ok(vec![test, now])
        }
        RatingBasis::Bearing { allowable } => {
            Ok(vec![on_seat(PROJECTED_BEARING_LIMIT.call(), worst).with("allowable", allowable).run()?])
        }
        RatingBasis::Shear { .. } => {
            let (ball, seat) = worst;
            let call =
                CAP_SHEAR.call().with("ball", ball).with("seat", seat).with("pressure", rating.pressure);
            Ok(vec![call.run()?])
        }
    }
}
