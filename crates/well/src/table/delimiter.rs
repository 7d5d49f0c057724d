//! What stands between the cells of a row, and splitting a row by it.

use std::cell::RefCell;

use super::cell::{is_absent, looks_numeric};

/// What stands between cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Delimiter {
    /// `,`
    Comma,
    /// `;`
    Semicolon,
    /// Tab.
    Tab,
    /// `|`
    Bar,
    /// Two or more spaces.
    Wide,
    /// Any run of spaces and tabs.
    Space,
}

/// In the order preferred when two fit equally well.
const CANDIDATES: [Delimiter; 6] = [
    Delimiter::Comma,
    Delimiter::Semicolon,
    Delimiter::Tab,
    Delimiter::Bar,
    Delimiter::Wide,
    Delimiter::Space,
];

impl Delimiter {
    /// The byte, for those that are one.
    pub fn byte(self) -> Option<u8> {
        match self {
            Delimiter::Comma => Some(b','),
            Delimiter::Semicolon => Some(b';'),
            Delimiter::Tab => Some(b'\t'),
            Delimiter::Bar => Some(b'|'),
            Delimiter::Wide | Delimiter::Space => None,
        }
    }

    /// Name in plain words.
    pub fn word(self) -> &'static str {
        match self {
            Delimiter::Comma => "comma",
            Delimiter::Semicolon => "semicolon",
            Delimiter::Tab => "tab",
            Delimiter::Bar => "bar",
            Delimiter::Wide => "two or more spaces",
            Delimiter::Space => "spaces",
        }
    }

    /// The one named by a first line such as `sep=;`.
    pub fn stated(line: &str) -> Option<Self> {
        let rest = line.trim().strip_prefix("sep=").or_else(|| line.trim().strip_prefix("SEP="))?;
        match rest.chars().next() {
            None => Some(Delimiter::Tab),
            Some(c) => CANDIDATES.into_iter().find(|d| d.byte().map(char::from) == Some(c)),
        }
    }
}

/// Splits rows by one delimiter; the tables of the quoting rules are built once.
#[derive(Debug)]
pub struct Splitter {
    delimiter: Delimiter,
    /// Reset for each row; a clone of it would lose its tables.
    reader: Option<RefCell<csv_core::Reader>>,
}

impl Splitter {
    /// For one delimiter.
    pub fn new(delimiter: Delimiter) -> Self {
        let reader = delimiter.byte().map(|byte| csv_core::ReaderBuilder::new().delimiter(byte).build());
        Self { delimiter, reader: reader.map(RefCell::new) }
    }

    /// What stands between cells.
    pub fn delimiter(&self) -> Delimiter {
        self.delimiter
    }

    /// The cells of one row, trimmed. At most `most` are kept.
    pub fn split(&self, row: &str, most: usize) -> Vec<String> {
        match (&self.reader, self.delimiter.byte()) {
            (Some(reader), Some(byte)) => quoted(&mut reader.borrow_mut(), byte, row, most),
            _ => spaced(row, self.delimiter == Delimiter::Wide, most),
        }
    }
}

fn quoted(reader: &mut csv_core::Reader, delimiter: u8, row: &str, most: usize) -> Vec<String> {
    reader.reset();
    let cells = row.bytes().filter(|b| *b == delimiter).count() + 1;
    // the bytes out never outnumber the bytes in, nor the ends the delimiters plus one
    let (mut out, mut ends) = (vec![0; row.len() + 1], vec![0; cells + 1]);
    let (_, _, written, ended) = reader.read_record(row.as_bytes(), &mut out, &mut ends);
    // an empty input closes the last cell
    let rest = (out.get_mut(written..), ends.get_mut(ended..));
    let last = match rest {
        (Some(out), Some(ends)) => reader.read_record(&[], out, ends).3,
        _ => 0,
    };
    let mut start = 0;
    let ends = ends.iter().take(ended + last).take(most);
    ends.map(|end| {
        let cell = out.get(start..*end).unwrap_or_default();
        start = *end;
        String::from_utf8_lossy(cell).trim().to_string()
    })
    .collect()
}

