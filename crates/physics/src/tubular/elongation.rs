//! Stretch of one segment of a string: tension, ballooning, temperature and buckling together.

use super::effective_tension::Pressures;
use super::steel::Steel;
use super::tube::Tube;
use crate::error::{require_not_negative, require_positive};
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Length, Pressure, Quantity, TemperatureDifference};

const NAME: &str = "segment_elongation";

/// One end of a segment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SegmentEnd {
    /// Effective tension Te.
    pub effective_tension: Force,
    /// Pressures inside and outside.
    pub pressures: Pressures,
}

/// A segment of one size, over which forces and pressures vary linearly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// The tube.
    pub tube: Tube,
    /// Length along the string.
    pub length: Length,
    /// Radial clearance to the hole or casing, for buckling.
    pub clearance: Diameter,
    /// Upper end.
    pub top: SegmentEnd,
    /// Lower end.
    pub bottom: SegmentEnd,
    /// Mean temperature against the reference.
    pub temperature: TemperatureDifference,
}

/// Parts of the stretch, lengthening positive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Elongation {
    /// From the true tension.
    pub axial: Length,
    /// From ballooning.
    pub ballooning: Length,
    /// From temperature.
    pub temperature: Length,
    /// From helical buckling.
    pub buckling: Length,
}

impl Elongation {
    /// The sum.
    pub fn total(self) -> Length {
        self.axial + self.ballooning + self.temperature + self.buckling
    }
}

impl std::ops::Add for Elongation {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self {
            axial: self.axial + o.axial,
            ballooning: self.ballooning + o.ballooning,
            temperature: self.temperature + o.temperature,
            buckling: self.buckling + o.buckling,
        }
    }
}

impl std::ops::Sub for Elongation {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self {
            axial: self.axial - o.axial,
            ballooning: self.ballooning - o.ballooning,
            temperature: self.temperature - o.temperature,
            buckling: self.buckling - o.buckling,
        }
    }
}

/// Stretch of one segment against its unloaded length.
///
/// Equation: `dL = integral of eps`, `eps = T/(E As) - 2 nu (Pi Ai - Po Ao)/(E As) + alpha dT -
/// r^2 max(-Te, 0)/(4 E I)`, `T = Te + Pi Ai - Po Ao`
///
/// - `eps` axial strain; `T` true and `Te` effective tension, N
/// - `E` Young's modulus, Pa; `As` steel area, m2; `I` second moment, m4
/// - `nu` Poisson's ratio; `alpha` expansion, 1/K; `dT` temperature against reference, K
/// - `Pi, Po` pressures, Pa; `Ai, Ao` areas, m2
/// - `r` radial clearance, m
///
/// Range: elastic; helical buckling in vertical hole, no wall friction between the ends.
///
/// Where it breaks: in a deviated hole the weight holds the pipe straight up to a buckling
/// load, so the buckling part is too large there: give a clearance of zero where the pipe
/// does not buckle. Wall friction enters through the forces given at the ends.
///
/// Source: lubinski1962 (its four effects, written as one strain); hammerlindl1977 for strings
/// of several sizes.
///
/// ```
/// use physics::tubular::effective_tension::Pressures;
/// use physics::tubular::elongation::{Segment, SegmentEnd, segment_elongation};
/// use physics::tubular::{steel::Steel, tube::Tube};
/// use quantity::{Diameter, Force, Length, TemperatureDifference};
/// let end = SegmentEnd { effective_tension: Force::klbf(50.0), pressures: Pressures::default() };
/// let segment = Segment {
///     tube: Tube::bored("example", Diameter::inch(4.5), Diameter::inch(4.0))?,
///     length: Length::ft(1_000.0),
///     clearance: Diameter::inch(0.8),
///     top: end,
///     bottom: end,
///     temperature: TemperatureDifference::ZERO,
/// };
/// let stretch = segment_elongation(segment, Steel::default())?;
/// // 50 000 lbf x 12 000 in / (30e6 psi x 3.338 in2)
/// assert!((stretch.total().in_inch() - 5.992).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn segment_elongation(segment: Segment, steel: Steel) -> Result<Elongation> {
    let steel = steel.checked(NAME)?;
    require_positive(NAME, "length", segment.length)?;
    require_not_negative(NAME, "clearance", segment.clearance)?;
    let Segment { tube, top, bottom, .. } = segment;
    let length = segment.length.si();
    let stiffness = tube.stiffness(steel.modulus);
    let end_force = |e: SegmentEnd| tube.end_force(e.pressures.inside, e.pressures.outside).si();
    let (te_top, te_bottom) = (top.effective_tension.si(), bottom.effective_tension.si());
    // mean of Pi Ai - Po Ao, and of T = Te + Pi Ai - Po Ao; both linear in depth
    let pressure = (end_force(top) + end_force(bottom)) / 2.0;
    let tension = (te_top + te_bottom) / 2.0 + pressure;
    let r2 = segment.clearance.si().powi(2);
    let four_ei = 4.0 * steel.modulus.si() * tube.inertia();
    let parts = Elongation {
        // T/(E As)
        axial: Length::m(length * tension / stiffness),
        // -2 nu (Pi Ai - Po Ao)/(E As)
        ballooning: Length::m(-length * 2.0 * steel.poisson.si() * pressure / stiffness),
        // alpha dT
        temperature: Length::m(length * steel.expansion.si() * segment.temperature.si()),
        // -r^2 max(-Te, 0)/(4 E I)
        buckling: Length::m(-length * r2 * mean_compression(te_top, te_bottom) / four_ei),
    };
    if parts.total().is_finite() {
        Ok(parts)
    } else {
        Err(Error::NotFinite { relation: NAME, output: "total" })
    }
}

