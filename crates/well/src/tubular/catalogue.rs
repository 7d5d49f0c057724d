//! The catalogue of standard sizes and grades that comes with the program.

use std::sync::OnceLock;

use super::error::TubularError;
use physics::registry;
use physics::tubular::drift::DriftRule;
use physics::tubular::tube::Tube;
use quantity::{Diameter, MassPerLength, Pressure};

/// The data file, part of the program.
const DATA: &str = include_str!("../../data/tubulars.toml");

/// What a size is made for: decides its drift.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Purpose {
    /// Casing and liner.
    Casing,
    /// Tubing.
    Tubing,
}

impl Purpose {
    /// The rule it is drifted by.
    pub fn drift_rule(self) -> DriftRule {
        match self {
            Purpose::Casing => DriftRule::Casing,
            Purpose::Tubing => DriftRule::Tubing,
        }
    }
}

/// One standard size and weight.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Size {
    /// What it is made for.
    #[serde(rename = "use")]
    pub purpose: Purpose,
    /// Nominal outer diameter.
    pub outer: Diameter,
    /// Nominal weight, threaded and coupled.
    pub weight: MassPerLength,
    /// Nominal wall.
    pub wall: Diameter,
    /// Where the figures come from.
    pub basis: String,
    /// Length L4 of the short round thread, if made.
    #[serde(default)]
    pub short: Option<Diameter>,
    /// Length L4 of the long round thread, if made.
    #[serde(default)]
    pub long: Option<Diameter>,
    /// Hand-tight stand-off M of the round threads.
    #[serde(default)]
    pub stand_off: Option<Diameter>,
}

impl Size {
    /// Name as an engineer writes it: `5-1/2 in 20 lb/ft`.
    pub fn name(&self) -> String {
        format!("{} in {} lb/ft", inches(self.outer), trimmed(self.weight.in_lb_per_ft()))
    }

    /// Nominal inner diameter.
    pub fn inner(&self) -> Diameter {
        self.outer - self.wall * 2.0
    }

    /// The tube.
    pub fn tube(&self) -> Result<Tube, TubularError> {
        Ok(Tube::new("catalogue", self.outer, self.wall)?)
    }
}

/// A grade of steel.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Grade {
    /// Name, such as `P110`.
    pub name: String,
    /// Minimum yield strength at room temperature.
    pub yield_strength: Pressure,
    /// Minimum ultimate strength at room temperature.
    pub ultimate_strength: Pressure,
    /// Where the figures come from.
    pub basis: String,
}

/// Standard sizes and grades.
#[derive(Debug, Clone, PartialEq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    #[serde(rename = "size")]
    sizes: Vec<Size>,
    #[serde(rename = "grade")]
    grades: Vec<Grade>,
}

impl Catalogue {
    /// The catalogue that comes with the program.
    pub fn standard() -> Result<&'static Self, TubularError> {
        static READ: OnceLock<Result<Catalogue, String>> = OnceLock::new();
        let read = READ.get_or_init(|| toml::from_str(DATA).map_err(|e| e.to_string()));
        read.as_ref().map_err(|e| TubularError::Catalogue(e.clone()))
    }

    /// All sizes, in the order of the file.
    pub fn sizes(&self) -> &[Size] {
        &self.sizes
    }

    /// All grades.
    pub fn grades(&self) -> &[Grade] {
        &self.grades
    }

    /// The size of that outer diameter and nominal weight.
    ///
    /// ```
    /// use quantity::{Diameter, MassPerLength};
    /// use well::tubular::Catalogue;
    /// let catalogue = Catalogue::standard()?;
    /// let pipe = catalogue.find(Diameter::inch(5.5), MassPerLength::lb_per_ft(20.0))?;
    /// assert!((pipe.inner().in_inch() - 4.778).abs() < 1e-9);
    /// let slip = catalogue.find(Diameter::inch(5.5), MassPerLength::lb_per_ft(21.0));
    /// assert!(slip.unwrap_err().to_string().contains("5-1/2 in 20 lb/ft"));
    /// # Ok::<(), well::tubular::TubularError>(())
    /// ```
    pub fn find(&self, outer: Diameter, weight: MassPerLength) -> Result<&Size, TubularError> {
        let same =
            |s: &&Size| same_diameter(s.outer, outer) && (s.weight - weight).in_lb_per_ft().abs() < 0.006;
        let found = self.sizes.iter().find(same);
        found.ok_or_else(|| TubularError::NoSize { outer, weight, nearest: self.nearest(outer, weight) })
    }

    /// The three sizes nearest to an outer diameter and weight.
    fn nearest(&self, outer: Diameter, weight: MassPerLength) -> String {
        let gap = |s: &&Size| {
            let diameter = (s.outer - outer).in_inch().abs() * 100.0;
            let mass = (s.weight - weight).in_lb_per_ft().abs();
            diameter + mass
        };
        let mut list: Vec<&Size> = self.sizes.iter().collect();
        list.sort_by(|a, b| gap(a).total_cmp(&gap(b)));
        list.iter().take(3).map(|s| s.name()).collect::<Vec<_>>().join(", ")
    }

    /// The grade of that name, in any common spelling (`P-110`, `p110`).
    pub fn grade(&self, name: &str) -> Result<&Grade, TubularError> {
        let plain: String =
            name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect();
        let names = || self.grades.iter().map(|g| g.name.as_str());
        self.grades.iter().find(|g| g.name == plain).ok_or_else(|| TubularError::NoGrade {
            name: name.to_string(),
            nearest: registry::nearest(&plain, names()).map(String::from),
            known: names().collect::<Vec<_>>().join(", "),
        })
    }
}

/// Whether two diameters are the same size, allowing for a rounded metric figure.
fn same_diameter(a: Diameter, b: Diameter) -> bool {
    (a - b).in_mm().abs() < 0.06
}

/// A diameter in inches and eighths where it is one: `5-1/2`, `9-5/8`, `4.67`.
pub fn inches(diameter: Diameter) -> String {
    let inch = diameter.in_inch();
    let eighths = (inch * 8.0).round();
    let plain = !(0.0..8e6).contains(&eighths) || (inch * 8.0 - eighths).abs() > 1e-3;
    if plain {
        return trimmed(quantity::round_significant(inch, 5));
    }
    let (whole, part) = ((eighths / 8.0).floor(), eighths % 8.0);
    let fraction = match part as u8 {
        1 => "1/8",
        2 => "1/4",
        3 => "3/8",
        4 => "1/2",
        5 => "5/8",
        6 => "3/4",
        7 => "7/8",
        _ => return format!("{whole}"),
    };
    if whole == 0.0 { fraction.to_string() } else { format!("{whole}-{fraction}") }
}

/// A number without trailing zeros, at most four significant digits beyond the point.
fn trimmed(value: f64) -> String {
    format!("{}", quantity::round_significant(value, 5))
}
