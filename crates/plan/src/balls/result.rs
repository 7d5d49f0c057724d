//! The ball program as the reader sees it: one card a ball.

use quantity::*;

use crate::Band;

/// What the surface will see of a landing, without friction in the pipe.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Signature {
    /// Time from landing until the surface sees it.
    pub delay: Time,
    /// Step of pressure at the seat.
    pub step: Pressure,
    /// Round trips of the wave until the sleeve opens.
    pub round_trips: Ratio,
    /// Rise at the surface before it opens.
    pub rise: Pressure,
    /// Rise at the surface if the sleeve takes its time to shift.
    pub spike: Pressure,
    /// Time from landing to opening.
    pub lasts: Time,
    /// Mean slope of the staircase.
    pub slope: PressureRate,
}

/// One rate the crew may land at, judged.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct LandingOption {
    /// Rate.
    pub rate: FlowRate,
    /// Surface pressure just before landing.
    pub before: GaugePressure,
    /// Signature with the sleeve at its nominal value.
    pub signature: Signature,
    /// Highest surface pressure with the sleeve at the top of its range.
    pub highest: GaugePressure,
    /// What is left below the trip then.
    pub below_trip: Pressure,
    /// Highest surface pressure if the sleeve takes its time to shift: a spike as long as that.
    pub highest_spike: GaugePressure,
    /// Pressure difference on the ball at the moment of landing.
    pub impact: Pressure,
    /// That difference over the ball's rating.
    pub impact_share: Ratio,
    /// Whether the first step, counted on both sides of the ball, may open the sleeve by itself.
    pub opens_on_contact: bool,
    /// Whether the recorder will show it: not where the sleeve may open on contact.
    pub visible: bool,
    /// Whether treating limit, trip, impact and, for the spike, the relief setting are kept.
    pub allowed: bool,
}

/// One ball: where it goes, when it leaves, when it lands, what will be seen.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct BallCard {
    /// Stage it opens.
    pub stage: usize,
    /// Stage during which it is launched; 0 before the first stage.
    pub launched_during: usize,
    /// Ball.
    pub ball: Diameter,
    /// Tolerance of the ball.
    pub ball_tolerance: Diameter,
    /// Material.
    pub material: String,
    /// Seat.
    pub seat: Diameter,
    /// Tolerance of the seat.
    pub seat_tolerance: Diameter,
    /// Measured depth of the seat.
    pub seat_depth: MeasuredDepth,
    /// Volume from launcher to seat.
    pub swept: Volume,
    /// Pumped over swept volume of the ball's motion.
    pub carrying: Ratio,
    /// Volume pumped from launch to landing.
    pub landing: Band<Volume>,
    /// One standard deviation of it.
    pub sigma: Volume,
    /// Look for the landing from this volume.
    pub window_opens: Volume,
    /// Past this volume it is late.
    pub window_closes: Volume,
    /// Past this volume it counts as missing.
    pub missing_at: Volume,
    /// Volume between this seat and the one toe-ward.
    pub spacing: Option<Volume>,
    /// Spacing over the standard deviation: volume cannot tell the two seats apart below three.
    pub spacing_sigmas: Option<Ratio>,
    /// Clean fluid behind the last proppant when the ball leaves.
    pub spacer_ahead: Volume,
    /// Meter reading of the stage (slurry) at which it is launched.
    pub launch_at: Volume,
    /// Pumped since launch when the rate is cut.
    pub rate_cut_at: Volume,
    /// Rate before the cut.
    pub rate_before: FlowRate,
    /// Rate it lands at.
    pub landing_rate: FlowRate,
    /// Time from launch to landing.
    pub transit: Time,
    /// Time the cut costs.
    pub slow_time: Time,
    /// Clean fluid that goes into the finished stage behind its last proppant.
    pub over_displacement: Volume,
    /// The rate chosen, judged.
    pub chosen: LandingOption,
    /// All rates the crew may land at, judged.
    pub options: Vec<LandingOption>,
    /// Shear of the sleeve.
    pub shear: crate::device::DeviceRange,
}

/// The whole ball program.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct BallPlan {
    /// Cards in the order of launching.
    pub cards: Vec<BallCard>,
    /// Time the slow landings cost in all.
    pub slow_time: Time,
    /// Time of the whole job: stages, landings, spacers, last flush.
    pub job_time: Time,
    /// Clean fluid ahead of the balls beyond the spacers of the job file, in all.
    pub spacers_lengthened: Volume,
    /// Clean fluid over-displaced into finished stages in all.
    pub over_displacement: Volume,
}
