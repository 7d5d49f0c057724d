//! Words for people that keep the quantities in them, so that one sentence reads in either system of units.

use std::cell::{Cell, RefCell};
use std::fmt::{self, Write};

use crate::dynamic::Value;
use crate::kind::{Kind, System};

/// A sentence with the quantities that stand in it. As a `str`, and where it is serialised, it reads in
/// field units; [`Text::text`] gives it in either.
///
/// ```
/// use quantity::{Length, System, said};
/// let told = said!("the rack is {} short", Length::m(12.0));
/// assert_eq!(told.text(System::Metric), "the rack is 12.00 m short");
/// assert_eq!(&*told, "the rack is 39.37 ft short");
/// ```
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Text {
    field: String,
    figures: Vec<Figure>,
}

/// A quantity and the bytes it takes in field units.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Figure {
    from: usize,
    to: usize,
    value: Value,
    /// Whether it stands as someone wrote it, and not as quantities are printed.
    written: bool,
}

/// Significant digits of a written figure in units it was not written in.
const WRITTEN_DIGITS: usize = 4;

impl Figure {
    fn moved(self, by: usize) -> Self {
        Self { from: self.from + by, to: self.to + by, ..self }
    }

    /// In the units of a system, where it stands as `field`.
    fn text(&self, field: &str, system: System) -> String {
        let kind = self.value.kind();
        match self.written {
            true if kind.field == kind.metric || field.ends_with(kind.shown(system).symbol) => {
                field.to_string()
            }
            true => self.value.exact_text(system, WRITTEN_DIGITS),
            false => self.value.text_in(system),
        }
    }
}

thread_local! {
    /// Bytes written so far of the text that is being said; none where none is.
    static WRITTEN: Cell<Option<usize>> = const { Cell::new(None) };
    static FIGURES: RefCell<Vec<Figure>> = const { RefCell::new(Vec::new()) };
}

/// Says a sentence as `format!` does, and keeps the quantities that are printed in it.
#[macro_export]
macro_rules! said {
    ($($words:tt)*) => { $crate::Text::of(format_args!($($words)*)) };
}

/// A text as it is written, whose length the quantities can see.
struct Writing(String);

impl Write for Writing {
    fn write_str(&mut self, part: &str) -> fmt::Result {
        self.0.push_str(part);
        WRITTEN.set(Some(self.0.len()));
        Ok(())
    }
}

/// Prints a quantity in field units, and leaves word of it where a text is being said.
pub(crate) fn print(value: Value, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let text = value.text_in(System::Field);
    if let Some(from) = WRITTEN.get() {
        FIGURES
            .with_borrow_mut(|all| all.push(Figure { from, to: from + text.len(), value, written: false }));
    }
    f.write_str(&text)
}

impl Text {
    /// Says a sentence; see [`said!`].
    pub fn of(words: fmt::Arguments<'_>) -> Self {
        // A text may be said while another is: what belongs to that one is put by.
        let (outer, before) = (WRITTEN.replace(Some(0)), FIGURES.take());
        let mut writing = Writing(String::new());
        let written = writing.write_fmt(words);
        WRITTEN.set(outer);
        let field = writing.0;
        // Where a quantity was printed aside and does not stand there, the words in field units stay.
        let mut end = 0;
        let stands = |g: &Figure| {
            let free = written.is_ok() && g.from >= end;
            let print = g.value.text_in(System::Field);
            let there = free && (g.written || field.get(g.from..g.to) == Some(print.as_str()));
            end = if there { g.to } else { end };
            there
        };
        let figures = FIGURES.replace(before).into_iter().filter(stands).collect();
        Self { field, figures }
    }

    /// A figure as someone wrote it, such as a value taken where a file gives none; words where it is none.
    pub fn written(text: &str, kind: &'static Kind) -> Self {
        let figure = |value| Figure { from: 0, to: text.len(), value, written: true };
        let figures = Value::parse(text, kind).map(figure).into_iter().collect();
        Self { field: text.to_string(), figures }
    }

    /// Sentences one after another with something between.
    pub fn join(parts: impl IntoIterator<Item = Self>, between: &str) -> Self {
        let mut out = Self::default();
        for (i, part) in parts.into_iter().enumerate() {
            out.field += if i > 0 { between } else { "" };
            out.figures.extend(part.figures.iter().map(|g| g.moved(out.field.len())));
            out.field += &part.field;
        }
        out
    }

    /// Keeps the sentence as it reads in a system of units, also where it is printed or serialised.
    pub fn settle(&mut self, system: System) {
        *self = self.text(system).into();
    }

    /// The sentence with its quantities in the units of a system.
    pub fn text(&self, system: System) -> String {
        let mut out = String::with_capacity(self.field.len());
        let mut at = 0;
        for figure in &self.figures {
            out += self.field.get(at..figure.from).unwrap_or_default();
            out += &figure.text(self.field.get(figure.from..figure.to).unwrap_or_default(), system);
            at = figure.to;
        }
        out + self.field.get(at..).unwrap_or_default()
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(base) = WRITTEN.get() {
            FIGURES.with_borrow_mut(|all| all.extend(self.figures.iter().map(|g| g.moved(base))));
        }
        f.write_str(&self.field)
    }
}

