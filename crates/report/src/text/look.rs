//! How text is laid out: units, width and colour. Colour is decoration; every severity and
//! verdict is a word as well.

use std::fmt::Write as _;

use anstyle::{AnsiColor, Style};
use quantity::System;

/// Whether text carries colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Colour {
    /// Plain text.
    #[default]
    Plain,
    /// With the escape codes of a terminal.
    Ansi,
}

/// What a piece of text is, for its colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A title.
    Title,
    /// A name that can be typed: a relation, a check, a field.
    Name,
    /// Something that stops the job, or a miss.
    Stop,
    /// Something to look at.
    Warn,
    /// Worth knowing.
    Note,
    /// Something that passes.
    Pass,
    /// Text beside the point.
    Faint,
}

impl Role {
    fn style(self) -> Style {
        match self {
            Role::Title => Style::new().bold(),
            Role::Name => AnsiColor::Cyan.on_default(),
            Role::Stop => AnsiColor::Red.on_default().bold(),
            Role::Warn => AnsiColor::Yellow.on_default().bold(),
            Role::Note => AnsiColor::Blue.on_default().bold(),
            Role::Pass => AnsiColor::Green.on_default(),
            Role::Faint => Style::new().dimmed(),
        }
    }
}

/// How text is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The units a person reads.
    pub system: System,
    /// Columns of the terminal.
    pub width: usize,
    /// Whether colour is used.
    pub colour: Colour,
}

/// Columns where there is no terminal to ask.
pub const PLAIN_WIDTH: usize = 100;

/// The narrowest and the widest text that is laid out; a terminal outside is taken as the nearer.
const WIDTHS: (usize, usize) = (40, 160);

impl Default for Look {
    fn default() -> Self {
        Self { system: System::Field, width: PLAIN_WIDTH, colour: Colour::Plain }
    }
}

impl Look {
    /// Columns that are used.
    pub fn columns(&self) -> usize {
        self.width.clamp(WIDTHS.0, WIDTHS.1)
    }

    /// `text` in the colour of `role`.
    pub fn paint(&self, role: Role, text: &str) -> String {
        match self.colour {
            Colour::Plain => text.to_string(),
            Colour::Ansi => {
                let style = role.style();
                format!("{style}{text}{style:#}")
            }
        }
    }

    /// `text` broken into lines, each after `indent` spaces.
    pub fn wrap(&self, indent: usize, text: &str) -> String {
        self.hang(&" ".repeat(indent), indent, text)
    }

    /// `text` after `label`, later lines under its beginning at column `indent`.
    pub fn hang(&self, label: &str, indent: usize, text: &str) -> String {
        let start = width(label).max(indent);
        let label = format!("{label}{}", " ".repeat(start - width(label)));
        let pad = " ".repeat(indent);
        let options = textwrap::Options::new(self.columns())
            .initial_indent(&label)
            .subsequent_indent(&pad)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .break_words(false);
        let mut out = String::new();
        for line in textwrap::wrap(text, options) {
            let _ = writeln!(out, "{}", line.trim_end());
        }
        out
    }
}

/// Columns a plain text takes on a terminal.
pub fn width(text: &str) -> usize {
    unicode_width::UnicodeWidthStr::width(text)
}

/// `count` with its noun, as in `1 case` and `2 cases`.
pub fn count(count: usize, noun: &str) -> String {
    match count {
        1 => format!("1 {noun}"),
        n => format!("{n} {noun}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_text_carries_no_escape_code() {
        let plain = Look::default();
        assert_eq!(plain.paint(Role::Stop, "stop"), "stop");
        let colour = Look { colour: Colour::Ansi, ..plain };
        let painted = colour.paint(Role::Stop, "stop");
        assert!(painted.contains('\u{1b}') && painted.contains("stop"));
    }

    #[test]
    fn lines_keep_to_the_width_and_hang_under_their_label() {
        let narrow = Look { width: 40, ..Look::default() };
        let text =
            narrow.hang("next:", 8, "read which input the message names and correct it in the job file");
        assert!(text.lines().all(|l| width(l) <= 40), "{text}");
        assert!(text.starts_with("next:   read"), "{text}");
        assert!(text.lines().skip(1).all(|l| l.starts_with("        ")), "{text}");
    }

    #[test]
    fn a_word_longer_than_the_line_is_not_cut() {
        let narrow = Look { width: 40, ..Look::default() };
        let long = "a".repeat(60);
        assert!(narrow.wrap(2, &long).contains(&long));
    }
}
