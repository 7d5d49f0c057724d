//! The long fracture of constant height (PKN): width, pressure and growth without leak-off.

use super::drive::{Drive, HEIGHT, MEAN_WIDTH, MODULUS, NET_PRESSURE, Opening, VISCOSITY, WIDTH, WING_RATE};
use crate::error::{Result, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Length, Pressure, Quantity, Time};
use std::f64::consts::{FRAC_PI_4, PI};

/// How the flow along the fracture is taken; it fixes the width coefficient and the shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PknProfile {
    /// The rate is the same all along the wing: coefficient `(512/π)^¼` = 3.573, shape π/5.
    ConstantRate,
    /// The rate falls along the wing as the similarity solution without leak-off has it:
    /// coefficient 3.350, shape 0.5916.
    Exact,
    /// The coefficient most often printed: 3.27, shape π/5.
    #[default]
    Usual,
}

impl PknProfile {
    /// Words of the register, in the order of the variants.
    pub const WORDS: &'static [&'static str] = &["constant_rate", "exact", "usual"];

    /// The profile of a word.
    pub fn of_word(word: &str) -> Self {
        match word {
            "constant_rate" => Self::ConstantRate,
            "exact" => Self::Exact,
            _ => Self::Usual,
        }
    }

    /// Width coefficient `C` of `w = C (µ i x/E')^¼`.
    pub fn coefficient(self) -> f64 {
        match self {
            // C⁴ = 512/π
            Self::ConstantRate => (512.0 / PI).powf(0.25),
            // nordgren1972's similarity solution integrated anew: 2.9216667/0.5785699^¼
            Self::Exact => 3.349_976_1,
            // nordgren1972, perkins_kern1961 as usually printed
            Self::Usual => 3.27,
        }
    }

    /// Mean width over the greatest width.
    pub fn shape(self) -> f64 {
        match self {
            // ∫(1 − ξ)^¼ dξ = 4/5 along the wing, π/4 over the height
            Self::ConstantRate | Self::Usual => PI / 5.0,
            Self::Exact => 0.591_58,
        }
    }
}

/// Width and net pressure of a long fracture of constant height, at a length (Newtonian, one wing).
///
/// Equation: `w = C (µ i x_f/E')^¼`, `w̄ = s w`, `p = E' w/(2 h)`.
///
/// Symbols: `w` greatest width m, `w̄` mean width m, `p` net pressure Pa, `C` and `s` of
/// [`PknProfile`], `µ` viscosity Pa.s, `i` rate into one wing m³/s, `x_f` length of the wing m,
/// `E'` plane-strain modulus Pa, `h` height m.
///
/// Range: none stated; a wing longer than the height.
///
/// Where it breaks: on a wing shorter than the height the pressure is too low; with the whole
/// pumped rate instead of one wing's the width is 19 % too large. Arguments not above zero are
/// refused.
///
/// Source: perkins_kern1961; nordgren1972.
///
/// ```
/// use physics::fracture::drive::Drive;
/// use physics::fracture::pkn::{PknProfile, pkn_at_length};
/// use quantity::{FlowRate, Length, Pressure, Viscosity};
/// let drive = Drive {
///     modulus: Pressure::psi(4e6 / (1.0 - 0.25 * 0.25)),
///     height: Length::ft(100.0),
///     viscosity: Viscosity::cp(100.0),
///     wing_rate: FlowRate::bbl_per_min(20.0),
/// };
/// let opening = pkn_at_length(PknProfile::Usual, &drive, Length::ft(1000.0))?;
/// assert!((opening.width.in_inch() - 0.35).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pkn_at_length(profile: PknProfile, drive: &Drive, length: Length) -> Result<Opening> {
    drive.check("pkn_at_length")?;
    require_positive("pkn_at_length", "length", length)?;
    let (e, h) = (drive.modulus.si(), drive.height.si());
    // w = C (µ i x_f/E')^¼
    let w =
        profile.coefficient() * (drive.viscosity.si() * drive.wing_rate.si() * length.si() / e).powf(0.25);
    Ok(Opening {
        length,
        width: Diameter::m(w),
        mean_width: Diameter::m(profile.shape() * w),
        // p = E' w/(2 h)
        net_pressure: Pressure::pa(e * w / (2.0 * h)),
    })
}

