//! The swell of the packers as the rest of the plan and the reader see it.

use quantity::*;

use crate::Band;

/// The swell of one packer. Times count from the activation fluid in place.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SwellPacker {
    /// Packer, counted as its stage.
    pub stage: usize,
    /// Measured depth of the element's middle.
    pub depth: MeasuredDepth,
    /// Undisturbed temperature of the rock there.
    pub temperature: Temperature,
    /// Hole size as drawn for the samples: spread along the element with that of the caliper.
    pub hole: Band<Diameter>,
    /// Largest hole over the element with its depth uncertainty.
    pub worst_hole: Diameter,
    /// Free diameter the rating asks in the middle hole.
    pub wanted: Diameter,
    /// Time to contact; none where one sample in ten or more is never seen to touch.
    pub contact: Option<Band<Time>>,
    /// Time to the supplier's criterion of the rating; none where one sample in ten or more is
    /// never seen to reach it.
    pub rating: Option<Band<Time>>,
    /// Time to contact with every figure at its middle.
    pub contact_middle: Option<Time>,
    /// Time to the rating with every figure at its middle.
    pub rating_middle: Option<Time>,
    /// The same in the worst hole; none where no reading of the supplier reaches it.
    pub rating_in_worst_hole: Option<Time>,
    /// Share of the samples that reach the rating within the supplier's readings.
    pub reaches: Ratio,
    /// Share of the samples that have the rating at the planned wait.
    pub ready: Ratio,
    /// Free diameter at the planned wait.
    pub diameter_at_wait: Band<Diameter>,
    /// Share of the swelling until the rating that is made at temperatures further from the
    /// supplier's tests than is taken for granted.
    pub beyond_tests: Ratio,
}

/// Which packer a chart shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Showing {
    /// The first to have its rating.
    Best,
    /// The one in the middle.
    Median,
    /// The last.
    Worst,
}

/// A point of a swell chart.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SwellPoint {
    /// Time from the fluid in place.
    pub time: Time,
    /// Temperature of the packer then.
    pub temperature: Temperature,
    /// Diameter the element would have, free.
    pub diameter: Band<Diameter>,
}

/// The swell of one packer over time.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SwellChart {
    /// Which packer it shows.
    pub showing: Showing,
    /// Packer, counted as its stage.
    pub stage: usize,
    /// Hole.
    pub hole: Band<Diameter>,
    /// Free diameter the rating asks in the middle hole.
    pub wanted: Diameter,
    /// Points, by time.
    pub points: Vec<SwellPoint>,
}

/// The swell of all packers.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SwellPlan {
    /// Fluid.
    pub fluid: String,
    /// Samples of every packer.
    pub samples: usize,
    /// Seed of the samples.
    pub seed: u64,
    /// Temperature of every packer when the fluid is in place.
    pub start_temperature: Temperature,
    /// Time in which it rises evenly to that of the rock.
    pub warm_up: Time,
    /// Growth past contact, on the diameter, that the rating asks.
    pub interference: Diameter,
    /// Every packer, toe first.
    pub packers: Vec<SwellPacker>,
    /// Time at which all packers have their rating, sampled together: one lot of rubber, an element
    /// and a hole for each packer; none where it is never seen in one sample of ten or more.
    pub ready: Option<Band<Time>>,
    /// Earliest time for the first frac ball: when all packers have their rating in nine samples of
    /// ten (P90 of `ready`); none where they never have.
    pub earliest_frac: Option<Time>,
    /// When all packers have their rating in half of the samples.
    pub expected_frac: Option<Time>,
    /// Share of the samples in which all packers have their rating at the planned wait.
    pub ready_at_wait: Ratio,
    /// Share of the samples in which all packers reach it within the supplier's readings.
    pub all_reach: Ratio,
    /// The packer that is the last most often, counted as its stage.
    pub last_packer: Option<usize>,
    /// Share of the samples in which it is the last.
    pub last_share: Ratio,
    /// Planned wait before the first frac ball.
    pub planned_wait: Time,
    /// Shortest time to contact of any packer at the rock's temperature, in its smallest hole: what
    /// is left for running in where the hole already holds the fluid.
    pub first_touch: Option<Time>,
    /// The packer of that time, counted as its stage.
    pub first_touch_packer: Option<usize>,
    /// Charts of the first, the middle and the last packer to have its rating.
    pub charts: Vec<SwellChart>,
    /// What was taken beyond the job file, in words.
    pub assumptions: Vec<String>,
}

impl SwellPlan {
    /// The swell of a packer by its stage.
    pub fn packer(&self, stage: usize) -> Option<&SwellPacker> {
        self.packers.iter().find(|p| p.stage == stage)
    }
}
