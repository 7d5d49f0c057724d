//! How far a pipe swells under pressure: shared by pressure waves and sealed volumes.

use crate::error::{Result, require, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{Compressibility, Diameter, Pressure, Quantity, Ratio};

const NAME: &str = "pipe_wall_compliance";

/// A pipe wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeWall {
    /// Bore.
    pub bore: Diameter,
    /// Outside diameter.
    pub outside: Diameter,
    /// Young's modulus.
    pub young: Pressure,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// How the wall is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WallTheory {
    /// Exact for any wall.
    Thick,
    /// One hoop stress through the wall.
    Thin,
    /// The wall does not give at all.
    Rigid,
}

/// How the pipe is held along its axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Restraint {
    /// No length change anywhere: packers, cement, or friction along a long string.
    AnchoredThroughout,
    /// Held at the upper end, the lower end closed and free.
    AnchoredUpstream,
    /// No axial force anywhere.
    ExpansionJoints,
}

/// Relative change of the volume inside a pipe per pressure inside it.
///
/// thick `C = 2 e_h + e_z` from `s_h = (ro^2 + ri^2)/(ro^2 - ri^2)`, `s_r = -1`,
/// `e_h = [s_h - nu(s_r + s_z)]/E`, `e_z = [s_z - nu(s_h + s_r)]/E`; anchored throughout this is
/// `C = 2(1 + nu)[(1 - 2nu) ri^2 + ro^2]/[E(ro^2 - ri^2)]`;
/// thin `C = c D/(E e)`, `c = 1 - nu^2` anchored throughout, `5/4 - nu` anchored upstream,
/// `1 - nu/2` with expansion joints
///
/// `ri`, `ro` inner and outer radius (m), `s` stresses at the bore per pressure, `s_z` axial
/// (`2 nu ri^2/(ro^2 - ri^2)` anchored, half of that over `nu` with a free closed end, 0 with
/// joints), `D` bore, `e` wall (m), `E` Young's modulus (Pa), `nu` Poisson's ratio.
///
/// Range: elastic; the thin wall for `D/e` above about 25 (1 % there).
///
/// Support by cement or rock outside is left out: the pipe then gives less. The change of
/// length is counted, so the free forms belong to a whole volume; some texts leave it out for
/// waves and print `1 - nu/2` for a pipe anchored upstream.
///
/// Source: lame1852 (thick); wylie_streeter1993 ch. 1 (thin and thick, anchored).
///
/// ```
/// use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
/// use quantity::{Diameter, Pressure};
/// let liner = PipeWall {
///     bore: Diameter::inch(4.0),
///     outside: Diameter::inch(4.5),
///     young: Pressure::gpa(207.0),
///     poisson: 0.3,
/// };
/// let c = wall_compliance(&liner, WallTheory::Thick, Restraint::AnchoredThroughout)?;
/// assert!((c.in_per_psi() - 5.43e-7).abs() < 5e-10);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn wall_compliance(wall: &PipeWall, theory: WallTheory, restraint: Restraint) -> Result<Compressibility> {
    check(wall)?;
    let (young, nu) = (wall.young.si(), wall.poisson);
    let (ri, ro) = (wall.bore.si() / 2.0, wall.outside.si() / 2.0);
    let c = match theory {
        WallTheory::Rigid => 0.0,
        WallTheory::Thin => {
            let c = match restraint {
                Restraint::AnchoredThroughout => 1.0 - nu * nu,
                Restraint::AnchoredUpstream => 1.25 - nu,
                Restraint::ExpansionJoints => 1.0 - nu / 2.0,
            };
            // C = c D/(E e)
            c * 2.0 * ri / (young * (ro - ri))
        }
        WallTheory::Thick => {
            let ring = ri * ri / (ro * ro - ri * ri);
            // s_h = (ro^2 + ri^2)/(ro^2 - ri^2), s_r = -1
            let (hoop, radial) = (1.0 + 2.0 * ring, -1.0);
            let axial = match restraint {
                Restraint::AnchoredThroughout => nu * 2.0 * ring,
                Restraint::AnchoredUpstream => ring,
                Restraint::ExpansionJoints => 0.0,
            };
            // e_h = [s_h - nu(s_r + s_z)]/E, e_z = [s_z - nu(s_h + s_r)]/E, C = 2 e_h + e_z
            (2.0 * (hoop - nu * (radial + axial)) + axial - nu * (hoop + radial)) / young
        }
    };
    Ok(Compressibility::per_pa(c))
}

fn check(wall: &PipeWall) -> Result<()> {
    require_positive(NAME, "bore", wall.bore)?;
    let hint = "Give the bore first, then the outside diameter.";
    require(wall.outside > wall.bore, NAME, "outside", wall.outside, "above the bore", hint)?;
    require_positive(NAME, "young", wall.young)?;
    let hint = "Steel has 0.28 to 0.30.";
    let inside = (0.0..=0.5).contains(&wall.poisson);
    require(inside, NAME, "poisson", Ratio::of(wall.poisson), "from 0 to 0.5", hint)
}

