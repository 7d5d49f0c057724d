//! Triaxial stress: von Mises stress of the body under force, pressures, bending and torque.

use super::internal_yield::require_wall_tolerance;
use super::steel::Steel;
use super::tube::Tube;
use crate::error::require_positive;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Curvature, Diameter, Force, Pressure, Quantity, Ratio, Torque};

const NAME: &str = "triaxial";

/// Loads on a cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionLoad {
    /// True axial force F, tension positive.
    pub axial_force: Force,
    /// Pressure inside Pi.
    pub internal_pressure: Pressure,
    /// Pressure outside Po.
    pub external_pressure: Pressure,
    /// Curvature of the pipe; both signs of bending are looked at.
    pub curvature: Curvature,
    /// Torque.
    pub torque: Torque,
}

/// The steel as the stress calculation sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionSteel {
    /// Thinnest wall over nominal wall k, for the stresses that pressure makes; 1 for nominal.
    pub wall_tolerance: Ratio,
    /// Young's modulus E.
    pub modulus: Pressure,
}

/// Stresses at one point of the section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointStress {
    /// Radial stress.
    pub radial: Pressure,
    /// Hoop stress.
    pub hoop: Pressure,
    /// Axial stress, bending included.
    pub axial: Pressure,
    /// Shear stress of the torque.
    pub shear: Pressure,
}

impl PointStress {
    /// Von Mises equivalent stress.
    pub fn von_mises(self) -> Pressure {
        let (r, h, a, t) = (self.radial.si(), self.hoop.si(), self.axial.si(), self.shear.si());
        // svm = sqrt(1/2 [(sh - sr)^2 + (sr - sa)^2 + (sa - sh)^2] + 3 tau^2)
        let squares = (h - r).powi(2) + (r - a).powi(2) + (a - h).powi(2);
        Pressure::pa((0.5 * squares + 3.0 * t * t).sqrt())
    }
}

/// Stresses at the bore and at the outer wall, on the side that bending stretches and on the
/// side it presses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Triaxial {
    /// Bore, stretched side.
    pub inner_stretched: PointStress,
    /// Bore, pressed side.
    pub inner_pressed: PointStress,
    /// Outer wall, stretched side.
    pub outer_stretched: PointStress,
    /// Outer wall, pressed side.
    pub outer_pressed: PointStress,
}

impl Triaxial {
    /// The greatest von Mises stress of the four points.
    pub fn von_mises(self) -> Pressure {
        let rest = [self.inner_pressed, self.outer_stretched, self.outer_pressed];
        rest.iter().map(|p| p.von_mises()).fold(self.inner_stretched.von_mises(), Pressure::max)
    }
}

