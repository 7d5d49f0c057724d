//! The diameter of a swelling packer element, and the uptake at which it meets the hole.

use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Quantity, Ratio};

/// A packer element bonded to its pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Element {
    /// Outside diameter of the pipe under it.
    pub pipe: Diameter,
    /// Outside diameter, dry.
    pub outer: Diameter,
    /// Outside diameter when free and full.
    pub full: Diameter,
}

impl Element {
    /// Checked element: pipe, dry and full diameter grow in this order.
    pub fn new(pipe: Diameter, outer: Diameter, full: Diameter) -> Result<Self> {
        require_positive(NAME, "pipe", pipe)?;
        let hint = "Diameters are of the pipe, the dry element and the free, full element.";
        require(outer > pipe, NAME, "outer", outer, "above the pipe's diameter", hint)?;
        require(full > outer && full.is_finite(), NAME, "full", full, "above the dry diameter", hint)?;
        Ok(Self { pipe, outer, full })
    }

    /// Element whose full diameter follows from its volume ratio J.
    pub fn with_volume_ratio(pipe: Diameter, outer: Diameter, ratio: f64) -> Result<Self> {
        let full = (pipe.si().powi(2) + ratio * (outer.si().powi(2) - pipe.si().powi(2))).sqrt();
        Self::new(pipe, outer, Diameter::from_si(full))
    }

    /// Volume of the full over that of the dry element.
    pub fn volume_ratio(&self) -> f64 {
        // J_∞ = (b_∞² − a²)/(b0² − a²)
        self.full.ring(self.pipe) / self.outer.ring(self.pipe)
    }

    /// Outside diameter at a share of the final uptake.
    ///
    /// Equation: `b(t)² = a² + (b0² − a²)[1 + (J_∞ − 1) φ]`, `J_∞ = (b_∞² − a²)/(b0² − a²)`.
    ///
    /// Symbols: a pipe, b0 dry, b_∞ full and free, b(t) present radius m (or all diameters); φ
    /// share of the final uptake.
    ///
    /// Range: exact where volumes add and the length is kept by bonding and end rings.
    ///
    /// Where it breaks: the diameter does not grow in proportion to the uptake. A volume ratio
    /// from a free coupon overstates the diameter, since a coupon swells in three directions. A
    /// share outside 0 to 1 is refused.
    ///
    /// Source: cai2010 (bonded element, incompressible network and fluid).
    ///
    /// ```
    /// use physics::packer::swell_diameter::Element;
    /// use quantity::Diameter;
    /// let d = Diameter::inch;
    /// let element = Element::new(d(4.5), d(5.75), d(6.9))?;
    /// assert!((element.volume_ratio() - 2.135415).abs() < 1e-6);
    /// assert!((element.at(0.5)?.in_inch() - 6.3511).abs() < 1e-4);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn at(&self, uptake: f64) -> Result<Diameter> {
        let inside = (0.0..=1.0).contains(&uptake);
        require(inside, NAME, "uptake", Ratio::of(uptake), "0 to 1", "It is a share of the final uptake.")?;
        let (a2, b2) = (self.pipe.si().powi(2), self.outer.si().powi(2));
        // b(t)² = a² + (b0² − a²)[1 + (J_∞ − 1) φ]
        let b = a2 + (b2 - a2) * (1.0 + (self.volume_ratio() - 1.0) * uptake);
        Ok(Diameter::from_si(b.sqrt()))
    }

    /// Share of the final uptake at which the element meets a hole.
    ///
    /// Equation: `φ_c = [ (r_h² − a²)/(b0² − a²) − 1 ]/(J_∞ − 1)`.
    ///
    /// Symbols: r_h hole radius m, others as in [`Element::at`].
    ///
    /// Range: hole at or above the dry diameter.
    ///
    /// Where it breaks: 1 or more means it never meets the hole. An element off the middle
    /// must close up to twice the gap on one side. A hole below the dry diameter is refused.
    ///
    /// Source: cai2010 (same balance as the diameter).
    ///
    /// ```
    /// use physics::packer::swell_diameter::Element;
    /// use quantity::Diameter;
    /// let d = Diameter::inch;
    /// let element = Element::new(d(4.5), d(5.75), d(6.9))?;
    /// assert!((element.contact(d(6.125))? - 0.30611).abs() < 1e-5);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn contact(&self, hole: Diameter) -> Result<f64> {
        let limit = "the dry diameter or more";
        let fits = hole >= self.outer && hole.is_finite();
        require(fits, "contact_uptake", "hole", hole, limit, "The element does not enter this hole.")?;
        // φ_c = [ (r_h² − a²)/(b0² − a²) − 1 ]/(J_∞ − 1)
        Ok((hole.ring(self.pipe) / self.outer.ring(self.pipe) - 1.0) / (self.volume_ratio() - 1.0))
    }
}

