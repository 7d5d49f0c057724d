//! The ladder as the rest of the plan and the reader see it.

use quantity::*;
use well::job::LadderMethod;

/// What a ball rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Rest {
    /// The cone above the bore.
    Cone,
    /// The edge between cone and bore.
    BoreEdge,
}

/// What a rating was made of.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RatingBasis {
    /// A tested rating of the supplier: the same ball and seat, or a harder case of them; or one
    /// with more interference, where that allows less than the strength does.
    Tested {
        /// Ball of the test.
        ball: Diameter,
        /// Seat of the test.
        seat: Diameter,
        /// Temperature of the test.
        temperature: Temperature,
        /// Differential it held.
        pressure: Pressure,
    },
    /// Computed: bearing on the ring between seat and ball.
    Bearing {
        /// Bearing strength at the temperature, after all factors.
        allowable: Pressure,
    },
    /// Computed: shear of the cap over the bore, where that is less than the bearing allows.
    Shear {
        /// Shear strength at the temperature, after all factors.
        allowable: Pressure,
    },
}

/// A ball through one seat above its own.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Passage {
    /// Stage of the seat.
    pub stage: usize,
    /// Seat as drawn.
    pub seat: Diameter,
    /// Clearance as drawn, on the diameter.
    pub nominal: Diameter,
    /// Clearance at the worst of the tolerances, seat unworn.
    pub least: Diameter,
    /// Clearance at the best of the tolerances, seat worn by the stages below.
    pub greatest: Diameter,
}

/// What a dissolving ball loses.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct BallLife {
    /// Recession per side at the temperature of the undisturbed rock.
    pub recession: RecessionRate,
    /// Time from launch to landing.
    pub transit: Time,
    /// Time from landing until the next ball has landed.
    pub stage_time: Time,
    /// Diameter lost at landing.
    pub lost_at_landing: Diameter,
    /// Diameter lost when the next ball has landed.
    pub lost_at_end: Diameter,
    /// Earliest time from launch at which the overlap is used up and the ball passes its seat.
    pub passes_after: Time,
}

/// One rung: a ball, its seat, and what they can take.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct RungPlan {
    /// Stage it opens, 1 at the toe.
    pub stage: usize,
    /// Ball as drawn.
    pub ball: Diameter,
    /// Seat as drawn.
    pub seat: Diameter,
    /// Ball over its own seat as drawn, on the diameter.
    pub interference: Diameter,
    /// The same at the worst of tolerances, wear and dissolving, until the end of its stage.
    pub least_interference: Diameter,
    /// The same at the greatest the tolerances allow, unworn.
    pub greatest_interference: Diameter,
    /// Least clearance through any seat above, at the worst of the tolerances; none for the ball
    /// nearest the heel.
    pub clearance: Option<Diameter>,
    /// Clearance through every seat above, toe-ward first.
    pub passages: Vec<Passage>,
    /// Growth of its seat by the proppant of the stages below, before it lands.
    pub seat_growth: Diameter,
    /// Diameter it has lost when its stage ends.
    pub ball_loss: Diameter,
    /// What it rests on.
    pub rest: Rest,
    /// Circle of contact, which seals.
    pub contact_circle: Diameter,
    /// Temperature the strength is taken at: the undisturbed rock at the sleeve, or the coldest
    /// row of the strength table where the rock is colder.
    pub temperature: Temperature,
    /// Differential it holds, before the safety factor, worn and at its worst.
    pub rating: Pressure,
    /// What the rating was made of.
    pub rating_basis: RatingBasis,
    /// The same at the temperature of the pumped fluid, which is the coolest it can be; none where
    /// the supplier's figures do not say.
    pub rating_when_cooled: Option<Pressure>,
    /// Treating pressure at its sleeve, gauge.
    pub treating_pressure: GaugePressure,
    /// Pressure below it, gauge.
    pub pressure_below: GaugePressure,
    /// Static pressure at its sleeve with the surface at its limit over the heaviest slurry, gauge.
    pub worst_pressure: GaugePressure,
    /// Differential it is expected to hold.
    pub expected_differential: Pressure,
    /// Differential of the worst static case.
    pub worst_differential: Pressure,
    /// Expected differential with the safety factor, over the rating.
    pub utilisation: Ratio,
    /// Worst static differential with the safety factor, over the rating.
    pub worst_utilisation: Ratio,
    /// Axial force on the seat at the expected differential.
    pub force_at_expected: Force,
    /// Projected bearing stress at the expected differential, worn and at its worst.
    pub bearing_at_expected: Pressure,
    /// Mean shear of the cap at the expected differential, worn and at its worst.
    pub shear_at_expected: Pressure,
    /// Loss of its own seat per rate squared, for the stages below it.
    pub seat_loss: RateSquaredLoss,
    /// Loss of all seats above it per rate squared: what the ladder costs its stage.
    pub loss_above: RateSquaredLoss,
    /// What it loses, if it dissolves.
    pub life: Option<BallLife>,
}

