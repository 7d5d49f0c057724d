//! Points on a survey arc: position and direction at a depth between two stations.

use super::hole_direction::{HoleDirection, Vector};
use super::minimum_curvature::{Arc, Displacement};
use super::{STATION_1, STATION_2, depth_on_arc, two_stations};
use crate::error::{Result, require};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Angle, Length, MeasuredDepth, Quantity};

/// Position and direction on a survey arc at a length from its upper station.
///
/// Equation: `t(x) = [sin((1−x)β) t1 + sin(xβ) t2] / sin β`, `I = atan2(hypot(tN, tE), tV)`,
/// `A = atan2(tE, tN)`, `P = s sinc(xβ/2) t(x/2)` with `s = x ΔM`.
///
/// Symbols: x fraction of the course length (-), β dogleg (rad), t unit vector along the hole
/// (north, east, down), s length from the upper station (m), P step from the upper station (m),
/// I inclination (rad), A azimuth (rad), sinc(u) = sin u / u.
///
/// Range: 0 ≤ x ≤ 1. Beyond the last station the hole is not known: a caller may extend it
/// straight, and must say so.
///
/// Where it breaks: inclination and azimuth are not linear in depth, and the azimuth turns
/// quickly near vertical. Where the arc itself is vertical the azimuth of its more inclined end
/// is given, as it says nothing there.
///
/// Source: sawaryn2005 (interpolation); zaremba1973.
///
/// ```
/// use physics::geometry::{Arc, HoleDirection};
/// use quantity::{Angle, Length};
/// let upper = HoleDirection::new(Angle::deg(15.0), Angle::deg(20.0));
/// let lower = HoleDirection::new(Angle::deg(25.0), Angle::deg(45.0));
/// let arc = Arc::between(Length::ft(100.0), upper, lower)?;
/// // Halfway the arc is at 19.59 deg, not at 20 deg.
/// assert!((arc.direction_at(Length::ft(50.0)).inclination.in_deg() - 19.587942).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
impl Arc {
    /// Direction at a length from the upper station.
    pub fn direction_at(&self, from_upper: Length) -> HoleDirection {
        HoleDirection::of_tangent(self.tangent_at(self.turned(from_upper)), self.vertical_azimuth)
    }

    /// Step from the upper station to a length from it.
    pub fn displacement_at(&self, from_upper: Length) -> Displacement {
        let half = 0.5 * self.turned(from_upper);
        // P = s sinc(theta/2) t(theta/2), theta = x beta
        let chord = from_upper.si() * sinc(half);
        let [n, e, v] = self.tangent_at(half);
        Displacement::of([chord * n, chord * e, chord * v])
    }

    /// Inclination at a length from the upper station, without the azimuth: quicker in a loop.
    pub fn inclination_at(&self, from_upper: Length) -> Angle {
        let [n, e, v] = self.tangent_at(self.turned(from_upper));
        Angle::rad(n.hypot(e).atan2(v))
    }

    /// Downward step to a length from the upper station, alone: quicker in a loop.
    pub fn down_at(&self, from_upper: Length) -> Length {
        let half = 0.5 * self.turned(from_upper);
        let (sin, cos) = half.sin_cos();
        Length::m(from_upper.si() * sinc(half) * (cos * self.start[2] + sin * self.inside[2]))
    }

    /// Angle turned at a length from the upper station, rad.
    pub(super) fn turned(&self, from_upper: Length) -> f64 {
        // theta = x beta
        from_upper.si() / self.length * self.dogleg
    }

    /// Unit vector along the hole after turning by `theta`.
    pub(super) fn tangent_at(&self, theta: f64) -> Vector {
        // t = cos(theta) t1 + sin(theta) n1, the same as the slerp of t1 and t2
        let (sin, cos) = theta.sin_cos();
        let mix = |a: f64, b: f64| cos * a + sin * b;
        let ([tn, te, tv], [nn, ne, nv]) = (self.start, self.inside);
        [mix(tn, nn), mix(te, ne), mix(tv, nv)]
    }
}

/// sin u / u, by its series where the quotient would spoil it.
fn sinc(u: f64) -> f64 {
    if u.abs() < 1e-4 { 1.0 - u * u / 6.0 } else { u.sin() / u }
}

/// Refuses a depth outside the arc.
pub(super) fn check_on_arc(relation: &'static str, arc: &Arc, md: MeasuredDepth, from: Length) -> Result<()> {
    let slack = 1e-9 * arc.length;
    let inside = from.si() >= -slack && from.si() <= arc.length + slack;
    let hint = "Interpolate between the two stations that enclose the depth.";
    require(inside, relation, "md", md, "between the two stations", hint)
}

