//! The stream of fluid down the well and what it exchanges heat with.

use super::profile::{Place, Profile};
use super::rock::Rock;
use crate::error::{Error, require, require_positive};
use crate::{Arguments, Result};
use quantity::{
    Density, Diameter, FlowRate, HeatTransfer, MeasuredDepth, Quantity, SpecificHeat, Temperature,
};

/// The fluid pumped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fluid {
    /// Density.
    pub density: Density,
    /// Heat capacity per mass.
    pub specific_heat: SpecificHeat,
}

impl Fluid {
    /// Heat capacity per volume, J/(m³ K).
    pub fn volumetric(&self) -> f64 {
        self.density.si() * self.specific_heat.si()
    }

    /// Heat carried per degree, W/K.
    pub fn carried(&self, rate: FlowRate) -> f64 {
        rate.si() * self.volumetric()
    }

    /// Refuses a fluid without mass or heat.
    pub fn check(&self, relation: &'static str) -> Result<()> {
        require_positive(relation, "density", self.density)?;
        require_positive(relation, "specific_heat", self.specific_heat)
    }
}

/// What lies between the fluid and the rock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Barrier {
    /// Nothing: the wall of the hole has the fluid's temperature.
    None,
    /// A resistance, as an overall coefficient on the area of the hole wall.
    Film(HeatTransfer),
}

/// The hole wall and the rock behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Hole diameter.
    pub hole: Diameter,
    /// The rock.
    pub rock: Rock,
    /// What lies between fluid and rock.
    pub barrier: Barrier,
}

impl Wall {
    /// Refuses a wall without size.
    pub fn check(&self, relation: &'static str) -> Result<()> {
        require_positive(relation, "hole", self.hole)?;
        match self.barrier {
            Barrier::None => Ok(()),
            Barrier::Film(u) => require_positive(relation, "film", u),
        }
    }

    /// Thermal resistance of the barrier per length, K m/W.
    pub fn barrier_resistance(&self) -> f64 {
        match self.barrier {
            Barrier::None => 0.0,
            // 1 / (2π r_w U)
            Barrier::Film(u) => 1.0 / (std::f64::consts::PI * self.hole.si() * u.si()),
        }
    }
}

/// Temperature of the undisturbed earth along the well, straight between rows.
pub type Earth = Profile<MeasuredDepth, Temperature>;

/// Earth along the well with at least two rows and temperatures above absolute zero.
pub fn earth_along(
    relation: &'static str,
    depths: &[MeasuredDepth],
    temperatures: &[Temperature],
) -> Result<Earth> {
    let earth = Earth::new(relation, depths, temperatures)?;
    let rows = quantity::Ratio::of(depths.len() as f64);
    require(depths.len() >= 2, relation, "depths", rows, "two or more rows", "Give the top and the end.")?;
    temperatures.iter().try_for_each(|t| require_positive(relation, "earth", *t))?;
    Ok(earth)
}

/// Refuses a depth outside the earth's rows.
pub(super) fn require_within(relation: &'static str, earth: &Earth, depth: MeasuredDepth) -> Result<()> {
    match earth.at(depth).1 {
        Place::Within => Ok(()),
        _ => Err(Error::Domain {
            relation,
            name: "depth",
            value: depth.into(),
            limit: "within the rows of the earth's temperature".into(),
            hint: "Add a row at the top and at the end of the well.",
        }),
    }
}

/// Fluid, wall and earth of a call, by the input names shared by the relations of this family.
pub(super) fn read_well(relation: &'static str, a: &Arguments) -> Result<(Fluid, Wall, Earth)> {
    let rock = Rock::new(a.get("conductivity")?, a.get("rock_heat")?)?;
    let barrier = match a.word("barrier")? {
        "film" => Barrier::Film(a.get("film")?),
        _ => Barrier::None,
    };
    let fluid = Fluid { density: a.get("density")?, specific_heat: a.get("specific_heat")? };
    let depths: Vec<MeasuredDepth> = a.list("depths")?;
    let earth = earth_along(relation, &depths, &a.list::<Temperature>("earth")?)?;
    Ok((fluid, Wall { hole: a.get("hole")?, rock, barrier }, earth))
}

/// Inputs shared by the relations that describe fluid, wall and earth.
macro_rules! well_inputs {
    ($($extra:expr),* $(,)?) => {
        &[
            $crate::Input::list::<quantity::MeasuredDepth>("depths", "measured depths of the earth rows"),
            $crate::Input::list::<quantity::Temperature>("earth", "undisturbed earth temperatures there"),
            $crate::Input::new::<quantity::Diameter>("hole", "hole diameter"),
            $crate::Input::new::<quantity::Conductivity>("conductivity", "thermal conductivity of the rock"),
            $crate::Input::new::<quantity::VolumetricHeat>("rock_heat", "heat capacity of the rock per volume"),
            $crate::Input::choice("barrier", &["none", "film"], "what lies between fluid and rock").or("none"),
            $crate::Input::new::<quantity::HeatTransfer>("film", "coefficient on the hole wall")
                .or("1000 W/(m2.K)"),
            $crate::Input::new::<quantity::Density>("density", "density of the fluid"),
            $crate::Input::new::<quantity::SpecificHeat>("specific_heat", "heat capacity of the fluid per mass"),
            $crate::Input::new::<quantity::Temperature>("inlet", "temperature of the fluid at the top"),
            $($extra),*
        ]
    };
}
pub(super) use well_inputs;
