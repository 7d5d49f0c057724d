//! Stage hydraulics, schedule and totals, as the reader sees them.

use quantity::*;

use super::ceiling::BoundBy;
use super::pressure::PressureParts;

/// One step of a stage's schedule.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StepPlan {
    /// Name.
    pub name: String,
    /// Fluid.
    pub fluid: String,
    /// Proppant, if any.
    pub proppant: Option<String>,
    /// Clean volume.
    pub clean: Volume,
    /// Slurry volume.
    pub slurry: Volume,
    /// Concentration at the start.
    pub from: Concentration,
    /// Concentration at the end.
    pub to: Concentration,
    /// Mass of proppant.
    pub mass: Mass,
    /// Time at the planned rate.
    pub time: Time,
    /// Slurry volume of the stage up to and with this step.
    pub cumulative: Volume,
    /// Surface pressure with the column full of this step's last mixture.
    pub pressure: GaugePressure,
}

/// One stage.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StagePlan {
    /// Number, 1 at the toe.
    pub stage: usize,
    /// Measured depth of the ports.
    pub ports: MeasuredDepth,
    /// Vertical depth of the ports.
    pub tvd: TrueVerticalDepth,
    /// Volume from the wellhead to the ports.
    pub volume_to_ports: Volume,
    /// Rate wanted.
    pub wanted_rate: FlowRate,
    /// Highest rate within the limits.
    pub rate_ceiling: FlowRate,
    /// What holds the ceiling.
    pub bound_by: BoundBy,
    /// Rate the program plans.
    pub planned_rate: FlowRate,
    /// Parts of the highest treating pressure at the planned rate.
    pub pressure: PressureParts,
    /// Mixture of that pressure, in words.
    pub worst_mixture: Text,
    /// Vertical depth of the front between the two mixtures; none where the string holds one.
    pub worst_front: Option<TrueVerticalDepth>,
    /// Surface pressure at the planned rate with clean fluid of the first step.
    pub clean_pressure: GaugePressure,
    /// Bottomhole treating pressure at the ports.
    pub bottomhole: GaugePressure,
    /// Instantaneous shut-in pressure expected at the surface with clean fluid.
    pub shut_in: GaugePressure,
    /// Hydraulic power at the planned rate.
    pub power: Power,
    /// Seats still to be passed.
    pub seats_passed: usize,
    /// Loss of those seats per rate squared, clean fluid.
    pub seat_coefficient: RateSquaredLoss,
    /// Steps.
    pub steps: Vec<StepPlan>,
    /// Clean volume.
    pub clean: Volume,
    /// Slurry volume.
    pub slurry: Volume,
    /// Mass of proppant.
    pub mass: Mass,
    /// Pumping time at the planned rate, start-up included.
    pub time: Time,
}

/// A total by name.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct FluidTotal {
    /// Fluid.
    pub name: String,
    /// Clean volume of all stages.
    pub volume: Volume,
}

/// A total by name.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct ProppantTotal {
    /// Proppant.
    pub name: String,
    /// Mass of all stages.
    pub mass: Mass,
    /// Bulk volume.
    pub bulk: Volume,
    /// Truck loads.
    pub trucks: usize,
}

/// Totals of the job.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct JobTotals {
    /// Fluids of the stages' steps.
    pub fluids: Vec<FluidTotal>,
    /// Spacers round the balls and the last flush.
    pub spacers_and_flush: Volume,
    /// Clean volume, spacers and flush included.
    pub clean: Volume,
    /// Slurry volume, spacers and flush included.
    pub slurry: Volume,
    /// Proppants.
    pub proppants: Vec<ProppantTotal>,
    /// Mass of proppant.
    pub mass: Mass,
    /// Pumping time of all stages at planned rates, landings not counted.
    pub pump_time: Time,
    /// Tanks for the clean volume with the reserve.
    pub tanks: usize,
    /// Highest hydraulic power.
    pub power: Power,
    /// Stage of that power.
    pub power_stage: usize,
    /// Hydraulic power on location, spares kept.
    pub power_on_location: Power,
    /// Pumps needed for the highest power, spares included.
    pub pumps_needed: usize,
}

/// All stages and the totals.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct StagesPlan {
    /// Stages, stage 1 first.
    pub stages: Vec<StagePlan>,
    /// Totals.
    pub totals: JobTotals,
    /// What the seats cost the toe stage at its planned rate.
    pub toe_seat_loss: Pressure,
    /// Rate the toe could take without seats, for comparison.
    pub toe_rate_without_seats: FlowRate,
}

impl StagesPlan {
    /// A stage by its number.
    pub fn stage(&self, number: usize) -> Option<&StagePlan> {
        number.checked_sub(1).and_then(|i| self.stages.get(i))
    }
}
