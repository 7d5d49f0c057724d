//! The rows of the data section, read into columns.

use crate::las::cell::{Cell, Delimiter, cell};
use crate::las::check;
use crate::las::layout::{Layout, Value, part_every_run_on, part_line};
use crate::las::limit;
use crate::las::model::{Data, Item, TextColumn, Wrap};
use crate::las::notes::{Notes, Refusal};
use crate::las::section::{Section, lines};

/// What a column was found to hold.
#[derive(Debug, Clone, Default)]
struct Content {
    numbers: usize,
    words: usize,
    blanks: usize,
    /// The first line with something that is no number, 0 if there is none.
    line: usize,
    sample: String,
}

/// Numbers written with a comma.
#[derive(Debug, Default)]
struct Commas {
    count: usize,
    line: usize,
    sample: String,
}

impl Commas {
    fn add(&mut self, line: usize, text: &str) {
        self.count += 1;
        if self.count == 1 {
            (self.line, self.sample) = (line, text.to_string());
        }
    }
}

impl Content {
    fn odd(&mut self, line: usize, text: &str) {
        if self.line == 0 {
            self.line = line;
            self.sample = text.chars().take(40).collect();
        }
    }

    fn is_text(&self) -> bool {
        self.words > self.numbers
    }
}

/// Reads the rows: one column for each column of the layout.
pub(super) fn read_table(
    section: &Section,
    layout: Layout,
    curves: &[Item],
    bytes: usize,
    notes: &mut Notes,
) -> Result<Vec<Data>, Refusal> {
    let mut columns: Vec<Vec<f64>> = vec![Vec::new(); layout.columns];
    let mut contents: Vec<Content> = vec![Content::default(); layout.columns];
    let width = layout.columns.max(curves.len());
    let most = limit::cells(bytes);
    let mut cells = 0;
    let mut commas = Commas::default();
    let fits = each_row(section, layout, Some(&mut *notes), |line, row| {
        cells += width;
        for ((value, column), content) in row.iter().zip(&mut columns).zip(&mut contents) {
            column.push(number(*value, line, content, &mut commas));
        }
        cells <= most
    })?;
    if !fits {
        return Err(notes.refuse(&check::LIMIT, format!("the data hold more than {most} values")));
    }
    if commas.count > 0 {
        let message = format!("commas within numbers: {}, the first is `{}`", commas.count, commas.sample);
        notes.line(&check::DECIMAL_COMMA, message, commas.line, &commas.sample);
    }
    note_comments(section, notes);
    note_words(&contents, curves, notes);
    let mut data: Vec<Data> = columns.into_iter().map(Data::Numbers).collect();
    read_text_columns(section, layout, &contents, &mut data)?;
    Ok(data)
}

/// The number of a value, `NaN` if it is none, and what it was counted as.
fn number(value: Value, line: usize, content: &mut Content, commas: &mut Commas) -> f64 {
    let text = match value {
        Value::Text(text) => text,
        Value::Parted(number) => {
            content.numbers += 1;
            return number;
        }
        Value::Lost => return f64::NAN,
    };
    match cell(text) {
        Cell::Number(number) => {
            content.numbers += 1;
            number
        }
        Cell::CommaNumber(number) => {
            content.numbers += 1;
            commas.add(line, text);
            number
        }
        Cell::Blank => {
            if !text.is_empty() {
                content.blanks += 1;
                content.odd(line, text);
            }
            f64::NAN
        }
        Cell::Word => {
            content.words += 1;
            content.odd(line, text);
            f64::NAN
        }
    }
}

