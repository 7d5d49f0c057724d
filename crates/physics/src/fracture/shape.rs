//! The three forms of a fracture as power laws of its length; numbers in SI.

use super::kgd;
use super::pkn::{LEVEL_SHAPE, PknProfile};
use super::radial::VISCOSITY_COEFFICIENT;
use quantity::{Length, Pressure, Quantity, Toughness};
use std::f64::consts::PI;

/// Form of a fracture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Geometry {
    /// Long, of constant height, two wings.
    Pkn {
        /// Height.
        height: Length,
        /// Flow along the wing.
        profile: PknProfile,
    },
    /// Short and high, the same over its height, two wings.
    Kgd {
        /// Height.
        height: Length,
    },
    /// A penny.
    Radial,
}

/// Power laws of one fracture, `L` the length of a wing or the radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shape {
    /// Area of one face, all wings: `A = B L^m`.
    pub face: f64,
    pub face_power: i32,
    /// Mean width while the fluid's viscosity holds it: `W⁴ = G µ Q L^k`, `Q` the whole rate.
    pub viscous: f64,
    pub viscous_power: i32,
    /// Mean width while the rock's toughness holds it: `w_k = c L^j`, j 0 or ½.
    pub tough: f64,
    pub tough_root: bool,
    /// Mean pressure over mean width: `p̄ = s L^(−l) w̄`, l 0 or 1.
    pub stiff: f64,
    pub stiff_falls: bool,
    /// Greatest width over the pressure at the well: `w = L^l p/e`, l as above.
    pub mouth: f64,
    /// Pressure at the well over mean pressure while it grows, less one.
    pub excess: f64,
}

impl Geometry {
    pub(super) fn shape(&self, modulus: Pressure, toughness: Toughness) -> Shape {
        let (e, k) = (modulus.si(), toughness.si());
        match *self {
            Self::Pkn { height, profile } => {
                let h = height.si();
                Shape {
                    face: 2.0 * h,
                    face_power: 1,
                    // w̄⁴ = (s C)⁴ µ (Q/2) L/E'
                    viscous: (profile.shape() * profile.coefficient()).powi(4) / (2.0 * e),
                    viscous_power: 1,
                    // p = 2 K/√(π h), w̄ = π h p/(2 E')
                    tough: k * (PI * h).sqrt() / e,
                    tough_root: false,
                    stiff: 2.0 * e / (PI * h),
                    stiff_falls: false,
                    mouth: 2.0 * h / e,
                    // pressure ~ width along the wing: (π/4)/s − 1
                    excess: LEVEL_SHAPE / profile.shape() - 1.0,
                }
            }
            Self::Kgd { height } => Shape {
                face: 2.0 * height.si(),
                face_power: 1,
                // w̄⁴ = (s C)⁴ µ (Q/2) L²/(E' h)
                viscous: (kgd::SHAPE * kgd::WIDTH_COEFFICIENT).powi(4) / (2.0 * e * height.si()),
                viscous_power: 2,
                // p = K/√(π L), w̄ = π L p/E'
                tough: k * PI.sqrt() / e,
                tough_root: true,
                stiff: e / PI,
                stiff_falls: true,
                mouth: 4.0 / e,
                excess: 0.0,
            },
            Self::Radial => Shape {
                face: PI,
                face_power: 2,
                // Q t = π R² w̄ at R = γ (Q³ E' t⁴/(12 µ))^(1/9):  w̄⁴ = 12 µ Q R/(E' γ⁹ π⁴)
                viscous: 12.0 / (e * VISCOSITY_COEFFICIENT.powi(9) * PI.powi(4)),
                viscous_power: 1,
                // p = K √π/(2 √R), w̄ = 16 R p/(3 π E')
                tough: 8.0 * k / (3.0 * PI.sqrt() * e),
                tough_root: true,
                stiff: 3.0 * PI * e / 16.0,
                stiff_falls: true,
                mouth: 8.0 / (PI * e),
                excess: 0.0,
            },
        }
    }
}

impl Shape {
    /// Area of one face, all wings.
    pub fn area(&self, length: f64) -> f64 {
        self.face * if self.face_power == 1 { length } else { length * length }
    }

    /// Power of the length in which the growth is marched: `4 m + k`.
    pub fn power(&self) -> i32 {
        4 * self.face_power + self.viscous_power
    }

    /// The length to that power.
    pub fn marched(&self, length: f64) -> f64 {
        let fourth = (length * length) * (length * length);
        match self.power() {
            5 => fourth * length,
            6 => fourth * (length * length),
            power => fourth * length.powi(power - 4),
        }
    }

    /// Mean width to the fourth at which toughness alone holds the fracture.
    pub fn tough_fourth(&self, length: f64) -> f64 {
        let root = if self.tough_root { length * length } else { 1.0 };
        (self.tough * self.tough) * (self.tough * self.tough) * root
    }

    /// Mean width to the fourth that the flow needs.
    pub fn viscous_fourth(&self, flow: f64, length: f64) -> f64 {
        self.viscous * flow * length.powi(self.viscous_power)
    }

    /// Mean pressure of a mean width.
    pub fn pressure(&self, mean_width: f64, length: f64) -> f64 {
        let per = if self.stiff_falls { self.stiff / length } else { self.stiff };
        per * mean_width
    }

    /// Greatest width of a pressure at the well.
    pub fn mouth_width(&self, pressure: f64, length: f64) -> f64 {
        let per = if self.stiff_falls { self.mouth * length } else { self.mouth };
        per * pressure
    }
}
