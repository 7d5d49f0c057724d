//! Viscosity from a field or laboratory table over temperature.

use crate::error::{Error, Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Quantity, Temperature, Viscosity};

/// A table of viscosity over temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct ViscosityTable {
    /// Temperature (K) and natural logarithm of viscosity (Pa·s), by rising temperature.
    points: Vec<(f64, f64)>,
}

const NAME: &str = "viscosity_table";

impl ViscosityTable {
    /// Reads a table: at least one row, temperatures rising, viscosities above zero.
    pub fn new(rows: &[(Temperature, Viscosity)]) -> Result<Self> {
        let mut points = Vec::with_capacity(rows.len());
        for &(temperature, viscosity) in rows {
            require_positive(NAME, "viscosity", viscosity)?;
            let rises = points.last().is_none_or(|&(last, _)| temperature.si() > last);
            let hint = "Sort the table by temperature and give each temperature once.";
            let good = temperature.is_finite() && rises;
            require(good, NAME, "temperature", temperature, "above the row before", hint)?;
            points.push((temperature.si(), viscosity.si().ln()));
        }
        if points.is_empty() {
            return Err(Error::NoSolution {
                relation: NAME,
                what: "the table has no row".to_string(),
                hint: "Give at least one temperature with its viscosity.",
            });
        }
        Ok(Self { points })
    }

    /// Viscosity between the rows of a table.
    ///
    /// `ln mu = ln mu_i + (T - T_i)/(T_j - T_i) (ln mu_j - ln mu_i)`
    ///
    /// `mu` viscosity (Pa·s), `T` temperature (K), `i` and `j` the rows below and above.
    ///
    /// Range: from the first to the last temperature of the table; refused outside, since a
    /// gel's viscosity cannot be extrapolated.
    ///
    /// A straight line in the logarithm is within 2 % for water rows 20 degC apart.
    ///
    /// Source: andrade1930 (viscosity falls about exponentially with temperature).
    ///
    /// ```
    /// use physics::fluid::viscosity_table::ViscosityTable;
    /// use quantity::{Temperature, Viscosity};
    /// let c = Temperature::deg_c;
    /// let table = ViscosityTable::new(&[(c(20.0), Viscosity::cp(40.0)), (c(60.0), Viscosity::cp(10.0))])?;
    /// assert!((table.at(c(40.0))?.in_cp() - 20.0).abs() < 1e-9);
    /// assert!(table.at(c(61.0)).is_err());
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn at(&self, temperature: Temperature) -> Result<Viscosity> {
        let t = temperature.si();
        let (first, last) = match (self.points.first(), self.points.last()) {
            (Some(first), Some(last)) => (first.0, last.0),
            _ => (f64::NAN, f64::NAN),
        };
        let hint = "Add a row to the table for this temperature.";
        let inside = t >= first && t <= last;
        require(inside, NAME, "temperature", temperature, "within the rows of the table", hint)?;
        let above = self.points.partition_point(|&(row, _)| row < t);
        let below = above.saturating_sub(1);
        let log = match (self.points.get(below), self.points.get(above)) {
            // ln mu = ln mu_i + (T - T_i)/(T_j - T_i) (ln mu_j - ln mu_i)
            (Some(&(ti, mi)), Some(&(tj, mj))) if tj > ti => mi + (t - ti) / (tj - ti) * (mj - mi),
            (Some(&(_, m)), _) => m,
            _ => f64::NAN,
        };
        Ok(Viscosity::pa_s(log.exp()))
    }
}

/// Register entry of [`ViscosityTable::at`].
pub static VISCOSITY_TABLE: Relation = Relation {
    name: "viscosity_table",
    title: "Viscosity between the rows of a table",
    equation: "ln mu = ln mu_i + (T - T_i)/(T_j - T_i) (ln mu_j - ln mu_i)",
    source: "andrade1930 (exponential fall with temperature)",
    range: "from the first to the last temperature of the table; refused outside",
    inputs: &[
        Input::list::<Temperature>("temperatures", "temperatures of the rows, rising"),
        Input::list::<Viscosity>("viscosities", "viscosities of the rows"),
        Input::new::<Temperature>("temperature", "temperature wanted"),
    ],
    outputs: &[Output::new::<Viscosity>("viscosity", "viscosity")],
    evaluate: |a| {
        let temperatures = a.list::<Temperature>("temperatures")?;
        let viscosities = a.list::<Viscosity>("viscosities")?;
        if temperatures.len() != viscosities.len() {
            return Err(Error::NoSolution {
                relation: NAME,
                what: format!("{} temperatures but {} viscosities", temperatures.len(), viscosities.len()),
                hint: "Give one viscosity for each temperature.",
            });
        }
        let rows: Vec<_> = temperatures.into_iter().zip(viscosities).collect();
        let table = ViscosityTable::new(&rows)?;
        Ok(Outputs::new().put("viscosity", table.at(a.get("temperature")?)?))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_met_and_bad_tables_refused() {
        let (c, cp) = (Temperature::deg_c, Viscosity::cp);
        let rows = [(c(10.0), cp(50.0)), (c(30.0), cp(20.0)), (c(90.0), cp(3.0))];
        let table = ViscosityTable::new(&rows).unwrap();
        for (t, mu) in rows {
            assert!((table.at(t).unwrap().si() / mu.si() - 1.0).abs() < 1e-12);
        }
        assert!(table.at(c(9.9)).is_err());
        assert!(table.at(Temperature::kelvin(f64::NAN)).is_err());
        assert!(ViscosityTable::new(&[]).is_err());
        assert!(ViscosityTable::new(&[(c(20.0), cp(1.0)), (c(20.0), cp(2.0))]).is_err());
        assert!(ViscosityTable::new(&[(c(20.0), cp(0.0))]).is_err());
        let one = ViscosityTable::new(&rows[..1]).unwrap();
        assert!((one.at(c(10.0)).unwrap().in_cp() - 50.0).abs() < 1e-9);
    }
}
