//! The measured depths at which a survey arc is at a given vertical depth.

use super::minimum_curvature::Arc;
use super::{STATION_1, STATION_2, stations, two_stations};
use crate::error::{Error, Result};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Length, MeasuredDepth, Quantity, Ratio, TrueVerticalDepth};

/// Where an arc crosses a level, as lengths from its upper station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Crossings {
    /// The arc does not reach the level.
    None,
    /// It crosses or touches the level once.
    Once(Length),
    /// It crosses the level twice, over a crest or through a sump.
    Twice(Length, Length),
    /// It runs along the level.
    Along,
}

/// Lengths along a survey arc at which it is at a given vertical depth.
///
/// Equation: `v = R [A sin θ + B (1 − cos θ)]`; with `u = tan(θ/2)` and `w = vβ/ΔM`:
/// `(2B − w) u² + 2A u − w = 0`, `s = θ ΔM/β`.
///
/// Symbols: v depth below the upper station (m), R = ΔM/β radius (m), θ angle turned (rad),
/// A, B vertical parts of the unit vectors along the hole and to the inside of the bend at the
/// upper station (-), s length from the upper station (m).
///
/// Range: 0 ≤ s ≤ ΔM; 0, 1 or 2 solutions, the second in near-horizontal hole over a crest or
/// through a sump.
///
/// Where it breaks: a level straight line is at its depth all along, which is told apart as
/// such. Within about 1e-8 of the course length of a crest the two solutions are one.
///
/// Source: sawaryn2005 (intersection with a plane); derived_geometry.
///
/// ```
/// use physics::geometry::{Arc, Crossings, HoleDirection};
/// use quantity::{Angle, Length};
/// // Over a crest from 88 to 92 deg: the same depth at both ends.
/// let d = |i| HoleDirection::new(Angle::deg(i), Angle::deg(40.0));
/// let arc = Arc::between(Length::ft(100.0), d(92.0), d(88.0))?;
/// let Crossings::Twice(first, second) = arc.crossings(Length::ft(-0.5)) else { unreachable!() };
/// assert!((first.in_ft() + second.in_ft() - 100.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
impl Arc {
    /// Lengths from the upper station at which the arc is `below` it.
    pub fn crossings(&self, below: Length) -> Crossings {
        let (a, b) = (self.start[2], self.inside[2]);
        let v = below.si();
        if a.abs() < 1e-12 && (b.abs() < 1e-12 || self.dogleg == 0.0) {
            return if v.abs() <= 1e-9 * self.length { Crossings::Along } else { Crossings::None };
        }
        if self.dogleg == 0.0 {
            return self.collect([Some(v / a), None]);
        }
        // (2B - w) u^2 + 2A u - w = 0, u = tan(theta/2), w = v beta / dM
        let w = v * self.dogleg / self.length;
        let lead = 2.0 * b - w;
        let square = a * a + w * lead;
        if square < -1e-14 {
            return Crossings::None;
        }
        let q = -(a + square.max(0.0).sqrt().copysign(a));
        // s = theta dM / beta
        let length = |u: f64| Some(2.0 * u.atan() / self.dogleg * self.length);
        let other = if q == 0.0 { length(0.0) } else { length(-w / q) };
        self.collect([if lead == 0.0 { None } else { length(q / lead) }, other])
    }

    /// Keeps the roots that lie on the arc, in order, each once.
    fn collect(&self, roots: [Option<f64>; 2]) -> Crossings {
        let slack = 1e-9 * self.length;
        let on_arc = |s: Option<f64>| {
            s.filter(|s| *s >= -slack && *s <= self.length + slack).map(|s| s.clamp(0.0, self.length))
        };
        match roots.map(on_arc) {
            [Some(p), Some(q)] if (p - q).abs() > 1e-7 * self.length => {
                Crossings::Twice(Length::m(p.min(q)), Length::m(p.max(q)))
            }
            [Some(p), _] | [None, Some(p)] => Crossings::Once(Length::m(p)),
            [None, None] => Crossings::None,
        }
    }
}

/// Least and greatest crossing and their number, for the register.
fn first_and_last(arc: &Arc, below: Length) -> Result<(Length, Length, f64)> {
    match arc.crossings(below) {
        Crossings::Once(s) => Ok((s, s, 1.0)),
        Crossings::Twice(p, q) => Ok((p, q, 2.0)),
        Crossings::Along => Err(none("the hole runs level at that vertical depth all along")),
        Crossings::None => Err(none("the hole between these stations does not reach that vertical depth")),
    }
}

