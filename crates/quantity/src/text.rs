//! Quantity text: parsing with a message that names the units that fit, and number printing.

use crate::kind::Kind;

/// Why a text is not a quantity of the kind asked for.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum UnitError {
    /// No unit was given.
    #[error("`{text}` has no unit; write the {kind} with one of: {units}")]
    Missing {
        /// The text as found.
        text: String,
        /// The kind wanted.
        kind: &'static str,
        /// The units that fit.
        units: String,
    },
    /// The unit is not one of this kind.
    #[error("`{unit}` is not a unit of {kind}; use one of: {units}")]
    Unknown {
        /// The unit as found.
        unit: String,
        /// The kind wanted.
        kind: &'static str,
        /// The units that fit.
        units: String,
    },
    /// The number cannot be read.
    #[error("`{text}` is not a number{hint}")]
    Number {
        /// The text as found.
        text: String,
        /// What to write instead.
        hint: &'static str,
    },
}

/// Prints `value` with `decimals`, never as a negative zero.
pub fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
    if zero { text.trim_start_matches('-').to_string() } else { text }
}

/// Rounds to `digits` significant digits, so that printing a stored SI number does not show
/// the noise of a unit conversion. Non-finite numbers are returned as they are.
pub fn round_significant(value: f64, digits: usize) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let text = format!("{value:.*e}", digits.saturating_sub(1));
    text.parse().unwrap_or(value)
}

/// Reads a number: `12`, `-1.5e3`, `4_000`, `1/2`, `4-1/2` or `4 1/2`.
pub fn parse_number(text: &str) -> Result<f64, UnitError> {
    let clean = text.trim().replace('_', "");
    let bad = |hint| UnitError::Number { text: text.trim().to_string(), hint };
    if clean.contains(',') {
        return Err(bad("; write a point for the decimals and no mark for the thousands"));
    }
    let value = match clean.split_once('/') {
        Some((left, denominator)) => mixed(left, denominator),
        None => clean.parse::<f64>().ok(),
    };
    match value {
        Some(v) if v.is_finite() => Ok(v),
        Some(_) => Err(bad("; it must be finite")),
        None => Err(bad("")),
    }
}

fn mixed(left: &str, denominator: &str) -> Option<f64> {
    let digits = |s: &str| (!s.is_empty() && s.bytes().all(|b| b.is_ascii_digit())).then_some(());
    let den = denominator.trim();
    digits(den)?;
    let den: f64 = den.parse().ok()?;
    if den == 0.0 {
        return None;
    }
    let (sign, left) = match left.trim().strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, left.trim()),
    };
    let (whole, num) = match left.rsplit_once(['-', ' ']) {
        Some((w, n)) => (w.trim(), n.trim()),
        None => ("0", left),
    };
    digits(whole)?;
    digits(num)?;
    Some(sign * (whole.parse::<f64>().ok()? + num.parse::<f64>().ok()? / den))
}

/// Splits text into number and unit: the unit starts at the first letter (or `%`, `°`) that
/// is not the exponent of a number.
fn split(text: &str) -> (&str, &str) {
    let text = text.trim();
    let bytes = text.as_bytes();
    for (i, c) in text.char_indices() {
        let exponent = matches!(c, 'e' | 'E')
            && i > 0
            && bytes[i - 1].is_ascii_digit()
            && matches!(bytes.get(i + 1), Some(b'0'..=b'9' | b'+' | b'-'));
        let numeric = c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '_' | ' ' | '/' | ',');
        if !numeric && !exponent {
            return text.split_at(reciprocal(&text[..i]).unwrap_or(i));
        }
    }
    (text, "")
}

/// Where a reciprocal unit such as `1/psi` starts, when `head` is a number followed by `1/`.
fn reciprocal(head: &str) -> Option<usize> {
    let number = head.strip_suffix("1/")?;
    (number.ends_with(' ') && !number.trim().is_empty()).then_some(number.len())
}

/// Reads a quantity of `kind` and returns its SI number.
pub(crate) fn parse_quantity(text: &str, kind: &'static Kind) -> Result<f64, UnitError> {
    let (num, unit) = split(text);
    let unit = unit.trim();
    let value = parse_number(num).map_err(|e| match e {
        UnitError::Number { hint, .. } => UnitError::Number { text: text.trim().to_string(), hint },
        other => other,
    })?;
    if unit.is_empty() && !kind.unitless {
        return Err(UnitError::Missing {
            text: text.trim().to_string(),
            kind: kind.name,
            units: kind.unit_list(),
        });
    }
    let found = kind.unit(unit).or_else(|| kind.unit(&plain(unit)));
    match found {
        Some(u) => finite(u.to_si(value), text),
        None => Err(UnitError::Unknown { unit: unit.to_string(), kind: kind.name, units: kind.unit_list() }),
    }
}

fn finite(si: f64, text: &str) -> Result<f64, UnitError> {
    if si.is_finite() {
        Ok(si)
    } else {
        Err(UnitError::Number { text: text.trim().to_string(), hint: "; it must be finite" })
    }
}

/// Folds common spellings of a unit to the plain form of the tables.
fn plain(unit: &str) -> String {
    let folded = unit.replace(['²'], "2").replace('³', "3").replace("lbm", "lb").replace('µ', "u");
    match folded.as_str() {
        "\"" | "inch" | "inches" => "in".into(),
        "'" | "feet" | "foot" => "ft".into(),
        "bpm" => "bbl/min".into(),
        "ppg" => "lb/gal".into(),
        "ppf" => "lb/ft".into(),
        "°C" | "C" => "degC".into(),
        "°F" | "F" => "degF".into(),
        "°" => "deg".into(),
        "hr" | "hours" | "hour" => "h".into(),
        "days" | "day" => "d".into(),
        "sec" => "s".into(),
        _ => folded,
    }
}