/// The inputs that describe a pipe wall in the register.
pub(crate) const BORE: Input = Input::new::<Diameter>("bore", "bore of the pipe");
pub(crate) const OUTSIDE: Input = Input::new::<Diameter>("outside", "outside diameter of the pipe");
pub(crate) const YOUNG: Input = Input::new::<Pressure>("young", "Young's modulus").or("30000 ksi");
pub(crate) const POISSON: Input = Input::new::<Ratio>("poisson", "Poisson's ratio").or("0.3");
pub(crate) const WALL: Input =
    Input::choice("wall", &["thick", "thin", "rigid"], "how the wall is reckoned").or("thick");
pub(crate) const RESTRAINT: Input = Input::choice(
    "restraint",
    &["anchored_throughout", "anchored_upstream", "expansion_joints"],
    "how the pipe is held along its axis",
)
.or("anchored_throughout");

/// Reads the compliance of the wall from the inputs above.
pub(crate) fn read_compliance(a: &Arguments) -> Result<Compressibility> {
    let wall = PipeWall {
        bore: a.get("bore")?,
        outside: a.get("outside")?,
        young: a.get("young")?,
        poisson: a.number("poisson")?,
    };
    let theory = match a.word("wall")? {
        "thin" => WallTheory::Thin,
        "rigid" => WallTheory::Rigid,
        _ => WallTheory::Thick,
    };
    let restraint = match a.word("restraint")? {
        "anchored_upstream" => Restraint::AnchoredUpstream,
        "expansion_joints" => Restraint::ExpansionJoints,
        _ => Restraint::AnchoredThroughout,
    };
    wall_compliance(&wall, theory, restraint)
}

/// Register entry of [`wall_compliance`].
pub static PIPE_WALL_COMPLIANCE: Relation = Relation {
    name: NAME,
    title: "Relative change of the volume inside a pipe per pressure inside",
    equation: "thick: C = 2 e_h + e_z by Lame; anchored_throughout C = 2(1+nu)[(1-2nu)ri^2 + ro^2]/[E(ro^2 - ri^2)]; thin: C = c D/(E e), c = 1 - nu^2, 5/4 - nu or 1 - nu/2",
    source: "lame1852; wylie_streeter1993 ch. 1",
    range: "elastic; thin for D/e above about 25",
    inputs: &[BORE, OUTSIDE, YOUNG, POISSON, WALL, RESTRAINT],
    outputs: &[Output::new::<Compressibility>("compliance", "relative volume change per pressure")],
    evaluate: |a| Ok(Outputs::new().put("compliance", read_compliance(a)?)),
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const ALL: [Restraint; 3] =
        [Restraint::AnchoredThroughout, Restraint::AnchoredUpstream, Restraint::ExpansionJoints];

    fn wall(bore: f64, outside: f64, poisson: f64) -> PipeWall {
        PipeWall {
            bore: Diameter::m(bore),
            outside: Diameter::m(outside),
            young: Pressure::gpa(207.0),
            poisson,
        }
    }

    proptest! {
        #[test]
        fn anchored_forms_agree(d in 0.05..0.3f64, e in 0.002..0.05f64, nu in 0.0..0.5f64) {
            let w = wall(d, d + 2.0 * e, nu);
            let c = wall_compliance(&w, WallTheory::Thick, Restraint::AnchoredThroughout).unwrap().si();
            // c = 2e(1+nu)/D + D(1-nu^2)/(D+e), C = c D/(E e)
            let printed = (2.0 * e * (1.0 + nu) / d + d * (1.0 - nu * nu) / (d + e)) * d / (207e9 * e);
            prop_assert!((c / printed - 1.0).abs() < 1e-11);
        }

        #[test]
        fn a_thin_wall_is_the_limit_of_a_thick_one(nu in 0.0..0.5f64) {
            for restraint in ALL {
                let w = wall(1.0, 1.000_02, nu);
                let thick = wall_compliance(&w, WallTheory::Thick, restraint).unwrap();
                let thin = wall_compliance(&w, WallTheory::Thin, restraint).unwrap();
                prop_assert!((thick / thin - 1.0).abs() < 1e-4);
            }
        }
    }

    #[test]
    fn rigid_pipes_and_nonsense() {
        let w = wall(0.1, 0.12, 0.3);
        assert_eq!(wall_compliance(&w, WallTheory::Rigid, ALL[0]).unwrap(), Compressibility::ZERO);
        assert!(wall_compliance(&wall(0.1, 0.1, 0.3), WallTheory::Thick, ALL[0]).is_err());
        assert!(wall_compliance(&wall(0.1, 0.12, 0.6), WallTheory::Thin, ALL[0]).is_err());
        assert!(wall_compliance(&wall(f64::NAN, 0.12, 0.3), WallTheory::Thin, ALL[0]).is_err());
    }
}
