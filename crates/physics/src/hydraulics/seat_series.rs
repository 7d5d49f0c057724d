//! A ladder of seats: what the flow to one stage loses in the seats it passes.

use super::seat::{INLET, LAND, MODEL, SeatModel, WALL, read_model, seat_loss};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Density, Diameter, FlowRate, Pressure, RateSquaredLoss, Ratio};

const NAME: &str = "seat_series";

/// A seat and the stage it belongs to; stage 1 is at the toe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageSeat {
    /// Stage number.
    pub stage: usize,
    /// Bore of the seat.
    pub bore: Diameter,
}

/// What the flow to a stage meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesLoss {
    /// Permanent loss per rate squared of all seats passed.
    pub per_rate_squared: RateSquaredLoss,
    /// Number of seats passed.
    pub passed: usize,
}

/// Permanent loss of the seats between surface and the ports of a stage.
///
/// `dp_k = sum over j > k of K_j rho v_j^2/2`
///
/// `k` the stage treated, `j` the stage of a seat, `K_j` and `v_j` loss coefficient and throat
/// velocity of [`seat_loss`].
///
/// Range: that of [`seat_loss`]; seats more than 20 bores apart, so that each acts alone.
///
/// The ports of a stage are above its own seat: seat `k` is never in the path to stage `k`, and
/// the top stage passes none. The order of the list does not matter.
///
/// Source: idelchik1986 diagrams 4-1, 4-9, 4-12, 4-14 and 4-15, summed.
///
/// ```
/// use physics::hydraulics::seat::SeatModel;
/// use physics::hydraulics::seat_series::{StageSeat, series_loss};
/// use quantity::{Density, Diameter};
/// let seats: Vec<_> =
///     (1..=3).map(|stage| StageSeat { stage, bore: Diameter::inch(2.0 + 0.25 * stage as f64) }).collect();
/// let water = Density::kg_per_m3(1000.0);
/// let to = |stage| series_loss(&seats, stage, Diameter::inch(3.92), SeatModel::ThinOrifice, water);
/// assert_eq!(to(1)?.passed, 2);
/// assert_eq!(to(3)?.per_rate_squared.in_si(), 0.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn series_loss(
    seats: &[StageSeat],
    stage: usize,
    bore: Diameter,
    model: SeatModel,
    density: Density,
) -> Result<SeriesLoss> {
    require_positive(NAME, "density", density)?;
    let mut total = SeriesLoss { per_rate_squared: RateSquaredLoss::ZERO, passed: 0 };
    // dp_k = sum over j > k of K_j rho v_j^2/2
    for seat in seats.iter().filter(|seat| seat.stage > stage) {
        total.per_rate_squared += seat_loss(model, seat.bore, bore)?.per_rate_squared(density);
        total.passed += 1;
    }
    Ok(total)
}

/// Reads a stage number.
fn stage_number(name: &'static str, value: f64) -> Result<usize> {
    let hint = "Stages are counted 1, 2, 3 from the toe.";
    let whole = value.fract() == 0.0 && (0.0..=1000.0).contains(&value);
    require(whole, NAME, name, Ratio::of(value), "a whole number from 0 to 1000", hint)?;
    Ok(value as usize)
}

/// Register entry of [`series_loss`].
pub static SEAT_SERIES: Relation = Relation {
    name: NAME,
    title: "Permanent loss of the seats passed by the flow to a stage",
    equation: "dp_k = sum over j > k of K_j rho v_j^2/2",
    source: "idelchik1986 diagrams 4-1, 4-9, 4-12, 4-14 and 4-15, summed",
    range: "throat Reynolds number above 1e4; seats more than 20 bores apart",
    inputs: &[
        Input::list::<Diameter>("seats", "bores of the seats, by rising stage number"),
        Input::new::<Ratio>("first_stage", "stage of the first seat listed").or("1"),
        Input::new::<Ratio>("stage", "stage treated; 1 is at the toe"),
        Input::new::<Diameter>("bore", "bore of the liner"),
        Input::new::<FlowRate>("rate", "rate"),
        Input::new::<Density>("density", "density of the fluid or slurry"),
        MODEL,
        LAND,
        WALL,
        INLET,
    ],
    outputs: &[
        Output::new::<Pressure>("loss", "permanent loss of the seats passed"),
        Output::new::<RateSquaredLoss>("per_rate_squared", "permanent loss per rate squared"),
        Output::new::<Ratio>("passed", "number of seats passed"),
    ],
    evaluate: |a| {
        let rate: FlowRate = a.get("rate")?;
        require_not_negative(NAME, "rate", rate)?;
        let first = stage_number("first_stage", a.number("first_stage")?)?;
        let stage = stage_number("stage", a.number("stage")?)?;
        let bores = a.list::<Diameter>("seats")?;
        let seats: Vec<_> =
            bores.into_iter().zip(first..).map(|(bore, stage)| StageSeat { stage, bore }).collect();
        let s = series_loss(&seats, stage, a.get("bore")?, read_model(a)?, a.get("density")?)?;
        Ok(Outputs::new()
            .put("loss", s.per_rate_squared.at(rate))
            .put("per_rate_squared", s.per_rate_squared)
            .put("passed", Ratio::of(s.passed as f64)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    const WATER: Density = Density::kg_per_m3(1000.0);
    const BORE: Diameter = Diameter::inch(3.92);

    fn ladder() -> Vec<StageSeat> {
        let bore = |stage: usize| Diameter::inch(1.375 + 0.125 * stage as f64);
        (1..=18).map(|stage| StageSeat { stage, bore: bore(stage) }).collect()
    }

    #[test]
    fn each_stage_adds_exactly_the_seat_above_it() {
        let seats = ladder();
        let at = |k| series_loss(&seats, k, BORE, SeatModel::ThinOrifice, WATER).unwrap();
        for (k, seat) in (1..).zip(&seats[1..]) {
            let own = seat_loss(SeatModel::ThinOrifice, seat.bore, BORE).unwrap().per_rate_squared(WATER);
            let step = at(k).per_rate_squared - at(k + 1).per_rate_squared;
            assert!((step / own - 1.0).abs() < 1e-9);
            assert_eq!(at(k).passed, 18 - k);
        }
        assert_eq!(at(18).per_rate_squared, RateSquaredLoss::ZERO);
    }

    #[test]
    fn order_does_not_matter_and_nonsense_is_refused() {
        let mut seats = ladder();
        let before = series_loss(&seats, 4, BORE, SeatModel::ThinOrifice, WATER).unwrap();
        seats.reverse();
        let after = series_loss(&seats, 4, BORE, SeatModel::ThinOrifice, WATER).unwrap();
        assert!((before.per_rate_squared / after.per_rate_squared - 1.0).abs() < 1e-12);
        assert!(series_loss(&seats, 1, Diameter::inch(3.0), SeatModel::ThinOrifice, WATER).is_err());
        assert!(stage_number("stage", 1.5).is_err() && stage_number("stage", f64::NAN).is_err());
    }
}
