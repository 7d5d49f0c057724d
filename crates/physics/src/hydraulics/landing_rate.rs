//! The highest rate at which a ball may land without tripping the pumps.

use super::landing::{BORE, DENSITY, LENGTH, LandingString, OPENING, WAVE_SPEED, read_string};
use crate::error::{Error, Result, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{FlowRate, Pressure, Quantity};

const NAME: &str = "landing_rate_limit";

/// What of the landing must stay under the trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LandingPeak {
    /// The plateau before the sleeve opens.
    Plateau,
    /// The spike while it shifts: the safe choice where pumps trip at once.
    Spike,
}

/// The rates at which a ball may land.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LandingLimit {
    /// Every rate up to this one.
    UpTo(FlowRate),
    /// Any rate: above this one the sleeve opens on contact.
    Any(FlowRate),
}

impl LandingLimit {
    /// The rate: the limit, or the least one at which the sleeve opens on contact.
    pub fn rate(self) -> FlowRate {
        match self {
            Self::UpTo(rate) | Self::Any(rate) => rate,
        }
    }
}

/// Highest rate up to which every landing stays within a headroom, without friction.
///
/// `m = ceil[(H + 2k S)/(2(H - S))]`, at least 1; `J_max = H/[2(m - 1 + k)]`;
/// `q_max = J_max A/(rho a)`
///
/// `H` headroom at surface: trip less treating pressure (Pa), `S` rise at the seat that opens the
/// sleeve (Pa), `k` 0 for the plateau and 1 for the spike, `J = rho a q/A`. Landings with at
/// least `m` round trips all stay within `H`; the rate is highest where `m - 1` round trips
/// just do.
///
/// Range: that of [`super::landing::landing_staircase`].
///
/// With `H <= S` no slow landing stays within the headroom: refused. With the plateau and
/// `H >= 2S` any rate does. Some rates above the limit may do as well; they are not offered,
/// since the opening pressure is never known so well.
///
/// Source: the staircase of joukowsky1904, inverted.
///
/// ```
/// use physics::hydraulics::landing::LandingString;
/// use physics::hydraulics::landing_rate::{LandingPeak, landing_rate_limit};
/// use quantity::{Density, Diameter, Length, Pressure, Velocity};
/// let string = LandingString {
///     density: Density::kg_per_m3(1000.0),
///     wave_speed: Velocity::m_per_s(1420.72),
///     bore: Diameter::inch(4.0),
///     length: Length::m(5000.0),
/// };
/// let psi = Pressure::psi;
/// let limit = landing_rate_limit(&string, psi(2000.0), psi(2600.0), LandingPeak::Plateau)?;
/// assert!((limit.rate().in_bbl_per_min() - 9.65).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn landing_rate_limit(
    string: &LandingString,
    opening: Pressure,
    headroom: Pressure,
    peak: LandingPeak,
) -> Result<LandingLimit> {
    require_positive(NAME, "opening_pressure", opening)?;
    require_not_negative(NAME, "headroom", headroom)?;
    if headroom <= opening {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the headroom is no larger than the pressure that opens the sleeve".to_string(),
            hint: "Lower the treating pressure before the ball lands; never raise the trip.",
        });
    }
    // rate of one unit of J
    let per_step = 1.0 / string.step(FlowRate::m3_per_s(1.0))?.si();
    let rate = |j: f64| FlowRate::m3_per_s(j * per_step);
    let (h, s) = (headroom.si(), opening.si());
    let k = if peak == LandingPeak::Spike { 1.0 } else { 0.0 };
    // m = ceil[(H + 2k S)/(2(H - S))]
    let m = ((h + 2.0 * k * s) / (2.0 * (h - s))).ceil().max(1.0);
    let pulses = m - 1.0 + k;
    if pulses == 0.0 {
        return Ok(LandingLimit::Any(rate(s)));
    }
    // J_max = H/[2(m - 1 + k)]
    Ok(LandingLimit::UpTo(rate(h / (2.0 * pulses))))
}

/// Register entry of [`landing_rate_limit`].
pub static LANDING_RATE_LIMIT: Relation = Relation {
    name: NAME,
    title: "Highest rate up to which every landing stays within a headroom, without friction",
    equation: "m = ceil[(H + 2k S)/(2(H - S))]; J_max = H/[2(m - 1 + k)]; q_max = J_max A/(rho a)",
    source: "joukowsky1904 (staircase, inverted)",
    range: "headroom above the opening pressure; no friction",
    inputs: &[
        DENSITY,
        WAVE_SPEED,
        BORE,
        LENGTH.or("1000 m"),
        OPENING,
        Input::new::<Pressure>("headroom", "trip pressure less treating pressure"),
        Input::choice("peak", &["spike", "plateau"], "what must stay under the trip").or("spike"),
    ],
    outputs: &[
        Output::new::<FlowRate>("rate", "highest rate; with the plateau it may be the opening on contact"),
        Output::new::<Pressure>("step", "step at the seat at that rate"),
    ],
    evaluate: |a| {
        let string = read_string(a)?;
        let peak = match a.word("peak")? {
            "plateau" => LandingPeak::Plateau,
            _ => LandingPeak::Spike,
        };
        let rate = landing_rate_limit(&string, a.get("opening_pressure")?, a.get("headroom")?, peak)?.rate();
        Ok(Outputs::new().put("rate", rate).put("step", string.step(rate)?))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hydraulics::landing::landing_staircase;
    use proptest::prelude::*;
    use quantity::{Density, Diameter, Length, Velocity};

    const STRING: LandingString = LandingString {
        density: Density::kg_per_m3(1000.0),
        wave_speed: Velocity::m_per_s(1420.72),
        bore: Diameter::inch(4.0),
        length: Length::m(5000.0),
    };

    fn peak_at(rate: FlowRate, opening: Pressure, peak: LandingPeak) -> Pressure {
        let stairs = landing_staircase(&STRING, rate, opening).unwrap();
        match peak {
            LandingPeak::Plateau => stairs.surface_rise,
            LandingPeak::Spike => stairs.surface_spike,
        }
    }

    proptest! {
        #[test]
        fn no_rate_below_the_limit_passes_it_and_one_just_above_does(
            s in 500.0..4000.0f64, share in 1.02..6.0f64, spike: bool,
        ) {
            let (opening, headroom) = (Pressure::psi(s), Pressure::psi(s * share));
            let peak = if spike { LandingPeak::Spike } else { LandingPeak::Plateau };
            match landing_rate_limit(&STRING, opening, headroom, peak).unwrap() {
                LandingLimit::UpTo(limit) => {
                    for i in 1..400 {
                        let rate = limit * (f64::from(i) / 400.0);
                        prop_assert!(peak_at(rate, opening, peak) <= headroom * (1.0 + 1e-9));
                    }
                    prop_assert!(peak_at(limit * 1.000_001, opening, peak) > headroom);
                }
                LandingLimit::Any(contact) => {
                    prop_assert!(share >= 2.0 && !spike);
                    prop_assert_eq!(peak_at(contact * 1.000_001, opening, peak), Pressure::ZERO);
                }
            }
        }
    }

    #[test]
    fn too_little_headroom_is_refused() {
        let psi = Pressure::psi;
        assert!(landing_rate_limit(&STRING, psi(2000.0), psi(2000.0), LandingPeak::Plateau).is_err());
        assert!(landing_rate_limit(&STRING, psi(2000.0), psi(-1.0), LandingPeak::Spike).is_err());
        assert!(landing_rate_limit(&STRING, psi(2000.0), psi(f64::NAN), LandingPeak::Spike).is_err());
    }
}
