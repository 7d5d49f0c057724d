//! What a document is made of: blocks of text, tables, drawings and forms, in reading order. All
//! figures are text in the reader's units by the time they stand here.

use std::collections::BTreeMap;

/// How loud a notice is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Tone {
    /// Stops the job.
    Stop,
    /// To be looked at.
    Warn,
    /// Worth knowing.
    Note,
    /// All is well.
    Clear,
}

/// How a cell stands out; the text says the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Stress {
    /// Not at all.
    #[default]
    Plain,
    /// Bold.
    Strong,
    /// Breaks a limit.
    Broken,
    /// A blank to be written in.
    Blank,
}

/// One cell of a table.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Cell {
    /// Text.
    pub text: String,
    /// How it stands out.
    pub stress: Stress,
}

impl Cell {
    /// A cell that stands out.
    pub fn stressed(text: impl Into<String>, stress: Stress) -> Self {
        Self { text: text.into(), stress }
    }

    /// A bold cell.
    pub fn strong(text: impl Into<String>) -> Self {
        Self::stressed(text, Stress::Strong)
    }

    /// A blank.
    pub fn blank() -> Self {
        Self::stressed("", Stress::Blank)
    }

    /// A cell that breaks a limit where `broken`.
    pub fn judged(text: impl Into<String>, broken: bool) -> Self {
        Self::stressed(text, if broken { Stress::Broken } else { Stress::Plain })
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Self {
        Self::stressed(text, Stress::Plain)
    }
}

/// Where the text of a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Text.
    Left,
    /// Numbers.
    Right,
}

/// One column.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Column {
    /// What stands in it.
    pub title: String,
    /// Unit of its numbers.
    pub unit: String,
    /// Where its text stands.
    pub side: Side,
    /// Share of the width that is left; none takes what its text needs.
    pub share: Option<f64>,
}

impl Column {
    /// A column of words.
    pub fn words(title: impl Into<String>) -> Self {
        Self { title: title.into(), unit: String::new(), side: Side::Left, share: None }
    }

    /// A column of words that takes a share of the width that is left.
    pub fn wide(title: impl Into<String>, share: f64) -> Self {
        Self { share: Some(share), ..Self::words(title) }
    }

    /// The same column taking a share of the width that is left.
    pub fn taking(self, share: f64) -> Self {
        Self { share: Some(share), ..self }
    }

    /// A column of numbers.
    pub fn number(title: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { title: title.into(), unit: unit.into(), side: Side::Right, share: None }
    }
}

/// A table; its head is repeated on every page.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Table {
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows.
    pub rows: Vec<Vec<Cell>>,
    /// What must be known to read it.
    pub note: String,
    /// Size of its text in points.
    pub size: f64,
    /// Whether its rows are high enough to be written in.
    pub tall: bool,
}

impl Table {
    /// A table without rows.
    pub fn new(columns: Vec<Column>) -> Self {
        Self { columns, rows: Vec::new(), note: String::new(), size: 7.5, tall: false }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<Cell>) {
        self.rows.push(cells);
    }

    /// With columns of the same width where they state no share of their own.
    pub fn even(mut self) -> Self {
        self.columns.iter_mut().for_each(|c| c.share = c.share.or(Some(1.0)));
        self
    }

    /// With rows to be written in.
    pub fn tall(mut self) -> Self {
        self.tall = true;
        self
    }

    /// With a note.
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }

    /// With text of another size.
    pub fn sized(mut self, size: f64) -> Self {
        self.size = size;
        self
    }
}

/// A name and what belongs to it.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Fact {
    /// Name.
    pub name: String,
    /// Value, with its unit.
    pub value: String,
}

/// Makes a fact.
pub fn fact(name: impl Into<String>, value: impl Into<String>) -> Fact {
    Fact { name: name.into(), value: value.into() }
}

/// A blank on a form.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Blank {
    /// What is to be written.
    pub name: String,
    /// Unit of it.
    pub unit: String,
}

/// Makes a blank.
pub fn blank(name: impl Into<String>, unit: impl Into<String>) -> Blank {
    Blank { name: name.into(), unit: unit.into() }
}

/// The card of one ball, for the pocket and for the file.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Card {
    /// Which ball.
    pub title: String,
    /// Its diameter, large.
    pub ball: String,
    /// What it is made of.
    pub made_of: String,
    /// What is so.
    pub facts: Vec<Fact>,
    /// Drawing of the volumes, by its file; empty for none.
    pub drawing: String,
    /// What to hold to.
    pub cautions: Vec<String>,
    /// Heads of the columns in which every measurer fills the blanks: which diameter.
    pub measure: Vec<Blank>,
    /// Who measures, one row each.
    pub measurers: Vec<String>,
    /// Checks before the launch, each to be initialled.
    pub checks: Vec<String>,
    /// What came to pass.
    pub outcome: Vec<Blank>,
}

/// Findings of one check that ask for the same, as they are printed.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct FindingEntry {
    /// Severity.
    pub tone: Tone,
    /// Identity of the check.
    pub id: String,
    /// Where, and what is so, with value and limit.
    pub lines: Vec<Fact>,
    /// What to do next.
    pub next: String,
}

