//! The header: which column holds what, and in which unit.

use super::column::{Cell, Column, Need};
use super::unit::Scale;
use quantity::Kind;

/// One wanted column, found.
#[derive(Debug, Clone)]
pub struct Mapped {
    /// Name by which the caller asks for it.
    pub name: &'static str,
    /// Position in the row, from 0.
    pub at: usize,
    /// The header cell as it stands.
    pub heading: String,
    /// What its cells hold.
    pub cell: Cell,
    /// Unit of bare numbers, once known.
    pub scale: Option<Scale>,
}

/// The columns found under one heading row, or under some rows read as one.
#[derive(Debug, Clone, Default)]
pub struct Header {
    /// Wanted columns found, in the caller's order.
    pub columns: Vec<Mapped>,
    /// Headings that also fit a column already found.
    pub twice: Vec<(&'static str, String)>,
    /// The headings as they stand.
    pub headings: Vec<String>,
}

impl Header {
    /// Reads headings against the wanted columns.
    pub fn read(headings: &[String], wanted: &[Column]) -> Self {
        let mut header = Self { headings: headings.to_vec(), ..Self::default() };
        for column in wanted {
            let fits = headings.iter().enumerate();
            let fits =
                fits.filter_map(|(at, text)| fit(text, column).map(|(rank, scale)| (rank, at, text, scale)));
            let mut fits: Vec<_> = fits.collect();
            // the name listed first goes first, then the heading further left
            fits.sort_by_key(|(rank, at, ..)| (*rank, *at));
            let mut fits = fits.into_iter();
            if let Some((_, at, text, scale)) = fits.next() {
                let (name, cell) = (column.name, column.cell);
                header.columns.push(Mapped { name, at, heading: text.clone(), cell, scale });
                header.twice.extend(fits.map(|(_, _, text, _)| (column.name, text.clone())));
            }
        }
        header
    }

    /// The column of that name.
    pub fn column(&self, name: &str) -> Option<&Mapped> {
        self.columns.iter().find(|c| c.name == name)
    }

    /// Whether all that must be there is.
    pub fn is_complete(&self, wanted: &[Column]) -> bool {
        wanted.iter().all(|w| w.need == Need::Optional || self.column(w.name).is_some())
    }

    /// How many wanted columns were found, those that must be there counting tenfold.
    pub fn weight(&self, wanted: &[Column]) -> usize {
        let weight = |w: &Column| if w.need == Need::Required { 10 } else { 1 };
        wanted.iter().filter(|w| self.column(w.name).is_some()).map(weight).sum()
    }

