//! Tables: aligned columns for a terminal, and the same rows as Markdown.

use comfy_table::{CellAlignment, ContentArrangement, ContentLineStyle, LineStyle, TableStyle};

use super::look::{Look, width};

/// Heads over a dashed rule, rows below, nothing drawn between.
const STYLE: TableStyle = TableStyle::new()
    .header_lines(ContentLineStyle::none().junction(' '))
    .header_separator(LineStyle::none().fill('-').junction(' '))
    .content_lines(ContentLineStyle::none().junction(' '));

/// On which side the text of a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// One column.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    head: &'static str,
    side: Side,
}

/// A column of words.
pub const fn left(head: &'static str) -> Column {
    Column { head, side: Side::Left }
}

/// A column of numbers.
pub const fn right(head: &'static str) -> Column {
    Column { head, side: Side::Right }
}

/// Rows under their heads.
#[derive(Debug, Clone)]
pub struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// With these columns and no rows.
    pub fn new(columns: &[Column]) -> Self {
        Self { columns: columns.to_vec(), rows: Vec::new() }
    }

    /// Adds a row; cells that are missing are empty, and those too many are left out.
    pub fn row<I: IntoIterator<Item = S>, S: Into<String>>(&mut self, cells: I) {
        let mut row: Vec<String> = cells.into_iter().map(Into::into).collect();
        row.resize(self.columns.len(), String::new());
        self.rows.push(row);
    }

    /// Whether there are no rows.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// For a terminal: as wide as it must be, wrapped where that is wider than the look.
    pub fn render(&self, look: &Look, indent: usize) -> String {
        let mut table = comfy_table::Table::new();
        table.load_style(STYLE);
        table.set_content_arrangement(ContentArrangement::Dynamic);
        table.set_width(u16::try_from(look.columns().saturating_sub(indent)).unwrap_or(u16::MAX));
        table.set_header(self.columns.iter().map(|c| c.head));
        self.rows.iter().for_each(|row| {
            table.add_row(row);
        });
        for (column, shown) in self.columns.iter().zip(table.column_iter_mut()) {
            shown.set_padding((0, 1));
            shown.set_cell_alignment(match column.side {
                Side::Left => CellAlignment::Left,
                Side::Right => CellAlignment::Right,
            });
        }
        let pad = " ".repeat(indent);
        table.lines().map(|line| format!("{}\n", format!("{pad}{line}").trim_end())).collect()
    }

    /// One line a row whatever the width, for listings that are searched and sorted by line.
    pub fn lines(&self) -> Vec<String> {
        let heads: Vec<String> = self.columns.iter().map(|c| c.head.to_string()).collect();
        let all = || std::iter::once(&heads).chain(&self.rows);
        let widest = |i: usize| all().filter_map(|r| r.get(i)).map(|c| width(c)).max().unwrap_or(0);
        let widths: Vec<usize> = (0..self.columns.len()).map(widest).collect();
        let cell = |(text, (column, wide)): (&String, (&Column, &usize))| {
            let gap = " ".repeat(wide.saturating_sub(width(text)));
            if column.side == Side::Left { format!("{text}{gap}") } else { format!("{gap}{text}") }
        };
        let line = |row: &Vec<String>| {
            let cells: Vec<String> = row.iter().zip(self.columns.iter().zip(&widths)).map(cell).collect();
            cells.join("  ").trim_end().to_string()
        };
        all().map(line).collect()
    }

    /// As a Markdown table.
    pub fn markdown(&self) -> String {
        let line = |cells: &[String]| {
            let escaped: Vec<String> = cells.iter().map(|c| escape(c)).collect();
            format!("| {} |\n", escaped.join(" | "))
        };
        let heads: Vec<String> = self.columns.iter().map(|c| c.head.to_string()).collect();
        let rule: Vec<&str> =
            self.columns.iter().map(|c| if c.side == Side::Left { "---" } else { "---:" }).collect();
        let rows: String = self.rows.iter().map(|r| line(r)).collect();
        format!("{}| {} |\n{rows}", line(&heads), rule.join(" | "))
    }
}

/// Text that stands in a Markdown cell as it is.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '|' | '<' | '>' | '*' | '_' | '\\' | '[' | ']' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("<br>"),
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample() -> Table {
        let mut table = Table::new(&[left("name"), right("value"), left("what it is")]);
        table.row(["bore", "3.92 in", "inner diameter of the treating string"]);
        table.row(["rate", "15 bbl/min", "a | b"]);
        table
    }

    #[test]
    fn columns_stand_under_their_heads() {
        let text = sample().render(&Look::default(), 2);
        insta::assert_snapshot!(text);
    }

    #[test]
    fn a_narrow_terminal_wraps_the_words() {
        let text = sample().render(&Look { width: 44, ..Look::default() }, 2);
        assert!(text.lines().all(|l| width(l) <= 44), "{text}");
        insta::assert_snapshot!(text);
    }

    #[test]
    fn lines_stay_one_line_a_row() {
        assert_eq!(sample().lines().len(), 3);
    }

    #[test]
    fn markdown_escapes_its_own_marks() {
        assert!(sample().markdown().contains("a \\| b"));
    }
}