fn none(what: &str) -> Error {
    Error::NoSolution {
        relation: TVD_CROSSING.name,
        what: what.to_string(),
        hint: "Take the two stations that enclose the vertical depth.",
    }
}

/// Register entry of [`Arc::crossings`].
pub static TVD_CROSSING: Relation = Relation {
    name: "tvd_crossing",
    title: "Measured depth at a true vertical depth, on a minimum curvature arc",
    equation: "(2B − w) u² + 2A u − w = 0, u = tan(θ/2), w = vβ/ΔM, s = θΔM/β",
    source: "sawaryn2005 (intersection with a plane); derived_geometry",
    range: "between the two stations; refused where the hole runs along the level",
    inputs: &two_stations![
        Input::new::<TrueVerticalDepth>("tvd_1", "vertical depth of the upper station"),
        Input::new::<TrueVerticalDepth>("tvd", "vertical depth asked for"),
    ],
    outputs: &[
        Output::new::<MeasuredDepth>("md_first", "shallowest measured depth at that level"),
        Output::new::<MeasuredDepth>("md_last", "deepest measured depth at that level"),
        Output::new::<Ratio>("count", "number of crossings"),
    ],
    evaluate: |a| {
        let ((md_1, upper), (md_2, lower)) = stations(a)?;
        let arc = Arc::between(md_2 - md_1, upper, lower)?;
        let below = a.get::<TrueVerticalDepth>("tvd")? - a.get::<TrueVerticalDepth>("tvd_1")?;
        let (first, last, count) = first_and_last(&arc, below)?;
        Ok(Outputs::new()
            .put("md_first", md_1 + first)
            .put("md_last", md_1 + last)
            .put("count", Ratio::of(count)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::HoleDirection;
    use proptest::prelude::*;
    use quantity::Angle;

    fn arc(i1: f64, i2: f64, a2: f64) -> Arc {
        let d = |i, a| HoleDirection::new(Angle::deg(i), Angle::deg(a));
        Arc::between(Length::m(30.0), d(i1, 0.0), d(i2, a2)).unwrap()
    }

    #[test]
    fn straight_level_crest_and_miss() {
        assert_eq!(arc(90.0, 90.0, 0.0).crossings(Length::ZERO), Crossings::Along);
        assert_eq!(arc(90.0, 90.0, 5.0).crossings(Length::ZERO), Crossings::Along);
        assert_eq!(arc(90.0, 90.0, 5.0).crossings(Length::m(0.1)), Crossings::None);
        assert_eq!(arc(0.0, 0.0, 0.0).crossings(Length::m(12.5)), Crossings::Once(Length::m(12.5)));
        assert_eq!(arc(88.0, 92.0, 0.0).crossings(Length::m(5.0)), Crossings::None);
        assert!(matches!(arc(88.0, 92.0, 0.0).crossings(Length::m(0.1)), Crossings::Twice(..)));
        assert!(matches!(arc(88.0, 92.0, 0.0).crossings(Length::m(-0.1)), Crossings::None));
        assert!(matches!(arc(90.0, 80.0, 0.0).crossings(Length::ZERO), Crossings::Once(s) if s.si() == 0.0));
    }

    proptest! {
        #[test]
        fn every_crossing_is_at_the_level_and_none_is_missed(
            i1 in 0.0..130.0f64, i2 in 0.0..130.0f64, a2 in 0.0..40.0f64, x in 0.0..1.0f64,
        ) {
            let arc = arc(i1, i2, a2);
            let at = Length::m(30.0 * x);
            let level = arc.down_at(at);
            let found: Vec<Length> = match arc.crossings(level) {
                Crossings::Once(s) => vec![s],
                Crossings::Twice(p, q) => vec![p, q],
                Crossings::Along => vec![at],
                Crossings::None => vec![],
            };
            for s in &found {
                prop_assert!((arc.down_at(*s).si() - level.si()).abs() < 1e-6);
            }
            prop_assert!(found.iter().any(|s| (s.si() - at.si()).abs() < 1e-3), "{found:?} lacks {at:?}");
        }
    }
}
