//! One clock for a changing temperature: the time at the laboratory's temperature that does as
//! much as the well's history.

use super::arrhenius::Clock;
use crate::error::{require, require_positive};
use crate::heat::profile::Profile;
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{MolarEnergy, Quantity, Temperature, Time};

/// Temperature over time, straight between rows, held beyond them.
pub type TemperatureHistory = Profile<Time, Temperature>;

/// A checked history.
pub fn temperature_history(times: &[Time], temperatures: &[Temperature]) -> Result<TemperatureHistory> {
    let history = TemperatureHistory::new(NAME, times, temperatures)?;
    temperatures.iter().try_for_each(|t| require_positive(NAME, "temperature", *t))?;
    Ok(history)
}

/// Time at the reference temperature that does as much as the history between two times.
///
/// Equation: `t_eq = ∫ exp[−(E_a/R)(1/T(t) − 1/T_ref)] dt`.
///
/// Symbols: E_a activation energy J/mol, R molar gas constant, T(t) temperature K, T_ref
/// reference temperature K.
///
/// Range: exact for a history straight between rows (8-point Gauss rule on pieces over which
/// the rate changes by at most a factor e).
///
/// Where it breaks: beyond the rows the nearest temperature is held. Time without the
/// activating fluid must not be counted: start at the time it arrives.
///
/// Source: crank1975 sec. 7.1 (time-dependent diffusivity as one clock).
///
/// ```
/// use physics::packer::{arrhenius::Clock, equivalent_time::{equivalent_time, temperature_history}};
/// use quantity::{MolarEnergy, Temperature, Time};
/// let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0))?;
/// let history = temperature_history(&[0.0, 2.0, 5.0].map(Time::days), &[40.0, 40.0, 90.0].map(Temperature::deg_c))?;
/// let t = equivalent_time(&history, &clock, Time::ZERO, Time::days(5.0))?;
/// assert!((t.in_days() - 2.255632).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn equivalent_time(history: &TemperatureHistory, clock: &Clock, from: Time, to: Time) -> Result<Time> {
    require(to >= from, NAME, "to", to, "not before `from`", "Give the times in order.")?;
    let total = pieces(history, from, Some(to)).map(|p| p.clocked(clock)).sum();
    finite(total).map(Time::seconds)
}

/// The time at which the clock, started at `from`, has counted `wanted`.
pub fn time_at_equivalent(
    history: &TemperatureHistory,
    clock: &Clock,
    from: Time,
    wanted: Time,
) -> Result<Time> {
    let mut left = wanted.si();
    require(left >= 0.0, NAME, "wanted", wanted, "zero or more", "Check the time wanted.")?;
    for piece in pieces(history, from, None) {
        let all = finite(piece.clocked(clock))?;
        if all < left {
            left -= all;
            continue;
        }
        let span = piece.t1 - piece.t0;
        let done = |dt: f64| Piece { t1: piece.t0 + dt, k1: piece.kelvin(dt), ..piece }.clocked(clock) - left;
        let dt = brent(done, 0.0, span, 1e-9 * span).ok_or_else(no_time)?;
        return Ok(Time::seconds(piece.t0 + dt));
    }
    // beyond the last row the temperature is held, and so is the rate
    let (start, kelvin) = history.rows().last().map_or((0.0, 0.0), |(t, k)| (t.si().max(from.si()), k.si()));
    finite(start + left / clock.exponent(kelvin).exp()).map(Time::seconds)
}

/// Coldest and hottest temperature between two times.
pub fn extremes(history: &TemperatureHistory, from: Time, to: Time) -> (Temperature, Temperature) {
    let inside = history.rows().iter().filter(|(t, _)| *t >= from && *t <= to).map(|(_, k)| *k);
    let ends = [history.at(from).0, history.at(to).0];
    inside.chain(ends).fold((ends[0], ends[0]), |(low, high), t| (low.min(t), high.max(t)))
}

/// A stretch of the history with temperature changing at one rate.
#[derive(Debug, Clone, Copy)]
struct Piece {
    t0: f64,
    t1: f64,
    k0: f64,
    k1: f64,
}

impl Piece {
    fn kelvin(&self, dt: f64) -> f64 {
        self.k0 + (self.k1 - self.k0) * dt / (self.t1 - self.t0)
    }

