//! Uptake of fluid by a packer element: a hollow cylinder bonded to the pipe, wet outside.

use super::sheet_uptake;
use crate::error::{require, require_not_negative, require_positive};
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Diffusivity, Length, Quantity, Ratio, Time};
use std::f64::consts::PI;

/// Below this `D t / h²` the short-time form is used; both agree there to 1e-8.
const HAND_OVER: f64 = 0.01;
/// Terms of the series: the last is below 1e-20 at the hand-over.
const TERMS: u32 = 24;
/// Thinner than this (outer over inner diameter, less one) the element is a plane sheet.
const THIN: f64 = 1e-4;

/// The uptake of one element geometry, its series made ready.
#[derive(Debug, Clone)]
pub struct CylinderUptake {
    /// Thickness b − a, m.
    thickness: f64,
    /// Outer radius b over thickness.
    outer: f64,
    /// `(α h)²` and weight of each term; empty for a plane sheet.
    terms: Vec<(f64, f64)>,
}

impl CylinderUptake {
    /// Of a bonded element between pipe and outer diameter.
    pub fn new(pipe: Diameter, outer: Diameter) -> Result<Self> {
        require_positive(NAME, "pipe", pipe)?;
        let hint = "The element is the ring between pipe and outer diameter.";
        require(outer > pipe && outer.is_finite(), NAME, "outer", outer, "above the pipe's diameter", hint)?;
        let thickness = 0.5 * (outer - pipe).si();
        let b = 0.5 * outer.si() / thickness;
        let a = 0.5 * pipe.si() / thickness;
        let terms = if outer / pipe - 1.0 < THIN {
            Vec::new()
        } else {
            (1..=TERMS).map(|n| term(a, b, n)).collect::<Option<_>>().ok_or_else(no_root)?
        };
        Ok(Self { thickness, outer: b, terms })
    }

    /// Share of the final uptake after a time.
    pub fn uptake(&self, diffusivity: Diffusivity, time: Time) -> Result<f64> {
        require_positive(NAME, "diffusivity", diffusivity)?;
        require_not_negative(NAME, "time", time)?;
        Ok(self.fraction(diffusivity.si() * time.si() / (self.thickness * self.thickness)))
    }

    /// Time to reach a share of the final uptake.
    pub fn time(&self, diffusivity: Diffusivity, uptake: f64) -> Result<Time> {
        require_positive(NAME, "diffusivity", diffusivity)?;
        let x = sheet_uptake::scaled_time("cylinder_uptake_time", uptake, |x| self.fraction(x))?;
        Ok(Time::seconds(x * self.thickness * self.thickness / diffusivity.si()))
    }

    /// The uptake at `x = D t / h²`, x not negative.
    pub fn fraction(&self, x: f64) -> f64 {
        if self.terms.is_empty() {
            return sheet_uptake::fraction(x);
        }
        if x <= HAND_OVER {
            return self.short_time(x);
        }
        // φ = 1 − Σ weight exp(−α² D t)
        1.0 - self.terms.iter().map(|(square, weight)| weight * (-square * x).exp()).sum::<f64>()
    }

    /// Short-time form, while the inner wall is not felt.
    fn short_time(&self, x: f64) -> f64 {
        let b = self.outer;
        let r = x.sqrt() / b;
        // φ = b²/(b² − a²) [4 √(τ/π) − τ − τ^1.5/(3√π) − τ²/8 − ...],  τ = D t / b²
        let s = PI.sqrt();
        let solid = r * (4.0 / s - r * (1.0 + r * (1.0 / (3.0 * s) + r * (0.125 + r * 5.0 / (24.0 * s)))));
        // b² / (b² − a²) with b − a = 1
        solid * b * b / (2.0 * b - 1.0)
    }
}

/// `(α h)²` and weight of term `n`, radii in units of the thickness.
fn term(a: f64, b: f64, n: u32) -> Option<(f64, f64)> {
    let f =
        |alpha: f64| libm::j0(alpha * b) * libm::y1(alpha * a) - libm::y0(alpha * b) * libm::j1(alpha * a);
    // α_n h lies between (n − ½)π, the plane sheet's root, and nπ
    let sheet = (f64::from(n) - 0.5) * PI;
    let alpha = brent(f, sheet, f64::from(n) * PI, 1e-14)?;
    // u1(b) = J1(αb) Y1(αa) − Y1(αb) J1(αa);  u(a) = −2/(παa)
    let u1 = libm::j1(alpha * b) * libm::y1(alpha * a) - libm::y1(alpha * b) * libm::j1(alpha * a);
    let ua = 2.0 / (PI * alpha * a);
    let (bu, au) = (b * b * u1 * u1, a * a * ua * ua);
    // weight = 4 b² u1² / {α² (b² − a²) [b² u1² − a² u(a)²]}
    Some((alpha * alpha, 4.0 * bu / (alpha * alpha * (b * b - a * a) * (bu - au))))
}

