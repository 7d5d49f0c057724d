//! Minimum curvature: the circular arc between two survey stations.

use super::hole_direction::{HoleDirection, Vector, check_dogleg};
use super::{STATION_1, STATION_2, stations, two_stations};
use crate::error::{Result, require_positive};
use crate::{Output, Outputs, Relation};
use quantity::{Angle, Curvature, Length, Quantity, Ratio};

/// A step along the hole in north, east and down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Displacement {
    /// To the north.
    pub north: Length,
    /// To the east.
    pub east: Length,
    /// Downward.
    pub down: Length,
}

impl Displacement {
    pub(crate) fn of([n, e, v]: Vector) -> Self {
        Self { north: Length::m(n), east: Length::m(e), down: Length::m(v) }
    }
}

/// The circular arc between two stations; a straight line where they point the same way.
///
/// Held as its length, its dogleg, the unit vector at its start and the unit vector to the
/// inside of the bend, from which every point of it follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// Course length along the arc, m.
    pub(super) length: f64,
    /// Dogleg, rad.
    pub(super) dogleg: f64,
    /// Unit vector along the hole at the start.
    pub(super) start: Vector,
    /// Unit vector across the hole at the start, to the inside of the bend.
    pub(super) inside: Vector,
    /// Azimuth shown where the arc is vertical, rad.
    pub(super) vertical_azimuth: f64,
    end: Vector,
}

/// Minimum curvature between two survey stations: the displacement of the lower station.
///
/// Equation: `sin²(β/2) = sin²((I2−I1)/2) + sin I1 sin I2 sin²((A2−A1)/2)`,
/// `RF = (2/β) tan(β/2)`, `ΔN = ΔM/2 (sin I1 cos A1 + sin I2 cos A2) RF`,
/// `ΔE = ΔM/2 (sin I1 sin A1 + sin I2 sin A2) RF`, `ΔV = ΔM/2 (cos I1 + cos I2) RF`,
/// dogleg severity `β/ΔM`.
///
/// Symbols: ΔM course length (m), I inclination from vertical (rad), A azimuth clockwise from
/// the chosen north (rad), β dogleg (rad), RF ratio factor (-), ΔN, ΔE, ΔV to the north, east
/// and down (m). The dogleg is the half-angle form of `cos β = cos(I2−I1) − sin I1 sin I2
/// (1−cos(A2−A1))`, which loses its digits below 1e-6 rad.
///
/// Range: none stated by the source; inclination 0 to 180 deg, course length above zero.
///
/// Where it breaks: stations that point opposite ways are joined by no one arc and are refused.
/// A long course between stations hides bends within it: the severity is that of the whole
/// course, a lower bound of what the hole has.
///
/// Source: taylor1972; api_d20; sawaryn2005.
///
/// ```
/// use physics::geometry::{Arc, HoleDirection};
/// use quantity::{Angle, Length};
/// let upper = HoleDirection::new(Angle::deg(15.0), Angle::deg(20.0));
/// let lower = HoleDirection::new(Angle::deg(25.0), Angle::deg(45.0));
/// let arc = Arc::between(Length::ft(100.0), upper, lower)?;
/// assert!((arc.dogleg().in_deg() - 12.95).abs() < 0.005);
/// assert!((arc.displacement().north.in_ft() - 27.22).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
impl Arc {
    /// The arc of a course length between two directions.
    pub fn between(length: Length, upper: HoleDirection, lower: HoleDirection) -> Result<Self> {
        let name = MINIMUM_CURVATURE.name;
        require_positive(name, "course length", length)?;
        upper.check(name)?;
        lower.check(name)?;
        let dogleg = upper.dogleg(lower);
        check_dogleg(name, dogleg)?;
        let shown = if lower.inclination.si().sin() > upper.inclination.si().sin() { lower } else { upper };
        let (start, end) = (upper.tangent(), lower.tangent());
        Ok(Self {
            length: length.si(),
            dogleg: dogleg.si(),
            start,
            inside: inside(start, end, dogleg.si()),
            vertical_azimuth: shown.azimuth.si(),
            end,
        })
    }

    /// Course length.
    pub fn length(&self) -> Length {
        Length::m(self.length)
    }

    /// Overall angle between the two ends.
    pub fn dogleg(&self) -> Angle {
        Angle::rad(self.dogleg)
    }

    /// Dogleg per course length.
    pub fn severity(&self) -> Curvature {
        Curvature::rad_per_m(self.dogleg / self.length)
    }

    /// Ratio of the arc to the two straight halves along the end tangents.
    pub fn ratio_factor(&self) -> f64 {
        ratio_factor(self.dogleg)
    }

    /// From the upper station to the lower one.
    pub fn displacement(&self) -> Displacement {
        // Delta = dM/2 (t1 + t2) RF
        let k = 0.5 * self.length * self.ratio_factor();
        let ([n1, e1, v1], [n2, e2, v2]) = (self.start, self.end);
        Displacement::of([k * (n1 + n2), k * (e1 + e2), k * (v1 + v2)])
    }
}

