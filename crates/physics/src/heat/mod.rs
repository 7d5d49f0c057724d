//! Heat: conduction round the hole and temperature of the pumped fluid.

use crate::Relation;

mod bessel;
pub mod constant_flux;
pub mod constant_wall;
pub mod exchange;
pub mod geothermal;
pub mod hasan_kabir_1991;
mod laplace;
pub mod line_source;
pub mod profile;
pub mod pumping_temperature;
pub mod radial_grid;
pub mod ramey_1962;
pub mod rock;
pub mod transient_pumping;
pub mod well_heat;
pub mod well_temperature;
pub mod willhite_1967;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &rock::HEAT_DIMENSIONLESS_TIME,
    &constant_flux::CYLINDER_CONSTANT_FLUX,
    &constant_flux::CYLINDER_RECOVERY,
    &constant_wall::CYLINDER_CONSTANT_WALL,
    &line_source::LINE_SOURCE,
    &hasan_kabir_1991::HASAN_KABIR_1991,
    &hasan_kabir_1991::HASAN_KABIR_SINGLE,
    &ramey_1962::RAMEY_1962,
    &willhite_1967::WILLHITE_1967,
    &geothermal::GEOTHERMAL_TEMPERATURE,
    &geothermal::GEOTHERMAL_PROFILE,
    &pumping_temperature::PUMPING_TEMPERATURE,
    &transient_pumping::TRANSIENT_PUMPING,
    &radial_grid::RADIAL_CONDUCTION_GRID,
    &well_temperature::WELL_TEMPERATURE,
];
