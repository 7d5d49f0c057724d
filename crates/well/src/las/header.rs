//! The header: one item a line, `MNEM.UNIT VALUE : DESCRIPTION`.
//!
//! The delimiters are the first point, the first blank after it, and the last colon (LAS 2.0,
//! 5.2). In the well section of LAS 1.2 most values stand after the colon.

use crate::las::cell::Delimiter;
use crate::las::check;
use crate::las::limit;
use crate::las::model::{Item, Version, Wrap};
use crate::las::notes::{Notes, Refusal};
use crate::las::section::{Kind, Line, Section};

/// The header sections of a file.
#[derive(Debug)]
pub(super) struct Header<'a> {
    pub(super) version: Version,
    pub(super) wrap: Option<Wrap>,
    pub(super) delimiter: Option<Delimiter>,
    pub(super) well: Vec<Item>,
    pub(super) parameters: Vec<Item>,
    pub(super) curves: Vec<Item>,
    pub(super) other: String,
    pub(super) data: Option<Section<'a>>,
}

/// Which side of the colon a value stands on, and what a line may look like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// Value before the colon.
    Plain,
    /// Well section of LAS 1.2: value after the colon, but for STRT, STOP, STEP and NULL.
    ValueLast,
    /// Curve section.
    Curve,
}

/// Reads the header sections.
pub(super) fn read_header<'a>(sections: &[Section<'a>], notes: &mut Notes) -> Result<Header<'a>, Refusal> {
    let mut header = read_version(sections, notes);
    let mut seen: Vec<Kind> = Vec::new();
    let mut lines = 0;
    for (nth, section) in sections.iter().enumerate() {
        let kind = match section.kind(header.version) {
            Kind::Unknown if is_unnamed_data(section, nth + 1 == sections.len()) => {
                let message = "the last section has no name; its rows are read as data";
                notes.line(&check::SECTION, message, section.line, section.title);
                Kind::Data
            }
            kind => kind,
        };
        let repeated = seen.contains(&kind);
        seen.push(kind);
        if repeated && matches!(kind, Kind::Well | Kind::Curve | Kind::Data) {
            refuse_or_skip_repeated(section, header.version, notes)?;
            continue;
        }
        if seen.contains(&Kind::Data) && kind != Kind::Data {
            notes.count(&check::SECTION, "sections after the data", section.line, section.title);
        }
        lines += header.take(kind, section, notes);
        if lines > limit::HEADER_LINES || header.curves.len() > limit::CURVES {
            let message = format!(
                "the header has {lines} lines and {} curves; at most {} and {} are read",
                header.curves.len(),
                limit::HEADER_LINES,
                limit::CURVES
            );
            return Err(notes.refuse(&check::LIMIT, message));
        }
    }
    note_missing(&seen, notes);
    Ok(header)
}

impl<'a> Header<'a> {
    /// Takes one section in and returns how many lines it read.
    fn take(&mut self, kind: Kind, section: &Section<'a>, notes: &mut Notes) -> usize {
        let v1 = self.version == Version::V1;
        let (list, form) = match kind {
            Kind::Well if v1 => (&mut self.well, Form::ValueLast),
            Kind::Well => (&mut self.well, Form::Plain),
            Kind::Parameter => (&mut self.parameters, Form::Plain),
            Kind::Curve => (&mut self.curves, Form::Curve),
            Kind::Other => {
                self.other.push_str(section.body);
                return 0;
            }
            Kind::Data => {
                self.data = Some(*section);
                return 0;
            }
            Kind::Unknown => {
                let what = "sections that are not read";
                notes.count(&check::SECTION_UNREAD, what, section.line, section.title);
                return 0;
            }
            Kind::Version => return 0,
        };
        let before = list.len();
        list.extend(section.lines().take(limit::HEADER_LINES + 1).filter_map(|line| item(line, form, notes)));
        list.len() - before
    }
}

/// The version section decides how all others are read.
fn read_version<'a>(sections: &[Section<'a>], notes: &mut Notes) -> Header<'a> {
    let section = sections.iter().find(|s| s.kind(Version::V2) == Kind::Version);
    let lines = section.into_iter().flat_map(|s| s.lines()).take(limit::HEADER_LINES);
    let items: Vec<Item> = lines.filter_map(|line| item(line, Form::Plain, notes)).collect();
    let value = |name: &str| {
        let found = items.iter().find(|i| i.mnemonic.eq_ignore_ascii_case(name));
        found.map(|i| i.value.trim().to_ascii_uppercase()).filter(|v| !v.is_empty())
    };
    let version = match value("VERS") {
        Some(text) => known_version(&text, notes),
        None => guessed_version(sections, notes),
    };
    let wrap = match value("WRAP").as_deref() {
        Some("YES" | "Y" | "TRUE") => Some(Wrap::Yes),
        Some("NO" | "N" | "FALSE") => Some(Wrap::No),
        _ => {
            notes.file(&check::WRAP, "WRAP is missing or neither YES nor NO; the data lines decide");
            None
        }
    };
    let delimiter = value("DLM").and_then(|text| Delimiter::named(&text));
    Header {
        version,
        wrap,
        delimiter,
        well: Vec::new(),
        parameters: Vec::new(),
        curves: Vec::new(),
        other: String::new(),
        data: None,
    }
}

