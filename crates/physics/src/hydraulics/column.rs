//! Hydrostatic pressure of a column whose density changes with temperature and pressure.

use crate::error::{Error, Result, require, require_positive};
use crate::fluid::brine::brine_batzle_wang_1992;
use crate::fluid::slurry::slurry;
use crate::fluid::water_if97::water_density;
use crate::{Input, Output, Outputs, Relation};
use quantity::{
    AbsolutePressure, Concentration, Density, Pressure, Quantity, Ratio, Temperature, TrueVerticalDepth,
    constant::GRAVITY,
};

const NAME: &str = "hydrostatic_column";

/// The clean fluid of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ColumnFluid {
    /// One density everywhere.
    Fixed(Density),
    /// Fresh water, [`crate::fluid::water_if97::water`].
    Water,
    /// Sodium chloride brine, [`brine_batzle_wang_1992`].
    Brine {
        /// Salt mass fraction.
        salt: f64,
    },
}

/// A column of clean fluid or slurry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// The clean fluid.
    pub fluid: ColumnFluid,
    /// Proppant added per clean volume.
    pub concentration: Concentration,
    /// Grain density of the proppant; not used without proppant.
    pub proppant_density: Density,
}

impl Column {
    /// A column without proppant.
    pub fn clean(fluid: ColumnFluid) -> Self {
        Self { fluid, concentration: Concentration::ZERO, proppant_density: Density::ZERO }
    }

    /// Density at a temperature and pressure.
    pub fn density(&self, temperature: Temperature, pressure: AbsolutePressure) -> Result<Density> {
        let clean = match self.fluid {
            ColumnFluid::Fixed(density) => {
                require_positive(NAME, "density", density)?;
                density
            }
            ColumnFluid::Water => water_density(temperature, pressure)?,
            ColumnFluid::Brine { salt } => brine_batzle_wang_1992(temperature, pressure, salt)?.density,
        };
        if self.concentration == Concentration::ZERO {
            return Ok(clean);
        }
        Ok(slurry(clean, self.proppant_density, self.concentration)?.density)
    }
}

/// A point of the column: depth and temperature.
pub type ColumnPoint = (TrueVerticalDepth, Temperature);

/// Longest step of the integration, m.
const STEP: f64 = 250.0;
/// Longest piece of column, m: deeper than any well.
const LONGEST: f64 = 20_000.0;

/// Pressure at the end of a column (absolute).
///
/// `dp/dz = rho(T(z), p) g`
///
/// `z` true vertical depth (m), `T` temperature, a straight line between the points, `p`
/// absolute pressure (Pa), `rho` density (kg/m³), `g` standard gravity.
///
/// Range: that of the density relation.
///
/// Steps of at most 250 m by the classical fourth-order rule: the error is below 1 Pa. Depth may
/// fall again along the points: the pressure then falls. Friction is not in it.
///
/// Source: white2011 ch. 2 (hydrostatic law).
///
/// ```
/// use physics::hydraulics::column::{Column, ColumnFluid, hydrostatic_column};
/// use quantity::{AbsolutePressure, Density, Temperature, TrueVerticalDepth};
/// let t = Temperature::deg_c(15.0);
/// let points = [(TrueVerticalDepth::ft(0.0), t), (TrueVerticalDepth::ft(9000.0), t)];
/// let mud = Column::clean(ColumnFluid::Fixed(Density::lb_per_gal(8.43)));
/// let top = AbsolutePressure::psi(14.7);
/// let bottom = hydrostatic_column(top, &points, &mud)?;
/// assert!(((bottom - top).in_psi() - 3941.3).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hydrostatic_column(
    top: AbsolutePressure,
    points: &[ColumnPoint],
    column: &Column,
) -> Result<AbsolutePressure> {
    let mut pressure = top;
    for pair in points.windows(2) {
        if let [from, to] = pair {
            pressure = descend(pressure, *from, *to, column)?;
        }
    }
    Ok(pressure)
}

fn descend(
    top: AbsolutePressure,
    from: ColumnPoint,
    to: ColumnPoint,
    column: &Column,
) -> Result<AbsolutePressure> {
    let (depth, warming) = ((to.0 - from.0).si(), to.1 - from.1);
    let hint = "Check the depths and their unit.";
    require(depth.abs() <= LONGEST, NAME, "tvd", to.0, "within 20 km of the point before", hint)?;
    let steps = match column.fluid {
        ColumnFluid::Fixed(_) => 1,
        _ => (depth.abs() / STEP).ceil().max(1.0) as usize,
    };
    let h = depth / steps as f64;
    let mut p = top.si();
    for step in 0..steps {
        // dp/dz = rho(T(z), p) g
        let slope = |part: f64, p: f64| {
            let share = (step as f64 + part) / steps as f64;
            let density = column.density(from.1 + warming * share, AbsolutePressure::pa(p))?;
            Ok::<f64, Error>(density.si() * GRAVITY)
        };
        let k1 = slope(0.0, p)?;
        let k2 = slope(0.5, p + 0.5 * h * k1)?;
        let k3 = slope(0.5, p + 0.5 * h * k2)?;
        let k4 = slope(1.0, p + h * k3)?;
        p += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    }
    Ok(AbsolutePressure::pa(p))
}

