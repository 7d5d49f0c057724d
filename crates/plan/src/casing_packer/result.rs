//! The casing packer as the rest of the plan and the reader see it.

use quantity::*;

use crate::strings::LoadCase;

/// Weight of the completion below the casing packer.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct HungLoad {
    /// Mass in air of everything below it.
    pub mass: Mass,
    /// Buoyed weight of all of it, as if it hung straight down.
    pub buoyed: Force,
    /// Part of the buoyed weight that pulls along the hole with no friction: each part times the
    /// cosine of the inclination. This is the load the cases take.
    pub along_hole: Force,
    /// The same after lowering: friction carries a share; below zero the liner pushes up until it
    /// has slid.
    pub lowered: Force,
    /// The same after picking up: friction adds to it.
    pub picked_up: Force,
    /// Friction factor of the last two.
    pub friction: Ratio,
}

/// Which way a case bounds the load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Bound {
    /// Everything that may pull down, nothing that helps against it.
    Down,
    /// Everything that may push up, nothing that helps against it.
    Up,
}

/// Which way the load of a case acts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Direction {
    /// It pulls the packer down.
    Down,
    /// It pushes the packer up.
    Up,
}

/// What stands in the annulus just below the casing packer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Below {
    /// The setting fluid, as when it was set.
    Annulus,
    /// Formation or trapped pressure: the first open-hole packer holds.
    Formation,
    /// The pressure inside the liner: it has come past the first open-hole packer.
    Bore,
}

/// Parts of the load of a case, down positive.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, schemars::JsonSchema)]
pub struct LoadParts {
    /// Buoyed weight hung along the hole.
    pub hung: Force,
    /// End load of the closed toe under setting or test pressure.
    pub end_load: Force,
    /// Stretch locked in because the open-hole packers set under pressure.
    pub locked_in: Force,
    /// Ballooning of the liner between casing packer and first open-hole packer.
    pub ballooning: Force,
    /// Temperature of that piece of liner.
    pub thermal: Force,
    /// Pull or push of the treating string above.
    pub string_above: Force,
    /// Pressure on the change of bore and diameter at the packer.
    pub pressure_area: Force,
}

/// One case.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PackerCase {
    /// Case.
    pub case: LoadCase,
    /// Which way it bounds the load.
    pub bound: Bound,
    /// What stands below.
    pub below_is: Below,
    /// Pressure in the annulus just below.
    pub below: GaugePressure,
    /// Pressure in the annulus just above.
    pub above: GaugePressure,
    /// Below less above.
    pub differential: Pressure,
    /// Load on the packer, down positive.
    pub load: Force,
    /// Which way it acts.
    pub direction: Direction,
    /// Its parts.
    pub parts: LoadParts,
    /// Load the envelope allows in that direction at that differential; none beyond the envelope.
    pub load_limit: Option<Force>,
    /// How far along the straight line from no load to the envelope's edge the case lies; 1 is
    /// on the edge. None where the envelope has no answer.
    pub utilisation: Option<Ratio>,
}

/// A corner of the envelope.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct EnvelopeCorner {
    /// Differential, either direction.
    pub differential: Pressure,
    /// Load, down positive.
    pub load: Force,
}

/// The casing packer.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct CasingPackerPlan {
    /// Measured depth of its top as it lands.
    pub top: MeasuredDepth,
    /// Vertical depth of its top.
    pub tvd: TrueVerticalDepth,
    /// Undisturbed temperature of the rock at its lower end.
    pub temperature: Temperature,
    /// Highest temperature it is rated for.
    pub max_temperature: Temperature,
    /// Its outer diameter.
    pub od: Diameter,
    /// Least drift of the casing it passes; none where the job has no casing there.
    pub casing_drift: Option<Diameter>,
    /// Drift less outer diameter.
    pub clearance: Option<Diameter>,
    /// Weight below it.
    pub hung: HungLoad,
    /// Every case, in the order of the job.
    pub cases: Vec<PackerCase>,
    /// Position in `cases` of the one with the highest utilisation.
    pub governing: Option<usize>,
    /// Corners of the rated envelope, round from no differential at the greatest push up.
    pub envelope: Vec<EnvelopeCorner>,
    /// What the cases take for granted beyond the job file.
    pub assumptions: Vec<String>,
}

impl CasingPackerPlan {
    /// The case with the highest utilisation.
    pub fn governing(&self) -> Option<&PackerCase> {
        self.governing.and_then(|i| self.cases.get(i))
    }
}

impl LoadParts {
    /// The sum.
    pub fn total(&self) -> Force {
        self.hung
            + self.end_load
            + self.locked_in
            + self.ballooning
            + self.thermal
            + self.string_above
            + self.pressure_area
    }
}

impl Direction {
    /// Of a load, down positive.
    pub fn of(load: Force) -> Self {
        if load < Force::ZERO { Self::Up } else { Self::Down }
    }

    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Down => "down",
            Self::Up => "up",
        }
    }
}