fn known_version(text: &str, notes: &mut Notes) -> Version {
    let number = text.split_whitespace().next().and_then(|t| t.parse::<f64>().ok());
    let version = match number {
        Some(n) if (1.0..2.0).contains(&n) => Version::V1,
        Some(n) if (3.0..4.0).contains(&n) => Version::V3,
        _ => Version::V2,
    };
    if !number.is_some_and(|n| [1.2, 2.0, 3.0].contains(&n)) {
        let message = format!("VERS is `{text}`; the file is read as {}", version.word());
        notes.file(&check::VERSION, message);
    }
    version
}

/// Without VERS: 1.2 is told by its well section, where the plain word for an item stands before
/// the colon.
fn guessed_version(sections: &[Section], notes: &mut Notes) -> Version {
    let words = [("COMP", "COMPANY"), ("WELL", "WELL"), ("FLD", "FIELD"), ("LOC", "LOCATION")];
    let mut silent = Notes::new("");
    let lines = sections.iter().filter(|s| s.kind(Version::V2) == Kind::Well).flat_map(|s| s.lines());
    let first = lines.take(1000).filter_map(|line| item(line, Form::Plain, &mut silent)).any(|i| {
        let (name, value) = (i.mnemonic.to_ascii_uppercase(), i.value.to_ascii_uppercase());
        words.iter().any(|(mnemonic, word)| name == *mnemonic && value == *word)
    });
    let version = if first { Version::V1 } else { Version::V2 };
    notes.file(&check::VERSION, format!("VERS is missing; the file is read as {}", version.word()));
    version
}

impl Version {
    /// As the standard writes it.
    pub fn word(self) -> &'static str {
        match self {
            Version::V1 => "1.2",
            Version::V2 => "2.0",
            Version::V3 => "3.0",
        }
    }
}

fn is_unnamed_data(section: &Section, last: bool) -> bool {
    let unnamed = section.title.is_empty() || section.title.starts_with(char::is_whitespace);
    let number = |line: Line| line.text.split_whitespace().next().is_some_and(|t| t.parse::<f64>().is_ok());
    last && unnamed && section.lines().next().is_some_and(number)
}

fn refuse_or_skip_repeated(section: &Section, version: Version, notes: &mut Notes) -> Result<(), Refusal> {
    if version == Version::V3 {
        let message =
            format!("`~{}` repeats a section: the file holds more than one log", section.title.trim());
        return Err(notes.refuse(&check::VERSION_3, message));
    }
    notes.count(&check::SECTION, "repeated sections, not read", section.line, section.title);
    Ok(())
}

fn note_missing(seen: &[Kind], notes: &mut Notes) {
    let wanted = [
        (Kind::Version, "version (~V)"),
        (Kind::Well, "well (~W)"),
        (Kind::Curve, "curve (~C)"),
        (Kind::Data, "data (~A)"),
    ];
    for (kind, name) in wanted {
        if !seen.contains(&kind) {
            notes.file(&check::SECTION, format!("the {name} section is missing"));
        }
    }
}

/// One header line as an item; `None` if it holds no name at all.
fn item(line: Line, form: Form, notes: &mut Notes) -> Option<Item> {
    let text = line.text.trim();
    let colon = text.find(':').unwrap_or(text.len());
    let Some(dot) = name_end(text, form).filter(|dot| *dot < colon) else {
        return item_without_point(line, text, form, notes);
    };
    let (name, rest) = (text.get(..dot)?, text.get(dot + 1..)?);
    let mut found = Item { mnemonic: name.trim().to_string(), line: line.number, ..Item::default() };
    let swapped = form == Form::ValueLast
        && !["STRT", "STOP", "STEP", "NULL"].contains(&found.mnemonic.to_ascii_uppercase().as_str());
    let last = if swapped { rest.find(':') } else { rest.rfind(':') };
    let (head, tail) = match last {
        Some(at) => (rest.get(..at)?, rest.get(at + 1..)?),
        None => {
            notes.count(&check::HEADER_LINE, "header lines without a colon", line.number, line.text);
            (rest, "")
        }
    };
    let (unit, middle) = head.split_at(head.find(char::is_whitespace).unwrap_or(head.len()));
    found.unit = unit.to_string();
    let (value, description) = if swapped { (tail, middle) } else { (middle, tail) };
    found.value = value.trim().to_string();
    found.description = description.trim().to_string();
    if found.mnemonic.is_empty() {
        shift_name(&mut found);
        notes.count(&check::HEADER_LINE, "header lines that begin with a point", line.number, line.text);
    }
    Some(found)
}

