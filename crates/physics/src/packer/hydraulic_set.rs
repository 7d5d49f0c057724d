//! Forces of pressure on pistons and closed seats, and the start of a hydraulic set.

use super::rupture_disc::Window;
use crate::error::{require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Area, Diameter, Force, Pressure, Quantity, Ratio};

/// Force of a pressure difference on a ring piston.
///
/// Equation: `F = ΔP π/4 (OD² − ID²)`.
///
/// Symbols: ΔP difference across the piston Pa, OD and ID its sealing diameters m.
///
/// Range: none stated by the source; a balance of forces, seal friction not taken off.
///
/// Where it breaks: nowhere for diameters that make a ring; others are refused.
///
/// Source: timoshenko_goodier1970, equilibrium.
///
/// ```
/// use physics::packer::hydraulic_set::ring_piston_force;
/// use quantity::{Diameter, Pressure};
/// let f = ring_piston_force(Pressure::psi(3500.0), Diameter::inch(5.0), Diameter::inch(4.25))?;
/// assert!((f.in_lbf() - 19_070.4).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ring_piston_force(difference: Pressure, outer: Diameter, inner: Diameter) -> Result<Force> {
    piston(outer, inner).map(|area| difference * area)
}

fn piston(outer: Diameter, inner: Diameter) -> Result<Area> {
    require_not_negative("ring_piston_force", "inner", inner)?;
    let hint = "A ring piston has two sealing diameters; give 0 for a full one.";
    require(outer > inner, "ring_piston_force", "outer", outer, "above the inner diameter", hint)?;
    // A = π/4 (OD² − ID²)
    Ok(outer.ring(inner))
}

/// Force down the string at a closed seat.
///
/// Equation: `F = ΔP π/4 D²`.
///
/// Symbols: ΔP difference across the closed seat Pa, D diameter of the bore above it m.
///
/// Range: none stated by the source; a balance of forces.
///
/// Where it breaks: the pressure also shortens the string above by ballooning, which is not in
/// it.
///
/// Source: timoshenko_goodier1970, equilibrium.
///
/// ```
/// use physics::packer::hydraulic_set::seat_end_load;
/// use quantity::{Diameter, Pressure};
/// let f = seat_end_load(Pressure::psi(3500.0), Diameter::inch(3.958))?;
/// assert!((f.in_lbf() - 43_063.5).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn seat_end_load(difference: Pressure, bore: Diameter) -> Result<Force> {
    require_positive("seat_end_load", "bore", bore)?;
    // F = ΔP π/4 D²
    Ok(difference * bore.circle())
}

/// A packer set by pressure: its piston and what holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingPiston {
    /// Net piston area.
    pub piston: Area,
    /// Force of its shear pins.
    pub shear: Force,
    /// Tolerance of the pins, as a share.
    pub tolerance: f64,
    /// Seal friction.
    pub friction: Force,
}

/// What a setting pressure does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// Force of the piston.
    pub force: Force,
    /// Differences at which the set starts.
    pub start: Window,
    /// Force left to squeeze the element; zero before the set starts for sure.
    pub squeeze: Force,
}

/// Start of the set and squeeze on the element of a hydraulic-set packer.
///
/// Equation: `F = ΔP A_p`; starts where `F > F_shear (1 ± tol)`; squeeze `F − F_shear − F_friction`.
///
/// Symbols: ΔP difference across the setting piston Pa, A_p its area m², F_shear force of its
/// pins N, tol their tolerance, F_friction seal friction N.
///
/// Range: none stated by the source; as the supplier draws the tool.
///
/// Where it breaks: the squeeze takes the pins' force as still carried by what they held; a tool
/// whose pins fall free has more. Elements creep: the force must be held. The minimum for a
/// full set is the supplier's.
///
/// Source: timoshenko_goodier1970, equilibrium of the setting piston.
///
/// ```
/// use physics::packer::hydraulic_set::{SettingPiston, hydraulic_set};
/// use quantity::{Diameter, Force, Pressure};
/// let piston = Diameter::inch(5.0).ring(Diameter::inch(4.25));
/// let tool = SettingPiston { piston, shear: Force::lbf(8173.0), tolerance: 0.1, friction: Force::lbf(500.0) };
/// let set = hydraulic_set(&tool, Pressure::psi(3500.0))?;
/// assert!((set.start.nominal.in_psi() - 1500.0).abs() < 0.1);
/// assert!((set.squeeze.in_lbf() - (19_070.4 - 8673.0)).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hydraulic_set(tool: &SettingPiston, difference: Pressure) -> Result<Setting> {
    require_positive(SET, "piston_area", tool.piston)?;
    require_not_negative(SET, "shear_force", tool.shear)?;
    require_not_negative(SET, "friction", tool.friction)?;
    let inside = (0.0..1.0).contains(&tool.tolerance);
    require(
        inside,
        SET,
        "tolerance",
        Ratio::of(tool.tolerance),
        "0 or more and below 1",
        "Write 10 % as 0.1.",
    )?;
    // F = ΔP A_p
    let force = difference * tool.piston;
    // F > F_shear (1 ± tol)
    let start = |share: f64| Pressure::pa(tool.shear.si() * share / tool.piston.si());
    let start =
        Window { low: start(1.0 - tool.tolerance), nominal: start(1.0), high: start(1.0 + tool.tolerance) };
    // squeeze = F − F_shear − F_friction
    let left = (force - tool.shear - tool.friction).max(Force::ZERO);
    let squeeze = if difference > start.high { left } else { Force::ZERO };
    Ok(Setting { force, start, squeeze })
}

