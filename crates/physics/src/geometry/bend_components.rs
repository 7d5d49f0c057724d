//! Build and walk on a survey arc: the two components of its curvature, and the toolface.

use super::hole_direction::{VERTICAL, full_circle};
use super::minimum_curvature::Arc;
use super::{STATION_1, STATION_2, depth_on_arc, two_stations};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity};

/// Curvature at a point of an arc, split in the vertical plane and across it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendComponents {
    /// Change of inclination per length, positive where the hole builds.
    pub build: Curvature,
    /// Sideways curvature: sine of the inclination times the change of azimuth per length,
    /// positive to the right.
    pub walk: Curvature,
    /// Direction of the bend seen down the hole, clockwise from the high side.
    pub toolface: Angle,
}

/// Build, walk and gravity toolface at a point of a survey arc.
///
/// Equation: `t' = κ [−sin(xβ) t1 + cos(xβ) n1]`, `dI/ds = −t'V / sin I`,
/// `sin I dA/ds = (tN t'E − tE t'N) / sin I`, `κ² = (dI/ds)² + (sin I dA/ds)²`,
/// `TF = atan2(sin I dA/ds, dI/ds)`.
///
/// Symbols: s length along the hole (m), t unit vector along it (north, east, down), t' its
/// change per length (1/m), n1 unit vector to the inside of the bend at the upper station,
/// κ = β/ΔM curvature (rad/m), I inclination, A azimuth, TF toolface (rad).
///
/// Range: between the two stations.
///
/// Where it breaks: κ is constant on the arc, its two components are not. In vertical hole
/// there is no high side: all the curvature is given as build, with a toolface of zero.
///
/// Source: sawaryn2005 (toolface); derived_geometry.
///
/// ```
/// use physics::geometry::{Arc, HoleDirection};
/// use quantity::{Angle, Length};
/// // A level turn to the right: no build, all walk, toolface 90 deg.
/// let upper = HoleDirection::new(Angle::deg(90.0), Angle::deg(0.0));
/// let lower = HoleDirection::new(Angle::deg(90.0), Angle::deg(3.0));
/// let bend = Arc::between(Length::m(30.0), upper, lower)?.bend_at(Length::m(10.0));
/// assert!((bend.walk.in_deg_per_30m() - 3.0).abs() < 1e-9);
/// assert!((bend.toolface.in_deg() - 90.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
impl Arc {
    /// Components of the curvature at a length from the upper station.
    pub fn bend_at(&self, from_upper: Length) -> BendComponents {
        let theta = self.turned(from_upper);
        let curvature = self.severity().si();
        let [tn, te, _] = self.tangent_at(theta);
        // t' = kappa t(theta + 90 deg)
        let [dn, de, dv] = self.tangent_at(theta + std::f64::consts::FRAC_PI_2).map(|c| c * curvature);
        let sin_i = tn.hypot(te);
        if sin_i < VERTICAL || self.dogleg == 0.0 {
            let build = Curvature::rad_per_m(curvature);
            return BendComponents { build, walk: Curvature::ZERO, toolface: Angle::ZERO };
        }
        // dI/ds = -t'V / sin I; sin I dA/ds = (tN t'E - tE t'N) / sin I
        let (build, walk) = (-dv / sin_i, (tn * de - te * dn) / sin_i);
        // TF = atan2(sin I dA/ds, dI/ds)
        let toolface = full_circle(Angle::rad(walk.atan2(build)));
        BendComponents { build: Curvature::rad_per_m(build), walk: Curvature::rad_per_m(walk), toolface }
    }
}

/// Register entry of [`Arc::bend_at`].
pub static BEND_COMPONENTS: Relation = Relation {
    name: "bend_components",
    title: "Build, walk and gravity toolface at a point of a minimum curvature arc",
    equation: "dI/ds = −t'V/sin I; sin I dA/ds = (tN t'E − tE t'N)/sin I; κ² = (dI/ds)² + (sin I dA/ds)²; TF = atan2(sin I dA/ds, dI/ds)",
    source: "sawaryn2005 (toolface); derived_geometry",
    range: "between the two stations; no high side where the hole is vertical",
    inputs: &two_stations![Input::new::<MeasuredDepth>("md", "depth asked for, between the stations")],
    outputs: &[
        Output::new::<Curvature>("build_rate", "change of inclination per length"),
        Output::new::<Curvature>("walk_rate", "sideways curvature, positive to the right"),
        Output::new::<Curvature>("dogleg_severity", "whole curvature"),
        Output::new::<Angle>("toolface", "direction of the bend, clockwise from the high side"),
    ],
    evaluate: |a| {
        let (arc, from) = depth_on_arc("bend_components", a)?;
        let bend = arc.bend_at(from);
        Ok(Outputs::new()
            .put("build_rate", bend.build)
            .put("walk_rate", bend.walk)
            .put("dogleg_severity", arc.severity())
            .put("toolface", bend.toolface))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::HoleDirection;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_components_make_up_the_curvature_and_match_finite_differences(
            i1 in 5.0..120.0f64, a1 in 0.0..360.0f64, di in -20.0..20.0f64, da in -20.0..20.0f64, x in 0.1..0.9f64,
        ) {
            let d = |i, a| HoleDirection::new(Angle::deg(i), Angle::deg(a));
            let lower = d((i1 + di).max(5.0), a1 + da);
            prop_assume!(d(i1, a1).dogleg(lower).si() > 1e-4);
            let arc = Arc::between(Length::m(100.0), d(i1, a1), lower).unwrap();
            let at = Length::m(100.0 * x);
            let bend = arc.bend_at(at);
            let whole = bend.build.si().hypot(bend.walk.si());
            prop_assert!((whole - arc.severity().si()).abs() < 1e-9);
            let h = 1e-3;
            let (p, q) = (arc.direction_at(at - Length::m(h)), arc.direction_at(at + Length::m(h)));
            let slope = (q.inclination.si() - p.inclination.si()) / (2.0 * h);
            prop_assert!((slope - bend.build.si()).abs() < 1e-8);
        }
    }
}
