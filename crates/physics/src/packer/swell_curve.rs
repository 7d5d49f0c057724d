//! The laboratory's swell rows of the full-section element used as a master curve: no theory
//! of diffusion, one clock for temperature.

use super::arrhenius::Clock;
use super::equivalent_time::{TemperatureHistory, extremes, temperature_history, time_at_equivalent};
use super::monotone_cubic::MonotoneCubic;
use crate::error::{require, require_positive};
use crate::heat::profile::{Place, same_length};
use crate::{Arguments, Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, MolarEnergy, Quantity, Ratio, Temperature, TemperatureDifference, Time};

/// Beyond the tested temperatures by more than this a result is flagged.
pub const TEMPERATURE_MARGIN: TemperatureDifference = TemperatureDifference::kelvin(15.0);

/// Whether temperatures lie where the rubber was tested.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tested {
    /// Within the margin of the tested range.
    Within,
    /// Beyond it: the result is an extrapolation.
    Beyond,
}

/// Outside diameter over equivalent time, through the laboratory's rows.
#[derive(Debug, Clone, PartialEq)]
pub struct SwellCurve {
    curve: MonotoneCubic,
    clock: Clock,
    /// Coldest and hottest laboratory temperature.
    tested: (Temperature, Temperature),
}

/// When the curve meets a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurveContact {
    /// Time on the history's clock.
    pub time: Time,
    /// Time on the laboratory's clock.
    pub equivalent: Time,
    /// Whether the history lies where the rubber was tested.
    pub tested: Tested,
}

impl SwellCurve {
    /// From rows of time and outside diameter of the full-section element, taken at the clock's
    /// reference temperature; `tested` are the coldest and hottest temperature behind the
    /// activation energy.
    pub fn new(
        times: &[Time],
        outers: &[Diameter],
        clock: Clock,
        tested: (Temperature, Temperature),
    ) -> Result<Self> {
        same_length(NAME, times.len(), outers.len())?;
        let points: Vec<(f64, f64)> = times.iter().zip(outers).map(|(t, b)| (t.si(), b.si())).collect();
        if let Some(first) = times.first() {
            let hint = "Begin with the dry diameter at time zero.";
            require(first.si() == 0.0, NAME, "first row", *first, "zero", hint)?;
        }
        outers.iter().try_for_each(|b| require_positive(NAME, "outers", *b))?;
        let curve = MonotoneCubic::new(&points).ok_or_else(|| Error::NoSolution {
            relation: NAME,
            what: "the rows do not rise: times must increase and diameters must not fall".into(),
            hint: "Average repeated readings; give two rows or more.",
        })?;
        require(tested.1 >= tested.0, NAME, "hottest test", tested.1, "not below the coldest", "Swap them.")?;
        Ok(Self { curve, clock, tested })
    }

    /// From rows of volume over dry volume of the full-section element on its pipe:
    /// `b² = a² + (b0² − a²) V/V0`. Rows of free coupons do not belong here: they swell in three
    /// directions.
    pub fn from_volume(
        times: &[Time],
        volumes: &[Ratio],
        (pipe, outer): (Diameter, Diameter),
        clock: Clock,
        tested: (Temperature, Temperature),
    ) -> Result<Self> {
        let (a2, b2) = (pipe.si().powi(2), outer.si().powi(2));
        let diameter = |v: &Ratio| Diameter::from_si((a2 + (b2 - a2) * v.si()).sqrt());
        let outers: Vec<Diameter> = volumes.iter().map(diameter).collect();
        Self::new(times, &outers, clock, tested)
    }

