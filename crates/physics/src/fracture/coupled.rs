//! Fracture of given height that leaks off while it widens: width and Carter's area together.

use super::carter::area_si;
use super::drive::{Drive, HEIGHT, MEAN_WIDTH, MODULUS, NET_PRESSURE, Opening, VISCOSITY, WIDTH, WING_RATE};
use super::kgd::{kgd_at_length, kgd_no_leakoff};
use super::pkn::{PknProfile, pkn_at_length, pkn_no_leakoff};
use crate::error::{Error, Result, require_not_negative};
use crate::solve::brent;
use crate::{Input, Output, Outputs, Relation};
use quantity::{Leakoff, Length, Quantity, Ratio, Spurt, Time};

/// A fracture of given height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Plane {
    /// Long: the width of [`pkn_at_length`].
    Pkn(PknProfile),
    /// Short and high: the width of [`kgd_at_length`].
    Kgd,
}

impl Plane {
    fn at_length(self, drive: &Drive, length: Length) -> Result<Opening> {
        match self {
            Self::Pkn(profile) => pkn_at_length(profile, drive, length),
            Self::Kgd => kgd_at_length(drive, length),
        }
    }

    fn no_leakoff(self, drive: &Drive, time: Time) -> Result<Opening> {
        match self {
            Self::Pkn(profile) => pkn_no_leakoff(profile, drive, time),
            Self::Kgd => kgd_no_leakoff(drive, time),
        }
    }
}

/// Length, width, pressure and efficiency of a fracture that leaks off, at a time (one wing).
///
/// Equation: `h x_f = A(w̄(x_f), t)` with Carter's area `A` at the width of the length reached;
/// `η = w̄ h x_f/(i t)`.
///
/// Symbols: `x_f` length of the wing m, `h` height m, `w̄` mean width m, `i` rate into one wing
/// m³/s, `t` time s, `η` efficiency; `A` of [`super::carter::carter_area`].
///
/// Range: none stated; constant rate, Carter's law with spurt.
///
/// Where it breaks: Carter's area holds the last width all the time, so it comes out one or two
/// per cent long beside a march in time ([`super::growth::Fracture`]). Arguments not above zero
/// are refused (spurt and coefficient may be zero).
///
/// Source: valko_economides1995 ch. 9 (PKN-C, KGD-C); howard_fast1957.
///
/// ```
/// use physics::fracture::coupled::{Plane, coupled_leakoff};
/// use physics::fracture::{drive::Drive, pkn::PknProfile};
/// use quantity::{FlowRate, Leakoff, Length, Pressure, Spurt, Time, Viscosity};
/// let drive = Drive {
///     modulus: Pressure::gpa(20.0),
///     height: Length::m(30.0),
///     viscosity: Viscosity::pa_s(0.2),
///     wing_rate: FlowRate::m3_per_s(0.05299576),
/// };
/// let c = Leakoff::m_per_root_s(4.92e-5);
/// let plane = Plane::Pkn(PknProfile::Usual);
/// let (opening, efficiency) = coupled_leakoff(plane, &drive, c, Spurt::ZERO, Time::hours(1.0))?;
/// assert!((opening.length.in_m() - 391.27).abs() < 0.3);
/// assert!((efficiency - 0.4794).abs() < 0.0005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn coupled_leakoff(
    plane: Plane,
    drive: &Drive,
    leakoff: Leakoff,
    spurt: Spurt,
    time: Time,
) -> Result<(Opening, f64)> {
    require_not_negative(NAME, "leakoff", leakoff)?;
    require_not_negative(NAME, "spurt", spurt)?;
    let most = plane.no_leakoff(drive, time)?.length;
    let (h, i, t) = (drive.height.si(), drive.wing_rate.si(), time.si());
    let excess = |log: f64| {
        let x = most.si() * log.exp();
        let mean = plane.at_length(drive, Length::m(x)).map_or(f64::NAN, |o| o.mean_width.si());
        // h x_f = A(w̄(x_f), t)
        (h * x / area_si(mean, spurt.si(), leakoff.si(), i, t).0).ln()
    };
    let lossless = leakoff.si() == 0.0 && spurt.si() == 0.0;
    let log = if lossless { Some(0.0) } else { brent(excess, -30.0, 1e-9, 1e-13) };
    let log = log.ok_or_else(|| Error::NoSolution {
        relation: NAME,
        what: "no length balances what is pumped, held and lost".to_string(),
        hint: "Check the leak-off coefficient, the spurt and their units.",
    })?;
    let opening = plane.at_length(drive, most * log.exp())?;
    // η = w̄ h x_f/(i t)
    Ok((opening, opening.mean_width.si() * h * opening.length.si() / (i * t)))
}

