//! Yield strength at temperature, from a table the user gives.

use crate::error::{require, require_positive};
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Quantity, Ratio, Temperature};

const NAME: &str = "yield_at_temperature";

/// Where a temperature lies against a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TableSide {
    /// Between the first and the last temperature of the table.
    Inside,
    /// Colder than the table; its first factor is taken.
    Below,
    /// Hotter than the table; its last factor is taken, which flatters the pipe.
    Above,
}

/// Yield strength at temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeratedYield {
    /// Yield strength at the temperature.
    pub yield_strength: Pressure,
    /// Share of the yield strength at room temperature.
    pub share: Ratio,
    /// Where the temperature lies against the table.
    pub side: TableSide,
}

/// One line of a derating table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeratingPoint {
    /// Temperature.
    pub temperature: Temperature,
    /// Share of the yield strength at room temperature.
    pub share: Ratio,
}

/// Yield strength at temperature, from a table of shares.
///
/// Equation: `Yp(T) = Yp f(T)`, `f` linear between the lines of the table
///
/// - `Yp` minimum yield strength at room temperature, Pa
/// - `T` temperature, K
/// - `f` share of the yield strength left, from the supplier's table
///
/// Range: the temperatures of the table.
///
/// Where it breaks: outside the table the nearest share is held and the result is marked; no
/// standard gives a table, so the numbers are the supplier's. Shares outside 0 to 1.2 and
/// temperatures that do not rise are refused.
///
/// Source: supplier_data; the interpolation is the program's own.
///
/// ```
/// use physics::tubular::yield_at_temperature::{DeratingPoint, TableSide, yield_at_temperature};
/// use quantity::{Pressure, Ratio, Temperature};
/// let table = [(20.0, 1.0), (120.0, 0.96)]
///     .map(|(t, f)| DeratingPoint { temperature: Temperature::deg_c(t), share: Ratio::of(f) });
/// let hot = yield_at_temperature(Pressure::ksi(110.0), Temperature::deg_c(70.0), &table)?;
/// assert!((hot.yield_strength.in_ksi() - 107.8).abs() < 1e-9);
/// assert_eq!(hot.side, TableSide::Inside);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn yield_at_temperature(
    yield_strength: Pressure,
    temperature: Temperature,
    table: &[DeratingPoint],
) -> Result<DeratedYield> {
    require_positive(NAME, "yield_strength", yield_strength)?;
    require(temperature.is_finite(), NAME, "temperature", temperature, "finite", "Check the input.")?;
    let (Some(first), Some(last)) = (table.first(), table.last()) else {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the table is empty".into(),
            hint: "Give the supplier's temperatures and shares.",
        });
    };
    checked(table)?;
    let t = temperature.si();
    let pair = table.windows(2).find_map(|w| match w {
        [a, b] if (a.temperature.si()..=b.temperature.si()).contains(&t) => Some((*a, *b)),
        _ => None,
    });
    let (share, side) = match pair {
        // f = fa + (fb - fa)(T - Ta)/(Tb - Ta)
        Some((a, b)) => {
            let along = (temperature - a.temperature) / (b.temperature - a.temperature);
            (a.share.si() + (b.share.si() - a.share.si()) * along, TableSide::Inside)
        }
        None if t < first.temperature.si() => (first.share.si(), TableSide::Below),
        None if t > last.temperature.si() => (last.share.si(), TableSide::Above),
        None => (first.share.si(), TableSide::Inside),
    };
    Ok(DeratedYield { yield_strength: yield_strength * share, share: Ratio::of(share), side })
}

fn checked(table: &[DeratingPoint]) -> Result<()> {
    for point in table {
        let fits = point.share.si() > 0.0 && point.share.si() <= 1.2;
        let hint = "It is the yield strength left over that at room temperature, such as 0.96.";
        require(fits, NAME, "shares", point.share, "above zero and at most 1.2", hint)?;
    }
    for pair in table.windows(2) {
        if let [a, b] = pair {
            let rises = b.temperature.si() > a.temperature.si();
            let hint = "Sort the table by temperature.";
            require(rises, NAME, "temperatures", b.temperature, "above the one before it", hint)?;
        }
    }
    Ok(())
}

/// Register entry of [`yield_at_temperature`].
pub static YIELD_AT_TEMPERATURE: Relation = Relation {
    name: NAME,
    title: "Yield strength at temperature, from the supplier's table",
    equation: "Yp(T) = Yp f(T), f linear between the lines of the table",
    source: "supplier_data; linear interpolation",
    range: "the temperatures of the table; outside it `inside` is 0",
    inputs: &[
        Input::new::<Pressure>("yield_strength", "minimum yield strength at room temperature Yp"),
        Input::new::<Temperature>("temperature", "temperature T"),
        Input::list::<Temperature>("temperatures", "temperatures of the table, rising"),
        Input::list::<Ratio>("shares", "share of the yield strength left at each"),
    ],
    outputs: &[
        Output::new::<Pressure>("reduced_yield", "yield strength at the temperature"),
        Output::new::<Ratio>("share", "share left f"),
        Output::new::<Ratio>("inside", "1 within the table, 0 outside it"),
    ],
    evaluate: |a| {
        let (temperatures, shares) = (a.list("temperatures")?, a.list::<Ratio>("shares")?);
        if temperatures.len() != shares.len() {
            return Err(Error::NoSolution {
                relation: NAME,
                what: format!("{} temperatures stand against {} shares", temperatures.len(), shares.len()),
                hint: "Give one share for each temperature.",
            });
        }
        let points = temperatures.into_iter().zip(shares);
        let table: Vec<_> = points.map(|(temperature, share)| DeratingPoint { temperature, share }).collect();
        let hot = yield_at_temperature(a.get("yield_strength")?, a.get("temperature")?, &table)?;
        let inside = if hot.side == TableSide::Inside { 1.0 } else { 0.0 };
        Ok(Outputs::new()
            .put("reduced_yield", hot.yield_strength)
            .put("share", hot.share)
            .put("inside", Ratio::of(inside)))
    },
};