    /// Outside diameter at an equivalent time and whether that lies within the rows; after the
    /// last row its diameter is held, which never promises a seal that was not seen.
    ///
    /// Equation: cubic pieces through the rows, slopes the weighted harmonic mean of the
    /// neighbouring straight slopes.
    ///
    /// Symbols: equivalent time s at the reference temperature, diameter m.
    ///
    /// Range: from the first to the last row.
    ///
    /// Where it breaks: after the last row (flagged `Place::After`).
    ///
    /// Source: fritsch_butland1984.
    ///
    /// ```
    /// use physics::packer::{arrhenius::Clock, swell_curve::SwellCurve};
    /// use quantity::{Diameter, MolarEnergy, Temperature, Time};
    /// let at = Temperature::deg_c(80.0);
    /// let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), at)?;
    /// let rows = [5.75, 6.0342, 6.2956, 6.5643].map(Diameter::inch);
    /// let curve = SwellCurve::new(&[0.0, 1.0, 4.0, 10.0].map(Time::days), &rows, clock, (at, at))?;
    /// assert!((curve.outer_at(Time::days(4.0)).0.in_inch() - 6.2956).abs() < 1e-12);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn outer_at(&self, equivalent: Time) -> (Diameter, Place) {
        let (first, last) = self.curve.ends();
        let place = match equivalent.si() {
            t if t < first => Place::Before,
            t if t > last => Place::After,
            _ => Place::Within,
        };
        (Diameter::from_si(self.curve.at(equivalent.si())), place)
    }

    /// Equivalent time at which the curve first reaches a diameter; `None` if no row did.
    pub fn equivalent_at(&self, outer: Diameter) -> Option<Time> {
        self.curve.first_at(outer.si()).map(Time::seconds)
    }

    /// Time at which the element meets a hole through a temperature history, counted from the
    /// time the fluid arrives.
    ///
    /// Equation: `OD(t_eq) = hole`, `t_eq = ∫ exp[−(E_a/R)(1/T − 1/T_ref)] dt`.
    ///
    /// Symbols: OD the rows' curve m, t_eq equivalent time s, E_a J/mol, T K.
    ///
    /// Range: within the rows; temperatures within 15 °C of those tested.
    ///
    /// Where it breaks: a hole larger than the last row's diameter is refused, since no reading
    /// says it is ever met; temperatures beyond the margin are flagged `Tested::Beyond`.
    ///
    /// Source: fritsch_butland1984 (curve), arrhenius_1889 (clock).
    ///
    /// ```
    /// use physics::packer::{arrhenius::Clock, equivalent_time::temperature_history, swell_curve::SwellCurve};
    /// use quantity::{Diameter, MolarEnergy, Temperature, Time};
    /// let at = Temperature::deg_c(80.0);
    /// let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), at)?;
    /// let rows = [5.75, 6.0342, 6.2956, 6.5643].map(Diameter::inch);
    /// let curve = SwellCurve::new(&[0.0, 1.0, 4.0, 10.0].map(Time::days), &rows, clock, (at, at))?;
    /// let history = temperature_history(&[Time::ZERO], &[Temperature::deg_c(60.0)])?;
    /// let contact = curve.time_to(Diameter::inch(6.2956), &history, Time::ZERO)?;
    /// assert!((contact.time.in_days() - 4.0 / 0.441394).abs() < 1e-4);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn time_to(
        &self,
        hole: Diameter,
        history: &TemperatureHistory,
        wetted: Time,
    ) -> Result<CurveContact> {
        let equivalent = self.equivalent_at(hole).ok_or_else(|| Error::NoSolution {
            relation: "time_to_contact_curve",
            what: format!("no row of the swell curve reaches {}", hole.text(quantity::System::Field)),
            hint: "Ask the supplier for later rows, or choose a larger element or another depth.",
        })?;
        let time = time_at_equivalent(history, &self.clock, wetted, equivalent)?;
        Ok(CurveContact { time, equivalent, tested: self.tested(history, wetted, time) })
    }

    /// Whether a history between two times stays within the margin of the tested range.
    pub fn tested(&self, history: &TemperatureHistory, from: Time, to: Time) -> Tested {
        let (coldest, hottest) = extremes(history, from, to);
        let margin = TEMPERATURE_MARGIN;
        let inside = coldest >= self.tested.0 - margin && hottest <= self.tested.1 + margin;
        if inside { Tested::Within } else { Tested::Beyond }
    }
}

/// The curve of a call.
fn read(a: &Arguments) -> Result<SwellCurve> {
    let at: Temperature = a.get("lab_temperature")?;
    let clock = Clock::new(a.get("activation_energy")?, at)?;
    let tested = (at.min(a.get("coldest_test")?), at.max(a.get("hottest_test")?));
    let times: Vec<Time> = a.list("lab_times")?;
    SwellCurve::new(&times, &a.list::<Diameter>("lab_outers")?, clock, tested)
}

const NAME: &str = "swell_curve";

/// `swell_curve` in the register.
pub static SWELL_CURVE: Relation = Relation {
    name: NAME,
    title: "Outside diameter of an element from the laboratory's rows",
    equation: "cubic pieces through the rows, slopes by weighted harmonic means",
    source: "fritsch_butland1984",
    range: "within the rows; `beyond_rows` is 1 after the last, whose diameter is held",
    inputs: &[
        Input::list::<Time>("lab_times", "times of the laboratory's rows, the first zero"),
        Input::list::<Diameter>("lab_outers", "outside diameters of the full-section element"),
        Input::new::<Time>("time", "equivalent time wanted"),
    ],
    outputs: &[
        Output::new::<Diameter>("diameter", "outside diameter"),
        Output::new::<Ratio>("beyond_rows", "1 after the last row, 0 within the rows"),
    ],
    evaluate: |a| {
        let at = Temperature::deg_c(20.0);
        let clock = Clock::new(MolarEnergy::ZERO, at)?;
        let times: Vec<Time> = a.list("lab_times")?;
        let curve = SwellCurve::new(&times, &a.list::<Diameter>("lab_outers")?, clock, (at, at))?;
        let (diameter, place) = curve.outer_at(a.get("time")?);
        let beyond = if place == Place::After { 1.0 } else { 0.0 };
        Ok(Outputs::new().put("diameter", diameter).put("beyond_rows", Ratio::of(beyond)))
    },
};

