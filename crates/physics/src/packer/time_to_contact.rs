//! When a swelling packer element meets the hole, by diffusion into the element.

use super::arrhenius::Clock;
use super::cylinder_uptake::CylinderUptake;
use super::equivalent_time::{TemperatureHistory, temperature_history, time_at_equivalent};
use super::swell_diameter::Element;
use crate::error::require;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Diffusivity, MolarEnergy, Ratio, Temperature, Time};

/// How fast fluid moves into the rubber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rubber {
    /// Diffusivity at the clock's reference temperature.
    pub diffusivity: Diffusivity,
    /// Its dependence on temperature.
    pub clock: Clock,
}

/// When and how an element meets the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Time on the history's clock.
    pub time: Time,
    /// Time at the reference temperature from wetting to contact.
    pub equivalent: Time,
    /// Share of the final uptake at contact.
    pub uptake: f64,
}

/// Time at which a bonded element meets the hole, through a temperature history.
///
/// Equation: `φ(D_ref t_eq) = φ_c` with φ of [`CylinderUptake`], φ_c of [`Element::contact`] and
/// `t_eq = ∫ exp[−(E_a/R)(1/T − 1/T_ref)] dt` from the time the fluid arrives.
///
/// Symbols: D_ref diffusivity at T_ref m²/s, t_eq equivalent time s, E_a J/mol, T K.
///
/// Range: as its parts; D fitted to the full-section element or a coupon of the same rubber in
/// the same fluid.
///
/// Where it breaks: contact is not yet the rated differential; the stress on the wall grows
/// more slowly afterwards. An element that never meets the hole is refused.
///
/// Source: crank1975 ch. 5, cai2010, arrhenius_1889, joined.
///
/// ```
/// use physics::packer::equivalent_time::temperature_history;
/// use physics::packer::time_to_contact::{Rubber, time_to_contact};
/// use physics::packer::{arrhenius::Clock, swell_diameter::Element};
/// use quantity::{Diameter, Diffusivity, MolarEnergy, Temperature, Time};
/// let d = Diameter::inch;
/// let element = Element::new(d(4.5), d(5.75), d(6.9))?;
/// let rubber = Rubber { diffusivity: Diffusivity::m2_per_s(1e-10),
///     clock: Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0))? };
/// let history = temperature_history(&[Time::ZERO], &[Temperature::deg_c(80.0)])?;
/// let contact = time_to_contact(&element, d(6.125), &rubber, &history, Time::ZERO)?;
/// assert!((contact.time.in_days() - 1.791).abs() < 0.0005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn time_to_contact(
    element: &Element,
    hole: Diameter,
    rubber: &Rubber,
    history: &TemperatureHistory,
    wetted: Time,
) -> Result<Contact> {
    let uptake = element.contact(hole)?;
    let hint = "It never meets this hole: choose a larger element, another rubber or another depth.";
    require(uptake < 1.0, NAME, "uptake at contact", Ratio::of(uptake), "below 1", hint)?;
    let series = CylinderUptake::new(element.pipe, element.outer)?;
    // φ(D_ref t_eq) = φ_c
    let equivalent = series.time(rubber.diffusivity, uptake)?;
    let time = time_at_equivalent(history, &rubber.clock, wetted, equivalent)?;
    Ok(Contact { time, equivalent, uptake })
}

const NAME: &str = "time_to_contact";

/// `time_to_contact` in the register.
pub static TIME_TO_CONTACT: Relation = Relation {
    name: NAME,
    title: "Time at which a swelling element meets the hole, by diffusion",
    equation: "φ(D_ref t_eq) = φ_c;  t_eq = ∫ exp[−(E_a/R)(1/T − 1/T_ref)] dt",
    source: "crank1975 ch. 5; cai2010; arrhenius_1889",
    range: "constant diffusivity, blocked ends; temperatures within about 15 degC of those tested",
    inputs: &[
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::new::<Diameter>("full", "outside diameter of the free, full element"),
        Input::new::<Diameter>("hole", "hole diameter, from a caliper"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity at the reference temperature"),
        Input::new::<MolarEnergy>("activation_energy", "activation energy"),
        Input::new::<Temperature>("reference_temperature", "reference temperature"),
        Input::list::<Time>("times", "times of the temperature history").or("0 s"),
        Input::list::<Temperature>("temperatures", "temperatures there"),
        Input::new::<Time>("wetted", "time the activating fluid arrives").or("0 s"),
    ],
    outputs: &[
        Output::new::<Time>("time", "time of contact on the history's clock"),
        Output::new::<Time>("equivalent_time", "time at the reference temperature"),
        Output::new::<Ratio>("uptake", "share of the final uptake at contact"),
    ],
    evaluate: |a| {
        let element = Element::new(a.get("pipe")?, a.get("outer")?, a.get("full")?)?;
        let clock = Clock::new(a.get("activation_energy")?, a.get("reference_temperature")?)?;
        let rubber = Rubber { diffusivity: a.get("diffusivity")?, clock };
        let times: Vec<Time> = a.list("times")?;
        let history = temperature_history(&times, &a.list::<Temperature>("temperatures")?)?;
        let contact = time_to_contact(&element, a.get("hole")?, &rubber, &history, a.get("wetted")?)?;
        Ok(Outputs::new()
            .put("time", contact.time)
            .put("equivalent_time", contact.equivalent)
            .put("uptake", Ratio::of(contact.uptake)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Quantity;

    fn time(hole: f64, kelvin: f64) -> f64 {
        let d = Diameter::inch;
        let element = Element::new(d(4.5), d(5.75), d(6.9)).unwrap();
        let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0)).unwrap();
        let rubber = Rubber { diffusivity: Diffusivity::m2_per_s(1e-10), clock };
        let history = temperature_history(&[Time::ZERO], &[Temperature::kelvin(kelvin)]).unwrap();
        time_to_contact(&element, d(hole), &rubber, &history, Time::ZERO).unwrap().time.si()
    }

    proptest::proptest! {
        #[test]
        fn a_larger_hole_takes_longer_and_a_hotter_one_less(hole in 5.76f64..6.8, t in 300.0f64..400.0) {
            let now = time(hole, t);
            proptest::prop_assert!(time(hole + 0.05, t) > now);
            proptest::prop_assert!(time(hole, t + 5.0) < now);
        }
    }

    #[test]
    fn never_is_refused() {
        let d = Diameter::inch;
        let element = Element::new(d(4.5), d(5.75), d(6.9)).unwrap();
        let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0)).unwrap();
        let rubber = Rubber { diffusivity: Diffusivity::m2_per_s(1e-10), clock };
        let history = temperature_history(&[Time::ZERO], &[Temperature::deg_c(80.0)]).unwrap();
        for hole in [6.9, 7.5, 5.5] {
            assert!(time_to_contact(&element, d(hole), &rubber, &history, Time::ZERO).is_err());
        }
    }
}
