//! Elastic line contact of a ball on a conical seat.

use super::contact::BALL;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, ForcePerLength, Length, Pressure, Quantity, Ratio};
use std::f64::consts::PI;

const NAME: &str = "hertz_line";

/// Elastic constants of one body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elastic {
    /// Young's modulus.
    pub modulus: Pressure,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Elastic line contact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineContact {
    /// Greatest contact pressure.
    pub peak: Pressure,
    /// Half the width of the contact band.
    pub half_width: Length,
    /// Contact modulus `E*`.
    pub modulus: Pressure,
}

/// Contact modulus of two bodies, `1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2`.
fn contact_modulus(bodies: [Elastic; 2]) -> Result<Pressure> {
    let mut compliance = 0.0;
    for body in bodies {
        require_positive(NAME, "modulus", body.modulus)?;
        require(
            body.poisson > -1.0 && body.poisson <= 0.5,
            NAME,
            "poisson",
            Ratio::of(body.poisson),
            "above -1 and at most 0.5",
            "Check Poisson's ratio.",
        )?;
        compliance += (1.0 - body.poisson * body.poisson) / body.modulus.si();
    }
    Ok(Pressure::from_si(1.0 / compliance))
}

/// Elastic line contact of a sphere in a cone: greatest pressure and half-width.
///
/// ```text
/// p0 = sqrt(q E* / (pi R)),  b = sqrt(4 q R / (pi E*)),  R = Db/2
/// 1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2
/// ```
///
/// - `q` line load normal to the ball, N/m ([`super::contact::seat_contact`]); `Db` ball diameter, m
/// - `E` Young's modulus, Pa; `nu` Poisson's ratio; `E*` contact modulus, Pa
/// - `p0` greatest contact pressure, Pa; `b` half-width of the band, m
///
/// Range: none stated by the source; elastic, `b` small against `R` and against the cone.
///
/// Where it breaks: at treating pressure `p0` is far above the strength of a composite ball and the
/// band is wider than the shelf, so the contact is plastic and only the projected bearing stress
/// means anything. Use it to see up to what load a contact stays elastic
/// ([`elastic_line_load`]). It does not hold on a bore edge, whose radius is not known.
///
/// Source: johnson_1985 ch. 4, line contact.
///
/// ```
/// use physics::ball::hertz::{Elastic, hertz_line};
/// use quantity::*;
/// let ball = Elastic { modulus: Pressure::psi(3e6), poisson: 0.2 };
/// let steel = Elastic { modulus: Pressure::psi(30e6), poisson: 0.3 };
/// let c = hertz_line(ForcePerLength::lbf_per_in(13_737.0), Diameter::inch(2.0), [ball, steel])?;
/// assert!((c.half_width.in_inch() - 0.078).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hertz_line(line_load: ForcePerLength, ball: Diameter, bodies: [Elastic; 2]) -> Result<LineContact> {
    require_not_negative(NAME, "line_load", line_load)?;
    require_positive(NAME, "ball", ball)?;
    let modulus = contact_modulus(bodies)?;
    let (q, r, e) = (line_load.si(), 0.5 * ball.si(), modulus.si());
    Ok(LineContact {
        // p0 = sqrt(q E* / (pi R))
        peak: Pressure::from_si(libm::sqrt(q * e / (PI * r))),
        // b = sqrt(4 q R / (pi E*))
        half_width: Length::from_si(libm::sqrt(4.0 * q * r / (PI * e))),
        modulus,
    })
}

/// Line load at which a line contact first yields below its surface.
///
/// ```text
/// q_Y = pi R (1.67 Y)^2 / E*
/// ```
///
/// - `Y` yield stress in simple tension or compression, Pa; other symbols as in [`hertz_line`]
///
/// Range: Tresca's condition, plane strain; the factor is printed to three digits.
///
/// Where it breaks: laminates and brittle composites do not yield; take it as the load above which
/// an elastic contact pressure says nothing.
///
/// Source: johnson_1985 ch. 6, `p0 = 1.67 Y`.
///
/// ```
/// use physics::ball::hertz::{Elastic, elastic_line_load};
/// use quantity::*;
/// let ball = Elastic { modulus: Pressure::psi(3e6), poisson: 0.2 };
/// let steel = Elastic { modulus: Pressure::psi(30e6), poisson: 0.3 };
/// let q = elastic_line_load(Pressure::ksi(60.0), Diameter::inch(2.0), [ball, steel])?;
/// assert!((q.in_lbf_per_in() - 11_050.1).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn elastic_line_load(strength: Pressure, ball: Diameter, bodies: [Elastic; 2]) -> Result<ForcePerLength> {
    require_not_negative(NAME, "strength", strength)?;
    require_positive(NAME, "ball", ball)?;
    let e = contact_modulus(bodies)?.si();
    // p0 = 1.67 Y, q = pi R p0^2 / E*
    let p0 = 1.67 * strength.si();
    Ok(ForcePerLength::from_si(PI * 0.5 * ball.si() * p0 * p0 / e))
}

