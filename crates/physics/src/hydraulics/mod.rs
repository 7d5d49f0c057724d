//! Flow: pipe friction, seats, ports, columns, pressure waves, compression.

use crate::Relation;

pub mod annulus_friction;
#[cfg(test)]
mod characteristics_check;
pub mod column;
pub mod drag_reduction;
pub mod friction_factor;
pub mod joukowsky;
pub mod landing;
pub mod landing_rate;
mod log_law;
pub mod pipe_friction;
pub mod pipe_wall;
pub mod port;
pub mod power;
pub mod power_law_friction;
pub mod sealed_pressure;
pub mod seat;
pub mod seat_series;
pub mod slurry_friction;
pub mod step_down;
pub mod wave_speed;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &friction_factor::LAMINAR_FRICTION,
    &friction_factor::COLEBROOK_1939,
    &friction_factor::HAALAND_1983,
    &friction_factor::CHURCHILL_1977,
    &power_law_friction::DODGE_METZNER_1959,
    &power_law_friction::POWER_LAW_FRICTION,
    &drag_reduction::PRANDTL_KARMAN,
    &drag_reduction::VIRK_MDR,
    &drag_reduction::DRAG_REDUCED_FRICTION,
    &slurry_friction::SLURRY_FRICTION_MULTIPLIER,
    &pipe_friction::PIPE_FRICTION,
    &annulus_friction::ANNULUS_FRICTION,
    &seat::SEAT_LOSS,
    &seat_series::SEAT_SERIES,
    &port::PORT_LOSS,
    &port::OPEN_PORTS,
    &step_down::NEAR_WELLBORE_LOSS,
    &step_down::STEP_DOWN,
    &power::HYDRAULIC_POWER,
    &column::HYDROSTATIC_COLUMN,
    &pipe_wall::PIPE_WALL_COMPLIANCE,
    &wave_speed::WAVE_SPEED,
    &wave_speed::SLURRY_MODULUS,
    &joukowsky::JOUKOWSKY,
    &joukowsky::BALL_IMPACT,
    &sealed_pressure::SEALED_PRESSURE,
    &landing::LANDING_STAIRCASE,
    &landing::LANDING_FIRST_STEP,
    &landing_rate::LANDING_RATE_LIMIT,
];
