//! Whether a ball sits on its own seat and passes the larger ones, with tolerances and wear.

use super::contact::{BALL, SEAT};
use super::count::{flag, number};
use super::ladder::{Rung, rungs};
use crate::error::{Result, require_not_negative, require_positive};
use crate::registry::{Arguments, Input, Output, Outputs, Relation};
use quantity::{Diameter, Quantity, Ratio};

/// Manufacturing tolerances (plus or minus) and what service takes away, all on diameter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Service {
    /// Tolerance of a ball.
    pub ball_tolerance: Diameter,
    /// Tolerance of a seat bore.
    pub seat_tolerance: Diameter,
    /// Growth of a seat bore by erosion.
    pub seat_growth: Diameter,
    /// Diameter a ball has lost by dissolution.
    pub ball_loss: Diameter,
    /// Diameter a ball has gained by swelling, over its diameter.
    pub swelling: f64,
}

/// A gap or overlap on diameter: as drawn, and with everything at its worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// As drawn.
    pub nominal: Diameter,
    /// At its worst.
    pub least: Diameter,
}

/// Interference of a ball on its own seat, as drawn and at its worst (on diameter).
///
/// ```text
/// i = Db - Ds,   i_least = (Db - tb - loss) - (Ds + ts + growth)
/// ```
///
/// - `Db` ball diameter, `Ds` seat bore, `tb`, `ts` their tolerances, m
/// - `loss` dissolved, `growth` eroded, both on diameter, m
///
/// Range: none stated by the source.
///
/// Where it breaks: a negative result means that the ball passes its own seat. Overlap per side is
/// half of this figure; drawings use both.
///
/// Source: derived_ball_statics, sum of tolerances.
///
/// ```
/// use physics::ball::clearance::{Service, interference};
/// use quantity::*;
/// let worn = Service { seat_growth: Diameter::inch(0.03), ..Service::default() };
/// let fit = interference(Diameter::inch(2.5), Diameter::inch(2.375), worn);
/// assert!((fit.least / fit.nominal - 0.76).abs() < 1e-9);
/// ```
pub fn interference(ball: Diameter, seat: Diameter, service: Service) -> Fit {
    // i = Db - Ds
    let nominal = ball - seat;
    // i_least = (Db - tb - loss) - (Ds + ts + growth)
    let least =
        nominal - service.ball_tolerance - service.ball_loss - service.seat_tolerance - service.seat_growth;
    Fit { nominal, least }
}

/// Clearance of a ball through a larger seat, as drawn and at its worst (on diameter).
///
/// ```text
/// c = Ds - Db,   c_least = (Ds - ts) - (Db + tb)(1 + s)
/// ```
///
/// - `Ds` bore of the seat to be passed, `Db` ball diameter, `ts`, `tb` their tolerances, m
/// - `s` swelling of the ball over its diameter
///
/// Range: none stated by the source.
///
/// Where it breaks: seats are taken as new (erosion only helps), round and clean; scale or sand in a
/// seat takes the clearance away unseen.
///
/// Source: derived_ball_statics, sum of tolerances.
///
/// ```
/// use physics::ball::clearance::{Service, passage};
/// use quantity::*;
/// let fit = passage(Diameter::inch(2.5), Diameter::inch(2.5625), Service::default());
/// assert!((fit.least.in_inch() - 0.0625).abs() < 1e-12);
/// ```
pub fn passage(ball: Diameter, seat: Diameter, service: Service) -> Fit {
    // c_least = (Ds - ts) - (Db + tb)(1 + s)
    let largest = (ball + service.ball_tolerance) * (1.0 + service.swelling);
    Fit { nominal: seat - ball, least: seat - service.seat_tolerance - largest }
}

/// The worst fits of a ladder and where they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LadderFit {
    /// Least interference of a ball on its own seat, and its rung.
    pub interference: (Diameter, usize),
    /// Least clearance of a ball through a seat above its own, and the ball's rung; `None` on a
    /// ladder of one rung.
    pub clearance: Option<(Diameter, usize)>,
}

