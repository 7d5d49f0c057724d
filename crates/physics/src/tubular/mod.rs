//! Tubulars: ratings, stresses, forces and length changes.

use crate::Relation;

pub mod body_yield;
pub mod buoyed_weight;
pub mod collapse;
pub mod collapse_coefficients;
pub mod collapse_yield;
pub mod columns;
pub mod drift;
pub mod effective_tension;
pub mod elongation;
pub mod fixed_ends;
pub mod internal_yield;
pub mod joint_strength;
pub mod length_change;
pub mod packer_restraint;
pub mod piston_force;
pub mod plain_end_mass;
pub mod steel;
pub mod steel_area;
pub mod string_length_change;
pub mod triaxial;
pub mod tube;
pub mod yield_at_temperature;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &steel_area::STEEL_AREA,
    &plain_end_mass::PLAIN_END_MASS,
    &drift::DRIFT,
    &body_yield::BODY_YIELD,
    &internal_yield::INTERNAL_YIELD,
    &collapse_coefficients::COLLAPSE_COEFFICIENTS,
    &collapse_yield::COLLAPSE_YIELD,
    &collapse::API_COLLAPSE,
    &collapse::COLLAPSE_FORMULAS,
    &joint_strength::ROUND_THREAD_STRENGTH,
    &joint_strength::BUTTRESS_STRENGTH,
    &joint_strength::COUPLING_STRENGTH,
    &triaxial::TRIAXIAL,
    &yield_at_temperature::YIELD_AT_TEMPERATURE,
    &buoyed_weight::BUOYED_WEIGHT,
    &buoyed_weight::HUNG_WEIGHT,
    &effective_tension::EFFECTIVE_TENSION,
    &fixed_ends::THERMAL_FORCE,
    &fixed_ends::BALLOONING_FORCE,
    &fixed_ends::ANCHORED_SPAN_FORCE,
    &piston_force::PISTON_FORCE,
    &elongation::SEGMENT_ELONGATION,
    &length_change::LENGTH_CHANGE,
    &packer_restraint::PACKER_RESTRAINT,
    &string_length_change::STRING_LENGTH_CHANGE,
];
