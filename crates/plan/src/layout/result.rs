//! The layout as the rest of the plan and the reader see it.

use quantity::*;

/// Hole size over a tool, from the caliper.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct HoleSize {
    /// Smallest over the element.
    pub least: Diameter,
    /// One tenth of the element's length is smaller.
    pub p10: Diameter,
    /// Half of the length is smaller.
    pub p50: Diameter,
    /// Nine tenths of the length is smaller.
    pub p90: Diameter,
    /// Largest over the element widened by the depth uncertainty.
    pub worst: Diameter,
}

/// A packer in its place.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PackerPlace {
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// Top of the element.
    pub element_top: MeasuredDepth,
    /// Bottom of the element.
    pub element_bottom: MeasuredDepth,
    /// Vertical depth of the element's middle.
    pub tvd: TrueVerticalDepth,
    /// One standard deviation of the depth.
    pub sigma: Length,
    /// Hole size.
    pub hole: HoleSize,
    /// Sharpest bend over the tool.
    pub dogleg: Curvature,
    /// Undisturbed temperature of the rock.
    pub temperature: Temperature,
    /// Rating in the worst hole at that temperature, if the supplier gives one.
    pub rating: Option<Pressure>,
    /// Differential it must hold, with its factor.
    pub needed: Pressure,
}

/// A sleeve in its place.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SleevePlace {
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// Middle of the ports; the seat is counted at the same depth.
    pub ports: MeasuredDepth,
    /// Vertical depth of the ports.
    pub tvd: TrueVerticalDepth,
    /// One standard deviation of the depth.
    pub sigma: Length,
    /// Hole size at the ports.
    pub hole: Diameter,
    /// Sharpest bend over the tool.
    pub dogleg: Curvature,
    /// Undisturbed temperature of the rock.
    pub temperature: Temperature,
    /// Rock quality, 0 to 1, where a log says.
    pub quality: Option<Ratio>,
    /// Whether a ball opens it (else pressure does).
    pub opened_by_ball: bool,
}

/// One stage: the interval between two packers, with its sleeve.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StagePlace {
    /// Number, 1 at the toe.
    pub stage: usize,
    /// Toe end: top of the element below, or the bottom of the hole for stage 1.
    pub toe_end: MeasuredDepth,
    /// Heel end: bottom of its own packer's element.
    pub heel_end: MeasuredDepth,
    /// Length between the ends.
    pub length: Length,
    /// Its sleeve.
    pub sleeve: SleevePlace,
    /// The packer at its heel side.
    pub packer: PackerPlace,
}

/// What a row of the tally is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ItemKind {
    /// Shoe and toe tool.
    Toe,
    /// A joint of the tally.
    Joint,
    /// A pup joint.
    Pup,
    /// A sleeve.
    Sleeve,
    /// An open-hole packer.
    Packer,
    /// The casing packer.
    CasingPacker,
}

/// One row of the running tally, toe to heel.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct TallyRow {
    /// Row number, 1 at the toe.
    pub row: usize,
    /// What it is.
    pub kind: ItemKind,
    /// Joint number, or the name of the tool with its stage.
    pub name: String,
    /// Serial number, if the tally has one.
    pub serial: String,
    /// Stage of a tool.
    pub stage: Option<usize>,
    /// Length.
    pub length: Length,
    /// Length from the shoe to the upper end.
    pub cumulative: Length,
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// One standard deviation of the depth.
    pub sigma: Length,
    /// Mass in air up to and with this row.
    pub mass: Mass,
    /// Volume inside, up to and with this row.
    pub inside: Volume,
    /// Volume of steel, up to and with this row.
    pub steel: Volume,
    /// Volume between string and hole, up to and with this row.
    pub annulus: Volume,
}

/// What became of the joints on the rack.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Reconciliation {
    /// Joints measured on the rack.
    pub on_rack: usize,
    /// Joints in the hole.
    pub in_hole: usize,
    /// Joints left on the rack.
    pub left: usize,
    /// Length measured on the rack.
    pub length_on_rack: Length,
    /// Length in the hole.
    pub length_in_hole: Length,
    /// Length left on the rack.
    pub length_left: Length,
    /// Pups on location.
    pub pups: usize,
    /// Pups in the hole.
    pub pups_in_hole: usize,
    /// Length of tools in the hole.
    pub length_of_tools: Length,
    /// Shoe depth less casing packer depth less everything in between; zero when it closes.
    pub closure: Length,
}

/// The whole layout.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Layout {
    /// Target length of a stage.
    pub target: Length,
    /// Stages, stage 1 first.
    pub stages: Vec<StagePlace>,
    /// Depth of the shoe.
    pub shoe: MeasuredDepth,
    /// Depth of the seat of the toe tool.
    pub toe_tool: MeasuredDepth,
    /// Top of the casing packer as it lands.
    pub casing_packer_top: MeasuredDepth,
    /// Its planned depth.
    pub casing_packer_planned: MeasuredDepth,
    /// Running tally, toe to heel.
    pub tally: Vec<TallyRow>,
    /// What became of the joints.
    pub reconciliation: Reconciliation,
    /// Sum of penalties of the search; lower is better.
    pub penalty: Ratio,
}

impl Layout {
    /// A stage by its number.
    pub fn stage(&self, number: usize) -> Option<&StagePlace> {
        number.checked_sub(1).and_then(|i| self.stages.get(i))
    }
}
