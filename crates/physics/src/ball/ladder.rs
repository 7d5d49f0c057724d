//! A ladder of balls and seats: one rung a stage, from the toe upward, and the rule that gives
//! each ball its seat bore.

use super::count::{number, paired, whole};
use crate::error::{Error, Result, require, require_positive};
use crate::registry::{Arguments, Input, Output, Outputs};
use quantity::{Diameter, Quantity, Ratio};

/// A ball and its seat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rung {
    /// Ball diameter.
    pub ball: Diameter,
    /// Bore of its seat.
    pub seat: Diameter,
}

/// How the seat bore follows from the balls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SeatRule {
    /// Ball less a constant interference (on diameter).
    Interference(Diameter),
    /// Ball less a constant share of its diameter: equal bearing stress on every rung.
    Share(f64),
    /// The ball below plus a constant passing clearance; all the rest of the step is interference.
    /// The first rung takes the step above it.
    Clearance(Diameter),
}

/// Gives every ball its seat and checks that the ladder can work as drawn.
///
/// The balls must rise from the toe, every ball must be larger than its seat, and every ball must
/// pass the seat above it.
pub fn with_seats(relation: &'static str, balls: &[Diameter], rule: SeatRule) -> Result<Vec<Rung>> {
    let step = |i: usize| -> Option<Diameter> {
        let below = i.max(1) - 1;
        Some(*balls.get(below + 1)? - *balls.get(below)?)
    };
    let mut ladder = Vec::with_capacity(balls.len());
    for (i, ball) in balls.iter().enumerate() {
        let overlap = match rule {
            SeatRule::Interference(overlap) => overlap,
            SeatRule::Share(share) => *ball * share,
            SeatRule::Clearance(clearance) => match step(i) {
                Some(step) => step - clearance,
                None => return Err(fault(relation, "one ball has no step to take a clearance from".into())),
            },
        };
        let rung = Rung { ball: *ball, seat: *ball - overlap };
        require_positive(relation, "ball", rung.ball)?;
        require(
            rung.seat > Diameter::ZERO && rung.seat < rung.ball,
            relation,
            "seat",
            rung.seat,
            format!("above zero and below its ball, {}", rung.ball),
            "Give the interference, share or clearance that the seat rule uses.",
        )?;
        check_step(relation, ladder.last(), rung, i)?;
        ladder.push(rung);
    }
    Ok(ladder)
}

/// The ball below must be smaller and must pass this seat.
fn check_step(relation: &'static str, below: Option<&Rung>, rung: Rung, i: usize) -> Result<()> {
    let Some(below) = below else { return Ok(()) };
    if below.ball >= rung.ball {
        return Err(fault(relation, format!("ball {} is no larger than ball {i} below it", i + 1)));
    }
    if below.ball >= rung.seat {
        return Err(fault(
            relation,
            format!("ball {i}, {}, does not pass seat {}, {}", below.ball, i + 1, rung.seat),
        ));
    }
    Ok(())
}

fn fault(relation: &'static str, what: String) -> Error {
    Error::NoSolution {
        relation,
        what,
        hint: "Increment = interference + passing clearance: widen the step or lessen one of the two.",
    }
}

/// Pairs balls and seats given as two lists.
pub(crate) fn rungs(
    relation: &'static str,
    balls: &[Diameter],
    seats: &[Diameter],
    least: usize,
) -> Result<Vec<Rung>> {
    let pairs = paired(relation, ("balls", balls), ("seats", seats))?;
    require(
        pairs.len() >= least,
        relation,
        "balls",
        number(pairs.len()),
        format!("at least {least} of them"),
        "Give the whole ladder, from the toe.",
    )?;
    Ok(pairs.into_iter().map(|(ball, seat)| Rung { ball, seat }).collect())
}

/// The seat rule of a call.
pub(crate) const RULE: Input = Input::choice(
    "seat_rule",
    &["interference", "share", "clearance"],
    "what gives the seat bore: ball less a constant, ball less a share, or ball below plus a clearance",
);
/// Constant interference of a call.
pub(crate) const INTERFERENCE: Input =
    Input::new::<Diameter>("interference", "ball less seat, on diameter (rule interference)").or("0 in");
/// Constant share of a call.
pub(crate) const SHARE: Input =
    Input::new::<Ratio>("share", "interference over ball diameter (rule share)").or("0");