fn no_root() -> Error {
    Error::NoSolution {
        relation: NAME,
        what: "a root of the series was not found".into(),
        hint: "Check pipe and outer diameter.",
    }
}

/// Share of its final uptake a bonded packer element has taken up after a time, constant
/// diffusivity, wet on its outer face alone.
///
/// Equation: `φ = 1 − Σ 4b² u1(b)² / {α_n² (b² − a²) [b² u1(b)² − a² u(a)²]} exp(−α_n² D t)`
/// over the roots of `J0(αb) Y1(αa) − Y0(αb) J1(αa) = 0`, with
/// `u1(b) = J1(αb) Y1(αa) − Y1(αb) J1(αa)` and `u(a) = −2/(π α a)`; at short time
/// `φ = b²/(b² − a²) [4 √(τ/π) − τ − τ^1.5/(3√π) − ...]`, `τ = D t/b²`.
///
/// Symbols: a pipe radius m, b outer radius m, D diffusivity m²/s, t time s; φ a pure number.
///
/// Range: none stated by the source; constant D and dry geometry.
///
/// Where it breaks: end faces are taken as blocked by the end rings (see
/// [`open_end_uptake`]); a swelling element thickens, so a fitted D belongs to its test. Below
/// an outer diameter of 1.0001 times the pipe's the plane sheet is used.
///
/// Source: crank1975 ch. 5 (hollow cylinder), carslaw_jaeger1959 sec. 13.4 (sealed inner wall).
///
/// ```
/// use physics::packer::cylinder_uptake::CylinderUptake;
/// use quantity::{Diameter, Diffusivity, Time};
/// let element = CylinderUptake::new(Diameter::mm(100.0), Diameter::mm(150.0))?;
/// // h = 25 mm, D t / h² = 0.2
/// let phi = element.uptake(Diffusivity::m2_per_s(1e-10), Time::seconds(1.25e6))?;
/// assert!((phi - 0.56370).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn cylinder_uptake(pipe: Diameter, outer: Diameter, diffusivity: Diffusivity, time: Time) -> Result<f64> {
    CylinderUptake::new(pipe, outer)?.uptake(diffusivity, time)
}

/// Share of its final uptake an element wet on its end faces too has taken up.
///
/// Equation: `1 − φ = (1 − φ_r)(1 − φ_l)`, φ_l that of a sheet of half-thickness `L/2`.
///
/// Symbols: φ_r uptake through the outer face alone, φ_l uptake through the end faces alone, L
/// element length m; pure numbers.
///
/// Range: exact for constant D and a box of product form.
///
/// Where it breaks: end faces half covered by rings lie between this and the blocked case.
///
/// Source: crank1975 ch. 2 and 4 (product of one-dimensional solutions).
///
/// ```
/// use physics::packer::cylinder_uptake::open_end_uptake;
/// use quantity::{Diffusivity, Length, Time};
/// let phi = open_end_uptake(0.5, Length::m(0.5), Diffusivity::m2_per_s(1e-10), Time::days(10.0))?;
/// assert!((phi - 0.520977).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn open_end_uptake(radial: f64, length: Length, diffusivity: Diffusivity, time: Time) -> Result<f64> {
    let inside = (0.0..=1.0).contains(&radial);
    let hint = "Give the uptake through the outer face.";
    require(inside, "open_end_uptake", "uptake", Ratio::of(radial), "0 to 1", hint)?;
    let ends = sheet_uptake::sheet_uptake(length.diameter() * 0.5, diffusivity, time)?;
    // 1 − φ = (1 − φ_r)(1 − φ_l)
    Ok(1.0 - (1.0 - radial) * (1.0 - ends))
}

const NAME: &str = "cylinder_uptake";

/// `cylinder_uptake` in the register.
pub static CYLINDER_UPTAKE: Relation = Relation {
    name: NAME,
    title: "Share of its final uptake a bonded packer element has taken up after a time",
    equation: "φ = 1 − Σ 4b² u1(b)²/{α² (b²−a²) [b² u1(b)² − a² u(a)²]} e^(−α² D t);  J0(αb) Y1(αa) = Y0(αb) J1(αa)",
    source: "crank1975 ch. 5; carslaw_jaeger1959 sec. 13.4",
    range: "none stated by the source; constant diffusivity, blocked ends",
    inputs: &[
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity of the fluid in the rubber"),
        Input::new::<Time>("time", "time wet"),
    ],
    outputs: &[Output::new::<Ratio>("uptake", "share of the final uptake")],
    evaluate: |a| {
        let (pipe, outer) = (a.get("pipe")?, a.get("outer")?);
        let uptake = cylinder_uptake(pipe, outer, a.get("diffusivity")?, a.get("time")?)?;
        Ok(Outputs::new().put("uptake", Ratio::of(uptake)))
    },
};