/// Growth of a long fracture of constant height without leak-off (one wing).
///
/// Equation: `x_f = (s C)^(-4/5) (i³ E'/(µ h⁴))^(1/5) t^(4/5)`, with the width at that length.
///
/// Symbols as in [`pkn_at_length`]; `t` time since the fracture began s.
///
/// Range: none stated; no leak-off, a wing longer than the height.
///
/// Where it breaks: with leak-off the wing is shorter, see
/// [`super::coupled::coupled_leakoff`]; arguments not above zero are refused.
///
/// Source: nordgren1972; valko_economides1995 prints 0.524, 3.04 and 1.52 (the constant-rate
/// profile).
///
/// ```
/// use physics::fracture::drive::Drive;
/// use physics::fracture::pkn::{PknProfile, pkn_no_leakoff};
/// use quantity::{FlowRate, Length, Pressure, Time, Viscosity};
/// let one = Drive {
///     modulus: Pressure::pa(1.0),
///     height: Length::m(1.0),
///     viscosity: Viscosity::pa_s(1.0),
///     wing_rate: FlowRate::m3_per_s(1.0),
/// };
/// let opening = pkn_no_leakoff(PknProfile::ConstantRate, &one, Time::seconds(1.0))?;
/// assert!((opening.length.in_m() - 0.524).abs() < 0.0005);
/// assert!((opening.width.in_m() - 3.04).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pkn_no_leakoff(profile: PknProfile, drive: &Drive, time: Time) -> Result<Opening> {
    drive.check("pkn_no_leakoff")?;
    require_positive("pkn_no_leakoff", "time", time)?;
    let (i, h) = (drive.wing_rate.si(), drive.height.si());
    let group = i.powi(3) * drive.modulus.si() / (drive.viscosity.si() * h.powi(4));
    // x_f = (s C)^(-4/5) (i³ E'/(µ h⁴))^(1/5) t^(4/5)
    let lead = (profile.shape() * profile.coefficient()).powf(-0.8);
    let length = lead * group.powf(0.2) * time.si().powf(0.8);
    pkn_at_length(profile, drive, Length::m(length))
}

/// Pressure climb of a long fracture that grows no more: storage between bridged tips.
///
/// Equation: `dp/dt = Q E'/(π h² x_f)`.
///
/// Symbols: `Q` rate into both wings less leak-off m³/s, `E'` plane-strain modulus Pa, `h`
/// height m, `x_f` length of a wing m.
///
/// Range: none stated; both tips closed, pressure alike along the wings.
///
/// Where it breaks: with one wing bridged the climb is steeper in the other; a fracture that
/// bridges midway has a shorter `x_f`. Leak-off must be taken from `Q`. Arguments not above
/// zero are refused.
///
/// Source: nolte_smith1981; it follows from the volume `2 x_f h (π/4) w` with `w = 2 h p/E'`.
///
/// ```
/// use physics::fracture::pkn::pkn_storage_rate;
/// use quantity::{FlowRate, Length, Pressure};
/// let (e, rate) = (Pressure::gpa(20.0), FlowRate::bbl_per_min(10.0));
/// let climb = pkn_storage_rate(e, Length::m(30.0), Length::m(100.0), rate)?;
/// assert!((climb.in_psi_per_min() - 16.3).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pkn_storage_rate(
    modulus: Pressure,
    height: Length,
    length: Length,
    rate: quantity::FlowRate,
) -> Result<quantity::PressureRate> {
    let name = "pkn_storage_rate";
    require_positive(name, "modulus", modulus)?;
    require_positive(name, "height", height)?;
    require_positive(name, "length", length)?;
    require_positive(name, "rate", rate)?;
    // dp/dt = Q E'/(π h² x_f)
    let climb = rate.si() * modulus.si() / (PI * height.si().powi(2) * length.si());
    Ok(quantity::PressureRate::pa_per_s(climb))
}

/// Mean width over greatest width of a wing under one pressure: an ellipse over the height.
pub(crate) const LEVEL_SHAPE: f64 = FRAC_PI_4;

const PROFILE: Input = Input::choice(
    "profile",
    PknProfile::WORDS,
    "flow along the wing: constant_rate 3.573, exact 3.350, usual 3.27",
);

