//! Fractures: closed forms, growth in time with leak-off, closure, proppant.

use crate::Relation;

pub mod carter;
pub mod coupled;
pub mod drive;
pub mod g_function;
pub mod growth;
pub mod growth_check;
pub mod kgd;
pub mod leakoff;
pub mod nolte;
pub mod nolte_smith;
pub mod pkn;
pub mod proppant;
pub mod propped;
pub mod radial;
pub mod screenout;
mod shape;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &pkn::PKN_AT_LENGTH,
    &pkn::PKN_NO_LEAKOFF,
    &pkn::PKN_STORAGE_RATE,
    &kgd::KGD_AT_LENGTH,
    &kgd::KGD_NO_LEAKOFF,
    &radial::RADIAL_VISCOSITY,
    &radial::RADIAL_TOUGHNESS,
    &carter::CARTER_AREA,
    &leakoff::CARTER_MARCH,
    &coupled::COUPLED_LEAKOFF,
    &nolte::NOLTE_PAD,
    &nolte::NOLTE_RAMP,
    &nolte::LEAKOFF_MULTIPLIER,
    &g_function::NOLTE_G,
    &g_function::NOLTE_G_ZERO,
    &g_function::EFFICIENCY_FROM_CLOSURE,
    &nolte_smith::NOLTE_SMITH_EXPONENTS,
    &propped::PROPPED_WIDTH,
    &propped::FRACTURE_COMPLIANCE,
    &growth_check::FRACTURE_GROWTH,
    &screenout::LEAKED_CONCENTRATION,
    &screenout::WIDTH_AT,
    &screenout::BRIDGING,
    &growth_check::PROPPANT_PLACEMENT,
];
