//! A tube by its outer diameter and wall: areas, slenderness and inertia, checked once.

use crate::error::{Result, require, require_positive};
use quantity::{Area, Diameter, Force, Pressure, Quantity};

/// A round tube with its wall inside the outer diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    outer: Diameter,
    wall: Diameter,
}

impl Tube {
    /// From outer diameter and wall; refused unless `0 < 2 wall < outer`.
    pub fn new(relation: &'static str, outer: Diameter, wall: Diameter) -> Result<Self> {
        require_positive(relation, "outer", outer)?;
        require_positive(relation, "wall", wall)?;
        let hint = "Check that wall and diameter are in the units meant.";
        require(
            2.0 * wall.si() < outer.si(),
            relation,
            "wall",
            wall,
            "less than half the outer diameter",
            hint,
        )?;
        Ok(Self { outer, wall })
    }

    /// From outer and inner diameter; refused unless `0 < inner < outer`.
    pub fn bored(relation: &'static str, outer: Diameter, inner: Diameter) -> Result<Self> {
        require_positive(relation, "outer", outer)?;
        require_positive(relation, "inner", inner)?;
        let hint = "Check that the two diameters are not exchanged.";
        require(inner.si() < outer.si(), relation, "inner", inner, "less than the outer diameter", hint)?;
        Ok(Self { outer, wall: (outer - inner) / 2.0 })
    }

    /// Outer diameter D.
    pub fn outer(self) -> Diameter {
        self.outer
    }

    /// Wall t.
    pub fn wall(self) -> Diameter {
        self.wall
    }

    /// Inner diameter d = D - 2t.
    pub fn inner(self) -> Diameter {
        self.outer - self.wall * 2.0
    }

    /// Slenderness D/t.
    pub fn slenderness(self) -> f64 {
        self.outer / self.wall
    }

    /// Cross-section of the steel, As.
    pub fn steel_area(self) -> Area {
        self.outer.ring(self.inner())
    }

    /// Area inside, Ai.
    pub fn inside_area(self) -> Area {
        self.inner().circle()
    }

    /// Area of the outer circle, Ao.
    pub fn outside_area(self) -> Area {
        self.outer.circle()
    }

    /// Force of an inside and an outside pressure on the closed ends of the tube, Pi Ai - Po Ao.
    pub fn end_force(self, inside: Pressure, outside: Pressure) -> Force {
        inside * self.inside_area() - outside * self.outside_area()
    }

    /// Axial stiffness E As, N.
    pub fn stiffness(self, modulus: Pressure) -> f64 {
        modulus.si() * self.steel_area().si()
    }

    /// Second moment of area, I = pi/64 (D^4 - d^4), m^4.
    pub fn inertia(self) -> f64 {
        let (d_o, d_i) = (self.outer.si(), self.inner().si());
        std::f64::consts::PI / 64.0 * (d_o.powi(4) - d_i.powi(4))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_is_no_tube() {
        let inch = Diameter::inch;
        assert!(Tube::new("t", inch(4.5), inch(2.25)).is_err());
        assert!(Tube::new("t", inch(-4.5), inch(0.2)).is_err());
        assert!(Tube::bored("t", inch(4.0), inch(4.5)).is_err());
        assert!(Tube::bored("t", Diameter::from_si(f64::NAN), inch(4.0)).is_err());
        let tube = Tube::bored("t", inch(4.5), inch(4.0)).unwrap();
        assert!((tube.wall().in_inch() - 0.25).abs() < 1e-12);
        assert!((tube.slenderness() - 18.0).abs() < 1e-9);
    }
}
