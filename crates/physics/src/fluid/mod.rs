//! Fluids: water, brine, slurry, rheology.

use crate::Relation;

pub mod brine;
pub mod power_law;
pub mod slurry;
pub mod slurry_viscosity;
pub mod viscosity_table;
pub mod water_if97;
pub mod water_viscosity;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &slurry::SLURRY_DENSITY,
    &slurry::SLURRY_CONCENTRATION,
    &slurry::CONCENTRATION_FROM_FRACTION,
    &slurry::PROPPANT_MASS,
    &slurry_viscosity::SLURRY_VISCOSITY,
    &water_if97::WATER_IF97,
    &water_if97::WATER_SATURATION,
    &water_viscosity::WATER_VISCOSITY,
    &water_viscosity::WATER_VISCOSITY_FROM_DENSITY,
    &brine::BRINE_DENSITY,
    &brine::BRINE_STRENGTH,
    &brine::BRINE_VISCOSITY,
    &power_law::POWER_LAW_VISCOSITY,
    &power_law::METZNER_REED_1955,
    &power_law::POWER_LAW_FIT,
    &viscosity_table::VISCOSITY_TABLE,
];