/// Unit vector across the hole at the start of the bend; zero where there is no bend.
fn inside(start: Vector, end: Vector, dogleg: f64) -> Vector {
    let sin = dogleg.sin();
    if sin <= f64::MIN_POSITIVE {
        return [0.0; 3];
    }
    // n1 = (t2 - t1 cos beta) / sin beta, with 1 - cos beta = 2 sin^2(beta/2) to keep its digits
    let rise = 2.0 * (0.5 * dogleg).sin().powi(2);
    let ([n1, e1, v1], [n2, e2, v2]) = (start, end);
    [(n2 - n1 + rise * n1) / sin, (e2 - e1 + rise * e1) / sin, (v2 - v1 + rise * v1) / sin]
}

/// Ratio factor; below 0.02 rad its series, which the quotient would spoil.
fn ratio_factor(dogleg: f64) -> f64 {
    let square = dogleg * dogleg;
    if dogleg < 0.02 {
        // RF = 1 + beta^2/12 + beta^4/120
        1.0 + square / 12.0 + square * square / 120.0
    } else {
        // RF = (2/beta) tan(beta/2)
        2.0 / dogleg * (0.5 * dogleg).tan()
    }
}

/// Register entry of [`Arc::between`].
pub static MINIMUM_CURVATURE: Relation = Relation {
    name: "minimum_curvature",
    title: "Minimum curvature between two survey stations",
    equation: "sin²(β/2) = sin²((I2−I1)/2) + sin I1 sin I2 sin²((A2−A1)/2); RF = (2/β) tan(β/2); ΔN, ΔE, ΔV = ΔM/2 (t1 + t2) RF",
    source: "taylor1972; api_d20; sawaryn2005",
    range: "none stated by the source; dogleg below 180 deg",
    inputs: &two_stations![],
    outputs: &[
        Output::new::<Length>("north", "step to the north"),
        Output::new::<Length>("east", "step to the east"),
        Output::new::<Length>("down", "step downward"),
        Output::new::<Angle>("dogleg", "overall angle between the stations"),
        Output::new::<Ratio>("ratio_factor", "arc over its two end tangents"),
        Output::new::<Curvature>("dogleg_severity", "dogleg per course length"),
    ],
    evaluate: |a| {
        let ((md_1, upper), (md_2, lower)) = stations(a)?;
        let arc = Arc::between(md_2 - md_1, upper, lower)?;
        let step = arc.displacement();
        Ok(Outputs::new()
            .put("north", step.north)
            .put("east", step.east)
            .put("down", step.down)
            .put("dogleg", arc.dogleg())
            .put("ratio_factor", Ratio::of(arc.ratio_factor()))
            .put("dogleg_severity", arc.severity()))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn direction(i: f64, a: f64) -> HoleDirection {
        HoleDirection::new(Angle::deg(i), Angle::deg(a))
    }

    #[test]
    fn opposite_stations_and_no_length_are_refused() {
        let length = Length::m(30.0);
        assert!(Arc::between(length, direction(0.0, 0.0), direction(180.0, 0.0)).is_err());
        assert!(Arc::between(length, direction(90.0, 10.0), direction(90.0, 190.0)).is_err());
        assert!(Arc::between(Length::ZERO, direction(1.0, 0.0), direction(2.0, 0.0)).is_err());
        assert!(Arc::between(length, direction(-1.0, 0.0), direction(2.0, 0.0)).is_err());
        assert!(Arc::between(length, direction(1.0, f64::NAN), direction(2.0, 0.0)).is_err());
    }

    #[test]
    fn the_azimuth_of_a_vertical_station_has_no_effect() {
        let length = Length::m(100.0);
        let a = Arc::between(length, direction(0.0, 0.0), direction(30.0, 77.0)).unwrap();
        let b = Arc::between(length, direction(0.0, 191.0), direction(30.0, 77.0)).unwrap();
        assert!((a.displacement().north.si() - b.displacement().north.si()).abs() < 1e-12);
        assert!((a.displacement().east.si() - b.displacement().east.si()).abs() < 1e-12);
    }

    #[test]
    fn the_series_meets_the_quotient() {
        let quotient = |b: f64| 2.0 / b * (b / 2.0).tan();
        assert!((ratio_factor(0.019_999_9) - quotient(0.019_999_9)).abs() < 1e-12);
        assert_eq!(ratio_factor(0.0), 1.0);
    }

    proptest! {
        #[test]
        fn the_same_way_up_and_down(
            i1 in 0.0..120.0f64, a1 in 0.0..360.0f64, di in -20.0..20.0f64, da in -20.0..20.0f64,
        ) {
            let (p, q) = (direction(i1, a1), direction((i1 + di).clamp(0.0, 180.0), a1 + da));
            let length = Length::m(37.0);
            let down = Arc::between(length, p, q).unwrap().displacement();
            let up = Arc::between(length, q, p).unwrap().displacement();
            prop_assert!((down.north.si() - up.north.si()).abs() < 1e-9);
            prop_assert!((down.down.si() - up.down.si()).abs() < 1e-9);
            // The chord is never longer than the arc.
            let chord = (down.north.si().powi(2) + down.east.si().powi(2) + down.down.si().powi(2)).sqrt();
            prop_assert!(chord <= 37.0 + 1e-9);
        }
    }
}
