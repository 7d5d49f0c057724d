//! A ladder whose sizes rise by a constant ratio, so that every ball bears the same stress.

use super::count::{number, whole};
use super::ladder::{
    CLEARANCE, INTERFERENCE, OUTPUTS, RULE, RUNG, Rung, SHARE, SeatRule, rounded, rule, summary, with_seats,
};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Relation};
use quantity::{Diameter, Quantity, Ratio};

const NAME: &str = "equal_stress_ladder";

/// What a ladder of constant ratio spans.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Ball nearest the toe.
    pub smallest: Diameter,
    /// Ball nearest the heel.
    pub largest: Diameter,
    /// Number of balls.
    pub count: usize,
    /// Manufacturing increment the sizes are rounded to; zero for none.
    pub rounding: Diameter,
}

impl Span {
    /// Ratio of each ball to the one below it, `r = (Db_N/Db_1)^(1/(N-1))`.
    pub fn ratio(&self) -> Result<f64> {
        require_positive(NAME, "smallest", self.smallest)?;
        require(
            self.largest > self.smallest,
            NAME,
            "largest",
            self.largest,
            format!("larger than the smallest, {}", self.smallest),
            "Swap the two sizes.",
        )?;
        require_not_negative(NAME, "rounding", self.rounding)?;
        whole(NAME, "count", number(self.count), 2.0)?;
        // r = (Db_N / Db_1)^(1/(N-1))
        Ok(libm::pow(self.largest / self.smallest, 1.0 / (self.count as f64 - 1.0)))
    }
}

/// A ladder of constant ratio from ball to ball: equal bearing stress when the interference is a
/// constant share of the ball.
///
/// ```text
/// r = (Db_N / Db_1)^(1/(N-1)),   Db_k = Db_1 r^(k-1), rounded to a manufacturing increment
/// Ds_k = Db_k (1 - share)  =>  sigma_br / dp = (1 - share)^2 / (1 - (1 - share)^2), the same for all
/// ```
///
/// - `Db_k` ball, `Ds_k` seat of rung `k` from the toe, m; `N` number of balls; `r` ratio
///
/// Range: none stated by the source.
///
/// Where it breaks: rounding spreads the stress a little; with the rule of constant clearance it is
/// only nearly equal. Steps that round to nothing are refused.
///
/// Source: derived_ball_statics, projected ring at constant share.
///
/// ```
/// use physics::ball::{equal_stress_ladder::*, ladder::SeatRule};
/// use quantity::*;
/// let span = Span {
///     smallest: Diameter::inch(1.25), largest: Diameter::inch(3.5), count: 29,
///     rounding: Diameter::inch(1.0 / 64.0),
/// };
/// assert!((span.ratio()? - 1.0375).abs() < 5e-5);
/// let ladder = equal_stress_ladder(span, SeatRule::Clearance(Diameter::inch(0.02)))?;
/// assert_eq!(ladder.get(3).map(|r| r.ball), Some(Diameter::inch(1.390625)));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn equal_stress_ladder(span: Span, rule: SeatRule) -> Result<Vec<Rung>> {
    let ratio = span.ratio()?;
    // Db_k = Db_1 r^(k-1)
    let ball = |k: usize| rounded(span.smallest * libm::pow(ratio, k as f64), span.rounding);
    let balls: Vec<Diameter> = (0..span.count).map(ball).collect();
    with_seats(NAME, &balls, rule)
}

/// Register entry of [`equal_stress_ladder`].
pub static EQUAL_STRESS_LADDER: Relation = Relation {
    name: NAME,
    title: "Ladder of balls and seats with a constant ratio: equal bearing stress on every rung",
    equation: "r = (Db_N/Db_1)^(1/(N-1)); Db_k = Db_1 r^(k-1); Ds_k = Db_k (1 - share)",
    source: "derived_ball_statics, projected ring at constant share",
    range: "none stated by the source; at least two balls",
    inputs: &[
        Input::new::<Diameter>("smallest", "smallest ball, nearest the toe"),
        Input::new::<Diameter>("largest", "largest ball, nearest the heel"),
        Input::new::<Ratio>("count", "number of balls"),
        Input::new::<Diameter>("rounding", "manufacturing increment; 0 for none").or("0 in"),
        RULE.or("share"),
        INTERFERENCE,
        SHARE,
        CLEARANCE,
        RUNG,
    ],
    outputs: &WITH_RATIO,
    evaluate: |a| {
        let span = Span {
            smallest: a.get("smallest")?,
            largest: a.get("largest")?,
            count: whole(NAME, "count", a.get("count")?, 2.0)?,
            rounding: a.get("rounding")?,
        };
        let ladder = equal_stress_ladder(span, rule(a)?)?;
        let shown = summary(NAME, &ladder, a.get("rung")?)?;
        Ok(shown.put("ratio", Ratio::from_si(span.ratio()?)))
    },
};

const WITH_RATIO: [Output; OUTPUTS.len() + 1] = {
    let mut all =
        [Output::new::<Ratio>("ratio", "each ball over the one below, before rounding"); OUTPUTS.len() + 1];
    let mut i = 0;
    while i < OUTPUTS.len() {
        all[i] = OUTPUTS[i];
        i += 1;
    }
    all
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ball::{bearing::projected_bearing, contact::Seat};
    use quantity::Pressure;

    fn span(count: usize, rounding: f64) -> Span {
        Span {
            smallest: Diameter::inch(1.25),
            largest: Diameter::inch(3.5),
            count,
            rounding: Diameter::inch(rounding),
        }
    }

    #[test]
    fn the_stress_is_equal() {
        let ladder = equal_stress_ladder(span(29, 0.0), SeatRule::Share(0.025)).unwrap();
        let stress = |r: &Rung| projected_bearing(r.ball, Seat::square(r.seat), Pressure::psi(8e3)).unwrap();
        let first = stress(&ladder[0]);
        assert!(ladder.iter().all(|r| (stress(r) / first - 1.0).abs() < 1e-9));
        assert!((ladder[28].ball / Diameter::inch(3.5) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn steps_that_round_to_nothing_are_refused() {
        assert!(equal_stress_ladder(span(200, 1.0 / 16.0), SeatRule::Share(0.01)).is_err());
        assert!(equal_stress_ladder(span(1, 0.0), SeatRule::Share(0.01)).is_err());
    }
}
