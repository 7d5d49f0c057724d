//! The program as a document to print: its pages in job order, as text, tables, drawings and
//! forms. What is written here is data; the typst text beside it says how it is set. No text of a
//! job ever becomes part of the typst text.

mod ball_cards;
mod balls;
mod basis;
mod block;
mod casing_packer;
mod findings;
mod ladder;
mod layout;
mod setting;
mod sketch;
mod strings;
mod swell;
mod totals;
mod treatment;
mod units;
mod workings;

use std::collections::BTreeMap;

use plan::Program;
use quantity::System;
use well::Job;

pub use block::{Block, Paper};

use crate::text::bibliography::Bibliography;
use units::Units;

/// How the document is set.
const TEMPLATE: &str = include_str!("program.typ");

/// What a document is made from.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its program.
    pub program: &'a Program,
    /// The sources its workings name.
    pub sources: &'a Bibliography,
    /// The reader's units.
    pub system: System,
}

/// A document ready for the press.
#[derive(Debug, Clone)]
pub struct Document {
    /// The typst text.
    pub text: &'static str,
    /// The files it reads, by name: its data and its drawings.
    pub files: BTreeMap<String, Vec<u8>>,
    /// What stands for its contents in the PDF.
    pub identity: String,
}

/// The sheet a document is printed on, and the part of it that is written on, in points.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub(crate) struct Sheet {
    /// Its name in typst.
    pub paper: &'static str,
    /// Margin left and right.
    pub side: f64,
    /// Width of the text.
    pub width: f64,
    /// Height of the text.
    pub height: f64,
}

impl Sheet {
    /// Letter for field units, A4 for metric.
    fn of(system: System) -> Self {
        let (paper, width, height) = match system {
            System::Field => ("us-letter", 612.0, 792.0),
            System::Metric => ("a4", 595.28, 841.89),
        };
        let side = 40.0;
        Self { paper, side, width: width - 2.0 * side, height: height - 62.0 - 46.0 }
    }
}

/// A subject with the units and the sheet of its document.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Desk<'a> {
    /// Job.
    pub job: &'a Job,
    /// Program.
    pub program: &'a Program,
    /// Sources.
    pub sources: &'a Bibliography,
    /// Units.
    pub units: Units,
    /// Sheet.
    pub sheet: Sheet,
}

/// What the typst text reads.
#[derive(serde::Serialize)]
struct Data<'a> {
    sheet: Sheet,
    header: &'a plan::Header,
    system: String,
    blocks: Vec<Block>,
}

/// The document of a program.
pub fn manuscript(subject: &Subject<'_>) -> Document {
    let Subject { job, program, sources, system } = *subject;
    let desk = Desk { job, program, sources, units: Units(system), sheet: Sheet::of(system) };
    let mut paper = Paper::default();
    basis::pages(&desk, &mut paper);
    sketch::pages(&desk, &mut paper);
    layout::pages(&desk, &mut paper);
    ladder::pages(&desk, &mut paper);
    strings::pages(&desk, &mut paper);
    casing_packer::pages(&desk, &mut paper);
    setting::pages(&desk, &mut paper);
    swell::pages(&desk, &mut paper);
    treatment::pages(&desk, &mut paper);
    totals::pages(&desk, &mut paper);
    balls::pages(&desk, &mut paper);
    findings::pages(&desk, &mut paper);
    workings::pages(&desk, &mut paper);
    let data = Data {
        sheet: desk.sheet,
        header: &program.header,
        system: basis::system_words(job),
        blocks: paper.blocks,
    };
    let mut files = paper.files;
    files.insert("data.json".into(), serde_json::to_vec(&data).unwrap_or_default());
    let header = &program.header;
    let identity = format!("{} {} {}", header.input_hash, header.revision, header.version);
    Document { text: TEMPLATE, files, identity }
}
