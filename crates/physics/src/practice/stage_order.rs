//! The order of stages and balls along the lateral, and the seat a ball of a size lands on.

use crate::ball::count::{flag, number, whole};
use crate::error::{Error, Result, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, MeasuredDepth, Ratio};

const NAME: &str = "stage_order";

/// What the order of a completion is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Order {
    /// Whether the sleeves get shallower from stage 1 on.
    pub depths_fall: bool,
    /// Whether every ball is larger than the one below it.
    pub balls_rise: bool,
    /// The deepest stage, at the toe.
    pub toe_stage: usize,
    /// The shallowest stage, nearest the heel.
    pub heel_stage: usize,
    /// The stage of the smallest ball.
    pub smallest_ball_stage: usize,
}

/// Reads the order of sleeves and balls, both listed from stage 1.
///
/// ```text
/// stage 1 at the toe, the far end; depth falls and ball size rises with the stage number
/// ```
///
/// - sleeves as measured depths, m; balls as diameters, m
///
/// Range: a ball for each sleeve, or one fewer: then pressure opens stage 1 and the balls belong to
/// stages 2 and on.
///
/// Where it breaks: other counts are refused; equal depths or equal balls are out of order.
///
/// Source: trade_practice, order of stages.
///
/// ```
/// use physics::practice::stage_order::stage_order;
/// use quantity::*;
/// let sleeves = [6200.0, 6100.0, 6000.0].map(MeasuredDepth::m);
/// let order = stage_order(&sleeves, &[1.5, 1.625].map(Diameter::inch))?;
/// assert!(order.depths_fall && order.balls_rise);
/// assert_eq!((order.toe_stage, order.heel_stage, order.smallest_ball_stage), (1, 3, 2));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn stage_order(sleeves: &[MeasuredDepth], balls: &[Diameter]) -> Result<Order> {
    let first_ball_stage = sleeves.len() + 1 - balls.len().min(sleeves.len());
    if sleeves.is_empty() || balls.is_empty() || first_ball_stage > 2 || balls.len() > sleeves.len() {
        return Err(Error::NoSolution {
            relation: NAME,
            what: format!("there are {} sleeves and {} balls", sleeves.len(), balls.len()),
            hint: "Give a ball for each sleeve, or one fewer where pressure opens stage 1.",
        });
    }
    for depth in sleeves {
        require_positive(NAME, "sleeves", *depth)?;
    }
    for ball in balls {
        require_positive(NAME, "balls", *ball)?;
    }
    let pick = |best: Option<(usize, &MeasuredDepth)>| best.map_or(0, |(i, _)| i + 1);
    let numbered = || sleeves.iter().enumerate();
    let smallest = balls.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1)).map_or(0, |(i, _)| i);
    Ok(Order {
        depths_fall: sleeves.is_sorted_by(|a, b| a > b),
        balls_rise: balls.is_sorted_by(|a, b| a < b),
        toe_stage: pick(numbered().max_by(|a, b| a.1.total_cmp(b.1))),
        heel_stage: pick(numbered().min_by(|a, b| a.1.total_cmp(b.1))),
        smallest_ball_stage: smallest + first_ball_stage,
    })
}

/// The stage on whose seat a ball comes to rest.
///
/// ```text
/// the first seat from the heel with ds < Db
/// ```
///
/// - `Db` ball diameter, `ds` seat bores listed from the toe, m; the first belongs to `first_stage`
///
/// Range: round balls and seats of the sizes given.
///
/// Where it breaks: a ball that breaks, extrudes or sticks does not follow its size; `None` when it
/// passes all seats. This is what size tells; pumped volume only gives a window.
///
/// Source: trade_practice, identity by size.
///
/// ```
/// use physics::practice::stage_order::landing_stage;
/// use quantity::Diameter;
/// let seats = [1.1875, 1.3125, 1.4375].map(Diameter::inch);
/// assert_eq!(landing_stage(Diameter::inch(1.375), &seats, 1), Some(2));
/// assert_eq!(landing_stage(Diameter::inch(1.0), &seats, 1), None);
/// ```
pub fn landing_stage(ball: Diameter, seats: &[Diameter], first_stage: usize) -> Option<usize> {
    seats.iter().rposition(|seat| *seat < ball).map(|i| i + first_stage)
}