const NAME: &str = "coupled_leakoff";

/// `coupled_leakoff` in the register.
pub static COUPLED_LEAKOFF: Relation = Relation {
    name: NAME,
    title: "Length, width and efficiency of a fracture of given height that leaks off (one wing's rate)",
    equation: "h x_f = A(w̄(x_f), t), η = w̄ h x_f/(i t)",
    source: "valko_economides1995 ch. 9; howard_fast1957",
    range: "none stated by the source; constant rate, Carter's law with spurt",
    inputs: &[
        Input::choice("model", &["pkn", "kgd"], "pkn long, kgd short and high").or("pkn"),
        Input::choice("profile", PknProfile::WORDS, "flow along a long wing").or("usual"),
        MODULUS,
        HEIGHT,
        VISCOSITY,
        WING_RATE,
        Input::new::<Leakoff>("leakoff", "leak-off coefficient"),
        Input::new::<Spurt>("spurt", "spurt loss").or("0 L/m2"),
        Input::new::<Time>("time", "time since the fracture began"),
    ],
    outputs: &[
        Output::new::<Length>("length", "length of one wing"),
        WIDTH,
        MEAN_WIDTH,
        NET_PRESSURE,
        Output::new::<Ratio>("efficiency", "volume in the fracture over volume pumped"),
    ],
    evaluate: |a| {
        let plane = match a.word("model")? {
            "kgd" => Plane::Kgd,
            _ => Plane::Pkn(PknProfile::of_word(a.word("profile")?)),
        };
        let (opening, efficiency) =
            coupled_leakoff(plane, &Drive::read(a)?, a.get("leakoff")?, a.get("spurt")?, a.get("time")?)?;
        let outputs = opening.put(Outputs::new().put("length", opening.length));
        Ok(outputs.put("efficiency", Ratio::of(efficiency)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{FlowRate, Pressure, Viscosity};

    #[test]
    fn little_leakoff_is_none_and_much_is_short() {
        let drive = Drive {
            modulus: Pressure::gpa(20.0),
            height: Length::m(30.0),
            viscosity: Viscosity::pa_s(0.2),
            wing_rate: FlowRate::m3_per_s(0.053),
        };
        let at = |plane: Plane, c: f64, s: f64| {
            let (c, s) = (Leakoff::m_per_root_s(c), Spurt::m3_per_m2(s));
            coupled_leakoff(plane, &drive, c, s, Time::hours(1.0)).unwrap()
        };
        for plane in [Plane::Pkn(PknProfile::Exact), Plane::Kgd] {
            let (none, all) = at(plane, 0.0, 0.0);
            assert!((all - 1.0).abs() < 1e-12);
            assert!((at(plane, 1e-11, 0.0).0.length / none.length - 1.0).abs() < 1e-6);
            let mut last = 1.0;
            for c in [1e-5, 1e-4, 1e-3, 1e-2] {
                let (o, efficiency) = at(plane, c, 1e-4);
                assert!(o.length < none.length && efficiency < last && efficiency > 0.0);
                last = efficiency;
            }
        }
    }
}
