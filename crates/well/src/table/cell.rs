//! One cell: absent or not, decimal comma or thousands mark, feet and inches, a unit of its own.

use super::unit::Scale;
use quantity::{Kind, Value, parse_number};

/// Words that say there is nothing.
const ABSENT: &[&str] = &[
    "", "-", "--", "---", "n/a", "na", "n.a.", "n.a", "#n/a", "nan", "null", "none", "nil", "-999.25",
    "-9999.25", "-9999", "-9999.0", "?",
];

/// Whether a cell says that there is nothing.
pub fn is_absent(cell: &str) -> bool {
    cell.len() <= 8 && ABSENT.iter().any(|w| w.eq_ignore_ascii_case(cell.trim()))
}

/// Whether a cell looks like a bare number, with point or comma.
pub fn looks_numeric(cell: &str) -> bool {
    let cell = cell.trim();
    let digits = cell.bytes().any(|b| b.is_ascii_digit());
    digits && cell.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',' | b'-' | b'+' | b'e' | b'E'))
}

/// What a comma inside numbers means in this file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Comma {
    /// No number holds one.
    #[default]
    Unused,
    /// It stands before the decimals.
    Decimal,
    /// It parts the thousands.
    Thousands,
    /// `1,234` could be either, and nothing in the file tells.
    Unknown,
}

/// What the numbers of a file show about their commas.
#[derive(Debug, Clone, Copy, Default)]
pub struct CommaEvidence {
    decimal: usize,
    thousands: usize,
    either: usize,
    points: usize,
}

#[derive(PartialEq)]
enum Marks {
    None,
    Point,
    Decimal,
    Thousands,
    Either,
}

fn marks(number: &str) -> Marks {
    let (commas, points) = (number.matches(',').count(), number.matches('.').count());
    match (commas, points) {
        (0, 0) => Marks::None,
        (0, 1) => Marks::Point,
        (0, _) => Marks::Decimal,
        (_, 1..) if number.rfind(',') < number.rfind('.') => Marks::Thousands,
        (1, 1..) => Marks::Decimal,
        (2.., _) => Marks::Thousands,
        _ => {
            let (head, tail) = number.split_once(',').unwrap_or((number, ""));
            let head = head.trim_start_matches(['-', '+']);
            let grouped = tail.len() == 3 && (1..=3).contains(&head.len()) && !head.starts_with('0');
            if grouped { Marks::Either } else { Marks::Decimal }
        }
    }
}

impl CommaEvidence {
    /// Adds one cell.
    pub fn add(&mut self, cell: &str) {
        match marks(number_part(cell)) {
            Marks::None => {}
            Marks::Point => self.points += 1,
            Marks::Decimal => self.decimal += 1,
            Marks::Thousands => self.thousands += 1,
            Marks::Either => self.either += 1,
        }
    }

    /// What all cells together say.
    pub fn verdict(self) -> Comma {
        match (self.decimal, self.thousands, self.either) {
            (0, 0, 0) => Comma::Unused,
            (1.., 0, _) => Comma::Decimal,
            (0, 1.., _) => Comma::Thousands,
            (0, 0, _) if self.points > 0 => Comma::Thousands,
            _ => Comma::Unknown,
        }
    }
}

/// The leading part of a cell that is a number, without the unit.
fn number_part(cell: &str) -> &str {
    let end = cell
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+')))
        .unwrap_or(cell.len());
    cell.get(..end).unwrap_or_default()
}

/// Why a cell is not a quantity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CellFault {
    /// Not a number at all.
    NotANumber,
    /// A comma or point that can be read in two ways.
    TwoReadings,
    /// A bare number where no unit is known.
    NoUnit,
    /// A unit that is not one of the kind.
    WrongUnit,
}

/// The SI number of a cell: a bare number takes the unit of the column, a number with a unit
/// its own; `41' 6"` is feet and inches.
pub fn quantity(
    cell: &str,
    kind: &'static Kind,
    scale: Option<&Scale>,
    comma: Comma,
) -> Result<f64, CellFault> {
    let clean = clean_number(cell, comma)?;
    if let Ok(number) = parse_number(&clean) {
        let si = match scale {
            Some(s) => s.si(number),
            None if kind.unitless => number,
            None => return Err(CellFault::NoUnit),
        };
        return if si.is_finite() { Ok(si) } else { Err(CellFault::NotANumber) };
    }
    if let (Some(feet), Some(foot)) = (feet_and_inches(&clean), kind.unit("ft")) {
        return Ok(foot.to_si(feet));
    }
    if let Ok(value) = Value::parse(&clean, kind) {
        return Ok(value.si());
    }
    if looks_numeric(&clean) {
        return Err(CellFault::NotANumber);
    }
    let number = number_part(&clean);
    let (value, unit) = (parse_number(number), clean.get(number.len()..).unwrap_or_default());
    match value {
        Ok(value) if !number.is_empty() => {
            let own = Scale::find(kind, unit).ok_or(CellFault::WrongUnit)?;
            Ok(own.si(value)).and_then(|si| if si.is_finite() { Ok(si) } else { Err(CellFault::NotANumber) })
        }
        _ => Err(CellFault::NotANumber),
    }
}

