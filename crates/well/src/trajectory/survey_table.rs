//! The stations of a survey file as they stand in it, with what the file reports beside them.

use super::station::{Frame, Station};
use quantity::{Curvature, Length, TrueVerticalDepth};

/// What a row of a survey is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum RowKind {
    /// Where the survey starts from.
    TieIn,
    /// A measured station.
    Measured,
    /// A projection, such as to total depth.
    Projected,
}

impl RowKind {
    /// From a remark or a station type in words.
    pub fn from_words(words: &str) -> Self {
        let lower = words.to_lowercase();
        let has = |list: &[&str]| list.iter().any(|w| lower.contains(w));
        if has(&["proj", "extrapol"]) {
            RowKind::Projected
        } else if has(&["tie in", "tie-in", "tie point", "tie on", "tie-on"]) {
            RowKind::TieIn
        } else {
            RowKind::Measured
        }
    }
}

/// What a file reports at a station, beside its depth and angles.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Reported {
    /// Vertical depth below the datum.
    pub tvd: Option<TrueVerticalDepth>,
    /// Vertical depth below mean sea level.
    pub tvd_subsea: Option<TrueVerticalDepth>,
    /// To the north of the origin.
    pub north: Option<Length>,
    /// To the east of the origin.
    pub east: Option<Length>,
    /// Dogleg severity of the course above.
    pub severity: Option<Curvature>,
    /// Distance along the vertical section.
    pub section: Option<Length>,
    /// Map coordinate to the north.
    pub northing: Option<Length>,
    /// Map coordinate to the east.
    pub easting: Option<Length>,
}

/// One station as it stands in the file.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyRow {
    /// Line in the file, from 1.
    pub line: usize,
    /// The line as it stands, or the name of the station.
    pub shown: Box<str>,
    /// Depth and angles.
    pub station: Station,
    /// What it is.
    pub kind: RowKind,
    /// What the file reports there.
    pub reported: Reported,
}

/// A survey file as read, before it is judged.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyTable {
    /// File in the job folder.
    pub file: String,
    /// Name of the trajectory in it, if it has one.
    pub name: Option<String>,
    /// Its stations in file order.
    pub rows: Vec<SurveyRow>,
    /// What its numbers are measured from, as far as the file says.
    pub frame: Frame,
}

/// Unit of depths where a file names none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DepthUnit {
    /// Metres.
    Metre,
    /// International feet.
    Foot,
    /// US survey feet.
    SurveyFoot,
}

impl DepthUnit {
    /// From the symbol of the unit.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        [Self::Metre, Self::Foot, Self::SurveyFoot].into_iter().find(|u| u.symbol() == symbol)
    }

    /// Its symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            DepthUnit::Metre => "m",
            DepthUnit::Foot => "ft",
            DepthUnit::SurveyFoot => "ftUS",
        }
    }

    /// The unit in which dogleg severity is printed beside such depths.
    pub(super) fn severity_symbol(self) -> &'static str {
        match self {
            DepthUnit::Metre => "deg/30m",
            DepthUnit::Foot | DepthUnit::SurveyFoot => "deg/100ft",
        }
    }
}

/// What the caller knows of a survey file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SurveyOptions {
    /// File in the job folder, for messages.
    pub file: String,
    /// Unit of depths where the file names none.
    pub depth_unit: Option<DepthUnit>,
    /// Which trajectory of a WITSML file to read, by name or uid; the first if absent.
    pub trajectory: Option<String>,
    /// What the job file states; the survey file fills what it leaves open.
    pub frame: Frame,
}

impl SurveyOptions {
    /// For a file, with nothing else known.
    pub fn for_file(file: impl Into<String>) -> Self {
        Self { file: file.into(), ..Self::default() }
    }

    /// The same with the unit of depths where the file names none.
    pub fn depth_unit(mut self, unit: DepthUnit) -> Self {
        self.depth_unit = Some(unit);
        self
    }
}
