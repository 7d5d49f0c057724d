//! All kinds of quantity in one list.

use crate::kind::{Kind, Quantity as _};
use crate::types::*;

macro_rules! kinds {
    ($($name:ident)+) => { &[$($name::KIND),+] };
}

/// Every kind of quantity there is.
pub const KINDS: &[&Kind] = kinds! {
    Length Diameter MeasuredDepth TrueVerticalDepth Angle Curvature
    Area Volume Capacity Mass MassPerLength Density
    Pressure GaugePressure AbsolutePressure PressureGradient Temperature TemperatureDifference
    TemperatureGradient FlowRate Velocity Acceleration Force ForcePerLength
    Torque Energy Power Time Viscosity Consistency
    Concentration Compressibility Diffusivity Conductivity VolumetricHeat SpecificHeat
    HeatTransfer MolarVolume AmountConcentration MolarEnergy RecessionRate MassFlux
    Expansion RateSquaredLoss ShearRate PressureRate SpecificVolume RateRootLoss
    Leakoff Spurt Toughness WidthCompliance ArealMass Ratio
};