/// Checks every ball of a ladder on its own seat and through every seat above it.
///
/// ```text
/// i_k = least interference of ball k on seat k
/// c_k = least clearance of ball k through seats k+1 .. N
/// ```
///
/// - rungs counted from 1 at the toe; [`interference`] and [`passage`] give the two figures
///
/// Range: none stated by the source.
///
/// Where it breaks: as the two relations. The ball also passes every bore above the ladder (liner,
/// casing packer, string, launcher), which is not looked at here.
///
/// Source: derived_ball_statics, sum of tolerances.
///
/// ```
/// use physics::ball::{clearance::*, ladder::Rung};
/// use quantity::*;
/// let rung = |b, s| Rung { ball: Diameter::inch(b), seat: Diameter::inch(s) };
/// let ladder = [rung(1.25, 1.1875), rung(1.375, 1.3), rung(1.5, 1.4)];
/// let fit = ladder_fit(&ladder, Service::default())?;
/// assert_eq!(fit.interference.1, 1);
/// assert_eq!(fit.clearance.map(|c| c.1), Some(2));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ladder_fit(ladder: &[Rung], service: Service) -> Result<LadderFit> {
    service.check("ladder_fit")?;
    let mut closest = (Diameter::from_si(f64::INFINITY), 0);
    let mut tightest: Option<(Diameter, usize)> = None;
    for (i, rung) in ladder.iter().enumerate() {
        require_positive("ladder_fit", "balls", rung.ball)?;
        require_positive("ladder_fit", "seats", rung.seat)?;
        let hold = interference(rung.ball, rung.seat, service).least;
        if hold < closest.0 {
            closest = (hold, i + 1);
        }
        for above in ladder.iter().skip(i + 1) {
            let gap = passage(rung.ball, above.seat, service).least;
            if tightest.is_none_or(|(g, _)| gap < g) {
                tightest = Some((gap, i + 1));
            }
        }
    }
    Ok(LadderFit { interference: closest, clearance: tightest })
}

impl Service {
    fn check(&self, relation: &'static str) -> Result<()> {
        require_not_negative(relation, "ball_tolerance", self.ball_tolerance)?;
        require_not_negative(relation, "seat_tolerance", self.seat_tolerance)?;
        require_not_negative(relation, "seat_growth", self.seat_growth)?;
        require_not_negative(relation, "ball_loss", self.ball_loss)?;
        require_not_negative(relation, "swelling", Ratio::of(self.swelling))
    }
}

/// Ball and seat of a call.
fn pair(relation: &'static str, a: &Arguments) -> Result<(Diameter, Diameter)> {
    let (ball, seat) = (a.get("ball")?, a.get("seat")?);
    require_positive(relation, "ball", ball)?;
    require_positive(relation, "seat", seat)?;
    Ok((ball, seat))
}

/// Whether the worst of a fit is a fit at all, and no less than what is required.
fn enough(fit: Fit, a: &Arguments) -> Result<Ratio> {
    Ok(flag(fit.least > Diameter::ZERO && fit.least >= a.get("required")?))
}

const BALL_TOLERANCE: Input =
    Input::new::<Diameter>("ball_tolerance", "tolerance of a ball, plus or minus").or("0 in");
const SEAT_TOLERANCE: Input =
    Input::new::<Diameter>("seat_tolerance", "tolerance of a seat bore, plus or minus").or("0 in");
const SEAT_GROWTH: Input =
    Input::new::<Diameter>("seat_growth", "growth of the bore by erosion, on diameter").or("0 in");
const BALL_LOSS: Input = Input::new::<Diameter>("ball_loss", "diameter lost by dissolution").or("0 in");
const SWELLING: Input = Input::new::<Ratio>("swelling", "gain of the ball's diameter by swelling").or("0");

