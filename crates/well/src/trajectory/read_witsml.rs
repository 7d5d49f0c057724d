//! WITSML 1.4.1.1 trajectories, read as a stream.

use super::check;
use super::read_csv::{MOST_FINDINGS, MOST_ROWS, north_of_words, settle_north};
use super::station::Frame;
use super::survey_table::{SurveyOptions, SurveyTable};
use super::witsml_station::{DraftStation, DraftTrajectory, Leaf};
use crate::finding::{Check, Finding, Read};
use crate::table::decode::decode;
use crate::table::{Notes, in_file_order};
use quantity::said;
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};

/// Deepest nesting of elements that is followed.
const DEEPEST: usize = 64;
/// Longest text of an element that is kept, in bytes.
const LONGEST_TEXT: usize = 4096;
/// Most attributes of an element that are looked at.
const MOST_ATTRIBUTES: usize = 64;

/// Reads a trajectory from a WITSML 1.4.1.1 file.
///
/// Every quantity is taken in the unit it states; one without a known unit is a finding. Of
/// several trajectories the one named in the options is read, or the first. Document types and
/// entities of the file's own are refused.
pub fn read_witsml_trajectory(bytes: &[u8], options: &SurveyOptions) -> Read<SurveyTable> {
    let (text, _) = decode(bytes);
    let mut notes = Notes::new(&options.file, MOST_FINDINGS);
    let mut walker = Walker::new(options);
    if let Err(refusal) = walker.run(&text) {
        notes.at(refusal.check, refusal.line, &refusal.shown, refusal.message);
        return Read::none(in_file_order(walker.findings, notes.finish()));
    }
    let Some(draft) = walker.chosen else {
        let message = match &options.trajectory {
            Some(name) if !walker.others.is_empty() => {
                format!("no trajectory is called `{name}`; there are: {}", listed(&walker.others))
            }
            _ => "the file holds no trajectory".to_string(),
        };
        notes.whole(&check::XML, message);
        return Read::none(notes.finish());
    };
    if !walker.others.is_empty() && options.trajectory.is_none() {
        let message = said!("`{}` is read, and not: {}", draft.name, listed(&walker.others));
        notes.whole(&check::SEVERAL, message);
    }
    let value = table(draft, options, &mut notes);
    Read::some(value, in_file_order(walker.findings, notes.finish()))
}

/// A few names of a list.
fn listed(names: &[String]) -> String {
    let shown: Vec<&str> = names.iter().take(8).map(String::as_str).collect();
    let more = names.len().saturating_sub(shown.len());
    if more > 0 { format!("{} and {more} more", shown.join(", ")) } else { shown.join(", ") }
}

fn table(draft: DraftTrajectory, options: &SurveyOptions, notes: &mut Notes) -> SurveyTable {
    if draft.stations > draft.rows.len() && draft.rows.len() >= MOST_ROWS {
        notes.whole(&check::XML, format!("only the first {MOST_ROWS} stations are read"));
    }
    if draft.item_state.as_deref().is_some_and(|s| s == "plan" || s == "model") {
        let message = said!("`{}` is a {}", draft.name, draft.item_state.as_deref().unwrap_or_default());
        notes.whole(&check::PLANNED, message);
    }
    let stated = draft.north_text.as_deref().and_then(north_of_words);
    let words = draft.north_text.clone().unwrap_or_default();
    let mut frame = Frame {
        north: options.frame.north,
        north_text: options.frame.north_text.clone().or(draft.north_text),
        declination: options.frame.declination.or(draft.declination),
        convergence: options.frame.convergence.or(draft.convergence),
        datum: options.frame.datum.clone().or(draft.datum),
        section_azimuth: options.frame.section_azimuth.or(draft.section_azimuth),
    };
    settle_north(&mut frame, stated, &words, notes);
    let name = (!draft.name.is_empty()).then_some(draft.name);
    SurveyTable { file: options.file.clone(), name, rows: draft.rows, frame }
}

/// Why a file is refused.
struct Refusal {
    check: &'static Check,
    line: usize,
    shown: String,
    message: String,
}

/// Walks the elements and keeps what a survey needs.
struct Walker<'w> {
    options: &'w SurveyOptions,
    /// Findings of the trajectory being read; those of one that is not chosen are dropped.
    notes: Notes,
    findings: Vec<Finding>,
    path: Vec<String>,
    leaf: Leaf,
    station: Option<DraftStation>,
    trajectory: Option<DraftTrajectory>,
    chosen: Option<DraftTrajectory>,
    others: Vec<String>,
    line: usize,
    counted: usize,
}

impl<'w> Walker<'w> {
    fn new(options: &'w SurveyOptions) -> Self {
        Self {
            options,
            notes: Notes::new(&options.file, MOST_FINDINGS),
            findings: Vec::new(),
            path: Vec::new(),
            leaf: Leaf::default(),
            station: None,
            trajectory: None,
            chosen: None,
            others: Vec::new(),
            line: 1,
            counted: 0,
        }
    }