/// Register entry of [`hydrostatic_column`].
pub static HYDROSTATIC_COLUMN: Relation = Relation {
    name: NAME,
    title: "Pressure at the end of a column (absolute)",
    equation: "dp/dz = rho(T(z), p) g",
    source: "white2011 ch. 2",
    range: "that of the density relation",
    inputs: &[
        Input::new::<AbsolutePressure>("top_pressure", "pressure at the first point").or("14.6959 psia"),
        Input::list::<TrueVerticalDepth>("tvd", "true vertical depths of the points"),
        Input::list::<Temperature>("temperature", "temperatures at the points"),
        Input::choice("fluid", &["fixed", "water", "brine"], "the clean fluid"),
        Input::new::<Density>("density", "density, for fixed").or("1 g/cm3"),
        Input::new::<Ratio>("salt", "sodium chloride mass fraction, for brine").or("0").within(0.0, 0.25),
        Input::new::<Concentration>("concentration", "proppant added per clean volume").or("0 ppa"),
        Input::new::<Density>("proppant_density", "grain density of the proppant").or("2.65 g/cm3"),
    ],
    outputs: &[
        Output::new::<AbsolutePressure>("pressure", "pressure at the last point"),
        Output::new::<Pressure>("rise", "pressure at the last point above the first"),
        Output::new::<Density>("mean_density", "density of a uniform column with the same rise"),
    ],
    evaluate: |a| {
        let depths = a.list::<TrueVerticalDepth>("tvd")?;
        let temperatures = a.list::<Temperature>("temperature")?;
        let fault = |what: String| Error::NoSolution {
            relation: NAME,
            what,
            hint: "Give at least two depths, and one temperature for each.",
        };
        let (Some(first), Some(last)) = (depths.first().copied(), depths.last().copied()) else {
            return Err(fault("there is no depth".to_string()));
        };
        if depths.len() != temperatures.len() {
            return Err(fault(format!("{} depths but {} temperatures", depths.len(), temperatures.len())));
        }
        if first == last {
            return Err(fault("the first and last depth are the same".to_string()));
        }
        let column = Column {
            fluid: match a.word("fluid")? {
                "water" => ColumnFluid::Water,
                "brine" => ColumnFluid::Brine { salt: a.number("salt")? },
                _ => ColumnFluid::Fixed(a.get("density")?),
            },
            concentration: a.get("concentration")?,
            proppant_density: a.get("proppant_density")?,
        };
        let top: AbsolutePressure = a.get("top_pressure")?;
        let points: Vec<_> = depths.into_iter().zip(temperatures).collect();
        let pressure = hydrostatic_column(top, &points, &column)?;
        let rise = pressure - top;
        Ok(Outputs::new()
            .put("pressure", pressure)
            .put("rise", rise)
            .put("mean_density", Density::kg_per_m3(rise.si() / GRAVITY / (last - first).si())))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn point(m: f64, c: f64) -> ColumnPoint {
        (TrueVerticalDepth::m(m), Temperature::deg_c(c))
    }

    const TOP: AbsolutePressure = AbsolutePressure::mpa(0.101325);

    #[test]
    fn down_and_up_again_is_where_it_began() {
        let water = Column::clean(ColumnFluid::Water);
        let path = [point(0.0, 20.0), point(2500.0, 80.0), point(0.0, 20.0)];
        let end = hydrostatic_column(TOP, &path, &water).unwrap();
        assert!((end - TOP).si().abs() < 1.0, "{:?}", end - TOP);
    }

    #[test]
    fn points_between_change_nothing() {
        let brine = Column::clean(ColumnFluid::Brine { salt: 0.1 });
        let coarse = hydrostatic_column(TOP, &[point(0.0, 20.0), point(3000.0, 110.0)], &brine).unwrap();
        let path: Vec<_> = (0..=600).map(|i| point(5.0 * f64::from(i), 20.0 + 0.15 * f64::from(i))).collect();
        let fine = hydrostatic_column(TOP, &path, &brine).unwrap();
        assert!((fine - coarse).si().abs() < 1.0, "{:?}", fine - coarse);
    }

    #[test]
    fn proppant_makes_it_heavier_and_faults_are_named() {
        let mut column = Column::clean(ColumnFluid::Fixed(Density::kg_per_m3(1000.0)));
        let path = [point(0.0, 20.0), point(2800.0, 20.0)];
        let clean = hydrostatic_column(TOP, &path, &column).unwrap();
        column.concentration = Concentration::ppa(4.0);
        assert!(hydrostatic_column(TOP, &path, &column).is_err());
        column.proppant_density = Density::g_per_cm3(2.65);
        let heavy = hydrostatic_column(TOP, &path, &column).unwrap();
        assert!(((heavy - clean).in_mpa() - 6.94).abs() < 0.01, "{:?}", heavy - clean);
        let far = [point(0.0, 20.0), point(1e9, 20.0)];
        assert!(hydrostatic_column(TOP, &far, &column).is_err());
    }
}
