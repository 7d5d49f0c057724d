//! Strength of standard threaded joints in tension: round thread, buttress thread, coupling.

use super::tube::Tube;
use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Area, Diameter, Force, Pressure, Quantity};

const ROUND: &str = "round_thread_strength";
const BUTTRESS: &str = "buttress_strength";
const COUPLING: &str = "coupling_strength";

/// Share of the ultimate strength the joint formulas take (api_5c3_1994, joint strength).
const JOINT_FACTOR: f64 = 0.95;
/// Thread depth taken twice off the outer diameter, inches (api_5c3_1994, joint strength).
const THREAD_DEPTH: f64 = 0.1425;

/// How a round-thread joint parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RoundThreadFailure {
    /// The pipe breaks under the last perfect thread.
    Fracture,
    /// The pin jumps out.
    PullOut,
}

/// Strength of a round-thread joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundThreadStrength {
    /// Tension at which the pipe breaks under the last perfect thread.
    pub fracture: Force,
    /// Tension at which the pin jumps out.
    pub pull_out: Force,
}

impl RoundThreadStrength {
    /// The lesser of the two.
    pub fn strength(self) -> Force {
        self.fracture.min(self.pull_out)
    }

    /// Which of the two governs.
    pub fn failure(self) -> RoundThreadFailure {
        if self.fracture.si() <= self.pull_out.si() {
            RoundThreadFailure::Fracture
        } else {
            RoundThreadFailure::PullOut
        }
    }
}

/// Strength of the material of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// Specified minimum yield strength Yp.
    pub yield_strength: Pressure,
    /// Specified minimum ultimate strength Up.
    pub ultimate_strength: Pressure,
}

impl Material {
    fn checked(self, relation: &'static str) -> Result<Self> {
        require_positive(relation, "yield_strength", self.yield_strength)?;
        let hint = "The two strengths may be exchanged.";
        let fits = self.ultimate_strength.si() >= self.yield_strength.si();
        let limit = "at least the yield strength";
        require(fits, relation, "ultimate_strength", self.ultimate_strength, limit, hint)?;
        Ok(self)
    }
}

/// Strength of a short or long round-thread casing joint in tension.
///
/// Equation: fracture `Pj = 0.95 Ajp Up`; pull-out
/// `Pj = 0.95 Ajp L [0.74 D^-0.59 Up / (0.5 L + 0.14 D) + Yp / (L + 0.14 D)]`, with
/// `Ajp = pi/4 [(D - 0.1425)^2 - (D - 2t)^2]`; the lesser governs
///
/// - `Pj` joint strength, lbf
/// - `Ajp` steel under the last perfect thread, in2
/// - `D` nominal outer diameter, `t` nominal wall, in
/// - `L` engaged thread length `L4 - M`, in
/// - `Yp, Up` minimum yield and ultimate strength of the pipe, psi
///
/// Range: casing round threads, 8 threads to the inch.
///
/// Where it breaks: it speaks of parting, not of leaking or of first yield, and holds for
/// tension without bending. A wall too thin for the thread is refused.
///
/// Source: api_5c3_1994, joint strength (round thread); clinedinst1964.
///
/// ```
/// use physics::tubular::joint_strength::{Material, round_thread_strength};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Pressure};
/// let tube = Tube::new("example", Diameter::inch(4.5), Diameter::inch(0.25))?;
/// let j55 = Material { yield_strength: Pressure::ksi(55.0), ultimate_strength: Pressure::ksi(75.0) };
/// let joint = round_thread_strength(tube, j55, Diameter::inch(3.0 - 0.704))?;
/// assert!((joint.strength().in_klbf() - 162.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn round_thread_strength(
    tube: Tube,
    material: Material,
    engagement: Diameter,
) -> Result<RoundThreadStrength> {
    let Material { yield_strength, ultimate_strength } = material.checked(ROUND)?;
    require_positive(ROUND, "engagement", engagement)?;
    let (d, l) = (tube.outer().in_inch(), engagement.in_inch());
    let root = tube.outer() - Diameter::inch(THREAD_DEPTH);
    let hint = "No steel is left under the thread; check the wall.";
    require(root.si() > tube.inner().si(), ROUND, "wall", tube.wall(), "thicker than the thread", hint)?;
    // Ajp = pi/4 [(D - 0.1425)^2 - (D - 2t)^2]
    let ajp = root.ring(tube.inner());
    // Pj = 0.95 Ajp Up
    let fracture = ultimate_strength * ajp * JOINT_FACTOR;
    // Pj = 0.95 Ajp L [0.74 D^-0.59 Up / (0.5 L + 0.14 D) + Yp / (L + 0.14 D)]
    let bearing = ultimate_strength * (0.74 * libm::pow(d, -0.59) * l / (0.5 * l + 0.14 * d));
    let yielding = yield_strength * (l / (l + 0.14 * d));
    let pull_out = (bearing + yielding) * ajp * JOINT_FACTOR;
    Ok(RoundThreadStrength { fracture, pull_out })
}

