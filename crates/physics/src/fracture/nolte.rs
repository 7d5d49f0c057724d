//! Pad, proppant ramp and leak-off multiplier from the efficiency (Nolte).

use crate::error::{Result, require, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Concentration, Mass, Quantity, Ratio, Time, Volume};
use std::f64::consts::PI;

fn check_efficiency(relation: &'static str, efficiency: f64) -> Result<()> {
    let hint = "It is the volume in the fracture at the end of pumping over the volume pumped.";
    let inside = (0.0..=1.0).contains(&efficiency);
    require(inside, relation, "efficiency", Ratio::of(efficiency), "from 0 to 1", hint)
}

/// Pad as a share of the volume pumped, which is also the exponent of the ramp.
///
/// Equation: `f_pad = ε = (1 − η)/(1 + η)`.
///
/// Symbols: `η` efficiency at the end of pumping, pure numbers.
///
/// Range: `0 <= η <= 1`, no spurt.
///
/// Where it breaks: spurt asks for more pad; other rules exist, such as `(1 − η)²`. Other
/// efficiencies are refused.
///
/// Source: nolte1986.
///
/// ```
/// let pad = physics::fracture::nolte::nolte_pad(0.15)?;
/// assert!((pad - 0.74).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn nolte_pad(efficiency: f64) -> Result<f64> {
    check_efficiency("nolte_pad", efficiency)?;
    // f_pad = (1 − η)/(1 + η)
    Ok((1.0 - efficiency) / (1.0 + efficiency))
}

/// A ramp of proppant that ends evenly concentrated in the fracture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ramp {
    /// Concentration at the end of pumping.
    pub end: Concentration,
    /// When slurry begins.
    pub pad: Time,
    /// When pumping ends.
    pub pumping: Time,
    /// Efficiency at the end of pumping.
    pub efficiency: f64,
}

impl Ramp {
    fn check(&self) -> Result<f64> {
        require_not_negative(RAMP, "end_concentration", self.end)?;
        require_not_negative(RAMP, "pad_time", self.pad)?;
        let hint = "Pumping ends after the pad.";
        require(self.pumping > self.pad, RAMP, "pumping_time", self.pumping, "above the pad's time", hint)?;
        nolte_pad(self.efficiency)
    }
}

/// Concentration of the ramp at a time.
///
/// Equation: `c(t) = c_f [(t − t_pad)/(t_i − t_pad)]^ε`, mean `c_f/(1 + ε)`, `ε` of [`nolte_pad`].
///
/// Symbols: `c_f` concentration at the end kg/m³, `t_pad` end of the pad s, `t_i` end of pumping
/// s. The concentration is per volume the caller means: the published example multiplies it by
/// slurry volume, so there it is mass per slurry volume.
///
/// Range: `t_pad <= t <= t_i`, constant rate.
///
/// Where it breaks: before the pad's end it is zero, after the end of pumping `c_f`. A changing
/// rate asks for volumes instead of times. Impossible inputs are refused.
///
/// Source: nolte1986; economides1992 E-7.
///
/// ```
/// use physics::fracture::nolte::{Ramp, nolte_ramp};
/// use quantity::{Concentration, Time};
/// let ramp = Ramp {
///     end: Concentration::lb_per_gal(6.0),
///     pad: Time::hours(3.5),
///     pumping: Time::hours(7.0),
///     efficiency: 0.35,
/// };
/// let (now, mean) = nolte_ramp(&ramp, Time::hours(4.0))?;
/// assert!((now.in_lb_per_gal() - 2.4).abs() < 0.05);
/// assert!((mean.in_lb_per_gal() - 4.05).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn nolte_ramp(ramp: &Ramp, time: Time) -> Result<(Concentration, Concentration)> {
    let exponent = ramp.check()?;
    require_not_negative(RAMP, "time", time)?;
    let share = ((time.si() - ramp.pad.si()) / (ramp.pumping.si() - ramp.pad.si())).clamp(0.0, 1.0);
    // c = c_f share^ε; nothing in the pad, whatever the exponent
    let now = if time > ramp.pad { ramp.end * share.powf(exponent) } else { Concentration::ZERO };
    // mean = c_f/(1 + ε)
    Ok((now, ramp.end / (1.0 + exponent)))
}

/// Leak-off multiplier of Nolte: `K_L` of the volume lost, `V_L = K_L C A √t` by both faces.
///
/// Equation: `K_L = (8/3) η + π (1 − η)`.
///
/// Symbols: `η` efficiency at the end of pumping; `A` area of one face m², `C` leak-off
/// coefficient m/√s, `t` time of pumping s.
///
/// Range: `0 <= η <= 1`.
///
/// Where it breaks: it is a straight line between the two limits of [`super::g_function`]; the
/// efficiency it gives must be put back in until it agrees. Other efficiencies are refused.
///
/// Source: nolte1986; economides1992 E-6.
///
/// ```
/// let k = physics::fracture::nolte::leakoff_multiplier(0.35)?;
/// assert!((k - 2.97).abs() < 0.006);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn leakoff_multiplier(efficiency: f64) -> Result<f64> {
    check_efficiency("leakoff_multiplier", efficiency)?;
    // K_L = (8/3) η + π (1 − η)
    Ok(8.0 / 3.0 * efficiency + PI * (1.0 - efficiency))
}

