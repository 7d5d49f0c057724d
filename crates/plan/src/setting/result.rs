//! Setting the packers as the rest of the plan and the reader see it.

use quantity::*;
use well::job::SystemKind;

use super::step::{PressureStep, StepAction};
use crate::device::DeviceRange;
use crate::swell::SwellPlan;

/// A device that pressure works while the packers are set or the first stage is opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DeviceKind {
    /// The tool at the toe that the setting ball closes.
    Isolation,
    /// The packer that hangs and seals the liner in the casing.
    CasingPacker,
    /// An open-hole packer.
    Packer,
    /// The sleeve that pressure opens for stage 1.
    PressureSleeve,
}

impl DeviceKind {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Isolation => "isolation tool",
            Self::CasingPacker => "casing packer",
            Self::Packer => "packer",
            Self::PressureSleeve => "pressure sleeve",
        }
    }
}

/// What stands on the other side of a device when it is to act.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Outside {
    /// The annulus, open to the surface: its column and what is held on it.
    Annulus,
    /// The pressure trapped between packers when they set.
    Trapped,
    /// The pressure of the formation.
    Formation,
    /// Nothing: the device is rated in absolute pressure.
    Absolute,
}

impl Outside {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Annulus => "annulus column and the pressure on it",
            Self::Trapped => "pressure trapped when the packers set",
            Self::Formation => "formation pressure",
            Self::Absolute => "none, absolute pressure",
        }
    }
}

/// A device in its place, at its own vertical depth, with its range at the surface.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct DeviceWindow {
    /// Which device.
    pub device: DeviceKind,
    /// Stage of a packer or of the pressure sleeve.
    pub stage: Option<usize>,
    /// Measured depth.
    pub depth: MeasuredDepth,
    /// Vertical depth.
    pub tvd: TrueVerticalDepth,
    /// What stands on its other side.
    pub outside: Outside,
    /// Pressure on its other side at its depth, gauge; of an absolute device one atmosphere below
    /// zero.
    pub outside_pressure: GaugePressure,
    /// Pressure of the column in the string at its depth.
    pub column: Pressure,
    /// What it may act at, at the device itself: differential, or absolute.
    pub range: DeviceRange,
    /// Lowest pressure at the surface at which it may act.
    pub low: GaugePressure,
    /// Nominal pressure at the surface.
    pub nominal: GaugePressure,
    /// Pressure at the surface by which it will have acted.
    pub high: GaugePressure,
    /// Differential that sets it fully.
    pub full_set: Option<Pressure>,
    /// Pressure at the surface that sets it fully.
    pub full_set_at: Option<GaugePressure>,
}

impl DeviceWindow {
    /// Pressure at the surface at which it has done all it is to do.
    pub fn done(&self) -> GaugePressure {
        self.full_set_at.map_or(self.high, |full| full.max(self.high))
    }

    /// Differential across it (or absolute pressure at it) with a pressure at the surface.
    pub fn differential(&self, surface: GaugePressure) -> Pressure {
        surface + self.column - self.outside_pressure
    }

    /// Its name with its number.
    pub fn name(&self) -> String {
        match (self.device, self.stage) {
            (DeviceKind::Packer, Some(n)) => format!("packer {n}"),
            _ => self.device.word().into(),
        }
    }
}

/// What a ceiling of the surface pressure belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LimitKind {
    /// What closes the top of the well while setting.
    Surface,
    /// Internal yield of pipe, with its factor.
    Burst,
    /// Internal pressure rating of a connection, with the factor on internal yield.
    Connection,
    /// Body of the sleeves.
    Sleeve,
    /// Setting ball on its seat, with its factor.
    SettingBall,
}

/// A ceiling of the pressure in the string while the packers are set and tested.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PressureLimit {
    /// What it belongs to.
    pub kind: LimitKind,
    /// Name of it.
    pub name: String,
    /// Where it binds; none for the surface.
    pub depth: Option<MeasuredDepth>,
    /// Rating as given or computed.
    pub rating: Pressure,
    /// Factor on it.
    pub factor: Ratio,
    /// Pressure outside at that depth, gauge.
    pub outside: GaugePressure,
    /// Column in the string down to that depth.
    pub column: Pressure,
    /// Highest pressure at the surface that it allows.
    pub ceiling: GaugePressure,
    /// Highest planned pressure at the surface while setting and testing, over the ceiling.
    pub used: Ratio,
    /// Where the rating comes from.
    pub source: String,
}

/// The setting ball on its seat.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SettingSeat {
    /// Ball.
    pub ball: Diameter,
    /// Seat.
    pub seat: Diameter,
    /// Temperature the rating is taken at.
    pub temperature: Temperature,
    /// Differential it holds, before the safety factor.
    pub rating: Pressure,
    /// What the rating was made of, in words.
    pub basis: String,
    /// Highest differential of setting and test.
    pub differential: Pressure,
    /// That differential with the safety factor, over the rating.
    pub utilisation: Ratio,
}