/// Triaxial stress of the pipe body: Lame and von Mises at the bore and the outer wall, with
/// both signs of bending.
///
/// Equation: `sr(rho) = (Pi a^2 - Po b^2)/(b^2 - a^2) - (Pi - Po) a^2 b^2 / [(b^2 - a^2) rho^2]`,
/// `sh(rho)` the same with `+`; `sa = F/As +- E kappa rho`; `tau = T rho / J`;
/// `svm = sqrt(1/2 [(sh - sr)^2 + (sr - sa)^2 + (sa - sh)^2] + 3 tau^2)`
///
/// - `a = b - k t` inner and `b = D/2` outer radius, `k` wall tolerance factor, m
/// - `Pi, Po` pressure inside and outside, Pa
/// - `F` true axial force, tension positive, N; `As` nominal steel area, m2
/// - `E` Young's modulus, Pa; `kappa` curvature, rad/m
/// - `T` torque, N m; `J` polar moment of the nominal section, m4
///
/// Range: elastic; exact for a long round tube.
///
/// Where it breaks: it says when the first fibre yields, not when the pipe bursts or
/// collapses; it knows nothing of the connection. Couplings that hold the body off the wall
/// bend it more sharply than the hole. The result is a stress, not a rating.
///
/// Source: iso_tr_10400 clause 6 (triaxial yield of the pipe body); Lame 1852.
///
/// ```
/// use physics::tubular::triaxial::{SectionLoad, SectionSteel, triaxial};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Force, Pressure, Ratio};
/// let tube = Tube::bored("example", Diameter::inch(5.5), Diameter::inch(4.778))?;
/// let steel = SectionSteel { wall_tolerance: Ratio::of(1.0), modulus: Pressure::psi(30e6) };
/// let load = SectionLoad {
///     axial_force: Force::klbf(200.0),
///     internal_pressure: Pressure::psi(10_000.0),
///     external_pressure: Pressure::psi(3_000.0),
///     ..Default::default()
/// };
/// let stress = triaxial(tube, steel, load)?;
/// assert!((stress.von_mises().in_psi() - 51_882.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn triaxial(tube: Tube, steel: SectionSteel, load: SectionLoad) -> Result<Triaxial> {
    require_wall_tolerance(NAME, steel.wall_tolerance)?;
    require_positive(NAME, "modulus", steel.modulus)?;
    let b = tube.outer().si() / 2.0;
    let a = b - steel.wall_tolerance.si() * tube.wall().si();
    let (a2, b2) = (a * a, b * b);
    let (pi, po) = (load.internal_pressure.si(), load.external_pressure.si());
    let uniform = (pi * a2 - po * b2) / (b2 - a2);
    let axial = load.axial_force.si() / tube.steel_area().si();
    let polar = 2.0 * tube.inertia();
    let point = |rho: f64, sign: f64| {
        // (Pi - Po) a^2 b^2 / [(b^2 - a^2) rho^2]
        let varying = (pi - po) * a2 * b2 / ((b2 - a2) * rho * rho);
        // sa = F/As +- E kappa rho
        let bending = steel.modulus.si() * load.curvature.si().abs() * rho;
        PointStress {
            radial: Pressure::pa(uniform - varying),
            hoop: Pressure::pa(uniform + varying),
            axial: Pressure::pa(axial + sign * bending),
            // tau = T rho / J
            shear: Pressure::pa(load.torque.si() * rho / polar),
        }
    };
    Ok(Triaxial {
        inner_stretched: point(a, 1.0),
        inner_pressed: point(a, -1.0),
        outer_stretched: point(b, 1.0),
        outer_pressed: point(b, -1.0),
    })
}

fn evaluate(a: &crate::Arguments) -> Result<Outputs> {
    let tube = Tube::new(NAME, a.get("outer")?, a.get("wall")?)?;
    let steel = SectionSteel { wall_tolerance: a.get("wall_tolerance")?, modulus: a.get("modulus")? };
    let load = SectionLoad {
        axial_force: a.get("axial_force")?,
        internal_pressure: a.get("internal_pressure")?,
        external_pressure: a.get("external_pressure")?,
        curvature: a.get("curvature")?,
        torque: a.get("torque")?,
    };
    let yield_strength: Pressure = a.get("yield_strength")?;
    require_positive(NAME, "yield_strength", yield_strength)?;
    let stress = triaxial(tube, steel, load)?;
    let greatest = stress.von_mises();
    if greatest.si() <= 0.0 {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the pipe carries no load, so there is no safety factor".into(),
            hint: "Give at least one load.",
        });
    }
    Ok(Outputs::new()
        .put("von_mises", greatest)
        .put("safety_factor", Ratio::of(yield_strength / greatest))
        .put("inner_stretched", stress.inner_stretched.von_mises())
        .put("inner_pressed", stress.inner_pressed.von_mises())
        .put("outer_stretched", stress.outer_stretched.von_mises())
        .put("outer_pressed", stress.outer_pressed.von_mises())
        .put("radial_inner", stress.inner_stretched.radial)
        .put("hoop_inner", stress.inner_stretched.hoop)
        .put("axial", (stress.inner_stretched.axial + stress.inner_pressed.axial) / 2.0)
        .put("bending_inner", (stress.inner_stretched.axial - stress.inner_pressed.axial) / 2.0))
}

