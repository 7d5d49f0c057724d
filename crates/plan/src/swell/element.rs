//! The swelling element: the supplier's curve, its clock, and what is uncertain of both.

use physics::packer::arrhenius::Clock;
use physics::packer::swell_curve::SwellCurve;
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

    /// Growth of the element of a draw, over the supplier's.
    pub fn growth(&self, draw: &Draw) -> f64 {
        (1.0 + self.table.swell_sigma.si() * draw.swell).max(LEAST_GROWTH)
    }

    /// The element of a draw.
    pub fn kind(&self, draw: &Draw) -> physics::Result<Kind> {
        let growth = self.growth(draw);
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