impl std::ops::Deref for Text {
    type Target = str;
    fn deref(&self) -> &str {
        &self.field
    }
}

impl From<String> for Text {
    fn from(field: String) -> Self {
        Self { field, figures: Vec::new() }
    }
}

impl From<&Text> for Text {
    fn from(text: &Text) -> Self {
        text.clone()
    }
}

impl From<&String> for Text {
    fn from(field: &String) -> Self {
        field.clone().into()
    }
}

impl From<&str> for Text {
    fn from(field: &str) -> Self {
        field.to_string().into()
    }
}

impl serde::Serialize for Text {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(&self.field)
    }
}

impl schemars::JsonSchema for Text {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Text".into()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        String::json_schema(generator)
    }
}

#[cfg(test)]
mod tests {
    use crate::{Diameter, GaugePressure, Length, MeasuredDepth, Quantity, System, Text, Time};
    use proptest::prelude::*;

    #[test]
    fn words_that_hold_no_quantity_stay() {
        let told = said!("the hole has no section of {}", 4);
        assert_eq!(told.text(System::Metric), "the hole has no section of 4");
        assert_eq!(Text::from("as it is").text(System::Metric), "as it is");
    }

    #[test]
    fn a_text_said_within_another_keeps_its_quantities() {
        let inner = said!("{} to {}", MeasuredDepth::m(100.0), MeasuredDepth::m(200.0));
        let outer = said!("é {}: {inner}, then {}", Length::m(1.0), Length::m(2.0));
        assert_eq!(outer.text(System::Metric), "é 1.00 m: 100.00 m to 200.00 m, then 2.00 m");
        assert_eq!(&*outer, "é 3.28 ft: 328.1 ft to 656.2 ft, then 6.56 ft");
        assert_eq!(outer.text(System::Field), &*outer);
    }

    #[test]
    fn a_written_figure_stays_as_written_where_it_can() {
        let taken = |text| Text::written(text, Diameter::KIND);
        assert_eq!(taken("0.060 in").text(System::Field), "0.060 in");
        assert_eq!(taken("0.0018 in").text(System::Metric), "0.04572 mm");
        assert_eq!(taken("1.5 mm").text(System::Metric), "1.5 mm");
        assert_eq!(taken("1.5 mm").text(System::Field), "0.05906 in");
        assert_eq!(Text::written("10 s", Time::KIND).text(System::Metric), "10 s");
        assert_eq!(taken("none").text(System::Field), "none");
    }

    #[test]
    fn joined_sentences_keep_their_quantities() {
        let parts = [said!("hung {}", Length::m(1.0)), said!("free"), said!("held {}", Length::m(2.0))];
        let all = Text::join(parts, ", ");
        assert_eq!(all.text(System::Metric), "hung 1.00 m, free, held 2.00 m");
        let mut settled = said!("({all})");
        settled.settle(System::Metric);
        assert_eq!(settled.text(System::Field), "(hung 1.00 m, free, held 2.00 m)");
    }

    /// A quantity that is printed to a string of its own on the way is words, not a figure.
    struct Odd;
    impl std::fmt::Display for Odd {
        fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            let own = said!("at {}", Length::m(3.0));
            let twice = format!("{0} {0}", Length::m(4.0));
            write!(f, "<{}, {twice}>", own.text(System::Field).to_uppercase())
        }
    }

    #[test]
    fn what_is_printed_aside_moves_nothing() {
        let told = said!("{} and {Odd} and {}", Length::m(1.0), Length::m(2.0));
        assert_eq!(told.text(System::Metric), "1.00 m and <AT 9.84 FT, 13.12 ft 13.12 ft> and 2.00 m");
    }

    #[test]
    fn a_plain_print_after_it_is_plain() {
        let _ = said!("{}", Length::m(1.0));
        assert_eq!(format!("{}", Length::m(1.0)), "3.28 ft");
        assert!(super::FIGURES.with_borrow(Vec::is_empty));
    }

    proptest! {
        #[test]
        fn either_system_reads_as_its_own_print(
            depth in -1e5..1e5f64, pressure in -1e9..1e9f64, time in 0.0..1e7f64, words in ".{0,20}"
        ) {
            let (d, p, t) = (MeasuredDepth::m(depth), GaugePressure::pa(pressure), Time::seconds(time));
            let told = said!("{words}{d}{words}{p} {t}{words}");
            for system in [System::Field, System::Metric] {
                let own = [d.text(system), p.text(system), t.text(system)];
                let [d, p, t] = own;
                prop_assert_eq!(told.text(system), format!("{words}{d}{words}{p} {t}{words}"));
            }
        }
    }
}
