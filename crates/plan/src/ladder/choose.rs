//! Sizes by each method.

use physics::ball::ladder::Rung;
use quantity::*;
use well::job::LadderMethod;

use super::bores::{Bore, largest_ball, passes_seat};
use super::duty::{Duty, Scene};
use super::equal_stress;
use super::hold::Hold;
use super::search::{Bound, End, Found, Limits, MOST, MOST_SIZES, SEAT_STEP, Seats, floored, from_heel};

/// A ladder chosen.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chosen {
    /// Rungs, toe first; fewer than wanted where no more fit.
    pub rungs: Vec<Rung>,
    /// Balls on offer that are not taken.
    pub left_out: Vec<Diameter>,
    /// How many balls the limits allow.
    pub balls_that_fit: usize,
    /// What binds, in words.
    pub bound_by: String,
}

/// Chooses the rungs by the method of the job file.
pub(super) fn choose(scene: &Scene<'_>, bores: &[Bore]) -> Chosen {
    match scene.job.file.ladder.method {
        LadderMethod::Search => searched(scene, bores),
        LadderMethod::EqualStress => equal_stress::chosen(scene, bores),
        LadderMethod::Given | LadderMethod::Step | LadderMethod::Fractions => {
            super::listed::chosen(scene, bores)
        }
    }
}

/// The limits of a ladder that the program makes up.
pub(super) fn limits(scene: &Scene<'_>, bores: &[Bore]) -> Limits {
    let (ladder, sleeve) = (&scene.job.file.ladder, &scene.job.file.sleeve);
    let passing = ladder.clearance + ladder.ball_tolerance + ladder.seat_tolerance;
    let by_bores = largest_ball(scene.job, bores).map_or(Diameter::ZERO, |(ball, _)| ball);
    let toe = scene.setting_ball().map_or(Diameter::ZERO, |ball| ball + passing);
    Limits {
        largest_ball: ladder.largest_ball.unwrap_or(by_bores).min(by_bores),
        smallest_ball: ladder.smallest_ball.unwrap_or(Diameter::ZERO),
        increment: ladder.increment,
        passing,
        smallest_seat: sleeve.smallest_seat.max(toe),
    }
}

/// Seats as wide as interference and strength allow.
pub(super) struct WidestSeats<'a> {
    /// The job.
    pub scene: &'a Scene<'a>,
}

impl Scene<'_> {
    /// The duty of the rung `from_heel`; that of the smallest ball for rungs beyond the toe, which
    /// are looked at only to say how many would fit.
    pub fn duty_from_heel(&self, from_heel: usize) -> Option<&Duty> {
        self.duty_of(self.stages().saturating_sub(from_heel).max(self.first_stage()))
    }
}

impl Seats for WidestSeats<'_> {
    fn widest(&self, from_heel: usize, ball: Diameter) -> Option<(Diameter, Bound)> {
        let duty = self.scene.duty_from_heel(from_heel)?;
        let (ladder, sleeve) = (&self.scene.job.file.ladder, &self.scene.job.file.sleeve);
        let wanted = ladder.least_interference;
        let by_overlap = floored(ball - wanted - ladder.ball_tolerance - ladder.seat_tolerance, SEAT_STEP);
        let by_body = floored(sleeve.largest_seat, SEAT_STEP);
        let (mut seat, mut bound) = (by_body, Bound::LargestSeat);
        if by_overlap < by_body {
            (seat, bound) = (by_overlap, Bound::Interference);
        }
        if seat < sleeve.smallest_seat {
            return Some((seat, bound));
        }
        for _ in 0..MOST_SIZES {
            if seat < sleeve.smallest_seat {
                break;
            }
            match self.scene.holds(Rung { ball, seat }, duty, wanted, duty.expected()).ok()? {
                Hold::Holds => return Some((seat, bound)),
                Hold::TooLittleOverlap => bound = Bound::Interference,
                Hold::TooWeak => bound = Bound::Strength,
            }
            seat = floored(seat - SEAT_STEP * 0.5, SEAT_STEP);
        }
        None
    }
}

fn searched(scene: &Scene<'_>, bores: &[Bore]) -> Chosen {
    let limits = limits(scene, bores);
    let all = from_heel(&limits, &WidestSeats { scene }, MOST);
    let balls_that_fit = all.rungs.len();
    let bound_by = words(scene, bores, &all);
    let rungs = all.rungs.into_iter().take(scene.frac_balls()).collect();
    let used = Found { rungs, end: End::Enough };
    Chosen { rungs: used.toe_first(), left_out: Vec::new(), balls_that_fit, bound_by }
}

/// What binds a ladder the program made up: at the heel, along it, and at the toe.
pub(super) fn words(scene: &Scene<'_>, bores: &[Bore], found: &Found) -> String {
    let count = |bound| found.rungs.iter().filter(|(_, b)| *b == bound).count();
    let along = [
        (Bound::LargestSeat, "largest seat of the sleeve"),
        (Bound::Strength, "strength of the ball"),
        (Bound::Interference, "least interference"),
        (Bound::Share, "equal share"),
    ];
    let along = along.map(|(bound, name)| (count(bound), name));
    let along: Vec<String> =
        along.iter().filter(|(n, _)| *n > 0).map(|(n, name)| format!("{name} at {n}")).collect();
    let along = if along.is_empty() { "none".to_string() } else { along.join(", ") };
    let toe = match found.end {
        End::Enough => "no limit reached",
        End::SmallestBall => "smallest ball",
        End::SmallestSeat => "smallest seat",
        End::NoSeat => "no seat holds a smaller ball",
    };
    format!("at the heel: {}; seats along it: {along}; at the toe: {toe}", heel(scene, bores))
}

/// What bounds the largest ball.
fn heel(scene: &Scene<'_>, bores: &[Bore]) -> String {
    let stated = scene.job.file.ladder.largest_ball;
    match (largest_ball(scene.job, bores), stated) {
        (Some((by_bores, bore)), Some(stated)) if stated > by_bores => format!("bore of the {}", bore.name),
        (_, Some(_)) => "largest ball of the job file".into(),
        (Some((_, bore)), None) => format!("bore of the {}", bore.name),
        (None, None) => "no bore".into(),
    }
}

/// Whether a ball passes a seat above it.
pub(super) fn passes(scene: &Scene<'_>, ball: Diameter, seat: Diameter) -> bool {
    passes_seat(scene.passage(ball, seat), scene.job.file.ladder.clearance)
}