/// Splits at spaces; a bracketed unit stays with the word before it.
fn spaced(row: &str, wide: bool, most: usize) -> Vec<String> {
    let row = row.trim();
    let parts: Vec<&str> = if wide {
        row.split("  ").flat_map(|p| p.split('\t')).map(str::trim).filter(|p| !p.is_empty()).collect()
    } else {
        row.split_whitespace().collect()
    };
    let mut cells: Vec<String> = Vec::new();
    for part in parts {
        let full = cells.len() == most;
        match cells.last_mut() {
            Some(last) if part.starts_with(['(', '[']) => {
                last.push(' ');
                last.push_str(part);
            }
            _ if full => break,
            _ => cells.push(part.to_string()),
        }
    }
    cells
}

/// The delimiter under which the sample rows fall into the most numbers in evenly long rows.
pub fn sniff(rows: &[&str]) -> Delimiter {
    let scores = CANDIDATES.map(|d| (d, score(d, rows)));
    let best =
        scores.into_iter().fold((Delimiter::Comma, 0.0), |best, s| if s.1 > best.1 { s } else { best });
    best.0
}

fn score(delimiter: Delimiter, rows: &[&str]) -> f64 {
    let splitter = Splitter::new(delimiter);
    let split: Vec<Vec<String>> = rows.iter().map(|r| splitter.split(r, 200)).collect();
    let mut widths: Vec<usize> = split.iter().map(Vec::len).filter(|n| *n >= 2).collect();
    widths.sort_unstable();
    let mode = widths.chunk_by(|a, b| a == b).max_by_key(|c| c.len());
    let Some((width, even)) = mode.and_then(|c| c.first().map(|w| (*w, c.len()))) else { return 0.0 };
    let level = split.iter().filter(|r| r.len() == width);
    let numbers: f64 = level.flatten().map(|c| worth(c)).sum();
    // share of even rows x (numbers per row + a little for the width, so that text tables count)
    let share = even as f64 / split.len().max(1) as f64;
    share * (numbers / even as f64 + 1e-3 * width.min(100) as f64)
}

/// One for a number, minus one for a cell of signs alone.
fn worth(cell: &str) -> f64 {
    let signs = !is_absent(cell) && !cell.chars().any(char::is_alphanumeric);
    f64::from(looks_numeric(cell)) - f64::from(signs)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_what_stands_between_cells() {
        assert_eq!(sniff(&["md,inc,azi", "1,2.5,3", "2,3.5,4"]), Delimiter::Comma);
        assert_eq!(sniff(&["md;inc;azi", "1;2,5;3", "2;3,5;4"]), Delimiter::Semicolon);
        assert_eq!(sniff(&["md\tinc\tazi", "1,001.5\t2\t3"]), Delimiter::Tab);
        assert_eq!(sniff(&["md | inc | azi", "1 | 2 | 3"]), Delimiter::Bar);
        assert_eq!(sniff(&["Joint No  Length (ft)", "1  41.2", "2  40.8"]), Delimiter::Wide);
        assert_eq!(sniff(&["md inc azi", "100,5 2,3 45,1"]), Delimiter::Space);
        assert_eq!(sniff(&[]), Delimiter::Comma);
        assert_eq!(Delimiter::stated("sep=;"), Some(Delimiter::Semicolon));
    }

    #[test]
    fn splits_quoted_cells_and_inch_marks() {
        let split = |d, row, most| Splitter::new(d).split(row, most);
        assert_eq!(split(Delimiter::Comma, "1,\"a, b\",5.5\" pup", 10), ["1", "a, b", "5.5\" pup"]);
        assert_eq!(split(Delimiter::Space, "MD (ft)  Inc [deg]", 10), ["MD (ft)", "Inc [deg]"]);
        assert_eq!(split(Delimiter::Comma, "a,b,c", 2), ["a", "b"]);
    }
}
