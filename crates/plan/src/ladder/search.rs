//! The ladder built from the heel: each ball the one with the widest seat among those that pass
//! the seat above.
//!
//! The loss through a seat falls as its bore grows, and a wider seat lets a larger ball pass to
//! the next rung. So if every seat from the heel down is as wide as it can be, no ladder within
//! the same limits has a wider seat anywhere: the loss to the toe is the least there is, and as
//! many rungs fit as can.

use physics::ball::ladder::Rung;
use quantity::*;

/// The most rungs that are ever looked for.
pub const MOST: usize = 500;
/// Seats are drawn to this.
pub const SEAT_STEP: Diameter = Diameter::inch(0.001);
/// The finest increment of balls that is taken; anything below counts as none.
const FINEST: Diameter = Diameter::mm(0.01);
/// The most sizes that are tried for one rung: far more than any real grid has.
pub const MOST_SIZES: usize = 50_000;
/// Room for the last digit of a division.
const SLACK: f64 = 1e-7;

/// Limits that do not depend on the rung.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Largest ball that comes down to the first seat.
    pub largest_ball: Diameter,
    /// Smallest ball.
    pub smallest_ball: Diameter,
    /// Balls are made to a multiple of this.
    pub increment: Diameter,
    /// Seat over the next ball toe-ward, as drawn, so that the clearance is there at the worst.
    pub passing: Diameter,
    /// Smallest seat.
    pub smallest_seat: Diameter,
}

/// Why a seat is no wider.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bound {
    /// The body of the sleeve.
    LargestSeat,
    /// The least interference.
    Interference,
    /// The strength of the ball.
    Strength,
    /// The share of the ball that all rungs have in common.
    Share,
}

/// Why there is no further rung.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// There are as many as wanted.
    Enough,
    /// The next ball would be below the smallest.
    SmallestBall,
    /// The next seat would be below the smallest.
    SmallestSeat,
    /// No seat holds the next ball.
    NoSeat,
}

/// What seat a ball may have.
pub trait Seats {
    /// The widest seat on which a ball holds, with what keeps it from being wider. `from_heel`
    /// counts rungs from 0 at the heel.
    fn widest(&self, from_heel: usize, ball: Diameter) -> Option<(Diameter, Bound)>;
}

/// A ladder as it was built.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Rungs, heel first, each with what bounds its seat.
    pub rungs: Vec<(Rung, Bound)>,
    /// Why it ends.
    pub end: End,
}

impl Found {
    /// The rungs, toe first.
    pub fn toe_first(&self) -> Vec<Rung> {
        self.rungs.iter().rev().map(|(r, _)| *r).collect()
    }
}

/// The largest multiple of a step that is not above a size; the size itself where there is no step.
pub fn floored(size: Diameter, step: Diameter) -> Diameter {
    if step < FINEST { size } else { (step * (size / step + SLACK).floor()).min(size) }
}

/// Builds a ladder of at most `most` rungs.
pub fn from_heel(limits: &Limits, seats: &impl Seats, most: usize) -> Found {
    let mut found = Found { rungs: Vec::new(), end: End::Enough };
    let mut room = limits.largest_ball;
    while found.rungs.len() < most.min(MOST) {
        match widest_below(limits, seats, found.rungs.len(), room) {
            Ok((rung, bound)) => {
                room = rung.seat - limits.passing;
                found.rungs.push((rung, bound));
            }
            Err(end) => {
                found.end = end;
                break;
            }
        }
    }
    found
}

/// The ball of the widest seat among those no larger than `room`.
fn widest_below(
    limits: &Limits,
    seats: &impl Seats,
    from_heel: usize,
    room: Diameter,
) -> Result<(Rung, Bound), End> {
    let step = if limits.increment < FINEST { SEAT_STEP } else { limits.increment };
    let mut best: Option<(Rung, Bound)> = None;
    let mut end = End::SmallestBall;
    let mut ball = floored(room, step);
    for _ in 0..MOST_SIZES {
        let too_small = ball.si() < limits.smallest_ball.si() - step.si() * SLACK || ball <= Diameter::ZERO;
        let best_possible =
            best.is_some_and(|(rung, bound)| ball <= rung.seat || bound == Bound::LargestSeat);
        if too_small || best_possible {
            break;
        }
        match seats.widest(from_heel, ball) {
            Some((seat, bound))
                if seat >= limits.smallest_seat && best.is_none_or(|(b, _)| seat > b.seat) =>
            {
                best = Some((Rung { ball, seat }, bound));
            }
            Some(_) => end = End::SmallestSeat,
            None if end == End::SmallestBall => end = End::NoSeat,
            None => {}
        }
        ball = floored(ball - step * 0.5, step);
    }
    best.ok_or(end)
}
