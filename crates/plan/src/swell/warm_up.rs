//! The temperature of a packer after the fluid is in place, and what a clock counts in it.

use physics::heat::profile::Profile;
use physics::packer::arrhenius::Clock;
use physics::packer::equivalent_time::{
    TemperatureHistory, equivalent_time, temperature_history, time_at_equivalent,
};
use physics::packer::swell_curve::TEMPERATURE_MARGIN;
use quantity::*;

use super::element::Kind;

/// Activation energies at which the count of warming up is taken.
const NODES: usize = 17;

/// Logarithm of a count in seconds over activation energy.
type Logarithms = Profile<MolarEnergy, Ratio>;

/// The temperature of one packer from the fluid in place on: even from the start to that of the
/// rock, and held.
pub(super) struct WarmUp {
    /// When it has the temperature of the rock.
    pub until: Time,
    /// Temperature when the fluid is in place.
    pub start: Temperature,
    /// Temperature of the rock.
    pub rock: Temperature,
    /// The same as rows.
    pub history: TemperatureHistory,
}

impl WarmUp {
    /// From a start no hotter than the rock.
    pub fn new(until: Time, start: Temperature, rock: Temperature) -> physics::Result<Self> {
        let start = start.min(rock);
        let (times, temperatures) = if until.si() > 0.0 {
            (vec![Time::ZERO, until], vec![start, rock])
        } else {
            (vec![Time::ZERO], vec![rock])
        };
        let history = temperature_history(&times, &temperatures)?;
        Ok(Self { until: until.max(Time::ZERO), start, rock, history })
    }

    /// What a clock counts while it warms up.
    pub fn counted(&self, clock: &Clock) -> physics::Result<Time> {
        equivalent_time(&self.history, clock, Time::ZERO, self.until)
    }

    /// What the clock of every kind has counted at a time. While it warms up the count is taken at
    /// a few activation energies and its logarithm as straight between them, which is off by less
    /// than a part in a thousand.
    pub fn counted_by(&self, kinds: &[Kind], time: Time) -> physics::Result<Vec<Time>> {
        let warming = self.logarithms(kinds, time.min(self.until))?;
        let after = (time - self.until).max(Time::ZERO);
        kinds
            .iter()
            .map(|k| {
                let counted = warming.as_ref().map_or(0.0, |w| w.at(k.clock.activation).0.si().exp());
                Ok(Time::seconds(counted) + after * k.clock.rate(self.rock)?)
            })
            .collect()
    }

    /// Logarithm of the count at a time of warming up over activation energy; none at the start.
    fn logarithms(&self, kinds: &[Kind], time: Time) -> physics::Result<Option<Logarithms>> {
        let Some(first) = kinds.first().filter(|_| time.si() > 0.0) else { return Ok(None) };
        let ends = kinds.iter().map(|k| k.clock.activation);
        let (low, high) =
            ends.fold((first.clock.activation, first.clock.activation), |(a, b), e| (a.min(e), b.max(e)));
        let count = if high > low { NODES } else { 1 };
        let energies: Vec<MolarEnergy> =
            (0..count).map(|i| low + (high - low) * (i as f64 / (NODES - 1) as f64)).collect();
        let mut counts = Vec::with_capacity(count);
        for energy in &energies {
            let clock = Clock::new(*energy, first.clock.reference)?;
            let counted = equivalent_time(&self.history, &clock, Time::ZERO, time)?;
            counts.push(Ratio::of(counted.si().max(f64::MIN_POSITIVE).ln()));
        }
        Profile::new("equivalent_time", &energies, &counts).map(Some)
    }

    /// When a clock that counts `counted` while it warms up has counted `wanted`.
    pub fn time_at(&self, clock: &Clock, counted: Time, wanted: Time) -> physics::Result<Time> {
        if wanted <= counted {
            return time_at_equivalent(&self.history, clock, Time::ZERO, wanted);
        }
        Ok(self.until + (wanted - counted) / clock.rate(self.rock)?)
    }

    /// When the packer first has a temperature between start and rock.
    fn reaches(&self, temperature: Temperature) -> Time {
        let span = self.rock - self.start;
        if span.si() <= 0.0 {
            return Time::ZERO;
        }
        self.until * ((temperature - self.start) / span).clamp(0.0, 1.0)
    }