/// `.ILM .OHMM`: a point before the name moves each part one place on.
fn shift_name(item: &mut Item) {
    let Some(rest) = item.value.strip_prefix('.') else { return };
    let (unit, value) = rest.split_at(rest.find(char::is_whitespace).unwrap_or(rest.len()));
    let (unit, value) = (unit.to_string(), value.trim().to_string());
    item.mnemonic = std::mem::replace(&mut item.unit, unit);
    item.value = value;
}

/// The point that ends the name. A curve name may itself end with a point (`Cond..MS/M`); a unit
/// may begin with one if a digit follows (`DEPT ..1IN`).
fn name_end(text: &str, form: Form) -> Option<usize> {
    let first = text.find('.')?;
    let double = text.find("..").filter(|at| {
        let next = text.get(at + 2..).and_then(|rest| rest.chars().next());
        form == Form::Curve && next.is_some_and(|c| !c.is_ascii_digit())
    });
    Some(double.map_or(first, |at| at + 1))
}

/// `COMPANY : name`, `GR`, or no item at all.
fn item_without_point(line: Line, text: &str, form: Form, notes: &mut Notes) -> Option<Item> {
    if let Some((name, rest)) = text.split_once(':') {
        notes.count(&check::HEADER_LINE, "header lines without a point", line.number, line.text);
        let (value, description) = if form == Form::Curve { ("", rest.trim()) } else { (rest.trim(), "") };
        return Some(Item {
            mnemonic: name.trim().to_string(),
            value: value.to_string(),
            description: description.to_string(),
            line: line.number,
            ..Item::default()
        });
    }
    let word = text.chars().next().is_some_and(char::is_alphabetic) && !text.contains(char::is_whitespace);
    let what = if word { "header lines of a name alone" } else { "header lines of no known form, not read" };
    notes.count(&check::HEADER_LINE, what, line.number, line.text);
    word.then(|| Item { mnemonic: text.to_string(), line: line.number, ..Item::default() })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, form: Form) -> Option<[String; 4]> {
        let found = item(Line { number: 1, text }, form, &mut Notes::new("f"))?;
        Some([found.mnemonic, found.unit, found.value, found.description])
    }

    #[test]
    fn header_lines_in_every_form() {
        let cases = [
            (Form::Plain, " STRT.M 1670.0 : START", ["STRT", "M", "1670.0", "START"]),
            (
                Form::Plain,
                "TCS .hh:mm 21:30 23-JAN-2001:   Time",
                ["TCS", "hh:mm", "21:30 23-JAN-2001", "Time"],
            ),
            (Form::Plain, "STRT ..1IN 986904.0 : x", ["STRT", ".1IN", "986904.0", "x"]),
            (Form::Curve, "DEPT ..1IN : x", ["DEPT", ".1IN", "", "x"]),
            (Form::Curve, "Cond..MS/M : Cond.", ["Cond.", "MS/M", "", "Cond."]),
            (Form::Curve, "I. Res..OHM-M : r", ["I. Res.", "OHM-M", "", "r"]),
            (Form::Curve, "GR.gAPI: mean", ["GR", "gAPI", "", "mean"]),
            (Form::Curve, "DT  .US/M  ", ["DT", "US/M", "", ""]),
            (Form::Curve, " .OHMM : 5 RXO", ["", "OHMM", "", "5 RXO"]),
            (Form::Curve, ".ILM .OHMM 7 : m", ["ILM", "OHMM", "7", "m"]),
            (Form::Curve, "GR", ["GR", "", "", ""]),
            (Form::ValueLast, "LOC . LOCATION:  Lat: 38.5", ["LOC", "", "Lat: 38.5", "LOCATION"]),
            (Form::ValueLast, "NULL. -999.25:", ["NULL", "", "-999.25", ""]),
            (Form::ValueLast, "LOGTYPE :TT5.00", ["LOGTYPE", "", "TT5.00", ""]),
        ];
        for (form, text, expected) in cases {
            assert_eq!(read(text, form).unwrap(), expected, "{text}");
        }
        assert_eq!(read("-----------", Form::Curve), None);
        assert_eq!(read("  DEPTH     DT  ", Form::Plain), None);
    }
}