/// `cylinder_uptake_time` in the register.
pub static CYLINDER_UPTAKE_TIME: Relation = Relation {
    name: "cylinder_uptake_time",
    title: "Time a bonded packer element takes to reach a share of its final uptake",
    equation: "cylinder_uptake solved for t",
    source: "crank1975 ch. 5; carslaw_jaeger1959 sec. 13.4",
    range: "uptake from 0 to below 1",
    inputs: &[
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity of the fluid in the rubber"),
        Input::new::<Ratio>("uptake", "share of the final uptake"),
    ],
    outputs: &[Output::new::<Time>("time", "time wet")],
    evaluate: |a| {
        let element = CylinderUptake::new(a.get("pipe")?, a.get("outer")?)?;
        Ok(Outputs::new().put("time", element.time(a.get("diffusivity")?, a.number("uptake")?)?))
    },
};

/// `open_end_uptake` in the register.
pub static OPEN_END_UPTAKE: Relation = Relation {
    name: "open_end_uptake",
    title: "Uptake of an element wet on its end faces too",
    equation: "1 − φ = (1 − φ_r)(1 − φ_l)",
    source: "crank1975 ch. 2, 4",
    range: "constant diffusivity",
    inputs: &[
        Input::new::<Ratio>("radial", "uptake through the outer face alone"),
        Input::new::<Length>("length", "element length"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity of the fluid in the rubber"),
        Input::new::<Time>("time", "time wet"),
    ],
    outputs: &[Output::new::<Ratio>("uptake", "share of the final uptake")],
    evaluate: |a| {
        let (length, diffusivity) = (a.get("length")?, a.get("diffusivity")?);
        let uptake = open_end_uptake(a.number("radial")?, length, diffusivity, a.get("time")?)?;
        Ok(Outputs::new().put("uptake", Ratio::of(uptake)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn element(ratio: f64) -> CylinderUptake {
        CylinderUptake::new(Diameter::m(1.0), Diameter::m(ratio)).unwrap()
    }

    #[test]
    fn the_two_forms_meet_for_every_thickness() {
        for ratio in [1.0002, 1.01, 1.1, 1.278, 1.5, 2.0, 5.0, 50.0, 1000.0] {
            let e = element(ratio);
            let (below, above) = (e.fraction(HAND_OVER), e.fraction(HAND_OVER * (1.0 + 1e-15)));
            assert!((below - above).abs() < 1e-6, "{ratio}: {below} {above}");
            let all: f64 = e.terms.iter().map(|(_, w)| w).sum();
            // What TERMS terms miss at t = 0 falls as 1/TERMS.
            assert!((0.96..1.0).contains(&all), "{ratio}: {all}");
        }
    }

    #[test]
    fn first_roots() {
        // α_n h, worked apart with 200 terms and checked by finite differences.
        for (ratio, roots) in [
            (1.10, [1.601_261, 4.722_733, 7.860_198]),
            (1.278, [1.649_593, 4.740_080, 7.870_673]),
            (2.00, [1.794_011, 4.802_061, 7.908_962]),
        ] {
            for ((square, _), root) in element(ratio).terms.iter().zip(roots) {
                assert!((square.sqrt() - root).abs() < 1e-6, "{ratio}");
            }
        }
    }

    #[test]
    fn thin_elements_are_sheets_and_thick_ones_solid_cylinders() {
        for x in [1e-3, 0.05, 0.4] {
            assert!((element(1.000_2).fraction(x) / sheet_uptake::fraction(x) - 1.0).abs() < 2e-4);
        }
        // Solid cylinder: first root of J0, 2.404826, on the outer radius.
        let e = element(1e4);
        let root = e.terms.first().unwrap().0.sqrt() * e.outer;
        assert!((root - 2.404_826).abs() < 1e-3, "{root}");
    }

    proptest::proptest! {
        #[test]
        fn grows_with_time_and_never_overfills(ratio in 1.001f64..4.0, x in 1e-7f64..5.0) {
            let e = element(ratio);
            let phi = e.fraction(x);
            proptest::prop_assert!(phi > 0.0 && phi < 1.0 && e.fraction(1.02 * x) > phi);
            let back = sheet_uptake::scaled_time("t", phi, |x| e.fraction(x)).unwrap();
            proptest::prop_assert!((back / x - 1.0).abs() < 1e-5);
        }
    }
}
