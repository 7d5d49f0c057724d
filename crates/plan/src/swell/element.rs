//! The swelling element: the supplier's curve, its clock, and what is uncertain of both.

use physics::packer::arrhenius::Clock;
use physics::packer::equivalent_time::{
    TemperatureHistory, equivalent_time, temperature_history, time_at_equivalent,
};
use physics::packer::swell_curve::{SwellCurve, TEMPERATURE_MARGIN};
use quantity::*;
use well::job::Swell;

use super::draws::Draw;

/// Least share of the supplier's growth that a sample keeps.
const LEAST_GROWTH: f64 = 0.05;

/// The element with its spreads.
pub(super) struct Element<'a> {
    /// The supplier's figures.
    pub table: &'a Swell,
    /// Diameter over time on the laboratory's clock.
    pub curve: SwellCurve,
    /// Diameter before it swells.
    pub dry: Diameter,
}

/// One element of many: how much it grows of what the supplier's grew, and its clock.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    /// Growth over the supplier's.
    pub growth: f64,
    /// Clock.
    pub clock: Clock,
}

impl<'a> Element<'a> {
    /// From the supplier's rows.
    pub fn of(table: &'a Swell) -> physics::Result<Self> {
        let clock = Clock::new(table.activation_energy, table.temperature)?;
        let (times, outers) = rows(table);
        let dry = outers.first().copied().unwrap_or(Diameter::ZERO);
        let curve = SwellCurve::new(&times, &outers, clock, tested(table))?;
        Ok(Self { table, curve, dry })
    }

    /// The element with every figure at its middle.
    pub fn middle(&self) -> physics::Result<Kind> {
        self.kind(&Draw::default())
    }

    /// The element of a draw.
    pub fn kind(&self, draw: &Draw) -> physics::Result<Kind> {
        let growth = (1.0 + self.table.swell_sigma.si() * draw.swell).max(LEAST_GROWTH);
        let energy = self.table.activation_energy + self.table.activation_energy_sigma * draw.energy;
        let clock = Clock::new(energy.max(MolarEnergy::ZERO), self.table.temperature)?;
        Ok(Kind { growth, clock })
    }

    /// Time on the laboratory's clock at which an element reaches a diameter; none where no reading
    /// does.
    pub fn needs(&self, kind: Kind, diameter: Diameter) -> Option<Time> {
        if diameter <= self.dry {
            return Some(Time::ZERO);
        }
        self.curve.equivalent_at(self.dry + (diameter - self.dry) / kind.growth)
    }

    /// Free diameter of an element at a time on the laboratory's clock; after the last reading that
    /// of the last.
    pub fn diameter(&self, kind: Kind, equivalent: Time) -> Diameter {
        self.dry + (self.curve.outer_at(equivalent).0 - self.dry) * kind.growth
    }
}

/// Times and diameters of the supplier's rows.
pub(super) fn rows(table: &Swell) -> (Vec<Time>, Vec<Diameter>) {
    table.row.iter().map(|r| (r.time, r.od)).unzip()
}

/// Coldest and hottest temperature of the supplier's tests.
pub(super) fn tested(table: &Swell) -> (Temperature, Temperature) {
    (table.temperature.min(table.coldest_test), table.temperature.max(table.hottest_test))
}

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

    /// When a clock that counts `counted` while it warms up has counted `wanted`.
    pub fn time_at(&self, clock: &Clock, counted: Time, wanted: Time) -> physics::Result<Time> {
        if wanted <= counted {
            return time_at_equivalent(&self.history, clock, Time::ZERO, wanted);
        }
        Ok(self.until + (wanted - counted) / clock.rate(self.rock)?)
    }

    /// What a clock that counts `counted` while it warms up has counted at a time.
    pub fn counted_at(&self, clock: &Clock, counted: Time, time: Time) -> physics::Result<Time> {
        if time <= self.until {
            return equivalent_time(&self.history, clock, Time::ZERO, time);
        }
        Ok(counted + (time - self.until) * clock.rate(self.rock)?)
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
            let eq = warm.counted_at(&clock(), counted, time).unwrap();
            let straight = equivalent_time(&warm.history, &clock(), Time::ZERO, time).unwrap();
            assert!((eq / straight - 1.0).abs() < 1e-9);
            let back = warm.time_at(&clock(), counted, eq).unwrap();
            assert!((back / time - 1.0).abs() < 1e-6);
        }
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
