//! Figures as text in the reader's units.

use plan::Band;
use quantity::{Mass, Quantity, Ratio, System, Time, Value, Volume, number};

/// What stands where there is no figure.
pub const NONE: &str = "\u{2013}";

/// The reader's units.
#[derive(Debug, Clone, Copy)]
pub struct Units(pub System);

impl Units {
    /// Number and unit.
    pub fn text<Q: Quantity>(self, q: Q) -> String {
        pretty(&q.text(self.0))
    }

    /// Number and unit of a value.
    pub fn value(self, value: Value) -> String {
        pretty(&value.text(self.0))
    }

    /// The number alone, with the decimals of its unit.
    pub fn number<Q: Quantity>(self, q: Q) -> String {
        number(q.shown(self.0), Q::KIND.shown(self.0).decimals)
    }

    /// The number alone with decimals of its own.
    pub fn rounded<Q: Quantity>(self, q: Q, decimals: usize) -> String {
        number(q.shown(self.0), decimals)
    }

    /// The number alone, with one set of decimals for field units and one for metric.
    pub fn either<Q: Quantity>(self, q: Q, field: usize, metric: usize) -> String {
        self.rounded(q, if self.0 == System::Field { field } else { metric })
    }

    /// The number alone, or a dash.
    pub fn maybe<Q: Quantity>(self, q: Option<Q>) -> String {
        q.map_or_else(|| NONE.into(), |q| self.number(q))
    }

    /// Number and unit, or a dash.
    pub fn maybe_text<Q: Quantity>(self, q: Option<Q>) -> String {
        q.map_or_else(|| NONE.into(), |q| self.text(q))
    }

    /// The unit.
    pub fn unit<Q: Quantity>(self) -> String {
        pretty(Q::KIND.shown(self.0).symbol)
    }

    /// A volume as it is read on location: to a tenth of a barrel or ten litres.
    pub fn volume(self, volume: Volume) -> String {
        format!("{} {}", self.either(volume, 1, 2), self.unit::<Volume>())
    }

    /// A large volume, without decimals that nobody pumps to.
    pub fn large(self, volume: Volume) -> String {
        format!("{} {}", self.rounded(volume, 0), self.unit::<Volume>())
    }

    /// A large mass: thousands of pounds, or tonnes.
    pub fn heavy(self, mass: Mass) -> String {
        match self.0 {
            System::Field => format!("{} klb", number(mass.in_klb(), 1)),
            System::Metric => format!("{} t", number(mass.in_t(), 1)),
        }
    }

    /// The three figures of a band.
    pub fn band<Q: Quantity>(self, band: Band<Q>, decimals: usize) -> String {
        let n = |q: Q| self.rounded(q, decimals);
        format!("{} / {} / {} {}", n(band.p10), n(band.p50), n(band.p90), self.unit::<Q>())
    }
}

/// A span of time in the unit a person would say it in.
pub fn span(time: Time) -> String {
    let minutes = time.in_minutes();
    match minutes.abs() {
        m if m < 1.0 => format!("{} s", number(time.in_seconds(), 1)),
        m if m < 120.0 => format!("{} min", number(minutes, 1)),
        m if m < 72.0 * 60.0 => format!("{} h", number(time.in_hours(), 1)),
        _ => format!("{} d", number(time.in_days(), 1)),
    }
}

/// Numbers as runs: 1 to 5, 7, 9 to 12.
pub fn runs(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for n in numbers {
        match runs.last_mut() {
            Some((_, end)) if *end + 1 == *n => *end = *n,
            _ => runs.push((*n, *n)),
        }
    }
    let text = |(a, b): &(usize, usize)| if a == b { a.to_string() } else { format!("{a} to {b}") };
    runs.iter().map(text).collect::<Vec<_>>().join(", ")
}

/// A sentence with a capital, unless it begins with a name or a figure.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) if first.is_lowercase() => first.to_uppercase().chain(letters).collect(),
        _ => text.to_string(),
    }
}

