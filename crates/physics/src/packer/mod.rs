//! Packers and shear devices: swelling, setting, holding.

use crate::Relation;

pub mod actuation_chain;
pub mod arrhenius;
pub mod cylinder_uptake;
pub mod equivalent_time;
pub mod flory_rehner;
pub mod gel_swelling;
pub mod hydraulic_set;
mod least_squares;
pub mod load_envelope;
pub mod monotone_cubic;
pub mod packer_rating;
pub mod packer_thrust;
pub mod rupture_disc;
pub mod setting_window;
pub mod shear_pins;
pub mod sheet_uptake;
pub mod surface_pressure;
pub mod swell_curve;
pub mod swell_diameter;
pub mod swell_fit;
pub mod time_to_contact;
pub mod wall_breakdown;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &sheet_uptake::SHEET_UPTAKE,
    &sheet_uptake::SHEET_UPTAKE_TIME,
    &cylinder_uptake::CYLINDER_UPTAKE,
    &cylinder_uptake::CYLINDER_UPTAKE_TIME,
    &cylinder_uptake::OPEN_END_UPTAKE,
    &arrhenius::ARRHENIUS_SHIFT,
    &equivalent_time::EQUIVALENT_TIME,
    &swell_diameter::SWELL_DIAMETER,
    &swell_diameter::CONTACT_UPTAKE,
    &time_to_contact::TIME_TO_CONTACT,
    &swell_curve::SWELL_CURVE,
    &swell_curve::TIME_TO_CONTACT_CURVE,
    &swell_fit::SWELL_FIT_ELEMENT,
    &swell_fit::SWELL_FIT_COUPON,
    &flory_rehner::FLORY_REHNER,
    &gel_swelling::GEL_SWELLING,
    &gel_swelling::GEL_CONTACT_STRESS,
    &packer_thrust::PACKER_THRUST,
    &packer_thrust::PACKER_CONTACT_REQUIRED,
    &wall_breakdown::WALL_BREAKDOWN,
    &packer_rating::PACKER_RATING,
    &load_envelope::LOAD_ENVELOPE,
    &shear_pins::SHEAR_PIN_PRESSURE,
    &shear_pins::PIN_SCATTER,
    &shear_pins::SHEAR_TEMPERATURE_FACTOR,
    &rupture_disc::RUPTURE_DISC,
    &surface_pressure::SURFACE_PRESSURE_FOR_DIFFERENTIAL,
    &surface_pressure::SURFACE_PRESSURE_FOR_ABSOLUTE,
    &surface_pressure::SURFACE_PRESSURE_AFTER_SETTING,
    &surface_pressure::DIFFERENTIAL_AT_TOOL,
    &hydraulic_set::RING_PISTON_FORCE,
    &hydraulic_set::SEAT_END_LOAD,
    &hydraulic_set::HYDRAULIC_SET,
    &setting_window::SETTING_WINDOW,
    &actuation_chain::ACTUATION_CHAIN,
];
