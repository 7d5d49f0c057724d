//! Ladders of constant step, ladders of given sizes, and how many sizes a span holds.

use super::count::{number, whole};
use super::ladder::{
    CLEARANCE, INTERFERENCE, OUTPUTS, RULE, RUNG, Rung, SHARE, SeatRule, rule, summary, with_seats,
};
use crate::error::{Result, require, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Quantity, Ratio};

/// How many sizes of a constant step lie from the smallest to the largest, both counted.
///
/// ```text
/// n = floor[(d_max - d_min) / s] + 1
/// ```
///
/// - `d_min`, `d_max` smallest and largest ball, `s` step, m; `n` number of sizes
///
/// Range: none stated by the source.
///
/// Where it breaks: it counts sizes, not stages: the first stage may need no ball, and the strength
/// of the large balls or the rate through the small seats may end the ladder sooner.
///
/// Source: trade_ladder_arithmetic, count of sizes.
///
/// ```
/// use physics::ball::step_ladder::ladder_capacity;
/// use quantity::*;
/// let (n, last) = ladder_capacity(Diameter::inch(1.25), Diameter::inch(3.75), Diameter::inch(0.125))?;
/// assert_eq!((n, last), (21, Diameter::inch(3.75)));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ladder_capacity(
    smallest: Diameter,
    largest: Diameter,
    increment: Diameter,
) -> Result<(usize, Diameter)> {
    const NAME: &str = "ladder_capacity";
    require_positive(NAME, "smallest", smallest)?;
    require_positive(NAME, "increment", increment)?;
    require(
        largest >= smallest,
        NAME,
        "largest",
        largest,
        format!("no smaller than the smallest, {smallest}"),
        "Swap the two sizes.",
    )?;
    // n = floor[(d_max - d_min) / s] + 1, with room for the last digit of the division
    let steps = ((largest - smallest) / increment + 1e-9).floor();
    let count = whole(NAME, "count", Ratio::of(steps + 1.0), 1.0)?;
    Ok((count, smallest + increment * steps))
}

/// A ladder of constant step from ball to ball.
///
/// ```text
/// Db_k = Db_1 + (k - 1) s
/// increment = interference + passing clearance
/// ```
///
/// - `Db_k` ball of rung `k` from the toe, `s` step, m
///
/// Range: none stated by the source.
///
/// Where it breaks: with a constant interference the bearing stress grows with size, so the strength
/// of the largest ball rates the ladder; see [`super::equal_stress_ladder`].
///
/// Source: trade_ladder_arithmetic, constant step.
///
/// ```
/// use physics::ball::{ladder::SeatRule, step_ladder::step_ladder};
/// use quantity::*;
/// let rule = SeatRule::Interference(Diameter::inch(0.0625));
/// let ladder = step_ladder(Diameter::inch(1.5), 14, Diameter::inch(0.125), rule)?;
/// assert_eq!(ladder.last().map(|r| r.ball), Some(Diameter::inch(3.125)));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn step_ladder(
    smallest: Diameter,
    count: usize,
    increment: Diameter,
    rule: SeatRule,
) -> Result<Vec<Rung>> {
    require_positive("step_ladder", "increment", increment)?;
    whole("step_ladder", "count", number(count), 1.0)?;
    // Db_k = Db_1 + (k - 1) s
    let balls: Vec<Diameter> = (0..count).map(|k| smallest + increment * k as f64).collect();
    with_seats("step_ladder", &balls, rule)
}

/// A ladder of given ball sizes.
///
/// ```text
/// Ds_k = Db_k - i, or Db_k (1 - share), or Db_(k-1) + clearance
/// ```
///
/// - `Db_k` ball, `Ds_k` seat of rung `k` from the toe, `i` interference, m
///
/// Range: none stated by the source.
///
/// Where it breaks: sizes that do not rise, or a ball that does not pass the seat above, are refused.
///
/// Source: trade_ladder_arithmetic, given sizes.
///
/// ```
/// use physics::ball::{ladder::SeatRule, step_ladder::fraction_ladder};
/// use quantity::*;
/// let sizes = [2.25, 2.5, 2.75].map(Diameter::inch);
/// let ladder = fraction_ladder(&sizes, SeatRule::Interference(Diameter::inch(0.125)))?;
/// assert!(ladder.first().is_some_and(|r| (r.seat.in_inch() - 2.125).abs() < 1e-12));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn fraction_ladder(sizes: &[Diameter], rule: SeatRule) -> Result<Vec<Rung>> {
    whole("fraction_ladder", "count", number(sizes.len()), 1.0)?;
    with_seats("fraction_ladder", sizes, rule)
}

