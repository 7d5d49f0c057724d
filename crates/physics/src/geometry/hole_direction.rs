//! Direction of the hole axis: inclination and azimuth, and the unit vector they stand for.

use crate::error::{Error, Result, require};
use quantity::{Angle, Quantity};
use std::f64::consts::{PI, TAU};

/// A vector in north, east, down.
pub(crate) type Vector = [f64; 3];

/// Below this horizontal part of the unit vector (0.2 arc seconds from vertical) an azimuth says nothing.
pub(crate) const VERTICAL: f64 = 1e-6;

/// Where the hole axis points.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HoleDirection {
    /// Angle from vertical: 0 straight down, 90 deg horizontal, above 90 deg going up.
    pub inclination: Angle,
    /// Angle clockwise from the chosen north; says nothing where the hole is vertical.
    pub azimuth: Angle,
}

impl HoleDirection {
    /// From inclination and azimuth.
    pub const fn new(inclination: Angle, azimuth: Angle) -> Self {
        Self { inclination, azimuth }
    }

    /// Refuses an inclination outside 0 to 180 deg or a number that is not finite.
    pub fn check(self, relation: &'static str) -> Result<()> {
        let i = self.inclination;
        let hint = "Inclination is measured from vertical; check the station and its unit.";
        require((0.0..=PI).contains(&i.si()), relation, "inclination", i, "between 0 and 180 deg", hint)?;
        let hint = "Check the azimuth of the station.";
        require(self.azimuth.is_finite(), relation, "azimuth", self.azimuth, "a finite number", hint)
    }

    /// The unit vector along the hole: north, east, down.
    pub(crate) fn tangent(self) -> Vector {
        let (sin_i, cos_i) = self.inclination.si().sin_cos();
        let (sin_a, cos_a) = self.azimuth.si().sin_cos();
        // t = (sin I cos A, sin I sin A, cos I)
        [sin_i * cos_a, sin_i * sin_a, cos_i]
    }

    /// The direction of a vector; `vertical_azimuth` is taken where the vector is vertical.
    pub(crate) fn of_tangent(t: Vector, vertical_azimuth: f64) -> Self {
        let [n, e, v] = t;
        let horizontal = n.hypot(e);
        // I = atan2(hypot(tN, tE), tV); A = atan2(tE, tN)
        let azimuth = if horizontal < VERTICAL { vertical_azimuth } else { e.atan2(n) };
        Self::new(Angle::rad(horizontal.atan2(v)), full_circle(Angle::rad(azimuth)))
    }

    /// Whether the azimuth says something: the hole is not vertical.
    pub fn has_azimuth(self) -> bool {
        self.inclination.si().sin().abs() >= VERTICAL
    }

    /// Overall angle between two directions (the dogleg), by the half-angle form, which keeps
    /// its digits for the smallest angles.
    pub fn dogleg(self, other: Self) -> Angle {
        let (i1, i2) = (self.inclination.si(), other.inclination.si());
        let half = |x: f64| (0.5 * x).sin().powi(2);
        // sin^2(beta/2) = sin^2((I2-I1)/2) + sin I1 sin I2 sin^2((A2-A1)/2)
        let square = half(i2 - i1) + i1.sin() * i2.sin() * half(other.azimuth.si() - self.azimuth.si());
        Angle::rad(2.0 * square.clamp(0.0, 1.0).sqrt().asin())
    }
}

/// The angle folded into 0 to 360 deg.
pub fn full_circle(angle: Angle) -> Angle {
    let folded = angle.si().rem_euclid(TAU);
    Angle::rad(if folded >= TAU { 0.0 } else { folded })
}

/// The angle folded into -180 to 180 deg, as a change of azimuth is read.
pub fn half_circle(angle: Angle) -> Angle {
    let folded = full_circle(angle).si();
    Angle::rad(if folded > PI { folded - TAU } else { folded })
}

/// Refuses two directions that no single arc joins: they point opposite ways.
pub(crate) fn check_dogleg(relation: &'static str, dogleg: Angle) -> Result<()> {
    if dogleg.si() < PI - 1e-6 {
        return Ok(());
    }
    Err(Error::NoSolution {
        relation,
        what: "the two stations point opposite ways, so no one arc joins them".to_string(),
        hint: "Check inclination and azimuth of both stations.",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn folds_angles() {
        assert_eq!(full_circle(Angle::deg(-1.0)).in_deg().round(), 359.0);
        assert_eq!(full_circle(Angle::rad(-1e-18)).si(), 0.0);
        assert_eq!(half_circle(Angle::deg(358.0)).in_deg().round(), -2.0);
    }

    #[test]
    fn keeps_the_digits_of_the_smallest_dogleg() {
        let a = HoleDirection::new(Angle::deg(90.0), Angle::rad(1.0));
        let b = HoleDirection::new(Angle::deg(90.0), Angle::rad(1.0 + 1e-9));
        assert!((a.dogleg(b).si() / 1e-9 - 1.0).abs() < 1e-6);
        assert_eq!(a.dogleg(a).si(), 0.0);
    }

    proptest! {
        #[test]
        fn there_and_back(i in 0.001..3.1f64, a in 0.0..6.2f64) {
            let d = HoleDirection::new(Angle::rad(i), Angle::rad(a));
            let back = HoleDirection::of_tangent(d.tangent(), 0.0);
            prop_assert!(d.dogleg(back).si() < 1e-7);
        }

        #[test]
        fn dogleg_is_symmetric_and_matches_the_vectors(
            i1 in 0.0..3.1f64, a1 in -7.0..7.0f64, i2 in 0.0..3.1f64, a2 in -7.0..7.0f64,
        ) {
            let a = HoleDirection::new(Angle::rad(i1), Angle::rad(a1));
            let b = HoleDirection::new(Angle::rad(i2), Angle::rad(a2));
            prop_assert!((a.dogleg(b).si() - b.dogleg(a).si()).abs() < 1e-12);
            let dot: f64 = a.tangent().iter().zip(b.tangent()).map(|(x, y)| x * y).sum();
            prop_assert!((a.dogleg(b).si().cos() - dot).abs() < 1e-12);
        }
    }
}
