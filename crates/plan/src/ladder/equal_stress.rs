//! Interference in proportion to the ball, so that all balls bear the same stress.
//!
//! `Ds = Db (1 - share)`, the same share for all; each ball toe-ward is the largest that passes
//! the seat above with its clearance. The share is the least at which every ball stands the worst
//! static case; where that does not fit between the largest and the smallest ball, the greatest
//! that does. The least interference of the job file is aimed at in the same way; an overlap below it
//! is taken with a warning.

use physics::ball::ladder::Rung;
use quantity::*;

use super::bores::Bore;
use super::choose::{Chosen, limits, words};
use super::duty::{Duty, Scene};
use super::hold::Hold;
use super::search::{Bound, Found, Limits, MOST, SEAT_STEP, Seats, floored, from_heel};

/// The least and the greatest share looked at.
const SHARES: (f64, f64) = (1e-4, 0.5);
/// Halvings of that span.
const HALVINGS: usize = 40;

/// Seats that leave one share of every ball.
struct ShareSeats {
    share: f64,
    largest_seat: Diameter,
}

impl Seats for ShareSeats {
    fn widest(&self, _: usize, ball: Diameter) -> Option<(Diameter, Bound)> {
        let seat = floored(ball * (1.0 - self.share), SEAT_STEP);
        let largest = floored(self.largest_seat, SEAT_STEP);
        Some(if seat > largest { (largest, Bound::LargestSeat) } else { (seat, Bound::Share) })
    }
}

/// The ladders of equal share within the limits of a job.
struct Equal<'a> {
    scene: &'a Scene<'a>,
    limits: Limits,
}

impl Equal<'_> {
    fn ladder(&self, share: f64, balls: usize) -> Option<Found> {
        let seats = ShareSeats { share, largest_seat: self.scene.job.file.sleeve.largest_seat };
        let found = from_heel(&self.limits, &seats, balls);
        (found.rungs.len() == balls).then_some(found)
    }

    /// The greatest share with which so many balls fit.
    fn greatest(&self, balls: usize) -> Option<f64> {
        self.ladder(SHARES.0, balls)?;
        Some(halve(SHARES, |share| self.ladder(share, balls).is_some()))
    }

    /// Whether every rung holds what `asked` says, with an overlap in service of `wanted`.
    fn holds(&self, found: &Found, wanted: Diameter, asked: fn(&Duty) -> Pressure) -> bool {
        found.rungs.iter().enumerate().all(|(i, (rung, _))| {
            let Some(duty) = self.scene.duty_from_heel(i) else { return false };
            matches!(self.scene.holds(*rung, duty, wanted, asked(duty)), Ok(Hold::Holds))
        })
    }

    /// The share taken for so many balls.
    fn share(&self, balls: usize) -> Option<f64> {
        let greatest = self.greatest(balls)?;
        let wanted = self.scene.job.file.ladder.least_interference;
        let short = |share| match self.ladder(share, balls) {
            Some(found) => !self.holds(&found, wanted, Duty::worst_static),
            None => true,
        };
        if short(greatest) {
            return Some(greatest);
        }
        // the greatest share that is still short, and a hair more
        let least = if short(SHARES.0) { halve((SHARES.0, greatest), short) } else { 0.0 };
        let share = (least + 2.0 * greatest / (1u64 << HALVINGS) as f64).clamp(SHARES.0, greatest);
        Some(if short(share) { greatest } else { share })
    }

    /// The most balls that fit and hold what is expected of them.
    fn most(&self, start: usize) -> usize {
        let good = |balls: usize| {
            let share = self.greatest(balls);
            let ladder = share.and_then(|share| self.ladder(share, balls));
            ladder.is_some_and(|found| self.holds(&found, Diameter::ZERO, Duty::expected))
        };
        let mut balls = start.clamp(1, MOST);
        if good(balls) {
            while balls < MOST && good(balls + 1) {
                balls += 1;
            }
            return balls;
        }
        while balls > 0 && !good(balls) {
            balls -= 1;
        }
        balls
    }
}

/// The greatest number of a span, to its 2^40th part, at which a condition that holds at the lower
/// end still holds.
fn halve((mut holds, mut fails): (f64, f64), condition: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (holds + fails);
        if condition(middle) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    holds
}

/// The ladder of equal share for a job.
pub(super) fn chosen(scene: &Scene<'_>, bores: &[Bore]) -> Chosen {
    let equal = Equal { scene, limits: limits(scene, bores) };
    let balls = scene.frac_balls();
    let balls_that_fit = equal.most(balls);
    let found = equal.share(balls).and_then(|share| Some((share, equal.ladder(share, balls)?)));
    let Some((share, found)) = found else {
        let all = from_heel(
            &equal.limits,
            &ShareSeats { share: SHARES.0, largest_seat: scene.job.file.sleeve.largest_seat },
            MOST,
        );
        let bound_by = words(scene, bores, &all);
        return Chosen { rungs: Vec::<Rung>::new(), left_out: Vec::new(), balls_that_fit, bound_by };
    };
    let next = equal.greatest(balls_that_fit + 1);
    let toe = match next {
        None => "one more ball does not fit between the largest and the smallest",
        Some(_) => "with one more ball the overlaps left would not hold",
    };
    let along = words(scene, bores, &found);
    let along = along.split("; at the toe").next().unwrap_or_default();
    let bound_by = format!("{along}, {:.2} % of the ball; at the toe: {toe}", 100.0 * share);
    Chosen { rungs: found.toe_first(), left_out: Vec::new(), balls_that_fit, bound_by }
}