/// A value of a relation's call.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct NamedValue {
    /// Name in the relation.
    pub name: String,
    /// What it is.
    pub doc: String,
    /// Value with its unit.
    pub value: String,
    /// Whether it lies outside the range of validity.
    pub outside: bool,
}

/// One call of a relation.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct StepEntry {
    /// Title and name of the relation.
    pub title: String,
    /// Its name, by which it can be called.
    pub relation: String,
    /// Equation.
    pub equation: String,
    /// Source.
    pub source: String,
    /// Range of validity.
    pub range: String,
    /// Number of the step before with the same relation; inputs that are alike are left out then.
    pub like: Option<usize>,
    /// Inputs.
    pub inputs: Vec<NamedValue>,
    /// Outputs.
    pub outputs: Vec<NamedValue>,
}

/// What a figure was made of.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct WorkingEntry {
    /// Path of the figure in the program.
    pub figure: String,
    /// What it is.
    pub title: String,
    /// The figure.
    pub value: String,
    /// How the steps make it.
    pub note: String,
    /// The calls.
    pub steps: Vec<StepEntry>,
}

/// One block.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Block {
    /// A section.
    Section {
        /// Title.
        title: String,
        /// What it is for, in a sentence or two.
        lead: String,
        /// Whether it begins a page.
        fresh: bool,
    },
    /// A heading below a section.
    Heading {
        /// Title.
        title: String,
    },
    /// A paragraph.
    Text {
        /// Text.
        text: String,
    },
    /// A box to be seen.
    Notice {
        /// How loud.
        tone: Tone,
        /// Title.
        title: String,
        /// Lines.
        lines: Vec<String>,
    },
    /// Names and values in columns.
    Facts {
        /// How many columns of pairs.
        columns: usize,
        /// Pairs, column after column.
        facts: Vec<Fact>,
    },
    /// A table.
    Table(Table),
    /// A drawing.
    Drawing {
        /// File of the document.
        file: String,
        /// What it shows.
        caption: String,
    },
    /// The head of the first page.
    Title,
    /// The list of sections with their pages.
    Contents,
    /// Places to sign, by role.
    Signatures {
        /// Roles.
        roles: Vec<String>,
    },
    /// Rules, each under its subject.
    Rules {
        /// Subject and rule.
        rules: Vec<Fact>,
    },
    /// Ball cards, three on a page.
    Cards {
        /// Cards.
        cards: Vec<Card>,
    },
    /// Findings.
    Findings {
        /// Findings.
        findings: Vec<FindingEntry>,
    },
    /// Workings.
    Workings {
        /// Workings.
        workings: Vec<WorkingEntry>,
    },
}

/// Rows of a table that is let begin below something else; the template keeps it on one page.
pub const FEW_ROWS: usize = 18;

/// A document being made: its blocks and the files they name.
#[derive(Debug, Clone, Default)]
pub struct Paper {
    /// Blocks in reading order.
    pub blocks: Vec<Block>,
    /// Drawings by name.
    pub files: BTreeMap<String, Vec<u8>>,
}

impl Paper {
    /// Begins a section on a page of its own.
    pub fn section(&mut self, title: &str, lead: &str) {
        self.blocks.push(Block::Section { title: title.into(), lead: lead.into(), fresh: true });
    }

    /// Begins a section whose table has so many rows: on a page of its own where they are many.
    pub fn section_of(&mut self, rows: usize, title: &str, lead: &str) {
        if rows > FEW_ROWS { self.section(title, lead) } else { self.next_section(title, lead) }
    }

    /// Begins a section on the page of the one before.
    pub fn next_section(&mut self, title: &str, lead: &str) {
        self.blocks.push(Block::Section { title: title.into(), lead: lead.into(), fresh: false });
    }

    /// Begins a part of a section.
    pub fn heading(&mut self, title: &str) {
        self.blocks.push(Block::Heading { title: title.into() });
    }

    /// Adds a paragraph.
    pub fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Text { text: text.into() });
    }

    /// Adds a box.
    pub fn notice(&mut self, tone: Tone, title: impl Into<String>, lines: Vec<String>) {
        self.blocks.push(Block::Notice { tone, title: title.into(), lines });
    }

    /// Adds names and values.
    pub fn facts(&mut self, columns: usize, facts: Vec<Fact>) {
        self.blocks.push(Block::Facts { columns, facts });
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) {
        self.blocks.push(Block::Table(table));
    }

    /// Keeps a drawing without a place of its own and gives the name it is found by.
    pub fn keep(&mut self, name: &str, svg: String) -> String {
        let file = format!("{name}.svg");
        self.files.insert(file.clone(), svg.into_bytes());
        file
    }

    /// Adds a drawing.
    pub fn drawing(&mut self, name: &str, svg: String, caption: &str) {
        let file = self.keep(name, svg);
        self.blocks.push(Block::Drawing { file, caption: caption.into() });
    }

    /// Says that a part is not there.
    pub fn absent(&mut self, what: &str) {
        let line = "The findings say what is missing and what to do about it.".to_string();
        self.notice(Tone::Stop, format!("{what}: not computed, see the findings"), vec![line]);
    }
}
