//! The surface pressure that gives a tool at depth the pressure it acts on.

use crate::error::{require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{
    AbsolutePressure, Density, GaugePressure, Length, Pressure, PressureGradient, Quantity, TrueVerticalDepth,
};

/// What a tool's piston or disc feels on its other side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reference {
    /// The annulus open to surface: pressure there and density of its fluid.
    Annulus(GaugePressure, Density),
    /// A chamber sealed at a pressure, usually one atmosphere.
    Chamber(AbsolutePressure),
    /// Pressure at the tool's depth, trapped between set packers or of the formation.
    AtDepth(GaugePressure),
}

impl Reference {
    /// Pressure on the other side at a depth.
    fn at(self, depth: TrueVerticalDepth) -> GaugePressure {
        match self {
            // P_surf,ann + ρ_ann g TVD
            Self::Annulus(surface, density) => surface + column(density, depth),
            Self::Chamber(pressure) => pressure.gauge(),
            Self::AtDepth(pressure) => pressure,
        }
    }
}

/// Pressure of a column at rest.
fn column(density: Density, depth: TrueVerticalDepth) -> Pressure {
    let gradient: PressureGradient = density.gradient();
    gradient * Length::m(depth.si())
}

/// Gauge pressure at surface in the tubing that puts a difference across a tool at depth,
/// fluids at rest.
///
/// Equation: annulus open `P_surf = ΔP + P_ann + (ρ_ann − ρ_tbg) g Z`; sealed chamber
/// `P_surf = ΔP + P_chamber − P_atm − ρ_tbg g Z`; trapped or formation pressure
/// `P_surf = ΔP + P_ref − ρ_tbg g Z`.
///
/// Symbols: ΔP difference, inside over the reference Pa; P_ann annulus gauge pressure at
/// surface Pa; P_chamber absolute Pa; P_ref gauge pressure outside at depth Pa; ρ densities
/// kg/m³; Z true vertical depth m; g standard gravity.
///
/// Range: none stated by the source; columns at rest with one mean density each.
///
/// Where it breaks: while pumping, friction makes the tool see less than this; an annulus that
/// is not full or a trapped volume that has cooled or warmed changes the reference. After the
/// packers are set the reference is what they trap, no more the annulus. A result below zero
/// means the tool acts with no pressure at surface.
///
/// Source: bourgoyne1986 ch. 4 (hydrostatic pressure).
///
/// ```
/// use physics::packer::surface_pressure::{Reference, surface_pressure};
/// use quantity::{Density, GaugePressure, Pressure, TrueVerticalDepth};
/// let outside = Reference::Annulus(GaugePressure::ZERO, Density::kg_per_m3(1200.0));
/// let depth = TrueVerticalDepth::m(2500.0);
/// let p = surface_pressure(Pressure::psi(2500.0), Density::kg_per_m3(1000.0), depth, outside)?;
/// assert!((p.in_psi() - 3211.2).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn surface_pressure(
    difference: Pressure,
    tubing: Density,
    depth: TrueVerticalDepth,
    reference: Reference,
) -> Result<GaugePressure> {
    check(tubing, depth, reference)?;
    // P_surf = ΔP + P_ref(Z) − ρ_tbg g Z
    Ok(reference.at(depth) + difference - column(tubing, depth))
}

/// Difference across a tool at depth for a gauge pressure at surface: [`surface_pressure`]
/// solved for the difference.
///
/// Equation: `ΔP = P_surf + ρ_tbg g Z − P_ref(Z)`.
///
/// Symbols: as [`surface_pressure`].
///
/// Range: none stated by the source; columns at rest.
///
/// Where it breaks: as [`surface_pressure`].
///
/// Source: bourgoyne1986 ch. 4.
///
/// ```
/// use physics::packer::surface_pressure::{Reference, differential_at_tool};
/// use quantity::{Density, GaugePressure, TrueVerticalDepth};
/// let outside = Reference::Annulus(GaugePressure::ZERO, Density::kg_per_m3(1000.0));
/// let depth = TrueVerticalDepth::m(2500.0);
/// let d = differential_at_tool(GaugePressure::psi(1788.8), Density::kg_per_m3(1200.0), depth, outside)?;
/// assert!((d.in_psi() - 2500.0).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn differential_at_tool(
    surface: GaugePressure,
    tubing: Density,
    depth: TrueVerticalDepth,
    reference: Reference,
) -> Result<Pressure> {
    check(tubing, depth, reference)?;
    // ΔP = P_surf + ρ_tbg g Z − P_ref(Z)
    Ok(surface + column(tubing, depth) - reference.at(depth))
}

fn check(tubing: Density, depth: TrueVerticalDepth, reference: Reference) -> Result<()> {
    require_positive(NAME, "tubing_density", tubing)?;
    require_not_negative(NAME, "depth", depth)?;
    match reference {
        Reference::Annulus(_, density) => require_positive(NAME, "annulus_density", density),
        Reference::Chamber(pressure) => require_not_negative(NAME, "chamber", pressure),
        Reference::AtDepth(_) => Ok(()),
    }
}

const NAME: &str = "surface_pressure_for_differential";
const SOURCE: &str = "bourgoyne1986 ch. 4";
const RANGE: &str = "columns at rest with one mean density each";
const TUBING: Input = Input::new::<Density>("tubing_density", "mean density of the fluid in the tubing");
const DEPTH: Input = Input::new::<TrueVerticalDepth>("depth", "true vertical depth of the tool");
const SURFACE: Output = Output::new::<GaugePressure>("surface", "gauge pressure at surface in the tubing");