/// Constant clearance of a call.
pub(crate) const CLEARANCE: Input =
    Input::new::<Diameter>("clearance", "seat less ball below, on diameter (rule clearance)").or("0 in");
/// The rung a call wants shown.
pub(crate) const RUNG: Input = Input::new::<Ratio>("rung", "rung to show, 1 at the toe").or("1");

/// Reads the seat rule of a call.
pub(crate) fn rule(a: &Arguments) -> Result<SeatRule> {
    Ok(match a.word("seat_rule")? {
        "share" => SeatRule::Share(a.number("share")?),
        "clearance" => SeatRule::Clearance(a.get("clearance")?),
        _ => SeatRule::Interference(a.get("interference")?),
    })
}

/// The outputs every ladder has.
pub(crate) const OUTPUTS: &[Output] = &[
    Output::new::<Ratio>("count", "balls in the ladder"),
    Output::new::<Diameter>("last_ball", "largest ball, nearest the heel"),
    Output::new::<Diameter>("least_increment", "smallest step from ball to ball"),
    Output::new::<Diameter>("greatest_increment", "largest step from ball to ball"),
    Output::new::<Diameter>("least_clearance", "least clearance of a ball through the seat above"),
    Output::new::<Diameter>("rung_ball", "ball of the rung shown"),
    Output::new::<Diameter>("rung_seat", "seat of the rung shown"),
];

/// Sums up a ladder; a ladder of one ball has no steps and shows zero for them.
pub(crate) fn summary(relation: &'static str, ladder: &[Rung], rung: Ratio) -> Result<Outputs> {
    let shown = whole(relation, "rung", rung, 1.0)?;
    let Some(at) = ladder.get(shown - 1) else {
        let limit = format!("at most {}, the rungs of this ladder", ladder.len());
        return Err(Error::Domain {
            relation,
            name: "rung",
            value: rung.into(),
            limit,
            hint: "Rungs are counted from 1 at the toe.",
        });
    };
    let steps = || ladder.windows(2).filter_map(|w| Some((w.first()?, w.last()?)));
    let least = |f: fn((&Rung, &Rung)) -> Diameter| steps().map(f).reduce(Diameter::min).unwrap_or_default();
    let greatest = steps().map(|(a, b)| b.ball - a.ball).reduce(Diameter::max).unwrap_or_default();
    Ok(Outputs::new()
        .put("count", number(ladder.len()))
        .put("last_ball", ladder.last().map(|r| r.ball).unwrap_or_default())
        .put("least_increment", least(|(a, b)| b.ball - a.ball))
        .put("greatest_increment", greatest)
        .put("least_clearance", least(|(a, b)| b.seat - a.ball))
        .put("rung_ball", at.ball)
        .put("rung_seat", at.seat))
}

/// Rounds a size to a manufacturing increment; zero leaves it.
pub(crate) fn rounded(size: Diameter, increment: Diameter) -> Diameter {
    if increment > Diameter::ZERO {
        Diameter::from_si((size / increment).round() * increment.si())
    } else {
        size
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn balls(list: &[f64]) -> Vec<Diameter> {
        list.iter().map(|d| Diameter::inch(*d)).collect()
    }

    #[test]
    fn ladders_that_cannot_work_are_refused() {
        let b = balls(&[1.25, 1.375, 1.5]);
        let rule = |i: f64| SeatRule::Interference(Diameter::inch(i));
        assert!(with_seats("t", &b, rule(0.0625)).is_ok());
        // ball 1 would catch on seat 2
        let caught = with_seats("t", &b, rule(0.125)).unwrap_err().to_string();
        assert!(caught.contains("does not pass seat 2"), "{caught}");
        assert!(with_seats("t", &b, rule(0.0)).is_err());
        assert!(with_seats("t", &balls(&[1.5, 1.25]), rule(0.01)).is_err());
        assert!(with_seats("t", &balls(&[1.5]), SeatRule::Clearance(Diameter::inch(0.02))).is_err());
        assert!(with_seats("t", &balls(&[1.5]), SeatRule::Share(f64::NAN)).is_err());
    }

    #[test]
    fn the_clearance_rule_leaves_the_clearance() {
        let b = balls(&[1.25, 1.3, 1.4]);
        let ladder = with_seats("t", &b, SeatRule::Clearance(Diameter::inch(0.02))).unwrap();
        for pair in ladder.windows(2) {
            assert!((pair[1].seat - pair[0].ball - Diameter::inch(0.02)).si().abs() < 1e-15);
        }
    }
}
