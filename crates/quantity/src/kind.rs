//! What a quantity type knows of itself: its name, its units, and how it is shown.

use crate::constant::{DAY, HOUR};
use crate::text::{UnitError, number, parse_quantity};

/// The unit system a person reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum System {
    /// Feet, inches, psi, barrels.
    #[default]
    Field,
    /// Metres, millimetres, megapascals, cubic metres.
    Metric,
}

/// One unit of a kind: `si = value * factor + offset`.
#[derive(Debug)]
pub struct Unit {
    /// Text form, as written in files and printed.
    pub symbol: &'static str,
    /// SI value of one unit.
    pub factor: f64,
    /// SI value at zero of this unit (temperature scales only).
    pub offset: f64,
    /// Decimals shown to a person.
    pub decimals: usize,
}

/// The description of one quantity type.
#[derive(Debug)]
pub struct Kind {
    /// Name in plain words, for messages.
    pub name: &'static str,
    /// All units; the first is the SI unit.
    pub units: &'static [Unit],
    /// Symbol of the unit shown in field units.
    pub field: &'static str,
    /// Symbol of the unit shown in metric units.
    pub metric: &'static str,
    /// Whether a bare number is a full statement of it.
    pub unitless: bool,
}

impl Kind {
    /// The unit of that symbol, if this kind has it.
    pub fn unit(&self, symbol: &str) -> Option<&'static Unit> {
        self.units.iter().find(|u| u.symbol == symbol)
    }

    /// The SI unit.
    pub fn si_unit(&self) -> &'static Unit {
        &self.units[0]
    }

    /// The unit shown in `system`; the SI unit if the table names none.
    pub fn shown(&self, system: System) -> &'static Unit {
        let symbol = match system {
            System::Field => self.field,
            System::Metric => self.metric,
        };
        self.unit(symbol).unwrap_or(&self.units[0])
    }

    /// The unit a person reads in `system` for a figure of this size: that of [`Kind::shown`], but long
    /// spans of time in days from two days on, and in hours from ten.
    pub fn shown_for(&self, system: System, si: f64) -> &'static Unit {
        let long = match si.abs() {
            t if t >= 2.0 * DAY => self.unit("d"),
            t if t >= 10.0 * HOUR => self.unit("h"),
            _ => None,
        };
        let time = self.si_unit().symbol == "s";
        long.filter(|_| time).unwrap_or_else(|| self.shown(system))
    }

    /// The symbols of all units, joined for a message.
    pub fn unit_list(&self) -> String {
        self.units.iter().map(|u| u.symbol).collect::<Vec<_>>().join(", ")
    }
}

impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Unit {
    /// SI value of `value` in this unit.
    pub fn to_si(&self, value: f64) -> f64 {
        value * self.factor + self.offset
    }

    /// Value in this unit of an SI number.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }

    /// Number and symbol with this unit's decimals.
    pub fn text(&self, si: f64) -> String {
        let n = number(self.from_si(si), self.decimals);
        if self.symbol.is_empty() { n } else { format!("{n} {}", self.symbol) }
    }
}

/// A typed quantity over an SI `f64`.
pub trait Quantity: Copy + std::fmt::Debug + 'static {
    /// Description of the type.
    const KIND: &'static Kind;

    /// From the SI number.
    fn from_si(si: f64) -> Self;

    /// The SI number, for numerical kernels.
    fn si(self) -> f64;

    /// From text such as `"4.5 in"` or `"4-1/2 in"`; any unit of the kind is taken.
    fn parse(text: &str) -> Result<Self, UnitError> {
        parse_quantity(text, Self::KIND).map(Self::from_si)
    }

    /// Number and unit for a person.
    fn text(self, system: System) -> String {
        Self::KIND.shown(system).text(self.si())
    }

    /// The number alone in the unit a person reads.
    fn shown(self, system: System) -> f64 {
        Self::KIND.shown(system).from_si(self.si())
    }

    /// Whether the number is finite.
    fn is_finite(self) -> bool {
        self.si().is_finite()
    }
}
