//! Which seats lie in the path of a stage, while it is treated and while it produces.

use super::system::{STAGE, STAGES, stage_of};
use crate::ball::count::{flag, number};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Ratio};
use std::ops::RangeInclusive;

/// The seats between the surface and the ports of a stage.
///
/// ```text
/// seats k+1 .. N
/// ```
///
/// - `k` stage, 1 at the toe; `N` number of stages
///
/// Range: sleeves whose ports are above their own seat.
///
/// Where it breaks: a sleeve opened out of turn, or a leaking packer, gives the flow another path.
///
/// Source: trade_practice, path of the flow.
///
/// ```
/// use physics::practice::flow_path::seats_in_path;
/// assert_eq!(seats_in_path(5, 8), 6..=8);
/// assert!(seats_in_path(8, 8).is_empty());
/// ```
pub fn seats_in_path(stage: usize, stages: usize) -> RangeInclusive<usize> {
    stage + 1..=stages
}

const FIRST: Output = Output::new::<Ratio>("first_seat", "first seat above the stage; 0 for none");
const LAST: Output = Output::new::<Ratio>("last_seat", "last seat, nearest the heel; 0 for none");
const COUNT: Output = Output::new::<Ratio>("count", "number of seats passed");
const OWN: Output = Output::new::<Ratio>("own_seat_in_path", "1 if the stage's own seat were passed");

fn path(outputs: Outputs, stage: usize, stages: usize) -> Outputs {
    let seats = seats_in_path(stage, stages);
    let (first, last) = if seats.is_empty() { (0, 0) } else { (*seats.start(), *seats.end()) };
    outputs
        .put("first_seat", number(first))
        .put("last_seat", number(last))
        .put("count", number(stages - stage))
        .put("own_seat_in_path", flag(seats.contains(&stage)))
}

/// Seats in the path of a stage while it is treated.
///
/// ```text
/// seats k+1 .. N
/// ```
pub static SEATS_IN_PATH: Relation = Relation {
    name: "seats_in_path",
    title: "Seats that the flow to a stage passes while it is treated",
    equation: "seats k+1 .. N; the ports of stage k are above seat k",
    source: "trade_practice, path of the flow",
    range: "ports above the seat of their sleeve",
    inputs: &[STAGE, STAGES],
    outputs: &[FIRST, LAST, COUNT, OWN],
    evaluate: |a| {
        let (stage, stages) = stage_of("seats_in_path", a)?;
        Ok(path(Outputs::new(), stage, stages))
    },
};

/// Seats in the path of a stage while it produces, and the stages that push its ball off.
///
/// ```text
/// production of stage k passes seats k+1 .. N; seat k carries the production of stages 1 .. k-1
/// ```
pub static PRODUCTION_PATH: Relation = Relation {
    name: "production_path",
    title: "Seats that a stage's production passes, and the stages that push its ball off the seat",
    equation: "seats k+1 .. N; stages 1 .. k-1 push ball k",
    source: "trade_practice, path of the production",
    range: "ports above the seat of their sleeve; sleeves open, nothing blocked",
    inputs: &[STAGE, STAGES],
    outputs: &[
        FIRST,
        LAST,
        COUNT,
        OWN,
        Output::new::<Ratio>("through_own_seat", "stages below, whose production comes through its seat"),
        Output::new::<Ratio>("pushed_off", "1 when production from below pushes its ball off the seat"),
    ],
    evaluate: |a| {
        let (stage, stages) = stage_of("production_path", a)?;
        let outputs = path(Outputs::new(), stage, stages);
        Ok(outputs.put("through_own_seat", number(stage - 1)).put("pushed_off", flag(stage > 1)))
    },
};

/// What becomes of a seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeatState {
    /// Left in the string.
    InPlace,
    /// Milled out.
    Milled,
}

/// Bore that a seat leaves open for the life of the well.
///
/// ```text
/// in place: d = ds;   milled: d = D
/// ```
///
/// - `ds` seat bore, `D` bore of the string, m
///
/// Range: seats made to be milled to the full bore.
///
/// Where it breaks: a mill run short of the seats above the toe leaves those below it; the mill itself
/// is smaller than the drift of the string.
///
/// Source: trade_practice, seats in production.
///
/// ```
/// use physics::practice::flow_path::{SeatState, bore_left};
/// use quantity::Diameter;
/// let (seat, string) = (Diameter::inch(2.0), Diameter::inch(3.92));
/// assert_eq!(bore_left(seat, string, SeatState::InPlace), seat);
/// assert_eq!(bore_left(seat, string, SeatState::Milled), string);
/// ```
pub fn bore_left(seat: Diameter, string: Diameter, state: SeatState) -> Diameter {
    match state {
        SeatState::InPlace => seat,
        SeatState::Milled => string,
    }
}

/// Bore left at a seat.
///
/// ```text
/// in place: seat bore; milled: bore of the string
/// ```
pub static SEAT_BORE_LEFT: Relation = Relation {
    name: "seat_bore_left",
    title: "Bore left at a seat: a restriction for good unless milled, then the full bore",
    equation: "in place: d = ds; milled: d = D",
    source: "trade_practice, seats in production",
    range: "seats made to be milled to the full bore",
    inputs: &[
        Input::new::<Diameter>("seat", "seat bore"),
        Input::new::<Diameter>("bore", "bore of the string"),
        Input::choice("state", &["in_place", "milled"], "whether the seat is still there"),
    ],
    outputs: &[
        Output::new::<Diameter>("bore_left", "bore that stays open"),
        Output::new::<Ratio>("open_share", "its area over that of the string"),
        Output::new::<Ratio>("restricts", "1 when it is narrower than the string"),
    ],
    evaluate: |a| {
        let (seat, string): (Diameter, Diameter) = (a.get("seat")?, a.get("bore")?);
        crate::error::require_positive("seat_bore_left", "seat", seat)?;
        crate::error::require(
            string > seat,
            "seat_bore_left",
            "bore",
            string,
            format!("larger than the seat, {seat}"),
            "Give the bore of the string round the seat.",
        )?;
        let state = match a.word("state")? {
            "milled" => SeatState::Milled,
            _ => SeatState::InPlace,
        };
        let left = bore_left(seat, string, state);
        Ok(Outputs::new()
            .put("bore_left", left)
            .put("open_share", Ratio::of(left.circle() / string.circle()))
            .put("restricts", flag(left < string)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seat_is_never_in_its_own_path() {
        for stages in 1..50 {
            for stage in 1..=stages {
                let seats = seats_in_path(stage, stages);
                assert!(!seats.contains(&stage));
                assert_eq!(seats.count(), stages - stage);
            }
        }
    }
}