/// A share in percent.
pub fn percent(ratio: Ratio) -> String {
    format!("{} %", number(ratio.in_percent(), 0))
}

/// Units as they are set in print.
pub fn pretty(text: &str) -> String {
    const SIGNS: &[(&str, &str)] = &[
        ("degF", "\u{b0}F"),
        ("degC", "\u{b0}C"),
        ("deg/", "\u{b0}/"),
        (" deg", "\u{b0}"),
        ("(bbl/min)2", "(bbl/min)\u{b2}"),
        ("(m3/min)2", "(m\u{b3}/min)\u{b2}"),
        ("m3", "m\u{b3}"),
        ("ft3", "ft\u{b3}"),
        ("in2", "in\u{b2}"),
        ("cm2", "cm\u{b2}"),
        ("ft2", "ft\u{b2}"),
        ("/s2", "/s\u{b2}"),
    ];
    SIGNS.iter().fold(text.to_string(), |text, (plain, print)| text.replace(plain, print))
}

/// Figures with an exponent as they are set in print: 2.5e-6 as 2.5 times ten to the minus six.
pub fn powers(text: &str) -> String {
    let one = |word: &str| {
        let (number, comma) = word.strip_suffix(',').map_or((word, ""), |w| (w, ","));
        let split = number
            .split_once('e')
            .filter(|(lead, power)| lead.parse::<f64>().is_ok() && power.parse::<i32>().is_ok());
        match split {
            Some((lead, power)) => format!("{lead}\u{b7}10{}{comma}", raised(power)),
            None => word.to_string(),
        }
    };
    text.split(' ').map(one).collect::<Vec<_>>().join(" ")
}

fn raised(power: &str) -> String {
    const RAISED: [char; 10] = [
        '\u{2070}', '\u{b9}', '\u{b2}', '\u{b3}', '\u{2074}', '\u{2075}', '\u{2076}', '\u{2077}', '\u{2078}',
        '\u{2079}',
    ];
    let sign = |c: char| match c.to_digit(10).and_then(|d| RAISED.get(d as usize)) {
        Some(raised) => *raised,
        None => '\u{207b}',
    };
    power.chars().map(sign).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{FlowRate, Temperature, Volume};

    #[test]
    fn figures_are_those_of_the_quantity_with_printed_units() {
        let metric = Units(System::Metric);
        assert_eq!(metric.text(Temperature::deg_c(55.0)), "55.0 \u{b0}C");
        assert_eq!(metric.unit::<FlowRate>(), "m\u{b3}/min");
        assert_eq!(metric.number(Volume::m3(1.2345)), "1.234");
        assert_eq!(Units(System::Field).either(Volume::bbl(1.26), 1, 3), "1.3");
        assert_eq!(Units(System::Field).maybe::<Volume>(None), NONE);
    }

    #[test]
    fn an_exponent_is_raised_and_words_are_left_alone() {
        assert_eq!(powers("2.5e-6 1/psi"), "2.5\u{b7}10\u{207b}\u{2076} 1/psi");
        assert_eq!(powers("1e9, 2 psi"), "1\u{b7}10\u{2079}, 2 psi");
        assert_eq!(powers("thick_orifice"), "thick_orifice");
    }

    #[test]
    fn numbers_are_named_in_runs() {
        assert_eq!(runs(&[1, 2, 3, 5, 7, 8]), "1 to 3, 5, 7 to 8");
        assert_eq!(runs(&[4]), "4");
    }

    #[test]
    fn a_span_is_said_in_its_own_unit() {
        assert_eq!(span(Time::seconds(4.25)), "4.2 s");
        assert_eq!(span(Time::minutes(90.0)), "90.0 min");
        assert_eq!(span(Time::hours(30.0)), "30.0 h");
        assert_eq!(span(Time::days(14.0)), "14.0 d");
    }
}