const RAMP: &str = "nolte_ramp";
const EFFICIENCY: Input =
    Input::new::<Ratio>("efficiency", "volume in the fracture over volume pumped, at the end");

/// `nolte_pad` in the register.
pub static NOLTE_PAD: Relation = Relation {
    name: "nolte_pad",
    title: "Pad as a share of the volume pumped, from the efficiency",
    equation: "f_pad = (1 − η)/(1 + η)",
    source: "nolte1986",
    range: "0 <= η <= 1, no spurt",
    inputs: &[EFFICIENCY],
    outputs: &[Output::new::<Ratio>("pad", "share of pad, and exponent of the ramp")],
    evaluate: |a| Ok(Outputs::new().put("pad", Ratio::of(nolte_pad(a.number("efficiency")?)?))),
};

/// `nolte_ramp` in the register.
pub static NOLTE_RAMP: Relation = Relation {
    name: RAMP,
    title: "Proppant ramp that ends evenly concentrated in the fracture",
    equation: "c(t) = c_f [(t − t_pad)/(t_i − t_pad)]^ε, mean c_f/(1 + ε), ε = (1 − η)/(1 + η)",
    source: "nolte1986; economides1992 E-7",
    range: "constant rate; zero before the pad's end",
    inputs: &[
        Input::new::<Concentration>("end_concentration", "concentration at the end of pumping"),
        Input::new::<Time>("pad_time", "end of the pad"),
        Input::new::<Time>("pumping_time", "end of pumping"),
        EFFICIENCY,
        Input::new::<Time>("time", "when"),
        Input::new::<Volume>("volume", "volume with proppant, as the concentration counts it").or("0 m3"),
    ],
    outputs: &[
        Output::new::<Ratio>("exponent", "exponent of the ramp"),
        Output::new::<Concentration>("concentration", "concentration at that time"),
        Output::new::<Concentration>("mean", "mean concentration of the ramp"),
        Output::new::<Mass>("mass", "proppant in that volume at the mean concentration"),
    ],
    evaluate: |a| {
        let ramp = Ramp {
            end: a.get("end_concentration")?,
            pad: a.get("pad_time")?,
            pumping: a.get("pumping_time")?,
            efficiency: a.number("efficiency")?,
        };
        let (now, mean) = nolte_ramp(&ramp, a.get("time")?)?;
        let volume: Volume = a.get("volume")?;
        require_not_negative(RAMP, "volume", volume)?;
        Ok(Outputs::new()
            .put("exponent", Ratio::of(nolte_pad(ramp.efficiency)?))
            .put("concentration", now)
            .put("mean", mean)
            .put("mass", Mass::kg(mean.si() * volume.si())))
    },
};

/// `leakoff_multiplier` in the register.
pub static LEAKOFF_MULTIPLIER: Relation = Relation {
    name: "leakoff_multiplier",
    title: "Leak-off multiplier K_L of the volume lost while pumping",
    equation: "K_L = (8/3) η + π (1 − η)",
    source: "nolte1986; economides1992 E-6",
    range: "0 <= η <= 1",
    inputs: &[EFFICIENCY],
    outputs: &[Output::new::<Ratio>("multiplier", "K_L")],
    evaluate: |a| {
        Ok(Outputs::new().put("multiplier", Ratio::of(leakoff_multiplier(a.number("efficiency")?)?)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_is_the_integral_of_the_ramp() {
        let ramp = Ramp {
            end: Concentration::kg_per_m3(600.0),
            pad: Time::minutes(20.0),
            pumping: Time::minutes(60.0),
            efficiency: 0.4,
        };
        let n = 200_000;
        let at = |j: i32| Time::minutes(20.0 + 40.0 * (f64::from(j) + 0.5) / f64::from(n));
        let sum: f64 = (0..n).map(|j| nolte_ramp(&ramp, at(j)).unwrap().0.si()).sum();
        let mean = nolte_ramp(&ramp, Time::ZERO).unwrap().1.si();
        assert!((sum / f64::from(n) / mean - 1.0).abs() < 1e-6);
        assert_eq!(nolte_ramp(&ramp, Time::minutes(19.0)).unwrap().0, Concentration::ZERO);
        assert_eq!(nolte_ramp(&ramp, Time::minutes(90.0)).unwrap().0, ramp.end);
    }

    #[test]
    fn no_pad_without_leakoff_and_nothing_else_with_all() {
        assert_eq!(nolte_pad(1.0).unwrap(), 0.0);
        assert_eq!(nolte_pad(0.0).unwrap(), 1.0);
        assert!(nolte_pad(1.1).is_err() && nolte_pad(f64::NAN).is_err());
        assert!((leakoff_multiplier(1.0).unwrap() - 8.0 / 3.0).abs() < 1e-15);
        assert_eq!(leakoff_multiplier(0.0).unwrap(), PI);
    }
}
