//! A row of the pressure sheet.

use quantity::*;

/// What a row of the pressure sheet asks to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum StepAction {
    /// Circulate, or displace the activation fluid.
    Circulate,
    /// Land the setting ball.
    LandBall,
    /// Land the plug behind the activation fluid.
    LandPlug,
    /// The isolation tool closes.
    CloseIsolation,
    /// The casing packer starts to set.
    StartCasingPacker,
    /// The casing packer is set fully.
    SetCasingPacker,
    /// The open-hole packers start to set.
    StartPackers,
    /// The open-hole packers are set fully.
    SetPackers,
    /// The string is tested.
    TestString,
    /// The string is bled to the annulus.
    Bleed,
    /// Casing packer and casing are tested from the annulus.
    TestAnnulus,
    /// The rig moves off.
    RigOff,
    /// The packers swell.
    Wait,
    /// The pressure sleeve opens stage 1.
    OpenPressureSleeve,
}

/// Where the pressure of a step is put.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Inside the string.
    String,
    /// On the annulus.
    Annulus,
}

/// What a step must not pass.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "what", content = "name")]
pub enum BoundBy {
    /// The share of the first device's lowest pressure that may be used to circulate.
    Circulating,
    /// The lowest at which the device named may act, less the margin.
    NextDevice(String),
    /// The ceiling named.
    Limit(String),
    /// The limit of the treating pressure.
    Treating,
    /// The limit of the annulus.
    AnnulusLimit,
    /// The pressure the step is to end at.
    End,
}

impl BoundBy {
    /// In words.
    pub fn words(&self) -> String {
        match self {
            Self::Circulating => "share of the first device's lowest pressure".into(),
            Self::NextDevice(name) => format!("{name} may act, less the margin"),
            Self::Limit(name) => name.clone(),
            Self::Treating => "limit of the treating pressure".into(),
            Self::AnnulusLimit => "limit of the annulus".into(),
            Self::End => "pressure the step ends at".into(),
        }
    }
}

/// One row of the pressure sheet. Pressures are gauge, at the surface, fluids at rest.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PressureStep {
    /// Row, from 1, in job order.
    pub step: usize,
    /// What is done.
    pub action: StepAction,
    /// What is done, in words.
    pub text: String,
    /// Where the pressure is put.
    pub side: Side,
    /// The device that decides, if one does.
    pub device: Option<String>,
    /// Its measured depth.
    pub depth: Option<MeasuredDepth>,
    /// Lowest pressure at which the device of this step may act: watch from here.
    pub acts_from: Option<GaugePressure>,
    /// Pressure the step needs.
    pub low: GaugePressure,
    /// Pressure the step must not pass.
    pub high: GaugePressure,
    /// What bounds it above.
    pub bound_by: BoundBy,
    /// Pressure to go to; none where the step has no room.
    pub target: Option<GaugePressure>,
    /// Differential across the deciding device at the target.
    pub differential: Option<Pressure>,
    /// How long it is held.
    pub hold: Time,
    /// Volume into the closed string from the step before to this target; below zero it comes back.
    pub volume_to_pump: Option<Volume>,
    /// Volume in the closed string beyond what it holds without pressure, at this target.
    pub volume_held: Option<Volume>,
    /// When to stop, and what then.
    pub abort: String,
}
