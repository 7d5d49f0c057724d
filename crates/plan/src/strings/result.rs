//! Strings as the rest of the plan and the reader see them: sizes, ratings, load cases.

use quantity::*;
use well::job::StringRole;

/// A rating and where it comes from.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Rating<Q> {
    /// The rating.
    pub value: Q,
    /// The relation that computed it with its source, or the source that states it.
    pub origin: String,
}

/// Ratings of a string. What the supplier has not stated and no relation computes is absent.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StringRatings {
    /// Yield strength at the highest temperature.
    pub yield_strength: Pressure,
    /// Collapse without axial load and inside pressure.
    pub collapse: Rating<Pressure>,
    /// Internal yield pressure of the body.
    pub internal_yield: Rating<Pressure>,
    /// Internal pressure rating of the connection.
    pub connection_internal: Option<Rating<Pressure>>,
    /// Tension at yield of the body.
    pub body_yield: Rating<Force>,
    /// Strength of the connection in tension.
    pub joint_strength: Option<Rating<Force>>,
    /// Rating of the connection in compression.
    pub joint_compression: Option<Rating<Force>>,
}

/// A case of load, in the order of the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LoadCase {
    /// Run in, hanging in the setting fluids.
    RunIn,
    /// The pressure that sets the packers fully, the toe closed.
    Setting,
    /// The pressure test after setting, the toe closed.
    Test,
    /// Pumping at the treating pressure limit, the pipe cold.
    Treating,
    /// The flow stopped by sand at the treating pressure limit, the heaviest slurry in a cold pipe.
    Screenout,
    /// The same at the pump trip, with the annulus pressure lost: the accidental bound. Above the
    /// widest seat it is a landed ball whose sleeve stays shut, with clean fluid behind it.
    Trip,
    /// Flowing back hot with the bore empty and the annulus at its own limit.
    Flowback,
    /// Shut in with the pore pressure of the toe and a column without weight.
    ShutIn,
}

/// A place in a string where loads are looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LoadPoint {
    /// Upper end.
    Top,
    /// At the casing packer.
    CasingPacker,
    /// Above the seat of the last stage, which is the widest, in the sharpest bend of all stages.
    WidestSeat,
    /// Below that seat, in the same stage: the ball holds the pressure off the bore, not off the annulus.
    BelowSeat,
    /// Where bend and force together stress the body most, found course by course of the survey.
    WorstBend,
    /// Lower end.
    Bottom,
}

/// One case at one place.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct LoadRow {
    /// Case.
    pub case: LoadCase,
    /// Place.
    pub point: LoadPoint,
    /// Measured depth.
    pub depth: MeasuredDepth,
    /// Pressure inside.
    pub inside: GaugePressure,
    /// Pressure outside.
    pub outside: GaugePressure,
    /// True axial force, tension positive.
    pub axial: Force,
    /// Part of it that hangs or floats there, pressures of the case included where the string is free.
    pub hanging: Force,
    /// Part of it from ballooning with both ends held.
    pub ballooning: Force,
    /// Part of it from temperature with both ends held.
    pub thermal: Force,
    /// Part of it from the ball on the widest seat.
    pub seat: Force,
    /// Bend of the pipe there.
    pub bend: Curvature,
    /// Greatest equivalent stress with bending.
    pub von_mises: Pressure,
    /// Safety factor on internal yield; none where the outside is the higher.
    pub burst: Option<Ratio>,
    /// Safety factor on collapse with axial load and inside pressure; none where the inside is the higher.
    pub collapse: Option<Ratio>,
    /// Safety factor on the lesser of body and connection, in tension or compression.
    pub tension: Option<Ratio>,
    /// Safety factor on the equivalent stress.
    pub triaxial: Option<Ratio>,
}

/// What a safety factor is taken of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Criterion {
    /// Internal yield.
    Burst,
    /// Collapse.
    Collapse,
    /// Tension and compression.
    Tension,
    /// Equivalent stress.
    Triaxial,
}

/// The case and place with the lowest safety factor of a criterion.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Governing {
    /// Criterion.
    pub criterion: Criterion,
    /// Case.
    pub case: LoadCase,
    /// Place.
    pub point: LoadPoint,
    /// Measured depth.
    pub depth: MeasuredDepth,
    /// Lowest safety factor.
    pub factor: Ratio,
    /// Factor the job asks for.
    pub required: Ratio,
}

