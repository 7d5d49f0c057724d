//! Growth of a seat bore by the proppant pumped through it, calibrated on the user's own seats.

use super::contact::SEAT;
use super::count::paired;
use crate::error::{Result, require_not_negative, require_positive};
use crate::registry::{Arguments, Input, Output, Outputs, Relation};
use quantity::{Diameter, FlowRate, Mass, Quantity, Ratio};

const NAME: &str = "seat_erosion";

/// Proppant pumped through a seat at one rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sand {
    /// Mass of proppant.
    pub mass: Mass,
    /// Slurry rate meanwhile.
    pub rate: FlowRate,
}

/// What calibrates the law: a wear per side, measured after a mass at a rate through a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibration {
    /// Wear per side; zero leaves erosion out.
    pub wear: Diameter,
    /// Mass that made it.
    pub mass: Mass,
    /// Rate of that mass.
    pub rate: FlowRate,
    /// Bore it went through.
    pub bore: Diameter,
    /// Exponent of the velocity.
    pub exponent: f64,
}

impl Calibration {
    fn check(&self) -> Result<()> {
        require_not_negative(NAME, "wear", self.wear)?;
        require_positive(NAME, "wear_mass", self.mass)?;
        require_positive(NAME, "wear_rate", self.rate)?;
        require_positive(NAME, "wear_bore", self.bore)?;
        require_not_negative(NAME, "exponent", Ratio::of(self.exponent))
    }

    /// Mass weighed by the rate: what the law sums over the stages.
    fn dose(&self, sand: &[Sand]) -> Result<f64> {
        let mut dose = 0.0;
        for s in sand {
            require_not_negative(NAME, "masses", s.mass)?;
            require_not_negative(NAME, "rates", s.rate)?;
            // M_i (Q_i/Q_ref)^n
            dose += s.mass.si() * libm::pow(s.rate / self.rate, self.exponent);
        }
        Ok(dose)
    }
}

/// Bore of a seat after proppant has been pumped through it.
///
/// ```text
/// dd/dM = 2 k (Q/Q_ref)^n (d_ref/d)^(2n),   k = wear_ref / M_ref
/// d1^(2n+1) = d0^(2n+1) + (2n+1) 2 k d_ref^(2n) sum M_i (Q_i/Q_ref)^n
/// ```
///
/// - `d` seat bore, m; `M` mass of proppant, kg; `Q` slurry rate, m3/s; `n` velocity exponent
/// - `wear_ref` wear per side measured after `M_ref` at `Q_ref` through a bore `d_ref`, m
///
/// Range: none stated by the source; the exponent 2.6 is that of steel under dilute sand.
///
/// Where it breaks: dilute-sand erosion formulas are 40 to 300 times outside their range in treating
/// slurry, so only a calibration on milled-out or measured seats means anything. Without one the wear
/// is zero and the seat keeps its bore; nothing is guessed.
///
/// Source: dnv_rp_o501, velocity exponent of steel; integrated over the growing bore.
///
/// ```
/// use physics::ball::seat_erosion::*;
/// use quantity::*;
/// let own = Calibration {
///     wear: Diameter::mm(0.02), mass: Mass::t(1.0), rate: FlowRate::m3_per_min(5.0),
///     bore: Diameter::inch(2.5), exponent: 2.6,
/// };
/// let sand = [Sand { mass: Mass::t(50.0), rate: FlowRate::m3_per_min(5.0) }];
/// let after = seat_erosion(Diameter::inch(2.5), &sand, own)?;
/// assert!((after.in_mm() - 65.35).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn seat_erosion(bore: Diameter, sand: &[Sand], calibration: Calibration) -> Result<Diameter> {
    require_positive(NAME, "seat", bore)?;
    calibration.check()?;
    let dose = calibration.dose(sand)?;
    let power = 2.0 * calibration.exponent + 1.0;
    let k = calibration.wear.si() / calibration.mass.si();
    // (d1/d0)^(2n+1) = 1 + (2n+1) 2 k (d_ref/d0)^(2n) sum M_i (Q_i/Q_ref)^n / d0
    let slender = libm::pow(calibration.bore / bore, 2.0 * calibration.exponent);
    let growth = libm::log1p(power * 2.0 * k * slender * dose / bore.si()) / power;
    Ok(bore * libm::exp(growth))
}