const BALL_MODULUS: Input = Input::new::<Pressure>("ball_modulus", "Young's modulus of the ball");
const BALL_POISSON: Input = Input::new::<Ratio>("ball_poisson", "Poisson's ratio of the ball");
const SEAT_MODULUS: Input =
    Input::new::<Pressure>("seat_modulus", "Young's modulus of the seat").or("30e6 psi");
const SEAT_POISSON: Input = Input::new::<Ratio>("seat_poisson", "Poisson's ratio of the seat").or("0.3");

fn bodies(a: &crate::Arguments) -> Result<[Elastic; 2]> {
    Ok([
        Elastic { modulus: a.get("ball_modulus")?, poisson: a.number("ball_poisson")? },
        Elastic { modulus: a.get("seat_modulus")?, poisson: a.number("seat_poisson")? },
    ])
}

/// Register entry of [`hertz_line`].
pub static HERTZ_LINE: Relation = Relation {
    name: NAME,
    title: "Elastic line contact of a ball in a conical seat: a check for low loads only",
    equation: "p0 = sqrt(q E*/(pi R)), b = sqrt(4 q R/(pi E*)), 1/E* = sum (1 - nu^2)/E",
    source: "johnson_1985 ch. 4, line contact",
    range: "elastic; not at treating pressure, not on a bore edge",
    inputs: &[
        Input::new::<ForcePerLength>("line_load", "contact force per length, normal to the ball"),
        BALL,
        BALL_MODULUS,
        BALL_POISSON,
        SEAT_MODULUS,
        SEAT_POISSON,
    ],
    outputs: &[
        Output::new::<Pressure>("peak", "greatest contact pressure"),
        Output::new::<Length>("half_width", "half the width of the contact band"),
        Output::new::<Pressure>("modulus", "contact modulus"),
    ],
    evaluate: |a| {
        let c = hertz_line(a.get("line_load")?, a.get("ball")?, bodies(a)?)?;
        Ok(Outputs::new().put("peak", c.peak).put("half_width", c.half_width).put("modulus", c.modulus))
    },
};

/// Register entry of [`elastic_line_load`].
pub static ELASTIC_LINE_LOAD: Relation = Relation {
    name: "elastic_line_load",
    title: "Line load at first yield of a ball in a conical seat",
    equation: "q_Y = pi R (1.67 Y)^2 / E*",
    source: "johnson_1985 ch. 6, p0 = 1.67 Y",
    range: "Tresca's condition, plane strain",
    inputs: &[
        Input::new::<Pressure>("strength", "yield stress of the weaker body"),
        BALL,
        BALL_MODULUS,
        BALL_POISSON,
        SEAT_MODULUS,
        SEAT_POISSON,
    ],
    outputs: &[Output::new::<ForcePerLength>("line_load", "line load at first yield")],
    evaluate: |a| {
        let q = elastic_line_load(a.get("strength")?, a.get("ball")?, bodies(a)?)?;
        Ok(Outputs::new().put("line_load", q))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    /// The half-ellipse of pressure carries the line load: `pi b p0 / 2 = q`.
    #[test]
    fn pressure_carries_the_load() {
        let bodies = [
            Elastic { modulus: Pressure::psi(3e6), poisson: 0.2 },
            Elastic { modulus: Pressure::psi(30e6), poisson: 0.3 },
        ];
        let q = ForcePerLength::lbf_per_in(2_000.0);
        let c = hertz_line(q, Diameter::inch(2.5), bodies).unwrap();
        assert!((PI * c.half_width.si() * c.peak.si() / 2.0 / q.si() - 1.0).abs() < 1e-12);
        let at_yield = elastic_line_load(Pressure::ksi(40.0), Diameter::inch(2.5), bodies).unwrap();
        let peak = hertz_line(at_yield, Diameter::inch(2.5), bodies).unwrap().peak;
        assert!((peak.in_ksi() / 66.8 - 1.0).abs() < 1e-12);
        let soft = [Elastic { modulus: Pressure::psi(3e6), poisson: 0.6 }, bodies[1]];
        assert!(hertz_line(q, Diameter::inch(2.5), soft).is_err());
    }
}
