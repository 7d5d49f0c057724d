//! Pressure rating of a ball on its seat from the strength of its material at temperature.

use super::bearing::projected_bearing_limit;
use super::contact::{BALL, HALF_ANGLE, SEAT, Seat, seat};
use super::count::paired;
use crate::error::{Error, Result, require, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Pressure, Ratio, Temperature};

const NAME: &str = "ball_rating";

/// One row of a supplier's table of strength against temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Temperature of the row.
    pub temperature: Temperature,
    /// Compressive strength at it.
    pub strength: Pressure,
}

/// Factors on the strength of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Derating {
    /// Strength across the weak plane of a laminate over the strength of the table; 1 for a ball
    /// alike in all directions.
    pub weak_plane: f64,
    /// Gain of strength by the confinement of the seat; 1 unless a test says otherwise.
    pub confinement: f64,
}

impl Default for Derating {
    fn default() -> Self {
        Self { weak_plane: 1.0, confinement: 1.0 }
    }
}

/// A rating and what it was made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallRating {
    /// Strength of the table at the temperature.
    pub strength: Pressure,
    /// Strength after the factors.
    pub allowable: Pressure,
    /// Pressure difference the ball carries on its seat.
    pub pressure: Pressure,
}

/// Strength at a temperature, between the rows of a table; never beyond its ends.
pub fn strength_at(table: &[Strength], temperature: Temperature) -> Result<Pressure> {
    for pair in table.windows(2) {
        let [low, high] = pair else { continue };
        require(
            high.temperature > low.temperature,
            NAME,
            "temperatures",
            high.temperature,
            format!("above the row before it, {}", low.temperature),
            "Sort the table by rising temperature.",
        )?;
    }
    for row in table {
        require_positive(NAME, "strengths", row.strength)?;
    }
    let (Some(first), Some(last)) = (table.first(), table.last()) else {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the table of strength against temperature is empty".into(),
            hint: "Ask the supplier for the strength at the temperature of the landing.",
        });
    };
    require(
        temperature >= first.temperature && temperature <= last.temperature,
        NAME,
        "temperature",
        temperature,
        format!("inside the table, {} to {}", first.temperature, last.temperature),
        "Strength is never extrapolated; ask the supplier for a row at this temperature.",
    )?;
    let above = table.iter().position(|row| row.temperature >= temperature);
    let at = |i: usize| table.get(i).copied().unwrap_or(*last);
    Ok(match above {
        None | Some(0) => first.strength,
        Some(i) => {
            let (a, b) = (at(i - 1), at(i));
            let share = (temperature - a.temperature) / (b.temperature - a.temperature);
            a.strength + (b.strength - a.strength) * share
        }
    })
}

/// Pressure rating of a ball on its seat from a table of strength against temperature (pressure
/// is the difference across the ball).
///
/// ```text
/// Y(T) linear between the rows
/// sigma_allow = Y(T) w c
/// dp = sigma_allow (Db^2 - Ds^2) / Dc^2
/// ```
///
/// - `Y` compressive strength, Pa; `T` temperature of the ball when it lands
/// - `w` weak-plane factor, `c` confinement factor
/// - `Db` ball diameter, `Ds` seat bore, `Dc` circle of contact, m; `dp` pressure difference, Pa
///
/// Range: the temperatures of the table; a temperature outside it is refused.
///
/// Where it breaks: a laminate lands at random on its weak or its strong plane, so take the weak
/// one; the confinement factor is unknown (1 is the safe side); a ball that dissolves loses diameter
/// and with it the shelf. The temperature is that of the pumped fluid at the seat, not of the rock.
///
/// Source: derived_ball_statics, projected ring with a table of the supplier.
///
/// ```
/// use physics::ball::{contact::Seat, rating::*};
/// use quantity::*;
/// let row = |t, y| Strength { temperature: Temperature::deg_c(t), strength: Pressure::mpa(y) };
/// let table = [row(24.0, 276.0), row(100.0, 262.0), row(149.0, 214.0)];
/// let y = strength_at(&table, Temperature::deg_c(62.0))?;
/// assert!((y.in_mpa() - 269.0).abs() < 1e-9);
/// assert!(strength_at(&table, Temperature::deg_c(150.0)).is_err());
/// let r = ball_rating(Diameter::inch(2.5), Seat::square(Diameter::inch(2.375)), y, Derating::default())?;
/// assert!((r.pressure.in_mpa() - 29.06).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ball_rating(ball: Diameter, seat: Seat, strength: Pressure, derating: Derating) -> Result<BallRating> {
    require_positive(NAME, "strength", strength)?;
    let factor = |name, value: f64| require_positive(NAME, name, Ratio::of(value));
    factor("weak_plane", derating.weak_plane)?;
    factor("confinement", derating.confinement)?;
    // sigma_allow = Y(T) w c
    let allowable = strength * (derating.weak_plane * derating.confinement);
    Ok(BallRating { strength, allowable, pressure: projected_bearing_limit(ball, seat, allowable)? })
}

