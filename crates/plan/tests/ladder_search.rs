//! The ladder built from the heel against trying every ladder.

#![allow(clippy::unwrap_used)] // helpers of tests

use physics::ball::ladder::Rung;
use physics::hydraulics::seat::{SeatModel, seat_loss};
use plan::ladder::search::{Bound, End, Limits, SEAT_STEP, Seats, floored, from_heel};
use proptest::prelude::*;
use quantity::*;

/// Sixteenths of an inch.
fn sixteenths(n: usize) -> Diameter {
    Diameter::inch(n as f64 / 16.0)
}

/// A made-up world: whether a ball (in sixteenths) holds on a seat (in sixteenths) at a rung. It
/// need not make sense: a seat may hold though a smaller one does not.
#[derive(Debug, Clone)]
struct Made {
    holds: Vec<bool>,
    rungs: usize,
    sizes: usize,
}

impl Made {
    fn holds(&self, from_heel: usize, ball: usize, seat: usize) -> bool {
        seat < ball && self.holds[(from_heel.min(self.rungs - 1) * self.sizes + ball) * self.sizes + seat]
    }

    fn limits(&self, passing: usize, smallest_seat: usize) -> Limits {
        Limits {
            largest_ball: sixteenths(self.sizes - 1),
            smallest_ball: sixteenths(2),
            increment: sixteenths(1),
            passing: sixteenths(passing),
            smallest_seat: sixteenths(smallest_seat),
        }
    }
}

impl Seats for Made {
    fn widest(&self, from_heel: usize, ball: Diameter) -> Option<(Diameter, Bound)> {
        let ball = (ball.in_inch() * 16.0).round() as usize;
        let seat = (0..ball).rev().find(|s| self.holds(from_heel, ball, *s))?;
        Some((sixteenths(seat), Bound::Strength))
    }
}

/// What is done with a ladder: its balls and seats in sixteenths, heel first.
type Visit<'a> = dyn FnMut(&[(usize, usize)]) + 'a;

/// Visits every ladder of so many rungs, heel first.
fn every(made: &Made, limits: &Limits, left: usize, so_far: &mut Vec<(usize, usize)>, visit: &mut Visit<'_>) {
    if left == 0 {
        visit(so_far);
        return;
    }
    let passing = (limits.passing.in_inch() * 16.0).round() as usize;
    let smallest_seat = (limits.smallest_seat.in_inch() * 16.0).round() as usize;
    let room = so_far.last().map_or(made.sizes as isize - 1, |(_, seat)| *seat as isize - passing as isize);
    for ball in 2..=room.max(0) as usize {
        for seat in smallest_seat..ball {
            if made.holds(so_far.len(), ball, seat) {
                so_far.push((ball, seat));
                every(made, limits, left - 1, so_far, visit);
                so_far.pop();
            }
        }
    }
}

