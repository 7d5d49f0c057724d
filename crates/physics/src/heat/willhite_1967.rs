//! The overall heat transfer coefficient from the fluid in the tubing to the wall of the hole.

use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Conductivity, Diameter, HeatTransfer, Quantity};

/// The rings between the fluid and the rock, from inside out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rings {
    /// Tubing inside diameter.
    pub tubing_inside: Diameter,
    /// Tubing outside diameter.
    pub tubing_outside: Diameter,
    /// Casing inside diameter.
    pub casing_inside: Diameter,
    /// Casing outside diameter.
    pub casing_outside: Diameter,
    /// Hole diameter.
    pub hole: Diameter,
}

/// What each ring conducts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductors {
    /// Film inside the tubing.
    pub film: HeatTransfer,
    /// Tubing steel.
    pub tubing: Conductivity,
    /// Convection and radiation across the annulus together, on the tubing's outside.
    pub annulus: HeatTransfer,
    /// Casing steel.
    pub casing: Conductivity,
    /// Cement, or what else fills the hole behind the casing.
    pub cement: Conductivity,
}

/// Overall heat transfer coefficient from fluid to hole wall, on the tubing's outside area.
///
/// Equation: `1/U_to = r_to/(r_ti h_f) + r_to ln(r_to/r_ti)/k_tub + 1/(h_c + h_r) +
/// r_to ln(r_co/r_ci)/k_cas + r_to ln(r_h/r_co)/k_cem`.
///
/// Symbols: r radii m (t tubing, c casing, i inside, o outside, h hole); h_f film coefficient
/// inside the tubing, h_c + h_r convection and radiation in the annulus, W/(m² K); k
/// conductivities W/(m K).
///
/// Range: none stated by the source; steady heat flow through the rings.
///
/// Where it breaks: heat stored in steel, annulus fluid and cement is left out, so it is late
/// by minutes after a change of rate. Diameters that do not grow outward are refused.
///
/// Source: willhite1967, overall coefficient.
///
/// ```
/// use physics::heat::willhite_1967::{Conductors, Rings, willhite_1967};
/// use quantity::{Conductivity, Diameter, HeatTransfer};
/// let d = Diameter::inch;
/// let rings = Rings { tubing_inside: d(3.92), tubing_outside: d(4.5), casing_inside: d(6.276),
///     casing_outside: d(7.0), hole: d(8.75) };
/// let steel = Conductivity::w_per_mk(45.0);
/// let conductors = Conductors { film: HeatTransfer::w_per_m2k(2000.0), tubing: steel,
///     annulus: HeatTransfer::w_per_m2k(200.0), casing: steel, cement: Conductivity::w_per_mk(0.9) };
/// assert!((willhite_1967(&rings, &conductors)?.in_w_per_m2k() - 49.86).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn willhite_1967(rings: &Rings, conductors: &Conductors) -> Result<HeatTransfer> {
    check(rings, conductors)?;
    let r_to = 0.5 * rings.tubing_outside.si();
    let log = |outer: Diameter, inner: Diameter| r_to * (outer / inner).ln();
    // 1/U_to = r_to/(r_ti h_f) + r_to ln(r_to/r_ti)/k_tub + 1/(h_c + h_r)
    //        + r_to ln(r_co/r_ci)/k_cas + r_to ln(r_h/r_co)/k_cem
    let resistance = rings.tubing_outside / rings.tubing_inside / conductors.film.si()
        + log(rings.tubing_outside, rings.tubing_inside) / conductors.tubing.si()
        + 1.0 / conductors.annulus.si()
        + log(rings.casing_outside, rings.casing_inside) / conductors.casing.si()
        + log(rings.hole, rings.casing_outside) / conductors.cement.si();
    Ok(HeatTransfer::w_per_m2k(1.0 / resistance))
}

fn check(rings: &Rings, conductors: &Conductors) -> Result<()> {
    let Rings { tubing_inside, tubing_outside, casing_inside, casing_outside, hole } = *rings;
    require_positive(NAME, "tubing_inside", tubing_inside)?;
    let outward = [
        ("tubing_outside", tubing_outside, tubing_inside),
        ("casing_inside", casing_inside, tubing_outside),
        ("casing_outside", casing_outside, casing_inside),
        ("hole", hole, casing_outside),
    ];
    for (name, outer, inner) in outward {
        let limit = "not below the diameter inside it";
        require(outer >= inner, NAME, name, outer, limit, "Check the order of the diameters.")?;
    }
    require_positive(NAME, "film", conductors.film)?;
    require_positive(NAME, "tubing_conductivity", conductors.tubing)?;
    require_positive(NAME, "annulus", conductors.annulus)?;
    require_positive(NAME, "casing_conductivity", conductors.casing)?;
    require_positive(NAME, "cement_conductivity", conductors.cement)
}

const NAME: &str = "willhite_1967";

/// `willhite_1967` in the register.
pub static WILLHITE_1967: Relation = Relation {
    name: NAME,
    title: "Overall heat transfer coefficient from fluid to hole wall, on the tubing's outside area",
    equation: "1/U_to = r_to/(r_ti h_f) + r_to ln(r_to/r_ti)/k_tub + 1/(h_c+h_r) + r_to ln(r_co/r_ci)/k_cas + r_to ln(r_h/r_co)/k_cem",
    source: "willhite1967, overall coefficient",
    range: "none stated by the source; steady heat flow through the rings",
    inputs: &[
        Input::new::<Diameter>("tubing_inside", "tubing inside diameter"),
        Input::new::<Diameter>("tubing_outside", "tubing outside diameter"),
        Input::new::<Diameter>("casing_inside", "casing inside diameter"),
        Input::new::<Diameter>("casing_outside", "casing outside diameter"),
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<HeatTransfer>("film", "film coefficient inside the tubing"),
        Input::new::<HeatTransfer>("annulus", "convection and radiation across the annulus"),
        Input::new::<Conductivity>("tubing_conductivity", "conductivity of the tubing"),
        Input::new::<Conductivity>("casing_conductivity", "conductivity of the casing"),
        Input::new::<Conductivity>("cement_conductivity", "conductivity of what fills the hole"),
    ],
    outputs: &[Output::new::<HeatTransfer>("coefficient", "overall coefficient U_to")],
    evaluate: |a| {
        let rings = Rings {
            tubing_inside: a.get("tubing_inside")?,
            tubing_outside: a.get("tubing_outside")?,
            casing_inside: a.get("casing_inside")?,
            casing_outside: a.get("casing_outside")?,
            hole: a.get("hole")?,
        };
        let conductors = Conductors {
            film: a.get("film")?,
            tubing: a.get("tubing_conductivity")?,
            annulus: a.get("annulus")?,
            casing: a.get("casing_conductivity")?,
            cement: a.get("cement_conductivity")?,
        };
        Ok(Outputs::new().put("coefficient", willhite_1967(&rings, &conductors)?))
    },
};