/// Wear per side at reference conditions from a bore measured before and after: the inverse of
/// [`seat_erosion`].
///
/// ```text
/// wear_ref = M_ref (d1^(2n+1) - d0^(2n+1)) / [(2n+1) 2 d_ref^(2n) sum M_i (Q_i/Q_ref)^n]
/// ```
///
/// - symbols as in [`seat_erosion`]; the `wear` of the calibration given is not used
///
/// Range: none stated by the source.
///
/// Where it breaks: a bore worn oval or only on its low side has no single diameter.
///
/// Source: dnv_rp_o501, velocity exponent of steel; integrated over the growing bore.
///
/// ```
/// use physics::ball::seat_erosion::*;
/// use quantity::*;
/// let at = Calibration {
///     wear: Diameter::ZERO, mass: Mass::t(1.0), rate: FlowRate::m3_per_min(5.0),
///     bore: Diameter::inch(2.5), exponent: 2.6,
/// };
/// let sand = [Sand { mass: Mass::t(50.0), rate: FlowRate::m3_per_min(5.0) }];
/// let wear = seat_wear(Diameter::inch(2.5), Diameter::inch(2.55), &sand, at)?;
/// assert!((wear.in_mm() - 0.0134).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn seat_wear(
    before: Diameter,
    after: Diameter,
    sand: &[Sand],
    reference: Calibration,
) -> Result<Diameter> {
    require_positive(NAME, "seat", before)?;
    require_not_negative(NAME, "growth", after - before)?;
    reference.check()?;
    let dose = reference.dose(sand)?;
    require_positive(NAME, "masses", Mass::from_si(dose))?;
    let power = 2.0 * reference.exponent + 1.0;
    let slender = libm::pow(reference.bore / before, 2.0 * reference.exponent);
    // wear_ref = M_ref d0 [(d1/d0)^(2n+1) - 1] / [(2n+1) 2 (d_ref/d0)^(2n) dose]
    let gain = libm::expm1(power * libm::log(after / before));
    Ok(before * (reference.mass.si() * gain / (power * 2.0 * slender * dose)))
}

const MASSES: Input = Input::list::<Mass>("masses", "proppant through the seat, stage by stage");
const RATES: Input = Input::list::<FlowRate>("rates", "slurry rates of those stages");
const WEAR_MASS: Input = Input::new::<Mass>("wear_mass", "mass the wear belongs to").or("1 t");
const WEAR_RATE: Input = Input::new::<FlowRate>("wear_rate", "rate the wear belongs to").or("30 bbl/min");
const WEAR_BORE: Input = Input::new::<Diameter>("wear_bore", "bore the wear belongs to").or("2.5 in");
const EXPONENT: Input = Input::new::<Ratio>("exponent", "exponent of the velocity").or("2.6");

fn sand(a: &Arguments) -> Result<Vec<Sand>> {
    let (masses, rates) = (a.list("masses")?, a.list("rates")?);
    let pairs = paired(NAME, ("masses", &masses), ("rates", &rates))?;
    Ok(pairs.into_iter().map(|(mass, rate)| Sand { mass, rate }).collect())
}

fn calibration(a: &Arguments, wear: Diameter) -> Result<Calibration> {
    Ok(Calibration {
        wear,
        mass: a.get("wear_mass")?,
        rate: a.get("wear_rate")?,
        bore: a.get("wear_bore")?,
        exponent: a.number("exponent")?,
    })
}

