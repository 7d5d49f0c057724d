//! Units of depth and diameter as logs write them.

use quantity::constant::{FOOT, INCH, SURVEY_FOOT};

/// The unit without brackets, trailing points and case.
fn plain(unit: &str) -> String {
    let bare = unit.trim().trim_matches(|c| matches!(c, '[' | ']' | '(' | ')' | '"' | '\''));
    bare.trim().trim_end_matches('.').to_lowercase().replace([' ', '_'], "")
}

/// Metres in one unit of length.
fn length_factor(plain: &str) -> Option<f64> {
    match plain {
        "m" | "metre" | "metres" | "meter" | "meters" | "mtr" | "mtrs" | "mt" => Some(1.0),
        "м" | "метр" | "метры" | "метров" | "метер" => Some(1.0),
        "ft" | "feet" | "foot" => Some(FOOT),
        "ftus" | "usft" | "sft" => Some(SURVEY_FOOT),
        "in" | "ins" | "inch" | "inches" => Some(INCH),
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Some(1e-2),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Some(1e-3),
        _ => None,
    }
}

/// Metres in one unit of depth; `F` is feet here.
pub(super) fn depth_factor(unit: &str) -> Option<f64> {
    if unit.trim() == "'" {
        return Some(FOOT);
    }
    match plain(unit).as_str() {
        "f" => Some(FOOT),
        ".1in" | "0.1in" | ".1inch" | "0.1inch" | ".1inches" | "0.1inches" => Some(0.1 * INCH),
        "km" => Some(1e3),
        other => length_factor(other),
    }
}

/// Metres in one unit of diameter.
pub(super) fn diameter_factor(unit: &str) -> Option<f64> {
    if unit.trim() == "\"" { Some(INCH) } else { length_factor(&plain(unit)) }
}

/// Whether a depth in this unit is counted in tenths of an inch.
pub(super) fn is_tenth_inch(unit: &str) -> bool {
    depth_factor(unit).is_some_and(|f| f == 0.1 * INCH)
}

/// Whether the unit is one of time.
pub(super) fn is_time(unit: &str) -> bool {
    let plain = plain(unit);
    let known = ["s", "sec", "secs", "second", "seconds", "ms", "msec", "min", "mins", "minute", "minutes"];
    let long = ["h", "hr", "hrs", "hour", "hours", "d", "day", "days", "hhmmss", "hh:mm:ss", "hh:mm", "unix"];
    known.contains(&plain.as_str()) || long.contains(&plain.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_as_logs_write_them() {
        assert_eq!(depth_factor("F"), Some(FOOT));
        assert_eq!(depth_factor("[M]"), Some(1.0));
        assert_eq!(depth_factor(".1IN"), Some(0.1 * INCH));
        assert_eq!(depth_factor("0.1 in"), Some(0.1 * INCH));
        assert!(is_tenth_inch(".1IN") && !is_tenth_inch("IN"));
        assert_eq!(depth_factor("метер"), Some(1.0));
        assert_eq!(depth_factor("PPM"), None);
        assert_eq!(diameter_factor("INCHES"), Some(INCH));
        assert_eq!(diameter_factor("F"), None);
        assert!(is_time("HHMMSS") && !is_time("M"));
    }
}