/// Register entry of [`Arc::direction_at`] and [`Arc::displacement_at`].
pub static ARC_INTERPOLATION: Relation = Relation {
    name: "arc_interpolation",
    title: "Position and direction between two survey stations, on the minimum curvature arc",
    equation: "t(x) = [sin((1−x)β) t1 + sin(xβ) t2]/sin β; I = atan2(hypot(tN,tE), tV); A = atan2(tE,tN); P = xΔM sinc(xβ/2) t(x/2)",
    source: "sawaryn2005 (interpolation); zaremba1973",
    range: "between the two stations",
    inputs: &two_stations![Input::new::<MeasuredDepth>("md", "depth asked for, between the stations")],
    outputs: &[
        Output::new::<Angle>("inclination", "inclination at the depth"),
        Output::new::<Angle>("azimuth", "azimuth at the depth"),
        Output::new::<Length>("north", "step to the north from the upper station"),
        Output::new::<Length>("east", "step to the east from the upper station"),
        Output::new::<Length>("down", "step downward from the upper station"),
    ],
    evaluate: |a| {
        let (arc, from) = depth_on_arc("arc_interpolation", a)?;
        let (direction, step) = (arc.direction_at(from), arc.displacement_at(from));
        Ok(Outputs::new()
            .put("inclination", direction.inclination)
            .put("azimuth", direction.azimuth)
            .put("north", step.north)
            .put("east", step.east)
            .put("down", step.down))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn arc(i1: f64, a1: f64, i2: f64, a2: f64, m: f64) -> Arc {
        let d = |i, a| HoleDirection::new(Angle::deg(i), Angle::deg(a));
        Arc::between(Length::m(m), d(i1, a1), d(i2, a2)).unwrap()
    }

    #[test]
    fn the_end_of_the_arc_is_the_lower_station() {
        for (i2, a2) in [(25.0, 45.0), (15.0, 20.0), (15.000_001, 20.0), (150.0, 210.0)] {
            let a = arc(15.0, 20.0, i2, a2, 30.0);
            let (p, q) = (a.displacement(), a.displacement_at(a.length()));
            assert!((p.north.si() - q.north.si()).abs() < 1e-10, "{i2} {a2}");
            assert!((p.east.si() - q.east.si()).abs() < 1e-10);
            assert!((p.down.si() - q.down.si()).abs() < 1e-10);
            assert!((p.down.si() - a.down_at(a.length()).si()).abs() < 1e-10);
            assert!((a.direction_at(a.length()).inclination.in_deg() - i2).abs() < 1e-6);
        }
    }

    #[test]
    fn a_vertical_end_shows_the_azimuth_of_the_other() {
        let a = arc(0.0, 0.0, 30.0, 75.0, 100.0);
        assert!((a.direction_at(Length::ZERO).azimuth.in_deg() - 75.0).abs() < 1e-9);
        assert!((a.direction_at(Length::m(1.0)).azimuth.in_deg() - 75.0).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn two_parts_sum_to_the_whole(
            i1 in 0.0..170.0f64, a1 in 0.0..360.0f64, i2 in 0.0..170.0f64, a2 in 0.0..360.0f64, x in 0.01..0.99f64,
        ) {
            let d = |i, a| HoleDirection::new(Angle::deg(i), Angle::deg(a));
            prop_assume!(d(i1, a1).dogleg(d(i2, a2)).in_deg() < 170.0);
            let whole = arc(i1, a1, i2, a2, 100.0);
            let cut = Length::m(100.0 * x);
            let middle = whole.direction_at(cut);
            let first = Arc::between(cut, d(i1, a1), middle).unwrap();
            let second = Arc::between(whole.length() - cut, middle, d(i2, a2)).unwrap();
            let sum = first.displacement().north + second.displacement().north;
            prop_assert!((sum.si() - whole.displacement().north.si()).abs() < 1e-6);
            let sum = first.displacement().down + second.displacement().down;
            prop_assert!((sum.si() - whole.displacement().down.si()).abs() < 1e-6);
            prop_assert!((first.severity().si() - whole.severity().si()).abs() < 1e-6);
            prop_assert!((whole.displacement_at(cut).down.si() - first.displacement().down.si()).abs() < 1e-6);
        }
    }
}