    /// Share of `wanted` that a clock counts further from the tests than the margin.
    pub fn beyond(
        &self,
        clock: &Clock,
        (coldest, hottest): (Temperature, Temperature),
        wanted: Time,
    ) -> physics::Result<f64> {
        let (low, high) = (coldest - TEMPERATURE_MARGIN, hottest + TEMPERATURE_MARGIN);
        if self.rock < low || wanted.si() <= 0.0 {
            return Ok(if wanted.si() > 0.0 { 1.0 } else { 0.0 });
        }
        let cold = equivalent_time(&self.history, clock, Time::ZERO, self.reaches(low))?;
        let hot = if self.rock > high {
            (wanted - equivalent_time(&self.history, clock, Time::ZERO, self.reaches(high))?).max(Time::ZERO)
        } else {
            Time::ZERO
        };
        Ok(((cold.min(wanted) + hot) / wanted).clamp(0.0, 1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock() -> Clock {
        Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0)).unwrap()
    }

    #[test]
    fn the_short_way_is_the_relation() {
        let c = Temperature::deg_c;
        let warm = WarmUp::new(Time::days(3.0), c(40.0), c(90.0)).unwrap();
        let counted = warm.counted(&clock()).unwrap();
        for days in [0.1, 1.0, 2.9, 3.0, 3.1, 12.0] {
            let time = Time::days(days);
            let kind = Kind { growth: 1.0, clock: clock() };
            let eq = warm.counted_by(&[kind], time).unwrap()[0];
            let straight = equivalent_time(&warm.history, &clock(), Time::ZERO, time).unwrap();
            assert!((eq / straight - 1.0).abs() < 1e-9);
            let back = warm.time_at(&clock(), counted, eq).unwrap();
            assert!((back / time - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn counts_of_many_are_those_of_each() {
        let c = Temperature::deg_c;
        let warm = WarmUp::new(Time::hours(40.0), c(10.0), c(130.0)).unwrap();
        let energies: Vec<f64> = (0..60).map(|i| 20.0 + 0.6 * f64::from(i)).collect();
        let kind =
            |e: f64| Kind { growth: 1.0, clock: Clock::new(MolarEnergy::kj_per_mol(e), c(80.0)).unwrap() };
        let kinds: Vec<Kind> = energies.into_iter().map(kind).collect();
        for hours in [0.0, 3.0, 39.0, 40.0, 41.0, 400.0] {
            let time = Time::hours(hours);
            for (kind, counted) in kinds.iter().zip(warm.counted_by(&kinds, time).unwrap()) {
                let each = equivalent_time(&warm.history, &kind.clock, Time::ZERO, time).unwrap();
                assert!((counted - each).abs().si() <= 1e-3 * each.si(), "{hours} {counted} {each}");
            }
        }
        let same = warm.counted_by(&kinds[..1], Time::hours(7.0)).unwrap();
        assert_eq!(same.len(), 1);
    }

    #[test]
    fn a_hot_start_is_not_taken() {
        let warm = WarmUp::new(Time::days(1.0), Temperature::deg_c(60.0), Temperature::deg_c(50.0)).unwrap();
        assert_eq!(warm.start, Temperature::deg_c(50.0));
        let counted = warm.counted(&clock()).unwrap();
        assert!((counted.in_days() - clock().rate(Temperature::deg_c(50.0)).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn swelling_beyond_the_tests_is_told() {
        let c = Temperature::deg_c;
        let wanted = Time::days(4.0);
        let beyond = |start: f64, rock: f64, tests: (f64, f64)| {
            let warm = WarmUp::new(Time::days(2.0), c(start), c(rock)).unwrap();
            warm.beyond(&clock(), (c(tests.0), c(tests.1)), wanted).unwrap()
        };
        assert_eq!(beyond(80.0, 80.0, (80.0, 80.0)), 0.0);
        assert_eq!(beyond(20.0, 50.0, (80.0, 80.0)), 1.0);
        let cold_start = beyond(20.0, 80.0, (80.0, 80.0));
        assert!(cold_start > 0.01 && cold_start < 0.2, "{cold_start}");
        let hot = beyond(80.0, 120.0, (80.0, 80.0));
        assert!(hot > 0.5 && hot < 1.0, "{hot}");
    }
}