/// Loss of seats in series.
fn loss(seats: impl Iterator<Item = Diameter>) -> f64 {
    let one = |seat| seat_loss(SeatModel::ContractionExpansion, seat, Diameter::inch(1.0)).unwrap();
    seats.map(|seat| one(seat).per_rate_squared(Density::g_per_cm3(1.0)).si()).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn no_ladder_costs_the_toe_less_and_none_has_more_rungs(
        holds in prop::collection::vec(prop::bool::weighted(0.35), 4 * 11 * 11),
        passing in 0usize..3,
        smallest_seat in 1usize..4,
    ) {
        let made = Made { holds, rungs: 4, sizes: 11 };
        let limits = made.limits(passing, smallest_seat);
        let mut fit = 0;
        for rungs in 1..=4 {
            let (mut all, mut above_toe) = (f64::INFINITY, f64::INFINITY);
            every(&made, &limits, rungs, &mut Vec::new(), &mut |ladder| {
                let seats = || ladder.iter().map(|(_, seat)| sixteenths(*seat));
                all = all.min(loss(seats()));
                above_toe = above_toe.min(loss(seats().take(rungs - 1)));
                fit = fit.max(rungs);
            });
            let found = from_heel(&limits, &made, rungs);
            if all.is_infinite() {
                prop_assert!(found.rungs.len() < rungs, "a ladder where there is none");
                continue;
            }
            prop_assert_eq!(found.rungs.len(), rungs);
            let seats = || found.rungs.iter().map(|(r, _)| r.seat);
            prop_assert!((loss(seats()) / all - 1.0).abs() < 1e-12);
            let above = loss(seats().take(rungs - 1));
            prop_assert!((above - above_toe).abs() <= 1e-12 * above_toe.max(1.0));
            let mut room = limits.largest_ball;
            for (i, (rung, _)) in found.rungs.iter().enumerate() {
                let ball = (rung.ball.in_inch() * 16.0).round() as usize;
                let seat = (rung.seat.in_inch() * 16.0).round() as usize;
                prop_assert!(made.holds(i, ball, seat) && rung.ball.si() <= room.si() + 1e-9);
                room = rung.seat - limits.passing;
            }
        }
        prop_assert_eq!(from_heel(&limits, &made, 4).rungs.len(), fit);
    }
}

/// A constant overlap.
struct Constant(Diameter);

impl Seats for Constant {
    fn widest(&self, _: usize, ball: Diameter) -> Option<(Diameter, Bound)> {
        Some((floored(ball - self.0, SEAT_STEP), Bound::Interference))
    }
}

#[test]
fn a_constant_overlap_gives_the_ladder_of_arithmetic() {
    // step = overlap + clearance: 1/16 + 1/16 in, from 3.125 in down to 1.5 in makes 14 balls
    let limits = Limits {
        largest_ball: Diameter::inch(3.125),
        smallest_ball: Diameter::inch(1.5),
        increment: Diameter::inch(1.0 / 64.0),
        passing: Diameter::inch(0.0615),
        smallest_seat: Diameter::inch(1.0),
    };
    let found = from_heel(&limits, &Constant(Diameter::inch(0.0625)), 500);
    assert_eq!((found.rungs.len(), found.end), (14, End::SmallestBall));
    let (count, _) = physics::ball::step_ladder::ladder_capacity(
        Diameter::inch(1.5),
        Diameter::inch(3.125),
        Diameter::inch(0.125),
    )
    .unwrap();
    assert_eq!(count, 14);
    let toe: Rung = found.toe_first()[0];
    assert!((toe.ball.in_inch() - 1.5).abs() < 1e-9);
}

#[test]
fn the_end_is_named_and_absurd_sizes_do_not_hang() {
    let limits = |largest: f64, smallest_seat: f64| Limits {
        largest_ball: Diameter::inch(largest),
        smallest_ball: Diameter::inch(0.5),
        increment: Diameter::inch(0.005),
        passing: Diameter::inch(0.02),
        smallest_seat: Diameter::inch(smallest_seat),
    };
    let seats = Constant(Diameter::inch(0.05));
    assert_eq!(from_heel(&limits(3.0, 2.0), &seats, 500).end, End::SmallestSeat);
    assert_eq!(from_heel(&limits(3.0, 0.1), &seats, 500).end, End::SmallestBall);
    assert_eq!(from_heel(&limits(3.0, 0.1), &seats, 3).end, End::Enough);
    struct Never;
    impl Seats for Never {
        fn widest(&self, _: usize, _: Diameter) -> Option<(Diameter, Bound)> {
            None
        }
    }
    assert_eq!(from_heel(&limits(1e9, 0.1), &Never, 500).end, End::NoSeat);
    assert!(from_heel(&limits(f64::NAN, 0.1), &seats, 500).rungs.is_empty());
    let tight = Limits { passing: Diameter::inch(-1.0), ..limits(3.0, 0.1) };
    assert!(from_heel(&tight, &seats, 10_000).rungs.len() <= 500);
}