/// Mean of `max(-Te, 0)` over a length on which `Te` goes linearly from one value to the other.
fn mean_compression(a: f64, b: f64) -> f64 {
    let (low, high) = (a.min(b), a.max(b));
    if low >= 0.0 {
        0.0
    } else if high <= 0.0 {
        -(low + high) / 2.0
    } else {
        // a triangle of height -low over the share low/(low - high) of the length
        low * low / (2.0 * (high - low))
    }
}

/// Register entry of [`segment_elongation`].
pub static SEGMENT_ELONGATION: Relation = Relation {
    name: NAME,
    title: "Stretch of a segment of string: tension, ballooning, temperature, buckling",
    equation: "eps = T/(E As) - 2 nu (Pi Ai - Po Ao)/(E As) + alpha dT - r^2 max(-Te, 0)/(4 E I), T = Te + Pi Ai - Po Ao",
    source: "lubinski1962; hammerlindl1977",
    range: "elastic; helical buckling in vertical hole",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<Length>("length", "length along the string"),
        Input::new::<Diameter>("clearance", "radial clearance r").or("0 in"),
        Input::new::<Force>("effective_top", "effective tension Te at the upper end"),
        Input::new::<Force>("effective_bottom", "effective tension Te at the lower end"),
        Input::new::<Pressure>("internal_top", "pressure inside at the upper end").or("0 psi"),
        Input::new::<Pressure>("internal_bottom", "pressure inside at the lower end").or("0 psi"),
        Input::new::<Pressure>("external_top", "pressure outside at the upper end").or("0 psi"),
        Input::new::<Pressure>("external_bottom", "pressure outside at the lower end").or("0 psi"),
        Input::new::<TemperatureDifference>("temperature", "mean temperature against the reference dT")
            .or("0 degF"),
        Steel::MODULUS,
        Steel::POISSON,
        Steel::EXPANSION,
    ],
    outputs: &[
        Output::new::<Length>("axial", "stretch from true tension"),
        Output::new::<Length>("ballooning", "stretch from ballooning"),
        Output::new::<Length>("temperature_part", "stretch from temperature"),
        Output::new::<Length>("buckling", "stretch from buckling, negative"),
        Output::new::<Length>("total", "sum"),
    ],
    evaluate: |a| {
        let end = |te: Force, inside: Pressure, outside: Pressure| SegmentEnd {
            effective_tension: te,
            pressures: Pressures { inside, outside },
        };
        let segment = Segment {
            tube: Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?,
            length: a.get("length")?,
            clearance: a.get("clearance")?,
            top: end(a.get("effective_top")?, a.get("internal_top")?, a.get("external_top")?),
            bottom: end(a.get("effective_bottom")?, a.get("internal_bottom")?, a.get("external_bottom")?),
            temperature: a.get("temperature")?,
        };
        let parts = segment_elongation(segment, Steel::of(a)?)?;
        Ok(Outputs::new()
            .put("axial", parts.axial)
            .put("ballooning", parts.ballooning)
            .put("temperature_part", parts.temperature)
            .put("buckling", parts.buckling)
            .put("total", parts.total()))
    },
};

#[cfg(test)]
mod tests {
    use super::mean_compression;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_mean_of_the_compressed_part_is_its_integral(a in -1e5f64..1e5, b in -1e5f64..1e5) {
            let n = 20_000;
            let sum: f64 = (0..n)
                .map(|i| a + (b - a) * (f64::from(i) + 0.5) / f64::from(n))
                .map(|te| (-te).max(0.0))
                .sum();
            let numeric = sum / f64::from(n);
            prop_assert!((mean_compression(a, b) - numeric).abs() < 1e-3);
        }
    }
}