/// Calls `take` with each row, brought to the number of columns, and the line it ends on; stops
/// when `take` says so. Returns whether all rows were taken.
fn each_row<'a>(
    section: &Section<'a>,
    layout: Layout,
    notes: Option<&mut Notes>,
    mut take: impl FnMut(usize, &[Value<'a>]) -> bool,
) -> Result<bool, Refusal> {
    let mut silent = Notes::new("");
    let notes = notes.unwrap_or(&mut silent);
    match layout.wrap {
        Wrap::No => Ok(each_line(section, layout, notes, &mut take)),
        Wrap::Yes => each_wrapped(section, layout, notes, &mut take),
    }
}

/// Rows of one line each.
fn each_line<'a>(
    section: &Section<'a>,
    layout: Layout,
    notes: &mut Notes,
    take: &mut impl FnMut(usize, &[Value<'a>]) -> bool,
) -> bool {
    let (mut values, mut scratch) = (Vec::new(), Vec::new());
    for line in section.lines() {
        if part_line(line.text, layout.delimiter, layout.columns, &mut values, &mut scratch) {
            notes.count(&check::RUN_ON, "lines with numbers run together", line.number, line.text);
        }
        if values.len() != layout.columns {
            let certain = certain_values(&values, layout);
            if certain.is_none() {
                let what = "lines with too few or too many values; what cannot be placed is left out";
                notes.count(&check::ROW_LENGTH, what, line.number, line.text);
            }
            values.truncate(certain.unwrap_or_else(|| placed_values(&values, layout)));
            values.resize(layout.columns, Value::Lost);
        }
        if !take(line.number, &values) {
            return false;
        }
    }
    true
}

/// The number of values, if a line of the wrong length is right but for empty cells at its end.
fn certain_values(values: &[Value], layout: Layout) -> Option<usize> {
    let extra = values.get(layout.columns..)?;
    let empty = layout.delimiter != Delimiter::Blank && extra.iter().all(|v| *v == Value::Text(""));
    empty.then_some(layout.columns)
}

/// How many values of a line of the wrong length are certainly in their place.
fn placed_values(values: &[Value], layout: Layout) -> usize {
    let before = |test: fn(&str) -> bool| {
        values.iter().position(|v| matches!(v, Value::Text(t) if test(t))).unwrap_or(1)
    };
    let short = values.len() < layout.columns;
    match layout.delimiter {
        // A cell has its place even if the last ones are left off.
        Delimiter::Comma | Delimiter::Tab if short => values.len(),
        Delimiter::Comma | Delimiter::Tab => 1,
        // Asterisks may stand for several columns that overflowed.
        Delimiter::Blank if short => before(|t| t.len() > 1 && t.bytes().all(|b| b == b'*')),
        // A name of several words takes several places.
        Delimiter::Blank => before(|t| cell(t) == Cell::Word).min(layout.columns),
    }
}

/// Rows of several lines. Every row must end at a line end.
fn each_wrapped<'a>(
    section: &Section<'a>,
    layout: Layout,
    notes: &mut Notes,
    take: &mut impl FnMut(usize, &[Value<'a>]) -> bool,
) -> Result<bool, Refusal> {
    let (mut row, mut values, mut scratch) = (Vec::new(), Vec::new(), Vec::new());
    let mut last = section.line;
    for line in section.lines() {
        last = line.number;
        part_line(line.text, layout.delimiter, 0, &mut values, &mut scratch);
        if layout.delimiter == Delimiter::Blank && part_every_run_on(&mut values, &mut scratch) {
            notes.count(&check::RUN_ON, "lines with numbers run together", line.number, line.text);
        }
        row.append(&mut values);
        if row.len() > layout.columns {
            let message = format!("the row that ends on line {last} has more than {} values", layout.columns);
            return Err(notes.refuse(&check::ROW_SHAPE, message));
        }
        if row.len() == layout.columns {
            if !take(last, &row) {
                return Ok(false);
            }
            row.clear();
        }
    }
    if !row.is_empty() {
        let message = format!("the last row has {} values of {}; it is left out", row.len(), layout.columns);
        notes.line(&check::ROW_LENGTH, message, last, "");
    }
    Ok(true)
}

fn note_comments(section: &Section, notes: &mut Notes) {
    // Lines above the first row head the columns; that is common and harmless.
    let rows = lines(section.body, section.line + 1).skip_while(|l| !starts_row(l.text));
    for line in rows.filter(|l| l.text.trim_start().starts_with('#')) {
        notes.count(&check::DATA_COMMENT, "comments among the rows", line.number, line.text);
    }
}

fn starts_row(line: &str) -> bool {
    let text = line.trim_start();
    !text.is_empty() && !text.starts_with('#')
}

fn note_words(contents: &[Content], curves: &[Item], notes: &mut Notes) {
    let name = |at: usize| curves.get(at).map_or("", |i| i.mnemonic.as_str()).to_string();
    let listed = |wanted: &dyn Fn(&Content) -> bool| {
        let at: Vec<usize> = (0..contents.len()).filter(|i| contents.get(*i).is_some_and(wanted)).collect();
        let names: Vec<String> = at.iter().take(6).map(|i| name(*i)).collect();
        (at.len(), names.join(", "))
    };
    let (texts, names) = listed(&|c| c.is_text());
    if texts > 0 {
        notes.file(&check::TEXT_CURVE, format!("curves of words, kept as text: {texts} ({names})"));
    }
    let odd = |c: &Content| !c.is_text() && c.words + c.blanks > 0;
    let (_, names) = listed(&odd);
    let first = contents.iter().filter(|c| odd(c)).min_by_key(|c| c.line);
    if let Some(first) = first {
        let count: usize = contents.iter().filter(|c| odd(c)).map(|c| c.words + c.blanks).sum();
        let message = format!("values that are no numbers: {count}, in {names}, such as `{}`", first.sample);
        notes.line(&check::NON_NUMERIC, message, first.line, &first.sample);
    }
}

/// Second walk, for columns that turned out to hold words.
fn read_text_columns(
    section: &Section,
    layout: Layout,
    contents: &[Content],
    data: &mut [Data],
) -> Result<(), Refusal> {
    let wanted: Vec<usize> =
        contents.iter().enumerate().filter(|(_, c)| c.is_text()).map(|(at, _)| at).collect();
    if wanted.is_empty() {
        return Ok(());
    }
    let mut texts = vec![TextColumn::default(); wanted.len()];
    each_row(section, layout, None, |_, row| {
        for (at, text) in wanted.iter().zip(&mut texts) {
            match row.get(*at) {
                Some(Value::Text(word)) => text.push(word),
                Some(Value::Parted(number)) => text.push(&number.to_string()),
                Some(Value::Lost) | None => text.push(""),
            }
        }
        true
    })?;
    for (at, text) in wanted.iter().zip(texts) {
        if let Some(slot) = data.get_mut(*at) {
            *slot = Data::Text(text);
        }
    }
    Ok(())
}
