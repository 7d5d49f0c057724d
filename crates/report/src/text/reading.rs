//! How figures are written beside one another: lists cut to what is read, ranges in the unit
//! shown, and a computed value in the unit of the text it is held against.

use physics::{Input, InputKind};
use quantity::{Kind, System, Unit, Value, parse_number, round_significant};

/// Values of a list that are shown before it is cut.
const SHOWN_OF_A_LIST: usize = 6;

/// Significant digits of a figure in workings: enough to follow it by hand, few enough to read.
/// The program as JSON has all of them.
const DIGITS: usize = 6;

/// A figure of a workings page, in the unit a person reads.
pub fn shown(value: Value, system: System) -> String {
    let unit = value.kind().shown_for(system, value.si());
    in_unit(unit.from_si(value.si()), unit, DIGITS)
}

/// Values in one unit, the unit once; a long list is cut and counted.
pub fn list(values: &[Value], system: System) -> String {
    match values {
        [] => "(empty)".to_string(),
        [one] => shown(*one, system),
        [first, ..] => {
            let largest = values.iter().map(|v| v.si().abs()).fold(0.0, f64::max);
            let unit = first.kind().shown_for(system, largest);
            let number = |v: &Value| plain(round_significant(unit.from_si(v.si()), DIGITS));
            let shown: Vec<String> = values.iter().take(SHOWN_OF_A_LIST).map(number).collect();
            let rest = match values.len().saturating_sub(SHOWN_OF_A_LIST) {
                0 => String::new(),
                n => format!(", ... and {n} more"),
            };
            format!("{}{rest} {}", shown.join(", "), unit.symbol).trim_end().to_string()
        }
    }
}

/// The kind of an input, in words.
pub fn kind_words(input: &Input) -> String {
    match input.kind {
        InputKind::Quantity(kind) => kind.name.to_string(),
        InputKind::List(kind) => format!("list of {}", kind.name),
        InputKind::Choice(words) => format!("one of {}", words.join(", ")),
    }
}

/// The units an input may be written in; empty for a word.
pub fn units(input: &Input) -> Vec<&'static str> {
    match input.kind {
        InputKind::Quantity(kind) | InputKind::List(kind) => {
            kind.units.iter().map(|u| u.symbol).filter(|s| !s.is_empty()).collect()
        }
        InputKind::Choice(_) => Vec::new(),
    }
}

/// The text taken when an input is not given; quotes where that text is empty, nothing where it
/// must be given.
pub fn default(input: &Input) -> &'static str {
    match input.default {
        Some("") => "\"\"",
        Some(text) => text,
        None => "",
    }
}

/// The range of validity of an input in the unit shown; empty where it has none.
pub fn range(input: &Input, system: System) -> String {
    let kind = match input.kind {
        InputKind::Quantity(kind) | InputKind::List(kind) => kind,
        InputKind::Choice(_) => return String::new(),
    };
    input.range.map(|(low, high)| span(kind, low, high, system)).unwrap_or_default()
}

fn span(kind: &'static Kind, low: f64, high: f64, system: System) -> String {
    let unit = kind.shown(system);
    let number = |si: f64| plain(round_significant(unit.from_si(si), 4));
    let text = match (low.is_finite(), high.is_finite()) {
        (true, true) => format!("{} to {}", number(low), number(high)),
        (true, false) => format!("{} or more", number(low)),
        (false, true) => format!("{} or less", number(high)),
        (false, false) => return String::new(),
    };
    format!("{text} {}", unit.symbol).trim_end().to_string()
}

/// How an input is written on the command line, with the unit shown in `system`.
pub fn example(input: &Input, system: System) -> String {
    let quoted = |kind: &'static Kind, numbers: &[&str]| {
        let symbol = kind.shown(system).symbol;
        let texts: Vec<String> =
            numbers.iter().map(|n| format!("{n} {symbol}").trim_end().to_string()).collect();
        let text = texts.join(", ");
        if text.contains(' ') {
            format!("{}=\"{text}\"", input.name)
        } else {
            format!("{}={text}", input.name)
        }
    };
    match input.kind {
        InputKind::Quantity(kind) => quoted(kind, &["1"]),
        InputKind::List(kind) => quoted(kind, &["1", "2"]),
        InputKind::Choice(words) => format!("{}={}", input.name, words.first().unwrap_or(&"")),
    }
}

/// The unit a text is written in, among those of `kind`; the unit shown in field units where
/// the text uses another spelling.
pub fn unit_of(text: &str, kind: &'static Kind) -> &'static Unit {
    let text = text.trim();
    let written = |unit: &&Unit| {
        text.strip_suffix(unit.symbol).is_some_and(|number| parse_number(number.trim_end()).is_ok())
    };
    kind.units.iter().find(written).unwrap_or_else(|| kind.shown(System::Field))
}

/// A number in `unit` with `digits` significant digits and the unit behind.
pub fn in_unit(value: f64, unit: &Unit, digits: usize) -> String {
    format!("{} {}", plain(round_significant(value, digits)), unit.symbol).trim_end().to_string()
}

/// A number as a person writes it: with an exponent only where it is very small or very large.
pub fn plain(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-5..1e9).contains(&size) { format!("{value:e}") } else { format!("{value}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, Pressure, Quantity, Ratio, Temperature};

    #[test]
    fn the_unit_of_a_text_is_found_by_what_it_ends_with() {
        assert_eq!(unit_of("27.22 ft", Length::KIND).symbol, "ft");
        assert_eq!(unit_of("3 m", Length::KIND).symbol, "m");
        assert_eq!(unit_of("3 mm", Length::KIND).symbol, "mm");
        assert_eq!(unit_of("0.5", Ratio::KIND).symbol, "");
        assert_eq!(unit_of("5 %", Ratio::KIND).symbol, "%");
        assert_eq!(unit_of("60 °F", Temperature::KIND).symbol, "degF");
    }

    #[test]
    fn a_long_list_is_cut_and_counted() {
        let values: Vec<Value> = (1..=9).map(|i| Value::of(Length::ft(f64::from(i)))).collect();
        assert_eq!(list(&values, System::Field), "1, 2, 3, 4, 5, 6, ... and 3 more ft");
        assert_eq!(list(&values[..2], System::Metric), "0.3048, 0.6096 m");
        assert_eq!(list(&[], System::Field), "(empty)");
    }

    #[test]
    fn ranges_are_in_the_unit_shown() {
        let input = Input::new::<Pressure>("p", "pressure").within(0.0, 1e6);
        assert_eq!(range(&input, System::Metric), "0 to 1 MPa");
        let open = Input::new::<Pressure>("p", "pressure").within(1e6, f64::INFINITY);
        assert_eq!(range(&open, System::Metric), "1 or more MPa");
        assert_eq!(range(&Input::new::<Pressure>("p", "pressure"), System::Field), "");
    }

    #[test]
    fn the_example_of_an_input_can_be_typed() {
        assert_eq!(example(&Input::new::<Pressure>("p", ""), System::Field), "p=\"1 psi\"");
        assert_eq!(example(&Input::new::<Ratio>("n", ""), System::Field), "n=1");
        assert_eq!(example(&Input::choice("way", &["a", "b"], ""), System::Field), "way=a");
        assert_eq!(example(&Input::list::<Length>("l", ""), System::Metric), "l=\"1 m, 2 m\"");
    }

    #[test]
    fn small_and_large_numbers_take_an_exponent() {
        assert_eq!(plain(0.0), "0");
        assert_eq!(plain(2e-7), "2e-7");
        assert_eq!(plain(0.005), "0.005");
    }
}