/// Register entry of [`interference`].
pub static SEAT_INTERFERENCE: Relation = Relation {
    name: "seat_interference",
    title: "Interference of a ball on its own seat, as drawn and at its worst (on diameter)",
    equation: "i_least = (Db - tb - loss) - (Ds + ts + growth)",
    source: "derived_ball_statics, sum of tolerances",
    range: "none stated by the source",
    inputs: &[
        BALL,
        SEAT,
        BALL_TOLERANCE,
        SEAT_TOLERANCE,
        SEAT_GROWTH,
        BALL_LOSS,
        Input::new::<Diameter>("required", "least interference wanted, on diameter").or("0 in"),
    ],
    outputs: &[
        Output::new::<Diameter>("nominal", "interference as drawn, on diameter"),
        Output::new::<Diameter>("least", "interference at its worst, on diameter"),
        Output::new::<Diameter>("per_side", "half of the worst interference"),
        Output::new::<Ratio>("holds", "1 when the worst is above zero and no less than required"),
    ],
    evaluate: |a| {
        let (ball, seat) = pair("seat_interference", a)?;
        let service = Service {
            ball_tolerance: a.get("ball_tolerance")?,
            seat_tolerance: a.get("seat_tolerance")?,
            seat_growth: a.get("seat_growth")?,
            ball_loss: a.get("ball_loss")?,
            swelling: 0.0,
        };
        service.check("seat_interference")?;
        let fit = interference(ball, seat, service);
        Ok(Outputs::new()
            .put("nominal", fit.nominal)
            .put("least", fit.least)
            .put("per_side", fit.least / 2.0)
            .put("holds", enough(fit, a)?))
    },
};

/// Register entry of [`passage`].
pub static SEAT_PASSAGE: Relation = Relation {
    name: "seat_passage",
    title: "Clearance of a ball through a larger seat, as drawn and at its worst (on diameter)",
    equation: "c_least = (Ds - ts) - (Db + tb)(1 + s)",
    source: "derived_ball_statics, sum of tolerances",
    range: "none stated by the source",
    inputs: &[
        BALL,
        SEAT,
        BALL_TOLERANCE,
        SEAT_TOLERANCE,
        SWELLING,
        Input::new::<Diameter>("required", "least clearance wanted, on diameter").or("0 in"),
    ],
    outputs: &[
        Output::new::<Diameter>("nominal", "clearance as drawn, on diameter"),
        Output::new::<Diameter>("least", "clearance at its worst, on diameter"),
        Output::new::<Ratio>("passes", "1 when the worst is above zero and no less than required"),
    ],
    evaluate: |a| {
        let (ball, seat) = pair("seat_passage", a)?;
        let service = Service {
            ball_tolerance: a.get("ball_tolerance")?,
            seat_tolerance: a.get("seat_tolerance")?,
            swelling: a.number("swelling")?,
            ..Service::default()
        };
        service.check("seat_passage")?;
        let fit = passage(ball, seat, service);
        Ok(Outputs::new().put("nominal", fit.nominal).put("least", fit.least).put("passes", enough(fit, a)?))
    },
};

/// Register entry of [`ladder_fit`].
pub static LADDER_FIT: Relation = Relation {
    name: "ladder_fit",
    title: "Worst interference and worst passing clearance of a ladder of balls and seats (on diameter)",
    equation: "min over k of i_k; min over k < j of clearance of ball k through seat j",
    source: "derived_ball_statics, sum of tolerances",
    range: "none stated by the source; rungs counted from 1 at the toe, at least two of them",
    inputs: &[
        Input::list::<Diameter>("balls", "ball diameters from the toe"),
        Input::list::<Diameter>("seats", "seat bores from the toe"),
        BALL_TOLERANCE,
        SEAT_TOLERANCE,
        SEAT_GROWTH,
        BALL_LOSS,
        SWELLING,
    ],
    outputs: &[
        Output::new::<Diameter>("least_interference", "worst interference, on diameter"),
        Output::new::<Ratio>("interference_rung", "rung where it is"),
        Output::new::<Diameter>("least_clearance", "worst clearance through a seat above, on diameter"),
        Output::new::<Ratio>("clearance_rung", "rung of the ball where it is"),
    ],
    evaluate: |a| {
        let ladder = rungs("ladder_fit", &a.list("balls")?, &a.list("seats")?, 2)?;
        let service = Service {
            ball_tolerance: a.get("ball_tolerance")?,
            seat_tolerance: a.get("seat_tolerance")?,
            seat_growth: a.get("seat_growth")?,
            ball_loss: a.get("ball_loss")?,
            swelling: a.number("swelling")?,
        };
        let fit = ladder_fit(&ladder, service)?;
        let (clearance, at) = fit.clearance.unwrap_or((Diameter::from_si(f64::INFINITY), 0));
        Ok(Outputs::new()
            .put("least_interference", fit.interference.0)
            .put("interference_rung", number(fit.interference.1))
            .put("least_clearance", clearance)
            .put("clearance_rung", number(at)))
    },
};
