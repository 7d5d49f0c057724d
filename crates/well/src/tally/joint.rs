//! One joint of the tally.

use quantity::{Diameter, Length};

/// What a piece of the string is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum JointKind {
    /// A full joint.
    Joint,
    /// A pup joint.
    Pup,
    /// A marker joint: a short joint to be found on a depth log.
    Marker,
    /// A crossover.
    Crossover,
    /// A tool: packer, sleeve, collar, shoe, hanger.
    Tool,
}

impl JointKind {
    /// Name in plain words.
    pub fn word(self) -> &'static str {
        match self {
            JointKind::Joint => "joint",
            JointKind::Pup => "pup joint",
            JointKind::Marker => "marker joint",
            JointKind::Crossover => "crossover",
            JointKind::Tool => "tool",
        }
    }

    /// What a description names; a full joint if it names nothing else.
    ///
    /// ```
    /// use well::tally::JointKind;
    /// assert_eq!(JointKind::described("10 ft pup, P110"), JointKind::Pup);
    /// assert_eq!(JointKind::described("Hydraulic packer #3"), JointKind::Tool);
    /// assert_eq!(JointKind::described("4-1/2 in 13.5 lb/ft"), JointKind::Joint);
    /// ```
    pub fn described(text: &str) -> Self {
        const TOOLS: &[&str] = &[
            "packer",
            "sleeve",
            "shoe",
            "collar",
            "hanger",
            "sub",
            "port",
            "seat",
            "valve",
            "tool",
            "nipple",
            "isolation",
            "seal",
            "receptacle",
        ];
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).collect();
        let any = |list: &[&str]| words.iter().any(|w| list.contains(&w.trim_end_matches('s')));
        let crossover =
            lower.contains("crossover") || lower.contains("cross-over") || lower.contains("x-over");
        if any(&["pup"]) {
            JointKind::Pup
        } else if any(&["marker"]) {
            JointKind::Marker
        } else if crossover || any(&["xo", "xover"]) {
            JointKind::Crossover
        } else if any(TOOLS) {
            JointKind::Tool
        } else {
            JointKind::Joint
        }
    }
}

/// Where a length comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LengthOrigin {
    /// Measured on location.
    Measured,
    /// Made up by the program; never to be run to.
    Simulated,
}

/// One piece of the string.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Joint {
    /// Number as painted on it, such as `57` or `57A`.
    pub number: String,
    /// Serial or heat number.
    pub serial: Option<String>,
    /// Length, as the file states it.
    pub length: Length,
    /// Description.
    pub description: String,
    /// Outer diameter, if stated.
    pub od: Option<Diameter>,
    /// Inner diameter, if stated.
    pub id: Option<Diameter>,
    /// What it is.
    pub kind: JointKind,
    /// Where the length comes from.
    pub origin: LengthOrigin,
    /// Line in the file, from 1; none for a simulated joint.
    pub line: Option<usize>,
}

/// Length of all joints together.
pub fn total_length(joints: &[Joint]) -> Length {
    joints.iter().map(|j| j.length).sum()
}