/// Strength of the pipe thread of a buttress joint in tension.
///
/// Equation: `Pj = 0.95 Ap Up [1.008 - 0.0396 (1.083 - Yp/Up) D]`
///
/// - `Pj` pipe thread strength, lbf
/// - `Ap` steel area of the pipe body, in2
/// - `D` nominal outer diameter, in
/// - `Yp, Up` minimum yield and ultimate strength of the pipe, psi
///
/// Range: buttress casing threads, 4-1/2 to 20 in.
///
/// Where it breaks: the coupling may be weaker, above all one of reduced outer diameter;
/// compare with `coupling_strength`. It speaks of parting, not of leaking.
///
/// Source: api_5c3_1994, joint strength (buttress thread).
///
/// ```
/// use physics::tubular::joint_strength::{Material, buttress_strength};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Pressure};
/// let tube = Tube::new("example", Diameter::inch(4.5), Diameter::inch(0.25))?;
/// let l80 = Material { yield_strength: Pressure::ksi(80.0), ultimate_strength: Pressure::ksi(95.0) };
/// assert!((buttress_strength(tube, l80)?.in_klbf() - 291.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn buttress_strength(tube: Tube, material: Material) -> Result<Force> {
    let Material { yield_strength, ultimate_strength } = material.checked(BUTTRESS)?;
    let d = tube.outer().in_inch();
    // Pj = 0.95 Ap Up [1.008 - 0.0396 (1.083 - Yp/Up) D]
    let efficiency = 1.008 - 0.0396 * (1.083 - yield_strength / ultimate_strength) * d;
    let hint = "The fit is for buttress casing of 4-1/2 to 20 in.";
    require(efficiency > 0.0, BUTTRESS, "outer", tube.outer(), "within the range of the fit", hint)?;
    Ok(ultimate_strength * tube.steel_area() * (JOINT_FACTOR * efficiency))
}

/// Strength of a coupling in tension.
///
/// Equation: `Pj = 0.95 Ac Uc`, `Ac = pi/4 (W^2 - d1^2)`
///
/// - `Pj` coupling strength, lbf
/// - `Ac` steel area of the coupling at its critical section, in2
/// - `W` outer diameter of the coupling, in
/// - `d1` diameter at the root of the coupling thread at the end of the pipe, in
/// - `Uc` minimum ultimate strength of the coupling, psi
///
/// Range: none stated by the source.
///
/// Where it breaks: `d1` is no catalogue figure; it follows from the thread's dimensions.
/// `d1 >= W` is refused.
///
/// Source: api_5c3_1994, joint strength (coupling of a buttress joint).
///
/// ```
/// use physics::tubular::joint_strength::coupling_strength;
/// use quantity::{Diameter, Pressure};
/// let strength = coupling_strength(Diameter::inch(5.0), Diameter::inch(4.5), Pressure::ksi(95.0))?;
/// // 0.95 x 3.7306 in2 x 95 ksi
/// assert!((strength.in_klbf() - 336.7).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn coupling_strength(outer: Diameter, root: Diameter, ultimate_strength: Pressure) -> Result<Force> {
    require_positive(COUPLING, "ultimate_strength", ultimate_strength)?;
    let ring: Area = Tube::bored(COUPLING, outer, root)?.steel_area();
    // Pj = 0.95 Ac Uc
    Ok(ultimate_strength * ring * JOINT_FACTOR)
}