    /// Takes the units of a row below the headings, if that is what it is: every cell under a
    /// quantity is blank or a unit of it, and at least one is a unit.
    pub fn take_units(&mut self, cells: &[String]) -> bool {
        let mut found = Vec::new();
        for column in &self.columns {
            let text = cells.get(column.at).map(|c| bare(c)).unwrap_or_default();
            let Cell::Quantity(kind) = column.cell else { continue };
            match Scale::find(kind, &text) {
                Some(scale) => found.push(Some(scale)),
                None if text.is_empty() || matches!(text.as_str(), "-" | "--") => found.push(None),
                None => return false,
            }
        }
        if found.iter().all(Option::is_none) {
            return false;
        }
        let quantities = self.columns.iter_mut().filter(|c| matches!(c.cell, Cell::Quantity(_)));
        for (column, scale) in quantities.zip(found) {
            column.scale = scale.or(column.scale.take());
        }
        true
    }
}

/// A cell without the brackets round it.
fn bare(cell: &str) -> String {
    cell.trim().trim_matches(['(', ')', '[', ']']).trim().to_string()
}

/// Whether a heading names the column: the rank of the name, and the unit if one is stated.
fn fit(heading: &str, column: &Column) -> Option<(usize, Option<Scale>)> {
    let kind = match column.cell {
        Cell::Quantity(kind) => Some(kind),
        Cell::Text => None,
    };
    let rank = |name: &str| match column.names.iter().position(|n| *n == name) {
        Some(at) => Some(at + 1),
        None => (column.name == name).then_some(0),
    };
    let whole = plain_name(heading);
    if let Some(rank) = rank(&whole) {
        // a heading such as `Feet` is name and unit in one
        return Some((rank, kind.and_then(|k| Scale::find(k, &whole))));
    }
    // A bracket that is no unit may be part of the name: `Depth (measured) [ft]`.
    let inside_bracket = bracketed(heading).and_then(|(name, unit)| Some((rank(&plain_name(&name))?, unit)));
    if let Some((rank, unit)) = inside_bracket {
        return Some((rank, kind.and_then(|k| Scale::find(k, &unit))));
    }
    let kind = kind?;
    let after_comma = heading.rsplit_once(',').map(|(name, unit)| (plain_name(name), unit.to_string()));
    let candidates = after_comma.into_iter().chain(trailing_units(&whole));
    let ranked = candidates.filter_map(|(name, unit)| Some((rank(&name)?, unit)));
    ranked.into_iter().find_map(|(rank, unit)| Scale::find(kind, &unit).map(|scale| (rank, Some(scale))))
}

/// Lower-case words of a heading with single spaces; `#` becomes `number`.
pub(super) fn plain_name(heading: &str) -> String {
    let spaced: String = heading
        .chars()
        .take(120)
        .flat_map(char::to_lowercase)
        .map(|c| {
            if c.is_alphanumeric() || c == '°' {
                c
            } else if c == '#' {
                '\u{1}'
            } else {
                ' '
            }
        })
        .collect();
    let spaced = spaced.replace('\u{1}', " number ");
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `Length (m)` to `Length` and `m`; the last bracket counts.
fn bracketed(heading: &str) -> Option<(String, String)> {
    let open = heading.rfind(['(', '[', '{'])?;
    let (before, rest) = (heading.get(..open)?, heading.get(open + 1..)?);
    let close = rest.find([')', ']', '}']).unwrap_or(rest.len());
    let after = rest.get(close..)?.trim_start_matches([')', ']', '}']);
    Some((format!("{before} {after}"), rest.get(..close)?.trim().to_string()))
}

/// Splits up to four trailing words off as a unit: `dls deg per 100ft`, `md ft`.
fn trailing_units(name: &str) -> Vec<(String, String)> {
    let words: Vec<&str> = name.split(' ').collect();
    (1..=4.min(words.len().saturating_sub(1)))
        .filter_map(|n| words.split_at_checked(words.len() - n))
        .flat_map(|(head, tail)| {
            let head = head.join(" ");
            [(head.clone(), tail.concat()), (head, tail.join("/").replace("/per/", "/"))]
        })
        .collect()
}

/// The units that fit a column, for a message.
pub(super) fn units_of(kind: &'static Kind) -> String {
    kind.unit_list()
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Angle, Curvature, MeasuredDepth};

    const WANTED: &[Column] = &[
        Column::required::<MeasuredDepth>("md", &["measured depth", "depth"]),
        Column::optional::<Angle>("inc", &["incl", "inclination"]),
        Column::optional::<Curvature>("dls", &["dogleg severity"]),
        Column::text("number", &["no", "joint no"]),
    ];

    fn symbols(headings: &[&str]) -> Vec<(&'static str, Option<String>)> {
        let headings: Vec<String> = headings.iter().map(|h| h.to_string()).collect();
        let header = Header::read(&headings, WANTED);
        header.columns.into_iter().map(|c| (c.name, c.scale.map(|s| s.symbol))).collect()
    }

    #[test]
    fn takes_names_and_units_in_any_order_and_spelling() {
        let found = symbols(&["#", "Incl (°)", "Measured Depth [m]", "DLS deg/30m"]);
        let unit = |s: &str| Some(s.to_string());
        assert_eq!(
            found,
            [("md", unit("m")), ("inc", unit("deg")), ("dls", unit("deg/30m")), ("number", None)]
        );
        assert_eq!(symbols(&["md_ft", "incl_deg", "dls_deg_per_100ft"])[2], ("dls", unit("deg/100ft")));
        assert_eq!(symbols(&["Depth, ft"]), [("md", unit("ft"))]);
        assert_eq!(symbols(&["Depth (from table)"]), [("md", None)]);
        assert_eq!(symbols(&["Cumulative depth"]), []);
    }

    #[test]
    fn takes_a_units_row() {
        let headings: Vec<String> = ["MD", "Inc"].map(String::from).to_vec();
        let mut header = Header::read(&headings, WANTED);
        assert!(!header.take_units(&["100".into(), "2".into()]));
        assert!(header.take_units(&["(ft)".into(), String::new()]));
        assert_eq!(
            header.column("md").and_then(|c| c.scale.clone()).map(|s| s.symbol).as_deref(),
            Some("ft")
        );
    }
}