/// Register entry of [`triaxial`].
pub static TRIAXIAL: Relation = Relation {
    name: NAME,
    title: "Triaxial stress of the pipe body (von Mises, bore and outer wall, both signs of bending)",
    equation: "svm = sqrt(1/2 [(sh - sr)^2 + (sr - sa)^2 + (sa - sh)^2] + 3 tau^2), sr and sh after Lame",
    source: "iso_tr_10400 clause 6",
    range: "elastic",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "minimum yield strength Yp"),
        Input::new::<Force>("axial_force", "true axial force F, tension positive").or("0 lbf"),
        Input::new::<Pressure>("internal_pressure", "pressure inside Pi").or("0 psi"),
        Input::new::<Pressure>("external_pressure", "pressure outside Po").or("0 psi"),
        Input::new::<Curvature>("curvature", "curvature of the pipe").or("0 deg/100ft"),
        Input::new::<Torque>("torque", "torque T").or("0 ft.lbf"),
        Input::new::<Ratio>("wall_tolerance", "thinnest wall over nominal wall k, for pressure stresses")
            .or("1"),
        Steel::MODULUS,
    ],
    outputs: &[
        Output::new::<Pressure>("von_mises", "greatest von Mises stress"),
        Output::new::<Ratio>("safety_factor", "yield strength over the greatest von Mises stress"),
        Output::new::<Pressure>("inner_stretched", "von Mises at the bore, side stretched by bending"),
        Output::new::<Pressure>("inner_pressed", "von Mises at the bore, side pressed by bending"),
        Output::new::<Pressure>("outer_stretched", "von Mises at the outer wall, stretched side"),
        Output::new::<Pressure>("outer_pressed", "von Mises at the outer wall, pressed side"),
        Output::new::<Pressure>("radial_inner", "radial stress at the bore"),
        Output::new::<Pressure>("hoop_inner", "hoop stress at the bore"),
        Output::new::<Pressure>("axial", "axial stress without bending"),
        Output::new::<Pressure>("bending_inner", "bending stress at the bore"),
    ],
    evaluate,
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn run(load: SectionLoad) -> Triaxial {
        let tube = Tube::bored("test", Diameter::inch(5.5), Diameter::inch(4.778)).unwrap();
        let steel = SectionSteel { wall_tolerance: Ratio::of(1.0), modulus: Pressure::psi(30e6) };
        triaxial(tube, steel, load).unwrap()
    }

    proptest! {
        #[test]
        fn a_pressure_on_all_sides_adds_no_equivalent_stress(
            f in -300.0f64..300.0, pi in 0.0f64..12_000.0, po in 0.0f64..12_000.0, p in 0.0f64..10_000.0,
        ) {
            let tube = Tube::bored("test", Diameter::inch(5.5), Diameter::inch(4.778)).unwrap();
            let base = SectionLoad {
                axial_force: Force::klbf(f),
                internal_pressure: Pressure::psi(pi),
                external_pressure: Pressure::psi(po),
                ..Default::default()
            };
            let all = Pressure::psi(p);
            let more = SectionLoad {
                axial_force: base.axial_force - all * tube.steel_area(),
                internal_pressure: base.internal_pressure + all,
                external_pressure: base.external_pressure + all,
                ..base
            };
            let (x, y) = (run(base).von_mises().in_psi(), run(more).von_mises().in_psi());
            prop_assert!((x - y).abs() < 1e-6 * x.max(1.0));
        }

        #[test]
        fn bending_of_either_sign_is_seen(f in -200.0f64..200.0, dls in 0.0f64..20.0) {
            let load = SectionLoad {
                axial_force: Force::klbf(f), curvature: Curvature::deg_per_100ft(dls), ..Default::default()
            };
            let turned = SectionLoad { curvature: Curvature::deg_per_100ft(-dls), ..load };
            prop_assert_eq!(run(load), run(turned));
            let straight = run(SectionLoad { curvature: Curvature::ZERO, ..load });
            prop_assert!(run(load).von_mises().si() >= straight.von_mises().si() * (1.0 - 1e-12));
        }
    }

    #[test]
    fn pure_torque_is_root_three_times_shear() {
        let s = run(SectionLoad { torque: Torque::ft_lbf(10_000.0), ..Default::default() });
        let ratio = s.outer_stretched.von_mises() / s.outer_stretched.shear;
        assert!((ratio - 3f64.sqrt()).abs() < 1e-12);
    }
}
