//! The rock round the hole and the dimensionless time of conduction in it.

use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Conductivity, Diameter, Diffusivity, Quantity, Ratio, Time, VolumetricHeat};

/// What conducts heat round the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rock {
    /// Thermal conductivity.
    pub conductivity: Conductivity,
    /// Heat capacity per volume, of rock with the fluid in its pores.
    pub heat: VolumetricHeat,
}

impl Rock {
    /// Checked rock.
    pub fn new(conductivity: Conductivity, heat: VolumetricHeat) -> Result<Self> {
        require_positive("heat_dimensionless_time", "conductivity", conductivity)?;
        require_positive("heat_dimensionless_time", "rock_heat", heat)?;
        Ok(Self { conductivity, heat })
    }

    /// Thermal diffusivity.
    pub fn diffusivity(&self) -> Diffusivity {
        // α = k / ρc
        Diffusivity::m2_per_s(self.conductivity.si() / self.heat.si())
    }

    /// Dimensionless time of conduction round a hole, a pure number.
    ///
    /// Equation: `t_D = α t / r_w²`, `α = k / (ρ c)`.
    ///
    /// Symbols: α thermal diffusivity m²/s, t time s, r_w hole radius m, k conductivity
    /// W/(m K), ρc heat capacity per volume J/(m³ K).
    ///
    /// Range: none stated by the source; exact by definition.
    ///
    /// Where it breaks: nowhere for positive inputs; the constructor refuses others.
    ///
    /// Source: carslaw_jaeger1959 ch. 13.
    ///
    /// ```
    /// use physics::heat::rock::Rock;
    /// use quantity::{Conductivity, Diameter, Time, VolumetricHeat};
    /// let rock = Rock::new(Conductivity::w_per_mk(2.5), VolumetricHeat::mj_per_m3k(2.2))?;
    /// let t_d = rock.dimensionless_time(Time::hours(1.0), Diameter::m(0.1556));
    /// assert!((t_d - 0.6759).abs() < 1e-4);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn dimensionless_time(&self, time: Time, hole: Diameter) -> f64 {
        // t_D = α t / r_w²
        4.0 * self.diffusivity().si() * time.si() / (hole.si() * hole.si())
    }
}

/// `heat_dimensionless_time` in the register.
pub static HEAT_DIMENSIONLESS_TIME: Relation = Relation {
    name: "heat_dimensionless_time",
    title: "Dimensionless time of conduction round a hole",
    equation: "t_D = α t / r_w²;  α = k / ρc",
    source: "carslaw_jaeger1959 ch. 13",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Conductivity>("conductivity", "thermal conductivity of the rock"),
        Input::new::<VolumetricHeat>("rock_heat", "heat capacity of the rock per volume"),
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Time>("time", "time since the change"),
    ],
    outputs: &[
        Output::new::<Diffusivity>("diffusivity", "thermal diffusivity"),
        Output::new::<Ratio>("t_d", "dimensionless time"),
    ],
    evaluate: |a| {
        let rock = Rock::new(a.get("conductivity")?, a.get("rock_heat")?)?;
        let hole: Diameter = a.get("hole")?;
        require_positive("heat_dimensionless_time", "hole", hole)?;
        let t_d = rock.dimensionless_time(a.get("time")?, hole);
        Ok(Outputs::new().put("diffusivity", rock.diffusivity()).put("t_d", Ratio::of(t_d)))
    },
};
