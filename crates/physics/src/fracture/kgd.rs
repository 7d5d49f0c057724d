//! The short, high fracture with slip at its edges (KGD): width, pressure and growth.

use super::drive::{Drive, HEIGHT, MEAN_WIDTH, MODULUS, NET_PRESSURE, Opening, VISCOSITY, WIDTH, WING_RATE};
use crate::error::{Result, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Length, Pressure, Quantity, Time};
use std::f64::consts::FRAC_PI_4;

/// Width coefficient as printed (geertsma_deklerk1969); (336/π)^¼ = 3.216 is the same rounded.
pub const WIDTH_COEFFICIENT: f64 = 3.22;
/// Mean width over greatest width: an ellipse along the length.
pub const SHAPE: f64 = FRAC_PI_4;

/// Width and net pressure of a plane fracture, the same over its height, at a length (one wing).
///
/// Equation: `w = 3.22 (µ i x_f²/(E' h))^¼`, `w̄ = (π/4) w`, `p = E' w/(4 x_f)`.
///
/// Symbols: `w` greatest width m, `w̄` mean width m, `p` net pressure Pa, `µ` viscosity Pa.s, `i`
/// rate into one wing m³/s, `x_f` length of the wing m, `E'` plane-strain modulus Pa, `h` height m.
///
/// Range: none stated; a wing shorter than the height.
///
/// Where it breaks: on a wing longer than the height the width is too large and the pressure
/// falls where it should rise. Arguments not above zero are refused.
///
/// Source: geertsma_deklerk1969; valko_economides1995.
///
/// ```
/// use physics::fracture::{drive::Drive, kgd::kgd_at_length};
/// use quantity::{FlowRate, Length, Pressure, Viscosity};
/// let drive = Drive {
///     modulus: Pressure::gpa(20.0),
///     height: Length::m(30.0),
///     viscosity: Viscosity::pa_s(0.2),
///     wing_rate: FlowRate::bbl_per_min(20.0),
/// };
/// let opening = kgd_at_length(&drive, Length::m(271.41))?;
/// assert!((opening.width.in_mm() - 19.34).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn kgd_at_length(drive: &Drive, length: Length) -> Result<Opening> {
    drive.check("kgd_at_length")?;
    require_positive("kgd_at_length", "length", length)?;
    let (e, x) = (drive.modulus.si(), length.si());
    let group = drive.viscosity.si() * drive.wing_rate.si() * x * x / (e * drive.height.si());
    // w = 3.22 (µ i x_f²/(E' h))^¼
    let w = WIDTH_COEFFICIENT * group.powf(0.25);
    Ok(Opening {
        length,
        width: Diameter::m(w),
        mean_width: Diameter::m(SHAPE * w),
        // p = E' w/(4 x_f)
        net_pressure: Pressure::pa(e * w / (4.0 * x)),
    })
}

/// Growth of a plane fracture, the same over its height, without leak-off (one wing).
///
/// Equation: `x_f = (s C)^(-2/3) (i³ E'/(µ h³))^(1/6) t^(2/3)`, with the width at that length.
///
/// Symbols as in [`kgd_at_length`]; `C` = 3.22, `s` = π/4, `t` time since the fracture began s.
///
/// Range: none stated; no leak-off, a wing shorter than the height.
///
/// Where it breaks: with leak-off the wing is shorter, see
/// [`super::coupled::coupled_leakoff`]; arguments not above zero are refused.
///
/// Source: geertsma_deklerk1969; valko_economides1995 prints 0.539, 2.36 and 1.09.
///
/// ```
/// use physics::fracture::{drive::Drive, kgd::kgd_no_leakoff};
/// use quantity::{FlowRate, Length, Pressure, Time, Viscosity};
/// let one = Drive {
///     modulus: Pressure::pa(1.0),
///     height: Length::m(1.0),
///     viscosity: Viscosity::pa_s(1.0),
///     wing_rate: FlowRate::m3_per_s(1.0),
/// };
/// let opening = kgd_no_leakoff(&one, Time::seconds(1.0))?;
/// assert!((opening.length.in_m() - 0.539).abs() < 0.0006);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn kgd_no_leakoff(drive: &Drive, time: Time) -> Result<Opening> {
    drive.check("kgd_no_leakoff")?;
    require_positive("kgd_no_leakoff", "time", time)?;
    let (i, h) = (drive.wing_rate.si(), drive.height.si());
    let group = i.powi(3) * drive.modulus.si() / (drive.viscosity.si() * h.powi(3));
    // x_f = (s C)^(-2/3) (i³ E'/(µ h³))^(1/6) t^(2/3)
    let lead = (SHAPE * WIDTH_COEFFICIENT).powf(-2.0 / 3.0);
    let length = lead * group.powf(1.0 / 6.0) * time.si().powf(2.0 / 3.0);
    kgd_at_length(drive, Length::m(length))
}

/// `kgd_at_length` in the register.
pub static KGD_AT_LENGTH: Relation = Relation {
    name: "kgd_at_length",
    title: "Width and net pressure of a plane fracture, the same over its height, at a length (one wing's rate)",
    equation: "w = 3.22 (µ i x_f²/(E' h))^(1/4), w̄ = (π/4) w, p = E' w/(4 x_f)",
    source: "geertsma_deklerk1969; valko_economides1995",
    range: "none stated by the source; a wing shorter than the height",
    inputs: &[MODULUS, HEIGHT, VISCOSITY, WING_RATE, Input::new::<Length>("length", "length of one wing")],
    outputs: &[WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| Ok(kgd_at_length(&Drive::read(a)?, a.get("length")?)?.put(Outputs::new())),
};

/// `kgd_no_leakoff` in the register.
pub static KGD_NO_LEAKOFF: Relation = Relation {
    name: "kgd_no_leakoff",
    title: "Growth of a plane fracture, the same over its height, without leak-off (one wing's rate)",
    equation: "x_f = (s C)^(-2/3) (i³ E'/(µ h³))^(1/6) t^(2/3)",
    source: "geertsma_deklerk1969; valko_economides1995",
    range: "none stated by the source; no leak-off, a wing shorter than the height",
    inputs: &[
        MODULUS,
        HEIGHT,
        VISCOSITY,
        WING_RATE,
        Input::new::<Time>("time", "time since the fracture began"),
    ],
    outputs: &[Output::new::<Length>("length", "length of one wing"), WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| {
        let opening = kgd_no_leakoff(&Drive::read(a)?, a.get("time")?)?;
        Ok(opening.put(Outputs::new().put("length", opening.length)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{FlowRate, Viscosity};

    #[test]
    fn what_is_pumped_is_in_the_wing_and_pressure_falls() {
        let drive = Drive {
            modulus: Pressure::gpa(20.0),
            height: Length::m(30.0),
            viscosity: Viscosity::pa_s(0.2),
            wing_rate: FlowRate::bbl_per_min(20.0),
        };
        let at = |minutes| kgd_no_leakoff(&drive, Time::minutes(minutes)).unwrap();
        let o = at(40.0);
        let volume = o.length.si() * 30.0 * o.mean_width.si();
        assert!((volume / (drive.wing_rate.si() * 2400.0) - 1.0).abs() < 1e-12);
        // p ~ t^(-1/3)
        let fall = at(80.0).net_pressure / o.net_pressure;
        assert!((fall - 0.5f64.powf(1.0 / 3.0)).abs() < 1e-12);
        assert!(kgd_at_length(&drive, Length::ZERO).is_err());
        assert!(kgd_no_leakoff(&drive, Time::ZERO).is_err());
    }
}