/// `surface_pressure_for_differential` in the register.
pub static SURFACE_PRESSURE_FOR_DIFFERENTIAL: Relation = Relation {
    name: NAME,
    title: "Gauge pressure at surface for a difference across a tool, annulus open",
    equation: "P_surf = ΔP + P_ann + (ρ_ann − ρ_tbg) g Z",
    source: SOURCE,
    range: RANGE,
    inputs: &[
        Input::new::<Pressure>("difference", "difference wanted, tubing over annulus"),
        TUBING,
        Input::new::<Density>("annulus_density", "mean density of the fluid in the annulus"),
        Input::new::<GaugePressure>("annulus", "gauge pressure at surface in the annulus").or("0 psi"),
        DEPTH,
    ],
    outputs: &[SURFACE],
    evaluate: |a| {
        let reference = Reference::Annulus(a.get("annulus")?, a.get("annulus_density")?);
        let (difference, tubing) = (a.get("difference")?, a.get("tubing_density")?);
        Ok(Outputs::new().put("surface", surface_pressure(difference, tubing, a.get("depth")?, reference)?))
    },
};

/// `surface_pressure_for_absolute` in the register.
pub static SURFACE_PRESSURE_FOR_ABSOLUTE: Relation = Relation {
    name: "surface_pressure_for_absolute",
    title: "Gauge pressure at surface for a device against a sealed chamber",
    equation: "P_surf = ΔP + P_chamber − P_atm − ρ_tbg g Z",
    source: SOURCE,
    range: "columns at rest; 0 psia in the chamber for a device rated in absolute pressure",
    inputs: &[
        Input::new::<Pressure>("difference", "opening pressure, tubing over chamber"),
        Input::new::<AbsolutePressure>("chamber", "pressure in the chamber").or("101.325 kPa"),
        TUBING,
        DEPTH,
    ],
    outputs: &[SURFACE],
    evaluate: |a| {
        let reference = Reference::Chamber(a.get("chamber")?);
        let (difference, tubing) = (a.get("difference")?, a.get("tubing_density")?);
        Ok(Outputs::new().put("surface", surface_pressure(difference, tubing, a.get("depth")?, reference)?))
    },
};

/// `surface_pressure_after_setting` in the register.
pub static SURFACE_PRESSURE_AFTER_SETTING: Relation = Relation {
    name: "surface_pressure_after_setting",
    title: "Gauge pressure at surface for a difference across a tool between set packers",
    equation: "P_surf = ΔP + P_ref − ρ_tbg g Z",
    source: SOURCE,
    range: "columns at rest; the trapped pressure as it is now",
    inputs: &[
        Input::new::<Pressure>("difference", "difference wanted, tubing over outside"),
        Input::new::<GaugePressure>("outside", "trapped or formation gauge pressure at the tool"),
        TUBING,
        DEPTH,
    ],
    outputs: &[SURFACE],
    evaluate: |a| {
        let reference = Reference::AtDepth(a.get("outside")?);
        let (difference, tubing) = (a.get("difference")?, a.get("tubing_density")?);
        Ok(Outputs::new().put("surface", surface_pressure(difference, tubing, a.get("depth")?, reference)?))
    },
};

/// `differential_at_tool` in the register.
pub static DIFFERENTIAL_AT_TOOL: Relation = Relation {
    name: "differential_at_tool",
    title: "Difference across a tool for a gauge pressure at surface, annulus open",
    equation: "ΔP = P_surf − P_ann + (ρ_tbg − ρ_ann) g Z",
    source: SOURCE,
    range: RANGE,
    inputs: &[
        Input::new::<GaugePressure>("surface", "gauge pressure at surface in the tubing"),
        TUBING,
        Input::new::<Density>("annulus_density", "mean density of the fluid in the annulus"),
        Input::new::<GaugePressure>("annulus", "gauge pressure at surface in the annulus").or("0 psi"),
        DEPTH,
    ],
    outputs: &[Output::new::<Pressure>("difference", "difference, tubing over annulus")],
    evaluate: |a| {
        let reference = Reference::Annulus(a.get("annulus")?, a.get("annulus_density")?);
        let (surface, tubing) = (a.get("surface")?, a.get("tubing_density")?);
        let difference = differential_at_tool(surface, tubing, a.get("depth")?, reference)?;
        Ok(Outputs::new().put("difference", difference))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        #[test]
        fn surface_and_difference_are_inverse(d in -3000f64..9000.0, z in 0f64..5000.0, t in 800f64..1500.0,
                                              kind in 0usize..3) {
            let reference = [
                Reference::Annulus(GaugePressure::psi(200.0), Density::kg_per_m3(1150.0)),
                Reference::Chamber(AbsolutePressure::psi(14.7)),
                Reference::AtDepth(GaugePressure::mpa(30.0)),
            ][kind];
            let (t, z) = (Density::kg_per_m3(t), TrueVerticalDepth::m(z));
            let surface = surface_pressure(Pressure::psi(d), t, z, reference).unwrap();
            let back = differential_at_tool(surface, t, z, reference).unwrap();
            proptest::prop_assert!((back.in_psi() - d).abs() < 1e-6);
        }
    }
}
