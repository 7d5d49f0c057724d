//! The layout as a problem of plain numbers: lengths and measured depths in metres, depths
//! growing downwards, stages counted from the toe.

/// Hole size over a length, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Smallest.
    pub least: f64,
    /// One tenth of the length is smaller.
    pub p10: f64,
    /// Half of the length is smaller.
    pub p50: f64,
    /// Nine tenths of the length is smaller.
    pub p90: f64,
    /// Largest, over the length widened by the depth uncertainty.
    pub worst: f64,
}

/// What the layout asks of the ground.
pub trait Ground {
    /// Hole size between two depths, both widened by `widen` for the worst.
    fn size(&self, top: f64, bottom: f64, widen: f64) -> Size;
    /// Worst (largest) and least hole size between two depths; the fast form of [`Ground::size`].
    fn extremes(&self, top: f64, bottom: f64) -> (f64, f64);
    /// Sharpest bend between two depths, rad/m.
    fn sharpest_bend(&self, top: f64, bottom: f64) -> f64;
    /// Quality of the rock from 0 to 1 (0.5 where no log says).
    fn quality(&self, depth: f64) -> f64;
    /// Highest undisturbed temperature between two depths, K.
    fn hottest(&self, top: f64, bottom: f64) -> f64;
    /// Differential a packer holds in a hole of that size at that temperature, Pa; none where
    /// the supplier gives no rating.
    fn rating(&self, hole: f64, temperature: f64) -> Option<f64>;
    /// Differential the packer of a stage must hold at that depth with its factor, Pa.
    fn needed(&self, depth: f64, stage: usize) -> f64;
    /// One standard deviation of depth at that depth, m.
    fn depth_sigma(&self, depth: f64) -> f64;
}

/// A tool that is placed on a connection.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tool {
    /// Overall length.
    pub length: f64,
    /// Distance from the upper end to the top of the part that matters (element, ports).
    pub from_top: f64,
    /// Length of that part.
    pub part: f64,
    /// Sharpest bend it may stand in, rad/m.
    pub max_bend: f64,
}

/// Limits of hole and temperature for the packer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackerLimits {
    /// Largest hole.
    pub largest: f64,
    /// Smallest hole.
    pub smallest: f64,
    /// Nominal hole, where the penalty starts.
    pub nominal: f64,
    /// Highest temperature, K.
    pub hottest: f64,
    /// How many standard deviations of depth the hole size must hold over.
    pub sigmas: f64,
}

/// An interval where a tool may not stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Upper end.
    pub from: f64,
    /// Lower end.
    pub to: f64,
}

/// A tool fixed by the user.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fixed {
    /// Stage, 1 at the toe.
    pub stage: usize,
    /// Depth of the tool's middle.
    pub depth: f64,
    /// Allowed distance.
    pub within: f64,
}

/// Weights of the aims.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// Hole size over a packer.
    pub hole: f64,
    /// Bend at a packer.
    pub bend: f64,
    /// Stage length against target.
    pub spacing: f64,
    /// Place of the sleeve.
    pub sleeve: f64,
    /// Distance to exclusion zones.
    pub exclusion: f64,
    /// Rock quality at the sleeve.
    pub quality: f64,
}

/// The whole problem.
#[derive(Debug, Clone)]
pub struct Problem {
    /// Depth of the upper end of the toe assembly, where the first joint stands.
    pub toe_top: f64,
    /// Depth where stage 1 ends at the toe.
    pub toe_limit: f64,
    /// No packer element may stand above this depth.
    pub heel_limit: f64,
    /// Lengths of the joints in running order, toe first.
    pub joints: Vec<f64>,
    /// Lengths of the pups that may go below packers, in the order they are used.
    pub pups: Vec<f64>,
    /// Number of stages.
    pub stages: usize,
    /// Target length of a stage.
    pub target: f64,
    /// Shortest stage.
    pub shortest: f64,
    /// Longest stage.
    pub longest: f64,
    /// The packer.
    pub packer: Tool,
    /// Its limits.
    pub limits: PackerLimits,
    /// The sleeve of stage 1.
    pub first_sleeve: Tool,
    /// The sleeve of the other stages.
    pub sleeve: Tool,
    /// Where the ports stand between the packers, 0 at the toe side.
    pub place: f64,
    /// No packer here.
    pub packer_zones: Vec<Zone>,
    /// No sleeve here.
    pub sleeve_zones: Vec<Zone>,
    /// Reach of the penalty round a zone.
    pub zone_reach: f64,
    /// Fixed packers.
    pub fixed_packers: Vec<Fixed>,
    /// Fixed sleeves.
    pub fixed_sleeves: Vec<Fixed>,
    /// Weights.
    pub weights: Weights,
}

impl Problem {
    /// The sleeve of a stage, 1 at the toe.
    pub fn sleeve_of(&self, stage: usize) -> &Tool {
        if stage == 1 { &self.first_sleeve } else { &self.sleeve }
    }

    /// Length of the tools below the packer of `stage`: its own sleeve and all tools toe-ward.
    pub fn tools_below_packer(&self, stage: usize) -> f64 {
        self.tools_below_sleeve(stage) + self.sleeve_of(stage).length
    }

    /// Length of the tools below the sleeve of `stage`.
    pub fn tools_below_sleeve(&self, stage: usize) -> f64 {
        let before = stage.saturating_sub(1);
        if before == 0 {
            return 0.0;
        }
        self.first_sleeve.length
            + (before - 1) as f64 * self.sleeve.length
            + before as f64 * self.packer.length
    }
}