/// The rows of a table given as two lists of equal length.
fn table(temperatures: &[Temperature], strengths: &[Pressure]) -> Result<Vec<Strength>> {
    let rows = paired(NAME, ("temperatures", temperatures), ("strengths", strengths))?;
    Ok(rows.into_iter().map(|(temperature, strength)| Strength { temperature, strength }).collect())
}

/// Register entry of [`ball_rating`].
pub static BALL_RATING: Relation = Relation {
    name: NAME,
    title: "Pressure rating of a ball on its seat from strength at temperature (difference across the ball)",
    equation: "dp = Y(T) w c (Db^2 - Ds^2) / Dc^2, Y linear between the rows of the table",
    source: "derived_ball_statics, projected ring with a table of the supplier",
    range: "temperatures inside the table (others are refused); weak_plane at most 1; confinement 1 to 3",
    inputs: &[
        BALL,
        SEAT,
        HALF_ANGLE,
        Input::new::<Temperature>("temperature", "temperature of the ball when it lands"),
        Input::list::<Temperature>("temperatures", "temperatures of the supplier's table, rising"),
        Input::list::<Pressure>("strengths", "compressive strengths of the table"),
        Input::new::<Ratio>("weak_plane", "strength across a laminate's weak plane over the table's")
            .or("1")
            .within(0.0, 1.0),
        Input::new::<Ratio>("confinement", "assumed gain of strength by the seat's confinement")
            .or("1")
            .within(1.0, 3.0),
    ],
    outputs: &[
        Output::new::<Pressure>("strength", "strength of the table at the temperature"),
        Output::new::<Pressure>("allowable", "strength after the factors"),
        Output::new::<Pressure>("pressure", "pressure difference the ball carries"),
    ],
    evaluate: |a| {
        let table = table(&a.list("temperatures")?, &a.list("strengths")?)?;
        let strength = strength_at(&table, a.get("temperature")?)?;
        let derating =
            Derating { weak_plane: a.number("weak_plane")?, confinement: a.number("confinement")? };
        let r = ball_rating(a.get("ball")?, seat(a)?, strength, derating)?;
        Ok(Outputs::new()
            .put("strength", r.strength)
            .put("allowable", r.allowable)
            .put("pressure", r.pressure))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(list: &[(f64, f64)]) -> Vec<Strength> {
        let row = |(t, y): &(f64, f64)| Strength {
            temperature: Temperature::deg_c(*t),
            strength: Pressure::mpa(*y),
        };
        list.iter().map(row).collect()
    }

    #[test]
    fn rows_are_met_exactly_and_ends_are_hard() {
        let table = rows(&[(20.0, 400.0), (93.0, 336.0), (120.0, 250.0)]);
        for row in &table {
            assert_eq!(strength_at(&table, row.temperature).unwrap(), row.strength);
        }
        assert!(strength_at(&table, Temperature::deg_c(19.9)).is_err());
        assert!(strength_at(&table, Temperature::deg_c(120.1)).is_err());
        assert!(strength_at(&[], Temperature::deg_c(20.0)).is_err());
        let only = rows(&[(93.0, 336.0)]);
        assert!(strength_at(&only, Temperature::deg_c(93.0)).is_ok());
        assert!(strength_at(&only, Temperature::deg_c(92.0)).is_err());
        assert!(strength_at(&rows(&[(93.0, 1.0), (20.0, 2.0)]), Temperature::deg_c(50.0)).is_err());
        assert!(table_lengths_must_match());
    }

    fn table_lengths_must_match() -> bool {
        super::table(&[Temperature::deg_c(20.0)], &[]).is_err()
    }
}
