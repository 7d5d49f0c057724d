//! One station and one trajectory while a WITSML file is read.

use super::check;
use super::station::{DepthDatum, Station};
use super::survey_table::{Reported, RowKind, SurveyRow};
use super::witsml_unit::factor;
use crate::Severity;
use crate::table::Notes;
use quantity::{Angle, Kind, MeasuredDepth, Quantity, said};

/// A leaf element: its name, unit, datum and text.
#[derive(Debug, Clone, Default)]
pub(super) struct Leaf {
    pub name: String,
    pub uom: Option<String>,
    pub datum: Option<String>,
    pub text: String,
    pub line: usize,
}

/// A station being read.
#[derive(Debug, Clone, Default)]
pub(super) struct DraftStation {
    pub uid: String,
    pub line: usize,
    md: Option<MeasuredDepth>,
    inclination: Option<Angle>,
    azimuth: Option<Angle>,
    reported: Reported,
    kind: Option<RowKind>,
    faulty: bool,
}

/// A trajectory being read.
#[derive(Debug, Clone, Default)]
pub(super) struct DraftTrajectory {
    pub uid: String,
    pub name: String,
    pub rows: Vec<SurveyRow>,
    pub stations: usize,
    pub north_text: Option<String>,
    pub declination: Option<Angle>,
    pub convergence: Option<Angle>,
    pub section_azimuth: Option<Angle>,
    pub datum: Option<DepthDatum>,
    pub item_state: Option<String>,
}

/// What a quantity element gives.
enum Given<Q> {
    /// A value.
    Value(Q),
    /// Nothing, and nothing is wrong.
    Nothing,
    /// Nothing, and it was said why.
    Fault,
}

impl DraftStation {
    pub fn new(uid: String, line: usize) -> Self {
        Self { uid, line, ..Self::default() }
    }

    /// Takes an element that stands directly in the station.
    pub fn take(&mut self, leaf: &Leaf, notes: &mut Notes) {
        match leaf.name.as_str() {
            "md" => self.required(leaf, notes, |s, q| s.md = Some(q)),
            "incl" => self.required(leaf, notes, |s, q| s.inclination = Some(q)),
            "azi" => self.required(leaf, notes, |s, q| s.azimuth = Some(q)),
            "tvd" => self.reported.tvd = optional(leaf, notes),
            "dispNs" => self.reported.north = optional(leaf, notes),
            "dispEw" => self.reported.east = optional(leaf, notes),
            "vertSect" => self.reported.section = optional(leaf, notes),
            "dls" => self.reported.severity = optional(leaf, notes),
            "typeTrajStation" => self.kind = Some(RowKind::from_words(&leaf.text)),
            _ => {}
        }
    }

    fn required<Q: Quantity>(&mut self, leaf: &Leaf, notes: &mut Notes, put: impl Fn(&mut Self, Q)) {
        match read(leaf, Severity::Stop, notes) {
            Given::Value(q) => put(self, q),
            Given::Nothing => {}
            Given::Fault => self.faulty = true,
        }
    }

    /// The station, if it is complete.
    pub fn finish(self, notes: &mut Notes) -> Option<SurveyRow> {
        let vertical = self.inclination.is_some_and(|i| i.si() == 0.0);
        let azimuth = self.azimuth.or(vertical.then_some(Angle::ZERO));
        let (Some(md), Some(inclination), Some(azimuth)) = (self.md, self.inclination, azimuth) else {
            if !self.faulty {
                let message = said!("station `{}` lacks md, incl or azi and is left out", self.uid);
                notes.at(&check::ROW_INCOMPLETE, self.line, &self.uid, message);
            }
            return None;
        };
        Some(SurveyRow {
            line: self.line,
            shown: format!("station {}", self.uid).into_boxed_str(),
            station: Station::new(md, inclination, azimuth),
            kind: self.kind.unwrap_or(RowKind::Measured),
            reported: self.reported,
        })
    }
}

impl DraftTrajectory {
    /// Takes an element that stands directly in the trajectory.
    pub fn take(&mut self, leaf: &Leaf, notes: &mut Notes) {
        match leaf.name.as_str() {
            "name" => self.name = leaf.text.trim().to_string(),
            "aziRef" => self.north_text = Some(leaf.text.trim().to_string()),
            "magDeclUsed" => self.declination = optional(leaf, notes),
            "gridCorUsed" => self.convergence = optional(leaf, notes),
            "aziVertSect" => self.section_azimuth = optional(leaf, notes),
            _ => {}
        }
    }