/// Register entry of [`ladder_capacity`].
pub static LADDER_CAPACITY: Relation = Relation {
    name: "ladder_capacity",
    title: "Number of ball sizes of a constant step between two sizes, both counted",
    equation: "n = floor[(d_max - d_min)/s] + 1",
    source: "trade_ladder_arithmetic, count of sizes",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("smallest", "smallest size"),
        Input::new::<Diameter>("largest", "largest size allowed"),
        Input::new::<Diameter>("increment", "step from size to size"),
    ],
    outputs: &[
        Output::new::<Ratio>("count", "number of sizes"),
        Output::new::<Diameter>("last", "largest size reached"),
        Output::new::<Diameter>("left_over", "span left above it"),
    ],
    evaluate: |a| {
        let largest: Diameter = a.get("largest")?;
        let (count, last) = ladder_capacity(a.get("smallest")?, largest, a.get("increment")?)?;
        let left = Diameter::from_si((largest - last).si().max(0.0));
        Ok(Outputs::new().put("count", number(count)).put("last", last).put("left_over", left))
    },
};

/// Register entry of [`step_ladder`].
pub static STEP_LADDER: Relation = Relation {
    name: "step_ladder",
    title: "Ladder of balls and seats with a constant step",
    equation: "Db_k = Db_1 + (k - 1) s; increment = interference + passing clearance",
    source: "trade_ladder_arithmetic, constant step",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("smallest", "smallest ball, nearest the toe"),
        Input::new::<Ratio>("count", "number of balls"),
        Input::new::<Diameter>("increment", "step from ball to ball"),
        RULE.or("interference"),
        INTERFERENCE,
        SHARE,
        CLEARANCE,
        RUNG,
    ],
    outputs: OUTPUTS,
    evaluate: |a| {
        let count = whole("step_ladder", "count", a.get("count")?, 1.0)?;
        let ladder = step_ladder(a.get("smallest")?, count, a.get("increment")?, rule(a)?)?;
        summary("step_ladder", &ladder, a.get("rung")?)
    },
};

/// Register entry of [`fraction_ladder`].
pub static FRACTION_LADDER: Relation = Relation {
    name: "fraction_ladder",
    title: "Ladder of balls and seats from given ball sizes",
    equation: "Ds_k = Db_k - i, or Db_k (1 - share), or Db_(k-1) + clearance",
    source: "trade_ladder_arithmetic, given sizes",
    range: "none stated by the source",
    inputs: &[
        Input::list::<Diameter>("sizes", "ball sizes from the toe, rising"),
        RULE.or("interference"),
        INTERFERENCE,
        SHARE,
        CLEARANCE,
        RUNG,
    ],
    outputs: OUTPUTS,
    evaluate: |a| {
        let ladder = fraction_ladder(&a.list("sizes")?, rule(a)?)?;
        summary("fraction_ladder", &ladder, a.get("rung")?)
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_step_ladder_fills_its_capacity(d in 1.0..2.0f64, n in 2usize..80, s in 0.02..0.25f64) {
            let (smallest, step) = (Diameter::inch(d), Diameter::inch(s));
            let largest = smallest + step * (n - 1) as f64;
            prop_assert_eq!(ladder_capacity(smallest, largest, step).unwrap().0, n);
            let ladder =
                step_ladder(smallest, n, step, SeatRule::Interference(step * 0.5)).unwrap();
            prop_assert!((ladder[n - 1].ball / largest - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn sizes_are_bounded() {
        let tiny = Diameter::from_si(1e-300);
        assert!(ladder_capacity(Diameter::inch(1.0), Diameter::inch(3.0), tiny).is_err());
        assert!(ladder_capacity(Diameter::inch(3.0), Diameter::inch(1.0), Diameter::inch(0.1)).is_err());
        assert!(step_ladder(Diameter::inch(1.0), 100_000, tiny, SeatRule::Share(0.01)).is_err());
    }
}