/// Force of a setting piston.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PistonForce {
    /// Which device.
    pub device: DeviceKind,
    /// Stage of a packer.
    pub stage: Option<usize>,
    /// Piston area.
    pub area: Area,
    /// Force at the nominal start.
    pub at_start: Force,
    /// Force at the differential that sets it fully.
    pub at_full_set: Force,
    /// Force at the highest pressure of setting and test.
    pub at_highest: Force,
}

/// Thrust of a stage's pressure on its packer.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PackerThrust {
    /// Packer, counted as its stage.
    pub stage: usize,
    /// Differential it must hold, with its factor.
    pub differential: Pressure,
    /// Worst hole over the element.
    pub hole: Diameter,
    /// Thrust along the hole.
    pub thrust: Force,
    /// Mean contact stress with which wall friction alone would carry it.
    pub contact_stress: Pressure,
}

/// The activation fluid (fluid-activated).
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct ActivationPlan {
    /// Fluid.
    pub fluid: String,
    /// Density.
    pub density: Density,
    /// Annulus of the open hole from the shoe to the casing shoe, by the caliper.
    pub open_hole: Volume,
    /// Change of that annulus for two standard deviations of the caliper, all readings off alike.
    pub open_hole_doubt: Volume,
    /// Annulus between liner and casing up to the casing packer.
    pub overlap: Volume,
    /// Volume beyond the open-hole annulus.
    pub excess: Volume,
    /// Activation fluid to pump.
    pub volume: Volume,
    /// Depth its top reaches when it is in place.
    pub top: MeasuredDepth,
    /// Capacity of the string down to the toe tool: what displaces it.
    pub displacement: Volume,
    /// Both together.
    pub pumped: Volume,
    /// Rate.
    pub rate: FlowRate,
    /// Time to pump both.
    pub pump_time: Time,
    /// From the first of it at the shoe until all is in place.
    pub exposed_while_pumping: Time,
}

/// A fluid to have on location for setting and testing.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SettingFluid {
    /// Fluid.
    pub fluid: String,
    /// Density.
    pub density: Density,
    /// Volume it fills: the string down to the toe tool, or the annulus with its excess.
    pub fills: Volume,
    /// Volume pumped into the closed string over all steps of the pressure sheet; what comes back
    /// when it is bled off is not taken off.
    pub into_closed: Volume,
    /// Both together.
    pub volume: Volume,
    /// Tanks for it with the reserve.
    pub tanks: usize,
}

/// Setting the packers: windows, pressure sheet, forces, activation fluid, swell.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SettingPlan {
    /// Kind of system.
    pub system: SystemKind,
    /// Every device in the order it is to act; packers toe first.
    pub devices: Vec<DeviceWindow>,
    /// The pressure sheet, in job order.
    pub sheet: Vec<PressureStep>,
    /// Least room between the devices in their order, margin taken off.
    pub least_room: Option<Pressure>,
    /// Ceilings of the pressure in the string, the lowest first.
    pub limits: Vec<PressureLimit>,
    /// Highest pressure at the surface while circulating.
    pub circulating_limit: GaugePressure,
    /// Highest pressure at the surface while setting and testing.
    pub highest: GaugePressure,
    /// Capacity of the string down to the toe tool.
    pub string_volume: Volume,
    /// Compressibility of the fluid in the string with the walls of the string.
    pub compressibility: Compressibility,
    /// Highest rate at which the setting ball or the plug may land.
    pub landing_rate: Option<FlowRate>,
    /// The setting ball on its seat (hydraulic-set).
    pub setting_seat: Option<SettingSeat>,
    /// Force down the string at the closed toe, at the highest pressure of setting and test.
    pub end_load: Force,
    /// Forces of the setting pistons.
    pub pistons: Vec<PistonForce>,
    /// Highest pressure on the annulus that the casing allows.
    pub casing_ceiling: Option<PressureLimit>,
    /// Differential across the casing packer in the annulus test, annulus over below.
    pub casing_packer_differential: Pressure,
    /// Thrust on every packer, toe first.
    pub thrusts: Vec<PackerThrust>,
    /// The activation fluid (fluid-activated).
    pub activation: Option<ActivationPlan>,
    /// Every fluid to have on location for setting and testing.
    pub fluids: Vec<SettingFluid>,
    /// The swell of the packers (fluid-activated).
    pub swell: Option<SwellPlan>,
    /// What was taken beyond the job file, in words.
    pub assumptions: Vec<String>,
}

impl SettingPlan {
    /// The row of an action.
    pub fn row(&self, action: StepAction) -> Option<&PressureStep> {
        self.sheet.iter().find(|s| s.action == action)
    }

    /// The window of a device; of a packer by its stage.
    pub fn window(&self, device: DeviceKind, stage: Option<usize>) -> Option<&DeviceWindow> {
        self.devices.iter().find(|d| d.device == device && (stage.is_none() || d.stage == stage))
    }
}