/// Order of sleeves and balls along the lateral.
///
/// ```text
/// stage 1 at the toe; depth falls and ball size rises with the stage number
/// ```
pub static STAGE_ORDER: Relation = Relation {
    name: NAME,
    title: "Order of stages and balls: stage 1 at the toe, smallest ball at the toe",
    equation: "depth falls and ball size rises with the stage number",
    source: "trade_practice, order of stages",
    range: "one sleeve a stage; a ball for each, or none for stage 1",
    inputs: &[
        Input::list::<MeasuredDepth>("sleeves", "depths of the sleeves from stage 1"),
        Input::list::<Diameter>("balls", "balls from the first that opens a stage"),
    ],
    outputs: &[
        Output::new::<Ratio>("in_order", "1 when depths fall and balls rise"),
        Output::new::<Ratio>("depths_fall", "1 when the sleeves get shallower from stage 1 on"),
        Output::new::<Ratio>("balls_rise", "1 when every ball is larger than the one below"),
        Output::new::<Ratio>("toe_stage", "stage at the toe, the far end"),
        Output::new::<Ratio>("heel_stage", "stage nearest the heel"),
        Output::new::<Ratio>("smallest_ball_stage", "stage of the smallest ball"),
    ],
    evaluate: |a| {
        let o = stage_order(&a.list("sleeves")?, &a.list("balls")?)?;
        Ok(Outputs::new()
            .put("in_order", flag(o.depths_fall && o.balls_rise))
            .put("depths_fall", flag(o.depths_fall))
            .put("balls_rise", flag(o.balls_rise))
            .put("toe_stage", number(o.toe_stage))
            .put("heel_stage", number(o.heel_stage))
            .put("smallest_ball_stage", number(o.smallest_ball_stage)))
    },
};

/// Seat on which a ball of a size lands.
///
/// ```text
/// the first seat from the heel with ds < Db
/// ```
pub static LANDING_SEAT: Relation = Relation {
    name: "landing_seat",
    title: "Seat on which a ball of a size lands: size is identity",
    equation: "the first seat from the heel with ds < Db",
    source: "trade_practice, identity by size",
    range: "round balls and seats of the sizes given",
    inputs: &[
        Input::new::<Diameter>("ball", "ball diameter, as measured"),
        Input::list::<Diameter>("seats", "seat bores from the toe"),
        Input::new::<Ratio>("first_stage", "stage of the first seat listed").or("1"),
    ],
    outputs: &[
        Output::new::<Ratio>("stage", "stage on whose seat it lands; 0 when it passes them all"),
        Output::new::<Ratio>("passed", "seats it passes on the way"),
    ],
    evaluate: |a| {
        let ball: Diameter = a.get("ball")?;
        require_positive("landing_seat", "ball", ball)?;
        let seats: Vec<Diameter> = a.list("seats")?;
        let first = whole("landing_seat", "first_stage", a.get("first_stage")?, 1.0)?;
        let stage = landing_stage(ball, &seats, first);
        let passed = stage.map_or(seats.len(), |s| seats.len() - (s - first) - 1);
        Ok(Outputs::new().put("stage", number(stage.unwrap_or(0))).put("passed", number(passed)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_that_do_not_fit_are_refused() {
        let depth = [MeasuredDepth::m(5000.0), MeasuredDepth::m(4900.0), MeasuredDepth::m(4800.0)];
        let ball = [Diameter::inch(1.5); 4];
        for n in [0, 1, 4] {
            assert!(stage_order(&depth, &ball[..n]).is_err(), "{n}");
        }
        assert!(stage_order(&[], &[]).is_err());
        // equal balls do not rise
        assert!(!stage_order(&depth, &ball[..3]).unwrap().balls_rise);
    }

    #[test]
    fn every_ball_of_a_ladder_finds_its_own_seat() {
        let balls: Vec<Diameter> = (0..20).map(|k| Diameter::inch(1.25 + 0.125 * f64::from(k))).collect();
        let seats: Vec<Diameter> = balls.iter().map(|b| *b - Diameter::inch(0.0625)).collect();
        for (i, ball) in balls.iter().enumerate() {
            assert_eq!(landing_stage(*ball, &seats, 2), Some(i + 2));
        }
    }
}