    /// Keeps the name of the depth datum, from an attribute of a depth.
    pub fn take_datum(&mut self, leaf: &Leaf) {
        if let (None, "md" | "tvd" | "mdMn", Some(name)) = (&self.datum, leaf.name.as_str(), &leaf.datum) {
            self.datum = Some(DepthDatum { name: name.clone(), elevation: None });
        }
    }

    /// Whether it is the one asked for.
    pub fn is_called(&self, wanted: &str) -> bool {
        self.name == wanted || self.uid == wanted
    }
}

fn optional<Q: Quantity>(leaf: &Leaf, notes: &mut Notes) -> Option<Q> {
    match read(leaf, Severity::Warn, notes) {
        Given::Value(q) => Some(q),
        Given::Nothing | Given::Fault => None,
    }
}

fn read<Q: Quantity>(leaf: &Leaf, severity: Severity, notes: &mut Notes) -> Given<Q> {
    let text = leaf.text.trim();
    if text.is_empty() || text == "-999.25" {
        return Given::Nothing;
    }
    let fault = |message: String, notes: &mut Notes| {
        let shown = format!("<{}>{text}", leaf.name);
        let finding = check::UNIT.found(message).line(notes.file().to_string(), leaf.line, shown);
        notes.add(finding.severity(severity));
        Given::Fault
    };
    let kind: &'static Kind = Q::KIND;
    let Some(uom) = &leaf.uom else {
        return fault(format!("`{}` states no unit (uom)", leaf.name), notes);
    };
    let Some(factor) = factor(kind, uom) else {
        return fault(
            format!("`{}` has the unit `{uom}`, which is not one of {}", leaf.name, kind.name),
            notes,
        );
    };
    match text.parse::<f64>().map(|v| v * factor) {
        Ok(si) if si.is_finite() => Given::Value(Q::from_si(si)),
        _ => fault(format!("`{}` holds `{text}`, which is not a number", leaf.name), notes),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, TrueVerticalDepth};

    fn leaf(name: &str, uom: &str, text: &str) -> Leaf {
        Leaf { name: name.into(), uom: Some(uom.into()), text: text.into(), line: 3, ..Leaf::default() }
    }

    #[test]
    fn every_quantity_is_taken_in_its_own_unit() {
        let mut notes = Notes::new("t.xml", 5);
        let mut station = DraftStation::new("S-1".into(), 3);
        for (name, uom, text) in [
            ("md", "ft", "1000"),
            ("incl", "rad", "1.5"),
            ("azi", "dega", "90"),
            ("tvd", "m", "300"),
            ("dispNs", "ftUS", "3937"),
            ("dls", "dega/30m", "3"),
        ] {
            station.take(&leaf(name, uom, text), &mut notes);
        }
        let row = station.finish(&mut notes).unwrap();
        assert!((row.station.md.in_m() - 304.8).abs() < 1e-9);
        assert_eq!(row.station.inclination.in_rad(), 1.5);
        assert!((row.station.azimuth.in_deg() - 90.0).abs() < 1e-12);
        assert_eq!(row.reported.tvd.map(TrueVerticalDepth::in_m), Some(300.0));
        assert!((row.reported.north.map_or(0.0, Length::in_m) - 1200.0).abs() < 1e-9);
        assert!(notes.finish().is_empty());
    }

    #[test]
    fn a_missing_or_strange_unit_stops() {
        let mut notes = Notes::new("t.xml", 5);
        let mut station = DraftStation::new("S-1".into(), 3);
        station.take(&leaf("md", "ft", "1000"), &mut notes);
        station.take(&leaf("incl", "gon", "50"), &mut notes);
        station.take(&Leaf { uom: None, ..leaf("azi", "", "9") }, &mut notes);
        station.take(&leaf("tvd", "fathom", "9"), &mut notes);
        assert!(station.finish(&mut notes).is_none());
        let found: Vec<_> = notes.finish().iter().map(|f| (f.id, f.severity)).collect();
        let (id, stop) = ("survey-unit", Severity::Stop);
        assert_eq!(found, [(id, stop), (id, stop), (id, Severity::Warn)]);
    }
}