/// `pkn_at_length` in the register.
pub static PKN_AT_LENGTH: Relation = Relation {
    name: "pkn_at_length",
    title: "Width and net pressure of a long fracture of constant height, at a length (one wing's rate)",
    equation: "w = C (µ i x_f/E')^(1/4), w̄ = s w, p = E' w/(2 h)",
    source: "perkins_kern1961; nordgren1972",
    range: "none stated by the source; a wing longer than the height",
    inputs: &[
        PROFILE.or("usual"),
        MODULUS,
        HEIGHT,
        VISCOSITY,
        WING_RATE,
        Input::new::<Length>("length", "length of one wing"),
    ],
    outputs: &[WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| {
        let profile = PknProfile::of_word(a.word("profile")?);
        Ok(pkn_at_length(profile, &Drive::read(a)?, a.get("length")?)?.put(Outputs::new()))
    },
};

/// `pkn_no_leakoff` in the register.
pub static PKN_NO_LEAKOFF: Relation = Relation {
    name: "pkn_no_leakoff",
    title: "Growth of a long fracture of constant height without leak-off (one wing's rate)",
    equation: "x_f = (s C)^(-4/5) (i³ E'/(µ h⁴))^(1/5) t^(4/5)",
    source: "nordgren1972; valko_economides1995",
    range: "none stated by the source; no leak-off, a wing longer than the height",
    inputs: &[
        PROFILE.or("usual"),
        MODULUS,
        HEIGHT,
        VISCOSITY,
        WING_RATE,
        Input::new::<Time>("time", "time since the fracture began"),
    ],
    outputs: &[Output::new::<Length>("length", "length of one wing"), WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| {
        let profile = PknProfile::of_word(a.word("profile")?);
        let opening = pkn_no_leakoff(profile, &Drive::read(a)?, a.get("time")?)?;
        Ok(opening.put(Outputs::new().put("length", opening.length)))
    },
};

/// `pkn_storage_rate` in the register.
pub static PKN_STORAGE_RATE: Relation = Relation {
    name: "pkn_storage_rate",
    title: "Pressure climb of a long fracture whose tips are bridged (both wings' rate)",
    equation: "dp/dt = Q E'/(π h² x_f)",
    source: "nolte_smith1981",
    range: "none stated by the source; both tips closed",
    inputs: &[
        MODULUS,
        HEIGHT,
        Input::new::<Length>("length", "length of one wing"),
        Input::new::<quantity::FlowRate>("rate", "rate into both wings less leak-off"),
    ],
    outputs: &[Output::new::<quantity::PressureRate>("climb", "pressure climb")],
    evaluate: |a| {
        let climb = pkn_storage_rate(a.get("modulus")?, a.get("height")?, a.get("length")?, a.get("rate")?)?;
        Ok(Outputs::new().put("climb", climb))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{FlowRate, Viscosity};

    fn drive() -> Drive {
        Drive {
            modulus: Pressure::gpa(20.0),
            height: Length::m(30.0),
            viscosity: Viscosity::pa_s(0.2),
            wing_rate: FlowRate::bbl_per_min(20.0),
        }
    }

    #[test]
    fn what_is_pumped_is_in_the_wing() {
        for profile in [PknProfile::ConstantRate, PknProfile::Exact, PknProfile::Usual] {
            let o = pkn_no_leakoff(profile, &drive(), Time::minutes(40.0)).unwrap();
            let volume = o.length.si() * 30.0 * o.mean_width.si();
            assert!((volume / (drive().wing_rate.si() * 2400.0) - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn constant_rate_is_the_widest() {
        let width = |p| pkn_at_length(p, &drive(), Length::m(200.0)).unwrap().width;
        assert!(width(PknProfile::ConstantRate) > width(PknProfile::Exact));
        assert!(width(PknProfile::Exact) > width(PknProfile::Usual));
    }

    #[test]
    fn nothing_is_made_of_nothing() {
        assert!(pkn_at_length(PknProfile::Usual, &drive(), Length::ZERO).is_err());
        assert!(pkn_no_leakoff(PknProfile::Usual, &drive(), Time::seconds(f64::NAN)).is_err());
        let still = Drive { wing_rate: FlowRate::ZERO, ..drive() };
        assert!(pkn_at_length(PknProfile::Usual, &still, Length::m(10.0)).is_err());
        assert!(pkn_storage_rate(Pressure::ZERO, Length::m(1.0), Length::m(1.0), FlowRate::ZERO).is_err());
    }
}