const SET: &str = "hydraulic_set";

/// `ring_piston_force` in the register.
pub static RING_PISTON_FORCE: Relation = Relation {
    name: "ring_piston_force",
    title: "Force of a pressure difference on a ring piston",
    equation: "F = ΔP π/4 (OD² − ID²)",
    source: "timoshenko_goodier1970, equilibrium",
    range: "none stated by the source; seal friction not taken off",
    inputs: &[
        Input::new::<Pressure>("difference", "pressure difference across the piston"),
        Input::new::<Diameter>("outer", "outer sealing diameter"),
        Input::new::<Diameter>("inner", "inner sealing diameter").or("0 in"),
    ],
    outputs: &[Output::new::<Area>("area", "piston area"), Output::new::<Force>("force", "force")],
    evaluate: |a| {
        let (outer, inner) = (a.get("outer")?, a.get("inner")?);
        let force = ring_piston_force(a.get("difference")?, outer, inner)?;
        Ok(Outputs::new().put("area", piston(outer, inner)?).put("force", force))
    },
};

/// `seat_end_load` in the register.
pub static SEAT_END_LOAD: Relation = Relation {
    name: "seat_end_load",
    title: "Force down the string at a closed seat",
    equation: "F = ΔP π/4 D²",
    source: "timoshenko_goodier1970, equilibrium",
    range: "none stated by the source; ballooning not in it",
    inputs: &[
        Input::new::<Pressure>("difference", "pressure difference across the closed seat"),
        Input::new::<Diameter>("bore", "bore of the string above the seat"),
    ],
    outputs: &[Output::new::<Force>("force", "force down the string")],
    evaluate: |a| Ok(Outputs::new().put("force", seat_end_load(a.get("difference")?, a.get("bore")?)?)),
};

/// `hydraulic_set` in the register.
pub static HYDRAULIC_SET: Relation = Relation {
    name: SET,
    title: "Start of the set and squeeze on the element of a hydraulic-set packer",
    equation: "F = ΔP A_p;  start F_shear (1 ± tol)/A_p;  squeeze F − F_shear − F_friction",
    source: "timoshenko_goodier1970, equilibrium",
    range: "none stated by the source; the minimum for a full set is the supplier's",
    inputs: &[
        Input::new::<Pressure>("difference", "difference across the setting piston"),
        Input::new::<Area>("piston_area", "net piston area"),
        Input::new::<Force>("shear_force", "force of the setting pins"),
        Input::new::<Ratio>("tolerance", "tolerance of the pins"),
        Input::new::<Force>("friction", "seal friction").or("0 lbf"),
    ],
    outputs: &[
        Output::new::<Force>("force", "force of the piston"),
        Output::new::<Pressure>("start_low", "lowest difference that starts the set"),
        Output::new::<Pressure>("start_high", "highest difference that starts the set"),
        Output::new::<Force>("squeeze", "force on the element, zero before the highest start"),
    ],
    evaluate: |a| {
        let tool = SettingPiston {
            piston: a.get("piston_area")?,
            shear: a.get("shear_force")?,
            tolerance: a.number("tolerance")?,
            friction: a.get("friction")?,
        };
        let set = hydraulic_set(&tool, a.get("difference")?)?;
        Ok(Outputs::new()
            .put("force", set.force)
            .put("start_low", set.start.low)
            .put("start_high", set.start.high)
            .put("squeeze", set.squeeze))
    },
};
