//! What the user says of a pipe, and how it is completed from the catalogue.

use super::catalogue::Catalogue;
use super::connection::Connection;
use super::error::TubularError;
use physics::tubular::drift::{DRIFT, DriftRule};
use physics::tubular::tube::Tube;
use quantity::{Diameter, Force, MassPerLength, Pressure, Quantity, Ratio};

/// Ratings the user states; each goes before the computed one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StatedRatings {
    /// Collapse without load.
    pub collapse: Option<Pressure>,
    /// Internal yield pressure.
    pub internal: Option<Pressure>,
    /// Tension at body yield.
    pub body: Option<Force>,
    /// Where they come from.
    pub source: String,
}

/// What the user says of a pipe. Outer diameter, weight and grade are enough for a standard
/// one; anything stated goes before the catalogue.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeSpec {
    /// Name; made from the size when empty.
    pub name: String,
    /// Outer diameter.
    pub outer: Diameter,
    /// Nominal weight, threaded and coupled.
    pub weight: MassPerLength,
    /// Inner diameter of pipe that is not in the catalogue.
    pub inner: Option<Diameter>,
    /// Grade of the catalogue, or the user's own with its strengths.
    pub grade: String,
    /// Minimum yield strength of a grade of the user's own.
    pub yield_strength: Option<Pressure>,
    /// Minimum ultimate strength of a grade of the user's own.
    pub ultimate_strength: Option<Pressure>,
    /// The connection.
    pub connection: Connection,
    /// Drift that goes before the rule.
    pub drift: Option<Diameter>,
    /// Rule the pipe is drifted by; the catalogue's when empty.
    pub drift_rule: Option<DriftRule>,
    /// Thinnest wall over nominal wall.
    pub wall_tolerance: Ratio,
    /// Share of the strength left at the highest temperature.
    pub yield_factor: Ratio,
    /// Ratings the user states.
    pub ratings: StatedRatings,
}

impl PipeSpec {
    /// A standard pipe.
    pub fn standard(outer: Diameter, weight: MassPerLength, grade: &str, connection: Connection) -> Self {
        Self {
            name: String::new(),
            outer,
            weight,
            inner: None,
            grade: grade.to_string(),
            yield_strength: None,
            ultimate_strength: None,
            connection,
            drift: None,
            drift_rule: None,
            wall_tolerance: Ratio::of(0.875),
            yield_factor: Ratio::of(1.0),
            ratings: StatedRatings::default(),
        }
    }
}

/// Refuses a measure no pipe has.
pub(super) fn measure(
    fits: bool,
    what: &'static str,
    value: impl Into<quantity::Value>,
    limit: &'static str,
) -> Result<(), TubularError> {
    if fits { Ok(()) } else { Err(TubularError::Measure { what, value: value.into(), limit }) }
}

/// Refuses numbers no pipe has.
pub(super) fn check_numbers(spec: &PipeSpec) -> Result<(), TubularError> {
    let above = "above zero";
    let positive = |v: f64| v > 0.0 && v.is_finite();
    measure(positive(spec.outer.si()), "the outer diameter", spec.outer, above)?;
    measure(positive(spec.weight.si()), "the weight", spec.weight, above)?;
    for strength in [spec.yield_strength, spec.ultimate_strength].into_iter().flatten() {
        measure(positive(strength.si()), "the strength", strength, above)?;
    }
    let share = |r: Ratio| r.si() > 0.0 && r.si() <= 1.0;
    let limit = "above zero and at most one";
    measure(share(spec.wall_tolerance), "the wall tolerance", spec.wall_tolerance, limit)?;
    let factor = spec.yield_factor;
    measure(
        factor.si() > 0.0 && factor.si() <= 1.2,
        "the yield factor",
        factor,
        "above zero and at most 1.2",
    )?;
    let stated = [spec.ratings.collapse, spec.ratings.internal];
    for rating in stated.into_iter().flatten() {
        measure(positive(rating.si()), "the stated rating", rating, above)?;
    }
    let forces = match &spec.connection {
        Connection::Rated(c) => [spec.ratings.body, c.tension, c.compression],
        _ => [spec.ratings.body, None, None],
    };
    for rating in forces.into_iter().flatten() {
        measure(positive(rating.si()), "the stated rating", rating, above)?;
    }
    Ok(())
}

/// Yield and ultimate strength at the highest temperature; the user's own go before the
/// catalogue's.
pub(super) fn strengths(
    spec: &PipeSpec,
    catalogue: &Catalogue,
) -> Result<(Pressure, Option<Pressure>), TubularError> {
    let (yields, ultimate) = match (spec.yield_strength, catalogue.grade(&spec.grade)) {
        (Some(own), Ok(grade)) => (own, spec.ultimate_strength.or(Some(grade.ultimate_strength))),
        (Some(own), Err(_)) => (own, spec.ultimate_strength),
        (None, Ok(grade)) => (grade.yield_strength, spec.ultimate_strength.or(Some(grade.ultimate_strength))),
        (None, Err(e)) => return Err(e),
    };
    if let Some(ultimate) = ultimate {
        let limit = "at least the yield strength";
        measure(ultimate.si() >= yields.si(), "the ultimate strength", ultimate, limit)?;
    }
    let factor = spec.yield_factor.si();
    Ok((yields * factor, ultimate.map(|u| u * factor)))
}

/// The drift: stated, or by rule.
pub(super) fn drift(spec: &PipeSpec, tube: Tube, rule: DriftRule) -> Result<Diameter, TubularError> {
    match spec.drift {
        Some(stated) => {
            let fits = stated.si() > 0.0 && stated.si() <= tube.inner().si() * (1.0 + 1e-9);
            measure(fits, "the drift", stated, "above zero and no wider than the bore")?;
            Ok(stated)
        }
        None => {
            let call = DRIFT.call().with("outer", tube.outer()).with("inner", tube.inner());
            Ok(call.word("rule", rule.word()).run()?.get("drift")?)
        }
    }
}