    /// The clock's count over the piece.
    fn clocked(&self, clock: &Clock) -> f64 {
        if self.t1 <= self.t0 {
            return 0.0;
        }
        let change = (clock.exponent(self.k1) - clock.exponent(self.k0)).abs();
        let parts = change.ceil().clamp(1.0, 1e4);
        let width = (self.t1 - self.t0) / parts;
        // ∫ exp[−(E_a/R)(1/T − 1/T_ref)] dt by Gauss's rule on each part
        (0..parts as usize)
            .map(|i| {
                let start = width * i as f64;
                let rate = |dt: f64| clock.exponent(self.kelvin(dt)).exp();
                let pair = |(x, w): &(f64, f64)| {
                    let half = 0.5 * width;
                    w * (rate(start + half * (1.0 - x)) + rate(start + half * (1.0 + x)))
                };
                0.5 * width * GAUSS_8.iter().map(pair).sum::<f64>()
            })
            .sum()
    }
}

/// Nodes and weights of Gauss's rule with 8 points, the positive half.
///
/// Source: abramowitz_stegun1964 table 25.4.
const GAUSS_8: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_3),
];

/// The history's pieces from `from` to `to`, or to the last row.
fn pieces(history: &TemperatureHistory, from: Time, to: Option<Time>) -> impl Iterator<Item = Piece> {
    let rows = history.rows().iter().map(|(t, _)| *t).filter(|t| *t > from);
    let mut marks = vec![from];
    match to {
        Some(to) => {
            marks.extend(rows.filter(|t| *t < to));
            marks.push(to);
        }
        None => marks.extend(rows),
    }
    let points: Vec<(f64, f64)> = marks.iter().map(|t| (t.si(), history.at(*t).0.si())).collect();
    let ends = points.clone().into_iter().skip(1);
    points.into_iter().zip(ends).map(|((t0, k0), (t1, k1))| Piece { t0, t1, k0, k1 }).filter(|p| p.t1 > p.t0)
}

fn finite(seconds: f64) -> Result<f64> {
    if seconds.is_finite() { Ok(seconds) } else { Err(Error::NotFinite { relation: NAME, output: "time" }) }
}

fn no_time() -> Error {
    Error::NoSolution {
        relation: NAME,
        what: "the time wanted is not reached in the history".into(),
        hint: "Extend the temperature history.",
    }
}

const NAME: &str = "equivalent_time";

/// `equivalent_time` in the register.
pub static EQUIVALENT_TIME: Relation = Relation {
    name: NAME,
    title: "Time at the reference temperature that does as much as a temperature history",
    equation: "t_eq = ∫ exp[−(E_a/R)(1/T(t) − 1/T_ref)] dt",
    source: "crank1975 sec. 7.1",
    range: "exact for a history straight between rows; held beyond them",
    inputs: &[
        Input::list::<Time>("times", "times of the history's rows"),
        Input::list::<Temperature>("temperatures", "temperatures there"),
        Input::new::<MolarEnergy>("activation_energy", "activation energy"),
        Input::new::<Temperature>("reference_temperature", "temperature of the reference rate"),
        Input::new::<Time>("from", "time the activating fluid arrives").or("0 s"),
        Input::new::<Time>("to", "end"),
    ],
    outputs: &[Output::new::<Time>("time", "equivalent time")],
    evaluate: |a| {
        let times: Vec<Time> = a.list("times")?;
        let history = temperature_history(&times, &a.list::<Temperature>("temperatures")?)?;
        let clock = Clock::new(a.get("activation_energy")?, a.get("reference_temperature")?)?;
        let time = equivalent_time(&history, &clock, a.get("from")?, a.get("to")?)?;
        Ok(Outputs::new().put("time", time))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn history() -> TemperatureHistory {
        let times = [0.0, 0.5, 3.0, 3.5, 9.0].map(Time::days);
        temperature_history(&times, &[80.0, 25.0, 95.0, 20.0, 110.0].map(Temperature::deg_c)).unwrap()
    }

    proptest::proptest! {
        #[test]
        fn inverts_and_adds_up(e in 0f64..120.0, from in 0f64..4.0, more in 0.01f64..20.0, cut in 0f64..1.0) {
            let clock = Clock::new(MolarEnergy::kj_per_mol(e), Temperature::deg_c(80.0)).unwrap();
            let h = history();
            let (from, to) = (Time::days(from), Time::days(from + more));
            let all = equivalent_time(&h, &clock, from, to).unwrap();
            let middle = Time::days(from.in_days() + cut * more);
            let parts = equivalent_time(&h, &clock, from, middle).unwrap()
                + equivalent_time(&h, &clock, middle, to).unwrap();
            proptest::prop_assert!((parts / all - 1.0).abs() < 1e-11);
            let back = time_at_equivalent(&h, &clock, from, all).unwrap();
            proptest::prop_assert!((back / to - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn extremes_count_the_ends() {
        let (low, high) = extremes(&history(), Time::days(0.6), Time::days(3.2));
        assert!((low.in_deg_c() - 27.8).abs() < 1e-9);
        assert!((high.in_deg_c() - 95.0).abs() < 1e-9);
    }
}
