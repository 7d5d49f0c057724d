//! Lines of a text with their numbers; a quoted cell may run over several of them.

use std::ops::Range;

/// Most lines one quoted cell may run over before the quote is taken as left open by mistake.
const MOST_QUOTED_LINES: usize = 12;

/// One row of the text: its first line, from 1, and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Number of its first line, from 1.
    pub number: usize,
    /// Bytes of the text.
    pub span: Range<usize>,
    /// Whether a quote was opened and not closed.
    pub open_quote: bool,
}

impl Line {
    /// Its text.
    pub fn of<'t>(&self, text: &'t str) -> &'t str {
        text.get(self.span.clone()).unwrap_or_default()
    }
}

/// The lines as they stand: `\n`, `\r\n` and a lone `\r` end a line.
fn physical(text: &str) -> impl Iterator<Item = Range<usize>> + Clone + '_ {
    let bytes = text.as_bytes();
    let mut start = 0;
    std::iter::from_fn(move || {
        if start >= bytes.len() {
            return None;
        }
        let rest = bytes.get(start..)?;
        let length = rest.iter().position(|b| matches!(b, b'\n' | b'\r')).unwrap_or(rest.len());
        let span = start..start + length;
        let pair = matches!(rest.get(length..length + 2), Some(b"\r\n"));
        start = span.end + if pair { 2 } else { 1 };
        Some(span)
    })
}

/// The rows of a text whose cells are kept apart by `delimiter`; without one (spaces) a quote
/// has no meaning.
pub fn rows(text: &str, delimiter: Option<u8>) -> impl Iterator<Item = Line> + '_ {
    let mut lines = physical(text).enumerate();
    std::iter::from_fn(move || {
        let (index, span) = lines.next()?;
        let open = |s: &Range<usize>| {
            let row = text.get(s.clone()).unwrap_or_default();
            delimiter.is_some_and(|d| leaves_quote_open(row, d))
        };
        let single = Line { number: index + 1, span: span.clone(), open_quote: false };
        if !open(&span) {
            return Some(single);
        }
        let mut ahead = lines.clone();
        let mut joined = span;
        for _ in 1..MOST_QUOTED_LINES {
            let Some((_, next)) = ahead.next() else { break };
            joined = joined.start..next.end;
            if !open(&joined) {
                lines = ahead;
                return Some(Line { number: index + 1, span: joined, open_quote: false });
            }
        }
        Some(Line { open_quote: true, ..single })
    })
}

/// Whether a row ends inside a quoted cell: a quote opens only at the start of a cell.
fn leaves_quote_open(row: &str, delimiter: u8) -> bool {
    let (mut inside, mut cell_start) = (false, true);
    let mut bytes = row.bytes().peekable();
    while let Some(b) = bytes.next() {
        match b {
            b'"' if inside => {
                let doubled = bytes.peek() == Some(&b'"');
                if doubled {
                    bytes.next();
                } else {
                    inside = false;
                }
            }
            b'"' if cell_start => inside = true,
            _ => {}
        }
        cell_start = !inside && b == delimiter;
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> Vec<(usize, String, bool)> {
        rows(text, Some(b',')).map(|l| (l.number, l.of(text).to_string(), l.open_quote)).collect()
    }

    #[test]
    fn counts_lines_under_every_ending() {
        let found = texts("a\r\nb\rc\n\nd");
        let numbers: Vec<_> = found.iter().map(|(n, t, _)| (*n, t.as_str())).collect();
        assert_eq!(numbers, [(1, "a"), (2, "b"), (3, "c"), (4, ""), (5, "d")]);
    }

    #[test]
    fn joins_a_quoted_cell_over_lines() {
        let found = texts("\"Length\n(m)\",No\n1,2");
        assert_eq!(found[0], (1, "\"Length\n(m)\",No".to_string(), false));
        assert_eq!(found[1], (3, "1,2".to_string(), false));
    }

    #[test]
    fn a_quote_left_open_spoils_one_line_only() {
        let found = texts("\"open,1\n2,3\n4,5");
        assert!(found[0].2);
        assert_eq!(found.len(), 3);
    }
}