/// One string.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StringPlan {
    /// Name in the job file.
    pub name: String,
    /// Size, weight and grade.
    pub pipe: String,
    /// What it is for.
    pub role: StringRole,
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// Length.
    pub length: Length,
    /// Outer diameter.
    pub od: Diameter,
    /// Inner diameter.
    pub id: Diameter,
    /// Drift.
    pub drift: Diameter,
    /// Largest outer diameter that is stated, connections included.
    pub largest_od: Diameter,
    /// Weight in air with connections.
    pub weight: MassPerLength,
    /// Grade.
    pub grade: String,
    /// Connection in words.
    pub connection: String,
    /// Volume inside per length.
    pub capacity: Capacity,
    /// Volume the steel displaces per length, connections left out.
    pub steel_displacement: Capacity,
    /// Volume the closed string displaces per length, connections left out.
    pub closed_displacement: Capacity,
    /// Volume inside over its length.
    pub volume: Volume,
    /// Buoyed weight per length in the setting fluids.
    pub buoyed_weight: ForcePerLength,
    /// Buoyed weight hung at its top when run in, with what is below it, no friction.
    pub hung: Force,
    /// Sharpest bend over its length.
    pub sharpest_bend: Curvature,
    /// Ratings.
    pub ratings: StringRatings,
    /// Every case at every place.
    pub loads: Vec<LoadRow>,
    /// The lowest safety factor of each criterion that is loaded.
    pub governing: Vec<Governing>,
    /// Whether the connection, not the body, sets the rating in tension or internal pressure.
    pub connection_governs: bool,
}

/// All strings.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StringsPlan {
    /// Strings, in the order of the job file.
    pub strings: Vec<StringPlan>,
    /// Lowest internal yield of what the treatment is pumped through, connections where stated.
    pub lowest_internal_yield: Pressure,
    /// The string it belongs to.
    pub lowest_internal_yield_of: String,
    /// Highest treating pressure that keeps the burst factor on it, with nothing outside.
    pub highest_treating_pressure: GaugePressure,
    /// Relief setting as a share of the lowest internal yield.
    pub relief_share: Ratio,
    /// What the load cases take for granted beyond the job file.
    pub assumptions: Vec<Text>,
}

impl StringPlan {
    /// The lowest safety factor of a criterion.
    pub fn governing(&self, criterion: Criterion) -> Option<&Governing> {
        self.governing.iter().find(|g| g.criterion == criterion)
    }

    /// The loads of a case at a place.
    pub fn load(&self, case: LoadCase, point: LoadPoint) -> Option<&LoadRow> {
        self.loads.iter().find(|l| l.case == case && l.point == point)
    }
}

impl LoadCase {
    /// All cases, in the order of the job.
    pub const ALL: [Self; 8] = [
        Self::RunIn,
        Self::Setting,
        Self::Test,
        Self::Treating,
        Self::Screenout,
        Self::Trip,
        Self::Flowback,
        Self::ShutIn,
    ];

    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::RunIn => "run in",
            Self::Setting => "setting the packers",
            Self::Test => "pressure test after setting",
            Self::Treating => "treating at the limit, cold",
            Self::Screenout => "screenout at the limit, cold",
            Self::Trip => "at the pump trip, annulus pressure lost",
            Self::Flowback => "flowing back hot, bore empty",
            Self::ShutIn => "shut in",
        }
    }
}

impl LoadPoint {
    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::CasingPacker => "casing packer",
            Self::WidestSeat => "widest seat",
            Self::BelowSeat => "below the widest seat",
            Self::WorstBend => "worst bend",
            Self::Bottom => "bottom",
        }
    }
}

impl Criterion {
    /// All criteria.
    pub const ALL: [Self; 4] = [Self::Burst, Self::Collapse, Self::Tension, Self::Triaxial];

    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Burst => "internal yield",
            Self::Collapse => "collapse",
            Self::Tension => "tension or compression",
            Self::Triaxial => "combined stress",
        }
    }

    /// Safety factor of a row.
    pub fn of(self, row: &LoadRow) -> Option<Ratio> {
        match self {
            Self::Burst => row.burst,
            Self::Collapse => row.collapse,
            Self::Tension => row.tension,
            Self::Triaxial => row.triaxial,
        }
    }
}
