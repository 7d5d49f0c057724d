//! Sections: everything between one line that begins with `~` and the next.

use crate::las::check;
use crate::las::limit;
use crate::las::model::Version;
use crate::las::notes::{Notes, Refusal};

/// A line with its number in the file, from 1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line<'a> {
    pub(super) number: usize,
    pub(super) text: &'a str,
}

/// The lines of `text`, the first being number `first`. Any of CR LF, LF and CR ends a line.
pub(super) fn lines(text: &str, first: usize) -> Lines<'_> {
    Lines { rest: text, number: first }
}

/// The lines of a text.
#[derive(Debug, Clone)]
pub(super) struct Lines<'a> {
    rest: &'a str,
    number: usize,
}

impl<'a> Iterator for Lines<'a> {
    type Item = Line<'a>;

    fn next(&mut self) -> Option<Line<'a>> {
        if self.rest.is_empty() {
            return None;
        }
        let ends = |b: &u8| matches!(b, b'\n' | b'\r');
        let end = self.rest.as_bytes().iter().position(ends).unwrap_or(self.rest.len());
        let (text, rest) = self.rest.split_at(end);
        self.rest = rest.strip_prefix("\r\n").or_else(|| rest.strip_prefix(['\n', '\r'])).unwrap_or("");
        let line = Line { number: self.number, text };
        self.number += 1;
        Some(line)
    }
}

/// What a section holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Version and wrap.
    Version,
    /// The well, start, stop, step and null.
    Well,
    /// The curves.
    Curve,
    /// Parameters.
    Parameter,
    /// Free text.
    Other,
    /// The rows.
    Data,
    /// Anything else.
    Unknown,
}

/// One section.
#[derive(Debug, Clone, Copy)]
pub(super) struct Section<'a> {
    /// The line after the tilde.
    pub(super) title: &'a str,
    /// The number of the title line.
    pub(super) line: usize,
    /// The text up to the next section.
    pub(super) body: &'a str,
}

/// The sections of a file, in its order.
pub(super) fn sections<'a>(text: &'a str, notes: &mut Notes) -> Result<Vec<Section<'a>>, Refusal> {
    let mut found: Vec<Section> = Vec::new();
    let mut walk = lines(text, 1);
    let mut body_start = 0;
    loop {
        let here = text.len() - walk.rest.len();
        let next = walk.next();
        let title = next.and_then(|line| title(line.text));
        if next.is_none() || title.is_some() {
            let before = text.get(body_start..here).unwrap_or("");
            match found.last_mut() {
                Some(section) => section.body = before,
                None => note_preamble(before, notes),
            }
        }
        let Some(line) = next else { break };
        if let Some(title) = title {
            if found.len() >= limit::SECTIONS {
                let message = format!("the file has more than {} sections", limit::SECTIONS);
                return Err(notes.refuse(&check::LIMIT, message));
            }
            found.push(Section { title, line: line.number, body: "" });
            body_start = text.len() - walk.rest.len();
        }
    }
    if found.is_empty() {
        return Err(notes.refuse(&check::NO_SECTIONS, "no line begins with `~`; the file is not a LAS file"));
    }
    Ok(found)
}

/// What stands after the tilde of a title line. LAS 1.2 lets a quotation mark stand before it.
fn title(line: &str) -> Option<&str> {
    line.trim_start().trim_start_matches(['"', '\'', '\u{feff}']).strip_prefix('~')
}

fn note_preamble(before: &str, notes: &mut Notes) {
    for line in lines(before, 1) {
        let text = line.text.trim();
        if !text.is_empty() && !text.starts_with('#') {
            notes.count(&check::PREAMBLE, "lines before the first section, not read", line.number, line.text);
        }
    }
}

impl<'a> Section<'a> {
    /// What the section holds under a version of the standard.
    pub(super) fn kind(&self, version: Version) -> Kind {
        match version {
            Version::V3 => self.kind_by_name(),
            Version::V1 | Version::V2 => self.kind_by_letter(),
        }
    }

    /// 1.2 and 2.0: the letter after the tilde decides.
    fn kind_by_letter(&self) -> Kind {
        match self.title.chars().next().map(|c| c.to_ascii_uppercase()) {
            Some('V') => Kind::Version,
            Some('W') => Kind::Well,
            Some('C') => Kind::Curve,
            Some('P') => Kind::Parameter,
            Some('O') => Kind::Other,
            Some('A') => Kind::Data,
            _ => Kind::Unknown,
        }
    }

    /// 3.0: the name decides, since several sections begin with one letter.
    fn kind_by_name(&self) -> Kind {
        let name = self.title.split(['|', '[', ' ', '\t']).next().unwrap_or("").to_ascii_lowercase();
        match name.as_str() {
            "v" | "version" => Kind::Version,
            "w" | "well" => Kind::Well,
            "c" | "curve" | "log_definition" => Kind::Curve,
            "p" | "parameter" | "log_parameter" => Kind::Parameter,
            "o" | "other" => Kind::Other,
            "a" | "ascii" | "log_data" => Kind::Data,
            _ => Kind::Unknown,
        }
    }

    /// The lines of the section that are neither blank nor comments.
    pub(super) fn lines(&self) -> impl Iterator<Item = Line<'a>> + Clone + use<'a> {
        lines(self.body, self.line + 1).filter(|line| {
            let text = line.text.trim_start();
            !text.is_empty() && !text.starts_with('#')
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_end_is_known() {
        let found: Vec<_> = lines("a\r\nb\rc\n\nd", 1).map(|l| (l.number, l.text)).collect();
        assert_eq!(found, [(1, "a"), (2, "b"), (3, "c"), (4, ""), (5, "d")]);
    }

    #[test]
    fn sections_keep_their_lines() {
        let mut notes = Notes::new("f");
        let found = sections("\n~V\n a\n#b\n  ~A x\n1\n", &mut notes).unwrap();
        assert_eq!(found.len(), 2);
        assert_eq!(found[0].lines().map(|l| (l.number, l.text)).collect::<Vec<_>>(), [(3, " a")]);
        assert_eq!(found[1].kind(Version::V2), Kind::Data);
        assert_eq!(found[1].lines().map(|l| l.number).collect::<Vec<_>>(), [6]);
    }
}