/// The ball that sets the packers (hydraulic-set only).
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SettingBall {
    /// Ball.
    pub ball: Diameter,
    /// Seat of the isolation tool.
    pub seat: Diameter,
    /// Interference at the worst of the tolerances.
    pub least_interference: Diameter,
    /// Least clearance through any seat of the ladder, at the worst of the tolerances.
    pub clearance: Option<Diameter>,
}

/// What a bore belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum BorePart {
    /// The launcher.
    Launcher,
    /// A string between launcher and liner: its drift.
    Treating,
    /// The casing packer.
    CasingPacker,
    /// The liner: its drift.
    Liner,
    /// The open-hole packers.
    Packer,
    /// The sleeves, beside their seats.
    Sleeve,
    /// A seat.
    Seat,
}

/// One bore on the way down and the largest ball that must pass it.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct BoreClearance {
    /// What it belongs to.
    pub part: BorePart,
    /// Its name.
    pub name: String,
    /// Upper end, or where the seat is; none for the launcher.
    pub depth: Option<MeasuredDepth>,
    /// Bore or drift.
    pub bore: Diameter,
    /// Largest ball that must pass; none where no ball passes.
    pub ball: Option<Diameter>,
    /// Clearance of that ball at the worst of the tolerances.
    pub clearance: Option<Diameter>,
    /// Least clearance wanted.
    pub wanted: Diameter,
    /// Whether it passes: a bore with the clearance wanted at the worst, a seat with the clearance
    /// wanted as drawn and something left at the worst.
    pub passes: bool,
}

/// A ball to have on location.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct LedgerBall {
    /// Place in the order of launching, from 1.
    pub order: usize,
    /// Stage it opens; none for the setting ball.
    pub stage: Option<usize>,
    /// Diameter as drawn.
    pub diameter: Diameter,
    /// Smallest diameter to accept.
    pub smallest: Diameter,
    /// Largest diameter to accept.
    pub largest: Diameter,
    /// Mass as drawn.
    pub mass: Mass,
}

/// The whole ladder.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct LadderPlan {
    /// How the sizes were chosen.
    pub method: LadderMethod,
    /// The setting ball, of a hydraulic-set system.
    pub setting_ball: Option<SettingBall>,
    /// All balls.
    pub balls: usize,
    /// Balls that open stages.
    pub frac_balls: usize,
    /// Rungs, toe first.
    pub rungs: Vec<RungPlan>,
    /// How many stages the sizes and limits allow.
    pub stages_that_fit: usize,
    /// Which limits bind, in words.
    pub bound_by: String,
    /// Every bore from the launcher down, with the largest ball that must pass it.
    pub bores: Vec<BoreClearance>,
    /// Density the losses are for: the fluid of the largest clean volume, without proppant.
    pub clean_density: Density,
    /// Loss per rate squared of all seats above stage 1: what the ladder costs the toe.
    pub toe_loss: RateSquaredLoss,
    /// Balls on offer that are not used.
    pub left_out: Vec<Diameter>,
    /// The balls to have on location, in the order of launching.
    pub ledger: Vec<LedgerBall>,
    /// What was taken beyond the job file, in words.
    pub assumptions: Vec<String>,
}

impl LadderPlan {
    /// The rung that opens a stage; none for a stage that pressure opens.
    pub fn rung(&self, stage: usize) -> Option<&RungPlan> {
        self.rungs.iter().find(|r| r.stage == stage)
    }

    /// The seat of a stage.
    pub fn seat(&self, stage: usize) -> Option<Diameter> {
        self.rung(stage).map(|r| r.seat)
    }

    /// The ball of a stage.
    pub fn ball(&self, stage: usize) -> Option<Diameter> {
        self.rung(stage).map(|r| r.ball)
    }

    /// The seats that flow to a stage passes, each with its stage, toe-ward first. The stage's own
    /// seat is not among them.
    pub fn seats_above(&self, stage: usize) -> Vec<(usize, Diameter)> {
        self.rungs.iter().filter(|r| r.stage > stage).map(|r| (r.stage, r.seat)).collect()
    }

    /// Loss per rate squared of the seats that flow to a stage passes, with clean fluid.
    pub fn loss_to(&self, stage: usize) -> RateSquaredLoss {
        self.rungs.iter().filter(|r| r.stage > stage).map(|r| r.seat_loss).sum()
    }
}