/// The cell with a decimal point and no thousands marks.
fn clean_number(cell: &str, comma: Comma) -> Result<String, CellFault> {
    let cell = cell.trim().replace(['\u{a0}', '\u{202f}', '\u{2009}'], " ").replace('\u{2212}', "-");
    let number = number_part(&cell).to_string();
    let rest = cell.get(number.len()..).unwrap_or_default();
    let fixed = match (marks(&number), comma) {
        (Marks::None, _) => number,
        (Marks::Point, Comma::Decimal) if grouped_by_points(&number) => return Err(CellFault::TwoReadings),
        (Marks::Point, _) => number,
        (Marks::Thousands, _) | (Marks::Either, Comma::Thousands) => number.replace(',', ""),
        (Marks::Decimal, _) => number.replace('.', "").replace(',', "."),
        (Marks::Either, Comma::Decimal) => number.replace(',', "."),
        (Marks::Either, _) => return Err(CellFault::TwoReadings),
    };
    Ok(format!("{fixed}{rest}"))
}

/// `1.234` in a file of decimal commas.
fn grouped_by_points(number: &str) -> bool {
    let number = number.trim_start_matches(['-', '+']);
    number
        .split_once('.')
        .is_some_and(|(h, t)| t.len() == 3 && (1..=3).contains(&h.len()) && !h.starts_with('0'))
}

/// Feet of `41' 6"`, `41' 6.5"`, `41 ft 6 in` or `41'`.
fn feet_and_inches(text: &str) -> Option<f64> {
    let lower = text.to_ascii_lowercase();
    let (feet, rest) = lower.split_once('\'').or_else(|| lower.split_once("ft"))?;
    let feet: f64 = feet.trim().parse().ok().filter(|f: &f64| f.is_finite() && *f >= 0.0)?;
    let rest = rest.trim().trim_start_matches('-').trim();
    if rest.is_empty() {
        return Some(feet);
    }
    let inches =
        rest.strip_suffix("\"").or_else(|| rest.strip_suffix("in")).or_else(|| rest.strip_suffix("''"))?;
    let inches = parse_number(inches).ok().filter(|i| (0.0..12.0).contains(i))?;
    Some(feet + inches / 12.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, Quantity, Ratio};

    fn read(cell: &str, unit: &str, comma: Comma) -> Result<f64, CellFault> {
        let scale = Scale::find(Length::KIND, unit);
        quantity(cell, Length::KIND, scale.as_ref(), comma).map(|m| (m * 1e6).round() / 1e6)
    }

    #[test]
    fn reads_numbers_units_and_feet_with_inches() {
        assert_eq!(read("12.5", "m", Comma::Unused), Ok(12.5));
        assert_eq!(read("10 ft", "m", Comma::Unused), Ok(3.048));
        assert_eq!(read("10 Feet", "m", Comma::Unused), Ok(3.048));
        assert_eq!(read("41' 6\"", "m", Comma::Unused), Ok(12.6492));
        assert_eq!(read("41 ft 6 in", "", Comma::Unused), Ok(12.6492));
        assert_eq!(read("41.35'", "", Comma::Unused), Ok(12.60348));
        assert_eq!(read("12.5", "", Comma::Unused), Err(CellFault::NoUnit));
        assert_eq!(read("12.5 psi", "m", Comma::Unused), Err(CellFault::WrongUnit));
        assert_eq!(read("twelve", "m", Comma::Unused), Err(CellFault::NotANumber));
        assert_eq!(read("1e999", "m", Comma::Unused), Err(CellFault::NotANumber));
        assert_eq!(quantity("0.4", Ratio::KIND, None, Comma::Unused), Ok(0.4));
    }

    #[test]
    fn decides_what_a_comma_means() {
        let verdict = |cells: &[&str]| {
            let mut evidence = CommaEvidence::default();
            cells.iter().for_each(|c| evidence.add(c));
            evidence.verdict()
        };
        assert_eq!(verdict(&["12.5", "13"]), Comma::Unused);
        assert_eq!(verdict(&["12,5", "1,234"]), Comma::Decimal);
        assert_eq!(verdict(&["1,234.5", "2,345"]), Comma::Thousands);
        assert_eq!(verdict(&["1.234,5"]), Comma::Decimal);
        assert_eq!(verdict(&["1,234", "2,345", "12.5"]), Comma::Thousands);
        assert_eq!(verdict(&["1,234", "2,345"]), Comma::Unknown);
        assert_eq!(verdict(&["12,5", "1,234.5"]), Comma::Unknown);
        assert_eq!(read("1,234", "m", Comma::Thousands), Ok(1234.0));
        assert_eq!(read("1,234", "m", Comma::Decimal), Ok(1.234));
        assert_eq!(read("1,234", "m", Comma::Unknown), Err(CellFault::TwoReadings));
        assert_eq!(read("1.234,5", "m", Comma::Decimal), Ok(1234.5));
        assert_eq!(read("1.234", "m", Comma::Decimal), Err(CellFault::TwoReadings));
        assert_eq!(read("\u{2212}3", "m", Comma::Unused), Ok(-3.0));
    }

    #[test]
    fn knows_the_words_for_nothing() {
        assert!(["N/A", "", "-", "NaN", "-999.25"].into_iter().all(is_absent));
        assert!(!["0", "-1", "none of it"].into_iter().any(is_absent));
    }
}