/// Register entry of [`seat_erosion`].
pub static SEAT_EROSION: Relation = Relation {
    name: NAME,
    title: "Bore of a seat after proppant, calibrated by the user; no growth without a calibration",
    equation: "d1^(2n+1) = d0^(2n+1) + (2n+1) 2 (wear/M_ref) d_ref^(2n) sum M_i (Q_i/Q_ref)^n",
    source: "dnv_rp_o501, velocity exponent of steel; integrated over the growing bore",
    range: "none stated by the source; means nothing without a calibration on own seats",
    inputs: &[
        SEAT,
        MASSES,
        RATES,
        Input::new::<Diameter>("wear", "wear per side measured at the reference conditions").or("0 in"),
        WEAR_MASS,
        WEAR_RATE,
        WEAR_BORE,
        EXPONENT,
    ],
    outputs: &[
        Output::new::<Diameter>("bore", "seat bore afterwards"),
        Output::new::<Diameter>("growth", "growth of the bore, on diameter"),
    ],
    evaluate: |a| {
        let before: Diameter = a.get("seat")?;
        let after = seat_erosion(before, &sand(a)?, calibration(a, a.get("wear")?)?)?;
        Ok(Outputs::new().put("bore", after).put("growth", after - before))
    },
};

/// Register entry of [`seat_wear`].
pub static SEAT_WEAR: Relation = Relation {
    name: "seat_wear",
    title: "Wear per side at reference conditions from a seat measured before and after",
    equation: "wear = M_ref (d1^(2n+1) - d0^(2n+1)) / [(2n+1) 2 d_ref^(2n) sum M_i (Q_i/Q_ref)^n]",
    source: "dnv_rp_o501, velocity exponent of steel; integrated over the growing bore",
    range: "none stated by the source",
    inputs: &[
        SEAT,
        Input::new::<Diameter>("measured", "bore measured afterwards"),
        MASSES,
        RATES,
        WEAR_MASS,
        WEAR_RATE,
        WEAR_BORE,
        EXPONENT,
    ],
    outputs: &[Output::new::<Diameter>("wear", "wear per side at the reference conditions")],
    evaluate: |a| {
        let reference = calibration(a, Diameter::ZERO)?;
        let wear = seat_wear(a.get("seat")?, a.get("measured")?, &sand(a)?, reference)?;
        Ok(Outputs::new().put("wear", wear))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn own(wear: f64) -> Calibration {
        Calibration {
            wear: Diameter::mm(wear),
            mass: Mass::t(1.0),
            rate: FlowRate::m3_per_min(5.0),
            bore: Diameter::inch(2.5),
            exponent: 2.6,
        }
    }

    proptest! {
        #[test]
        fn measuring_gives_the_wear_back(w in 1e-4..0.05f64, t in 1.0..500.0f64, q in 1.0..8.0f64, d in 1.2..3.6f64) {
            let sand = [Sand { mass: Mass::t(t), rate: FlowRate::m3_per_min(q) }];
            let after = seat_erosion(Diameter::inch(d), &sand, own(w)).unwrap();
            let back = seat_wear(Diameter::inch(d), after, &sand, own(0.0)).unwrap();
            prop_assert!((back.in_mm() / w - 1.0).abs() < 1e-6);
        }

        /// The order of the stages does not matter, and stages add up.
        #[test]
        fn stages_add_up(a in 1.0..100.0f64, b in 1.0..100.0f64) {
            let s = |t: f64, q: f64| Sand { mass: Mass::t(t), rate: FlowRate::m3_per_min(q) };
            let start = Diameter::inch(2.0);
            let together = seat_erosion(start, &[s(a, 3.0), s(b, 6.0)], own(0.02)).unwrap();
            let first = seat_erosion(start, &[s(b, 6.0)], own(0.02)).unwrap();
            let then = seat_erosion(first, &[s(a, 3.0)], own(0.02)).unwrap();
            prop_assert!((together / then - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn without_a_calibration_nothing_wears() {
        let sand = [Sand { mass: Mass::t(500.0), rate: FlowRate::m3_per_min(8.0) }];
        assert_eq!(seat_erosion(Diameter::inch(2.0), &sand, own(0.0)).unwrap(), Diameter::inch(2.0));
    }
}