    fn run(&mut self, text: &str) -> Result<(), Refusal> {
        let mut reader = Reader::from_str(text);
        reader.config_mut().expand_empty_elements = true;
        loop {
            let event = reader.read_event();
            self.count_lines(text, usize::try_from(reader.buffer_position()).unwrap_or(text.len()));
            match event {
                Ok(Event::Start(element)) => self.open(&element)?,
                Ok(Event::End(_)) => self.close(),
                Ok(Event::Text(part)) => self.add_text(&part),
                Ok(Event::CData(part)) => self.add_text(&part),
                Ok(Event::GeneralRef(reference)) => {
                    let character = match &*reference {
                        "amp" => Some('&'),
                        "lt" => Some('<'),
                        "gt" => Some('>'),
                        "quot" => Some('"'),
                        "apos" => Some('\''),
                        _ => reference.resolve_char_ref().ok().flatten(),
                    };
                    let shown = &*reference;
                    let refused =
                        || self.refuse(&check::XML_ENTITY, shown, "the file uses an entity of its own");
                    let character = character.ok_or_else(refused)?;
                    self.add_text(character.encode_utf8(&mut [0; 4]));
                }
                Ok(Event::DocType(declared)) => {
                    return Err(self.refuse(
                        &check::XML_ENTITY,
                        &declared,
                        "the file declares a document type",
                    ));
                }
                Ok(Event::Eof) if self.path.is_empty() => return Ok(()),
                Ok(Event::Eof) => {
                    let message = said!("the file ends inside `{}`", self.path.join("/"));
                    return Err(self.refuse(&check::XML, "", &message));
                }
                Ok(_) => {}
                Err(e) => return Err(self.refuse(&check::XML, "", &e.to_string())),
            }
        }
    }

    fn count_lines(&mut self, text: &str, to: usize) {
        let passed = text.as_bytes().get(self.counted..to).unwrap_or_default();
        self.line += passed.iter().filter(|b| **b == b'\n').count();
        self.counted = to.max(self.counted);
    }

    fn refuse(&self, check: &'static Check, shown: &str, message: &str) -> Refusal {
        let clip = |s: &str| s.chars().take(200).collect::<String>();
        Refusal { check, line: self.line, shown: clip(shown), message: clip(message) }
    }

    fn open(&mut self, element: &BytesStart<'_>) -> Result<(), Refusal> {
        if self.path.len() >= DEEPEST {
            return Err(self.refuse(&check::XML, "", "elements are nested too deeply"));
        }
        let name: String = element.local_name().into_inner().chars().take(120).collect();
        let mut uid = String::new();
        self.leaf = Leaf { name: name.clone(), line: self.line, ..Leaf::default() };
        for attribute in element.attributes().with_checks(false).take(MOST_ATTRIBUTES).flatten() {
            let Ok(value) = attribute.normalized_value(XmlVersion::Implicit1_0) else { continue };
            let value: String = value.chars().take(120).collect();
            match attribute.key.local_name().into_inner() {
                "uom" => self.leaf.uom = Some(value),
                "datum" => self.leaf.datum = Some(value),
                "uid" => uid = value,
                _ => {}
            }
        }
        match name.as_str() {
            "trajectory" if self.trajectory.is_none() => {
                self.trajectory = Some(DraftTrajectory { uid, ..DraftTrajectory::default() });
            }
            "trajectoryStation" if self.parent() == "trajectory" => {
                self.station = Some(DraftStation::new(uid, self.line));
            }
            _ => {}
        }
        self.path.push(name);
        Ok(())
    }

    fn add_text(&mut self, part: &str) {
        let room = LONGEST_TEXT.saturating_sub(self.leaf.text.len());
        if part.len() <= room {
            self.leaf.text.push_str(part);
        } else {
            self.leaf.text.extend(part.chars().take(room / 4));
        }
    }

    /// Name of the innermost open element.
    fn parent(&self) -> &str {
        self.path.last().map_or("", String::as_str)
    }

    fn close(&mut self) {
        let Some(name) = self.path.pop() else { return };
        let leaf = std::mem::take(&mut self.leaf);
        match (name.as_str(), self.parent()) {
            ("trajectoryStation", "trajectory") => self.close_station(),
            ("trajectory", parent) if parent != "trajectory" => self.close_trajectory(),
            (_, "trajectoryStation") => {
                if let Some(trajectory) = &mut self.trajectory {
                    trajectory.take_datum(&leaf);
                }
                if let Some(station) = self.station.as_mut().filter(|_| leaf.name == name) {
                    station.take(&leaf, &mut self.notes);
                }
            }
            (_, "trajectory") => {
                if let Some(trajectory) = self.trajectory.as_mut().filter(|_| leaf.name == name) {
                    trajectory.take_datum(&leaf);
                    trajectory.take(&leaf, &mut self.notes);
                }
            }
            ("itemState", "commonData") if self.station.is_none() => {
                if let Some(trajectory) = &mut self.trajectory {
                    trajectory.item_state = Some(leaf.text.trim().to_string());
                }
            }
            _ => {}
        }
    }

    fn close_station(&mut self) {
        let (Some(station), Some(trajectory)) = (self.station.take(), &mut self.trajectory) else { return };
        trajectory.stations += 1;
        if trajectory.rows.len() < MOST_ROWS && self.chosen.is_none() {
            trajectory.rows.extend(station.finish(&mut self.notes));
        }
    }

    fn close_trajectory(&mut self) {
        let Some(trajectory) = self.trajectory.take() else { return };
        let fits = self.options.trajectory.as_deref().is_none_or(|w| trajectory.is_called(w));
        let notes = std::mem::replace(&mut self.notes, Notes::new(&self.options.file, MOST_FINDINGS));
        if fits && self.chosen.is_none() {
            self.chosen = Some(trajectory);
            self.findings = notes.finish();
        } else if self.others.len() < MOST_ROWS {
            let name = if trajectory.name.is_empty() { trajectory.uid } else { trajectory.name };
            self.others.push(name);
        }
    }
}