const NAME: &str = "swell_diameter";

/// `swell_diameter` in the register.
pub static SWELL_DIAMETER: Relation = Relation {
    name: NAME,
    title: "Outside diameter of a bonded element at a share of its final uptake",
    equation: "b(t)² = a² + (b0² − a²)[1 + (J_∞ − 1) φ];  J_∞ = (b_∞² − a²)/(b0² − a²)",
    source: "cai2010, volume balance of a bonded element",
    range: "volumes add, length kept by bonding and end rings",
    inputs: &[
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::new::<Diameter>("full", "outside diameter of the free, full element"),
        Input::new::<Ratio>("uptake", "share of the final uptake"),
    ],
    outputs: &[
        Output::new::<Diameter>("diameter", "outside diameter"),
        Output::new::<Ratio>("volume_ratio", "volume of the full over that of the dry element"),
    ],
    evaluate: |a| {
        let element = Element::new(a.get("pipe")?, a.get("outer")?, a.get("full")?)?;
        let diameter = element.at(a.number("uptake")?)?;
        Ok(Outputs::new().put("diameter", diameter).put("volume_ratio", Ratio::of(element.volume_ratio())))
    },
};

/// `contact_uptake` in the register.
pub static CONTACT_UPTAKE: Relation = Relation {
    name: "contact_uptake",
    title: "Share of its final uptake at which an element meets the hole",
    equation: "φ_c = [ (r_h² − a²)/(b0² − a²) − 1 ]/(J_∞ − 1)",
    source: "cai2010, volume balance of a bonded element",
    range: "hole at or above the dry diameter; 1 or more means it never meets",
    inputs: &[
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::new::<Diameter>("full", "outside diameter of the free, full element"),
        Input::new::<Diameter>("hole", "hole diameter, from a caliper"),
    ],
    outputs: &[
        Output::new::<Ratio>("uptake", "share of the final uptake at contact"),
        Output::new::<Ratio>("meets", "1 if the element meets the hole, 0 if never"),
    ],
    evaluate: |a| {
        let element = Element::new(a.get("pipe")?, a.get("outer")?, a.get("full")?)?;
        let uptake = element.contact(a.get("hole")?)?;
        let meets = if uptake < 1.0 { 1.0 } else { 0.0 };
        Ok(Outputs::new().put("uptake", Ratio::of(uptake)).put("meets", Ratio::of(meets)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        #[test]
        fn diameter_and_contact_are_inverse(pipe in 2.0f64..6.0, wall in 0.2f64..2.0, grow in 0.05f64..2.0,
                                            uptake in 0.0f64..1.0) {
            let d = Diameter::inch;
            let e = Element::new(d(pipe), d(pipe + wall), d(pipe + wall + grow)).unwrap();
            let hole = e.at(uptake).unwrap().max(e.outer);
            proptest::prop_assert!((e.contact(hole).unwrap() - uptake).abs() < 1e-9);
            let same = Element::with_volume_ratio(e.pipe, e.outer, e.volume_ratio()).unwrap();
            proptest::prop_assert!((same.full / e.full - 1.0).abs() < 1e-12);
        }
    }
}