/// `time_to_contact_curve` in the register.
pub static TIME_TO_CONTACT_CURVE: Relation = Relation {
    name: "time_to_contact_curve",
    title: "Time at which a swelling element meets the hole, by the laboratory's rows",
    equation: "OD(t_eq) = hole;  t_eq = ∫ exp[−(E_a/R)(1/T − 1/T_ref)] dt",
    source: "fritsch_butland1984; arrhenius_1889",
    range: "within the rows; `beyond_tested` is 1 more than 15 degC beyond the tested temperatures",
    inputs: &[
        Input::list::<Time>("lab_times", "times of the laboratory's rows, the first zero"),
        Input::list::<Diameter>("lab_outers", "outside diameters of the full-section element"),
        Input::new::<Temperature>("lab_temperature", "temperature of the rows"),
        Input::new::<MolarEnergy>("activation_energy", "activation energy"),
        Input::new::<Temperature>("coldest_test", "coldest test behind the activation energy"),
        Input::new::<Temperature>("hottest_test", "hottest test behind the activation energy"),
        Input::new::<Diameter>("hole", "hole diameter, from a caliper"),
        Input::list::<Time>("times", "times of the temperature history").or("0 s"),
        Input::list::<Temperature>("temperatures", "temperatures there"),
        Input::new::<Time>("wetted", "time the activating fluid arrives").or("0 s"),
    ],
    outputs: &[
        Output::new::<Time>("time", "time of contact on the history's clock"),
        Output::new::<Time>("equivalent_time", "time on the laboratory's clock"),
        Output::new::<Ratio>("beyond_tested", "1 if the history leaves the tested temperatures"),
    ],
    evaluate: |a| {
        let curve = read(a)?;
        let times: Vec<Time> = a.list("times")?;
        let history = temperature_history(&times, &a.list::<Temperature>("temperatures")?)?;
        let contact = curve.time_to(a.get("hole")?, &history, a.get("wetted")?)?;
        let beyond = if contact.tested == Tested::Within { 0.0 } else { 1.0 };
        Ok(Outputs::new()
            .put("time", contact.time)
            .put("equivalent_time", contact.equivalent)
            .put("beyond_tested", Ratio::of(beyond)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn curve() -> SwellCurve {
        let at = Temperature::deg_c(80.0);
        let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), at).unwrap();
        let times = [0.0, 1.0, 4.0, 10.0].map(Time::days);
        SwellCurve::new(&times, &[5.75, 6.0, 6.3, 6.5].map(Diameter::inch), clock, (at, at)).unwrap()
    }

    #[test]
    fn flags_what_no_row_and_no_test_covers() {
        let (held, place) = curve().outer_at(Time::days(11.0));
        assert!((held.in_inch() - 6.5).abs() < 1e-12 && place == Place::After);
        let flat = |t: f64| temperature_history(&[Time::ZERO], &[Temperature::deg_c(t)]).unwrap();
        let to = |t: f64| curve().time_to(Diameter::inch(6.2), &flat(t), Time::ZERO).unwrap();
        assert_eq!(to(94.0).tested, Tested::Within);
        assert_eq!(to(96.0).tested, Tested::Beyond);
        assert_eq!(to(64.0).tested, Tested::Beyond);
        assert!(curve().time_to(Diameter::inch(6.51), &flat(80.0), Time::ZERO).is_err());
    }

    #[test]
    fn volume_rows_are_the_same_curve() {
        let at = Temperature::deg_c(80.0);
        let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), at).unwrap();
        let d = Diameter::inch;
        let volume = |b: f64| Ratio::of(d(b).ring(d(4.5)) / d(5.75).ring(d(4.5)));
        let times = [0.0, 1.0, 4.0, 10.0].map(Time::days);
        let rows = [5.75, 6.0, 6.3, 6.5].map(volume);
        let other = SwellCurve::from_volume(&times, &rows, (d(4.5), d(5.75)), clock, (at, at)).unwrap();
        let (a, b) = (other.outer_at(Time::days(2.0)).0, curve().outer_at(Time::days(2.0)).0);
        assert!((a / b - 1.0).abs() < 1e-12);
        assert!(SwellCurve::new(&times, &[6.0, 5.9, 6.3, 6.5].map(d), clock, (at, at)).is_err());
    }

    #[test]
    fn waiting_for_the_fluid_stops_the_clock() {
        let flat = temperature_history(&[Time::ZERO], &[Temperature::deg_c(80.0)]).unwrap();
        let now = curve().time_to(Diameter::inch(6.2), &flat, Time::ZERO).unwrap();
        let later = curve().time_to(Diameter::inch(6.2), &flat, Time::days(3.0)).unwrap();
        assert!((later.time.in_days() - now.time.in_days() - 3.0).abs() < 1e-9);
    }
}
