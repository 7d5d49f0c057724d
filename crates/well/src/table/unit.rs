//! The unit of a column, as written in a header, a units row or a cell.

use quantity::{Kind, Value};

/// How a bare number of a column becomes SI: `si = value * factor + offset`.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// The unit as the program writes it.
    pub symbol: String,
    /// SI value of one unit.
    pub factor: f64,
    /// SI value at zero of the unit (temperature scales only).
    pub offset: f64,
}

impl Scale {
    /// SI value of a bare number.
    pub fn si(&self, value: f64) -> f64 {
        value * self.factor + self.offset
    }

    /// The unit called `text` of this kind, under any common spelling.
    pub fn find(kind: &'static Kind, text: &str) -> Option<Self> {
        let text = text.trim().trim_end_matches('.').trim();
        if text.chars().count() > 24 {
            return None;
        }
        let lower = text.to_lowercase();
        let tight: String = lower.chars().filter(|c| !c.is_whitespace()).collect();
        let spoken = spoken(&tight);
        [text, &lower, &tight, &spoken].into_iter().find_map(|t| Self::exact(kind, t))
    }

    fn exact(kind: &'static Kind, symbol: &str) -> Option<Self> {
        if symbol.is_empty() {
            return None;
        }
        let fold = |u: &&quantity::Unit| u.symbol.eq_ignore_ascii_case(symbol) && !u.symbol.is_empty();
        let known = kind.unit(symbol).or_else(|| kind.units.iter().find(fold));
        if let Some(unit) = known {
            return Some(Self { symbol: unit.symbol.into(), factor: unit.factor, offset: unit.offset });
        }
        let at = |n: u8| Value::parse(&format!("{n} {symbol}"), kind).ok().map(Value::si);
        let (zero, one) = (at(0)?, at(1)?);
        let same = |u: &&quantity::Unit| u.to_si(0.0) == zero && u.to_si(1.0) == one;
        let symbol = kind.units.iter().find(same).map_or(symbol, |u| u.symbol);
        Some(Self { symbol: symbol.into(), factor: one - zero, offset: zero })
    }
}

/// Folds spellings met in exported tables (lower case, no spaces) to a unit's symbol.
fn spoken(unit: &str) -> String {
    let whole = match unit {
        "feet" | "foot" | "ftkb" | "ftrkb" | "ftmd" | "fttvd" => "ft",
        "usft" | "us-ft" | "ftus" | "ft-us" | "ussurveyfeet" | "ussurveyft" | "surveyfeet" => "ftUS",
        "metre" | "metres" | "meter" | "meters" | "mtr" | "mtrs" | "mrkb" | "mmd" | "mtvd" => "m",
        "inch" | "inches" | "ins" => "in",
        "degree" | "degrees" | "degs" | "dega" => "deg",
        "radian" | "radians" | "rads" => "rad",
        "lbs" | "lbm" | "pounds" => "lb",
        "lbs/ft" | "#/ft" | "lbm/ft" | "#" => "lb/ft",
        "psig" => "psi",
        "minutes" | "mins" => "min",
        "seconds" | "secs" => "s",
        "bbls" | "barrels" => "bbl",
        "bbls/min" => "bbl/min",
        other => return rate(other),
    };
    whole.to_string()
}

/// `deg per 100ft`, `°/30m`, `deg/100'` and their like.
fn rate(unit: &str) -> String {
    let unit = unit.replace('°', "deg").replace("degrees", "deg").replace("per", "/").replace('\'', "ft");
    unit.replace("_/_", "/").replace('_', "").replace("feet", "ft")
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity, Temperature};

    #[test]
    fn knows_the_spellings_of_exports() {
        let symbol = |kind, text| Scale::find(kind, text).map(|s| s.symbol);
        assert_eq!(symbol(Length::KIND, "Feet").as_deref(), Some("ft"));
        assert_eq!(symbol(Length::KIND, "M").as_deref(), Some("m"));
        assert_eq!(symbol(MeasuredDepth::KIND, "us-ft").as_deref(), Some("ftUS"));
        assert_eq!(symbol(Angle::KIND, "°").as_deref(), Some("deg"));
        assert_eq!(symbol(Angle::KIND, "degrees").as_deref(), Some("deg"));
        assert_eq!(symbol(Curvature::KIND, "deg per 100ft").as_deref(), Some("deg/100ft"));
        assert_eq!(symbol(Curvature::KIND, "°/30m").as_deref(), Some("deg/30m"));
        assert_eq!(symbol(Length::KIND, "psi"), None);
        assert_eq!(symbol(Length::KIND, "-5 ft"), None);
    }

    #[test]
    fn keeps_the_offset_of_a_temperature_scale() {
        let scale = Scale::find(Temperature::KIND, "°C").unwrap();
        assert!((scale.si(20.0) - 293.15).abs() < 1e-9);
        let scale = Scale::find(Temperature::KIND, "degF").unwrap();
        assert!((scale.si(32.0) - 273.15).abs() < 1e-9);
    }
}