/// Register entry of [`round_thread_strength`].
pub static ROUND_THREAD_STRENGTH: Relation = Relation {
    name: ROUND,
    title: "Strength of a round-thread casing joint in tension",
    equation: "least of 0.95 Ajp Up and 0.95 Ajp L [0.74 D^-0.59 Up/(0.5 L + 0.14 D) + Yp/(L + 0.14 D)]",
    source: "api_5c3_1994, joint strength; clinedinst1964",
    range: "casing round threads, 8 to the inch",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "minimum yield strength Yp"),
        Input::new::<Pressure>("ultimate_strength", "minimum ultimate strength Up"),
        Input::new::<Diameter>("engagement", "engaged thread length L = L4 - M"),
    ],
    outputs: &[
        Output::new::<Force>("strength", "joint strength, the lesser of the two"),
        Output::new::<Force>("fracture", "tension at fracture under the last perfect thread"),
        Output::new::<Force>("pull_out", "tension at pull-out"),
    ],
    evaluate: |a| {
        let tube = Tube::new(ROUND, a.get("outer")?, a.get("wall")?)?;
        let (yield_strength, ultimate_strength) = (a.get("yield_strength")?, a.get("ultimate_strength")?);
        let material = Material { yield_strength, ultimate_strength };
        let joint = round_thread_strength(tube, material, a.get("engagement")?)?;
        Ok(Outputs::new()
            .put("strength", joint.strength())
            .put("fracture", joint.fracture)
            .put("pull_out", joint.pull_out))
    },
};

/// Register entry of [`buttress_strength`].
pub static BUTTRESS_STRENGTH: Relation = Relation {
    name: BUTTRESS,
    title: "Strength of the pipe thread of a buttress joint in tension",
    equation: "0.95 Ap Up [1.008 - 0.0396 (1.083 - Yp/Up) D]",
    source: "api_5c3_1994, joint strength",
    range: "buttress casing threads, 4-1/2 to 20 in",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D").within(0.1143, 0.508),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "minimum yield strength Yp"),
        Input::new::<Pressure>("ultimate_strength", "minimum ultimate strength Up"),
    ],
    outputs: &[Output::new::<Force>("strength", "pipe thread strength")],
    evaluate: |a| {
        let tube = Tube::new(BUTTRESS, a.get("outer")?, a.get("wall")?)?;
        let (yield_strength, ultimate_strength) = (a.get("yield_strength")?, a.get("ultimate_strength")?);
        let strength = buttress_strength(tube, Material { yield_strength, ultimate_strength })?;
        Ok(Outputs::new().put("strength", strength))
    },
};

/// Register entry of [`coupling_strength`].
pub static COUPLING_STRENGTH: Relation = Relation {
    name: COUPLING,
    title: "Strength of a coupling in tension",
    equation: "0.95 pi/4 (W^2 - d1^2) Uc",
    source: "api_5c3_1994, joint strength",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter of the coupling W"),
        Input::new::<Diameter>("root", "root diameter of the coupling thread at the pipe end d1"),
        Input::new::<Pressure>("ultimate_strength", "minimum ultimate strength of the coupling Uc"),
    ],
    outputs: &[Output::new::<Force>("strength", "coupling strength")],
    evaluate: |a| {
        let strength = coupling_strength(a.get("outer")?, a.get("root")?, a.get("ultimate_strength")?)?;
        Ok(Outputs::new().put("strength", strength))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn material(y: f64, u: f64) -> Material {
        Material { yield_strength: Pressure::ksi(y), ultimate_strength: Pressure::ksi(u) }
    }

    #[test]
    fn a_long_engagement_ends_in_fracture_and_a_short_one_in_pull_out() {
        let tube = Tube::new("test", Diameter::inch(4.5), Diameter::inch(0.25)).unwrap();
        let joint = |l| round_thread_strength(tube, material(80.0, 95.0), Diameter::inch(l)).unwrap();
        assert_eq!(joint(2.9).failure(), RoundThreadFailure::Fracture);
        assert_eq!(joint(1.0).failure(), RoundThreadFailure::PullOut);
        assert!(joint(0.001).strength().in_klbf() < 1.0);
    }

    #[test]
    fn refuses_exchanged_strengths_and_thin_walls() {
        let tube = Tube::new("test", Diameter::inch(4.5), Diameter::inch(0.25)).unwrap();
        assert!(buttress_strength(tube, material(95.0, 80.0)).is_err());
        let thin = Tube::new("test", Diameter::inch(4.5), Diameter::inch(0.07)).unwrap();
        assert!(round_thread_strength(thin, material(80.0, 95.0), Diameter::inch(2.0)).is_err());
    }
}
