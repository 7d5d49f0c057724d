//! Fluids, proppants, the treatment, limits, equipment and the ball program.

use quantity::*;

use crate::record::{choice, record};

choice! {
    /// How a fluid flows.
    pub enum Rheology {
        /// One viscosity.
        Newtonian = "newtonian",
        /// A power law.
        PowerLaw = "power-law",
    }
}

record! {
    /// A fluid that is pumped.
    pub struct Fluid {
        /// Name.
        name: String [required],
        /// Density without proppant, at the surface.
        density: Density [required],
        /// How it flows.
        rheology: Rheology [required],
        /// Viscosity (newtonian).
        viscosity: Viscosity [optional],
        /// Flow index n (power-law).
        flow_index: Ratio [optional],
        /// Consistency K (power-law).
        consistency: Consistency [optional],
        /// Share of turbulent friction that the friction reducer takes away; never beyond the
        /// published asymptote.
        drag_reduction: Ratio [default "0"],
        /// Where these figures come from.
        source: String [required],
    }
}

record! {
    /// A proppant that is pumped.
    pub struct Proppant {
        /// Name.
        name: String [required],
        /// Density of a grain.
        grain_density: Density [required],
        /// Bulk density, for trucks and silos.
        bulk_density: Density [required],
        /// Mean diameter of a grain, for bridging in a fracture; it is not judged if absent.
        grain: Diameter [optional],
    }
}

record! {
    /// One step of a stage's schedule.
    pub struct Step {
        /// Name, such as "pad".
        name: String [required],
        /// Fluid.
        fluid: String [required],
        /// Clean volume.
        clean_volume: Volume [required],
        /// Proppant; none if absent.
        proppant: String [optional],
        /// Concentration at the start.
        from: Concentration [default "0 ppa"],
        /// Concentration at the end.
        to: Concentration [default "0 ppa"],
    }
}

record! {
    /// What differs for some stages.
    pub struct StageChange {
        /// First stage it holds for.
        from_stage: usize [required],
        /// Last stage it holds for.
        to_stage: usize [required],
        /// Rate wanted.
        rate: FlowRate [optional],
        /// Factor on all clean volumes.
        scale: Ratio [default "1"],
        /// Fracture gradient there.
        fracture_gradient: PressureGradient [optional],
        /// Why.
        reason: String [optional],
    }
}

record! {
    /// The treatment of a stage. The flush that brings the next ball down is added by the ball program.
    pub struct Treatment {
        /// Rate wanted; the program lowers it where the rate ceiling is lower.
        rate: FlowRate [required],
        /// Steps from pad to last proppant.
        step: Step [list],
        /// What differs for some stages.
        change: StageChange [list],
        /// Friction near the wellbore at the wanted rate; it goes with the square root of rate.
        near_wellbore: Pressure [required],
        /// Factor on friction of slurry beyond the program's own law.
        slurry_factor: Ratio [default "1"],
        /// Time to start up and break down each stage.
        breakdown_time: Time [default "2 min"],
    }
}

record! {
    /// Limits that nothing may exceed. They cannot be switched off.
    pub struct Limits {
        /// Highest treating pressure at the surface.
        treating_pressure: GaugePressure [required],
        /// Setting of the pump trips.
        trip: GaugePressure [required],
        /// Setting of the relief valve.
        relief: GaugePressure [required],
        /// Bore of the open relief valve, for the simulator.
        relief_bore: Diameter [assume "1.5 in" because "memory: a two-inch line narrows to about this in the valve"],
        /// Share of its setting at which the relief valve closes again, for the simulator.
        relief_reseat: Ratio [assume "0.9" because "memory: spring valves close at about nine tenths"],
        /// Rating of the wellhead and tree.
        wellhead: Pressure [required],
        /// Pressure held on the annulus while treating.
        annulus_pressure: GaugePressure [default "0 psi"],
        /// Highest pressure of that annulus.
        annulus_limit: GaugePressure [required],
        /// Highest rate of iron, meters and pumps.
        rate: FlowRate [required],
        /// Safety factor on internal yield.
        burst_factor: Ratio [required],
        /// Safety factor on collapse.
        collapse_factor: Ratio [required],
        /// Safety factor on tension.
        tension_factor: Ratio [required],
        /// Safety factor on combined stress.
        triaxial_factor: Ratio [required],
        /// Safety factor on the packers' differential.
        packer_factor: Ratio [default "1.1"],
        /// Where the limits come from.
        source: String [required],
    }
}

record! {
    /// What stands on location.
    pub struct Equipment {
        /// Hydraulic power of one pump as it will be run.
        pump_power: Power [required],
        /// Number of pumps, spares included.
        pumps: usize [required],
        /// Pumps kept as spares.
        spare_pumps: usize [default "1"],
        /// Mass of proppant a truck brings.
        truck_load: Mass [required],
        /// Truck loads of proppant ordered for the job; not judged if absent.
        truck_loads: usize [optional],
        /// Usable volume of one tank.
        tank_volume: Volume [required],
        /// Tanks of that volume on location; not judged if absent.
        tanks: usize [optional],
        /// Share of fluid kept beyond the need.
        fluid_reserve: Ratio [default "0.10"],
        /// Samples per second of the recorder.
        samples_per_second: Ratio [default "1"],
    }
}

record! {
    /// How balls are launched and landed.
    pub struct BallProgram {
        /// Clean fluid ahead of the ball, behind the last proppant.
        spacer_ahead: Volume [required],
        /// Clean fluid behind the ball before the next pad's proppant.
        spacer_behind: Volume [required],
        /// Rates the crew may land at.
        landing_rate: FlowRate [list],
        /// Volume before the earliest expected landing at which the rate is cut.
        cut_before: Volume [required],
        /// Pumped past the latest expected landing before the ball counts as missing.
        search_beyond: Volume [assume "30 bbl" because "memory: usual practice is 20 to 50 bbl"],
        /// Spread of the flow meter, one standard deviation as a share.
        meter_sigma: Ratio [required],
        /// Spread of the bore of pipe, one standard deviation as a share of the diameter.
        bore_sigma: Ratio [assume "0.0025" because "memory: mill tolerance of diameter and wall over many joints"],
        /// Spread of a ball's speed over the fluid's, one standard deviation as a share.
        carry_sigma: Ratio [assume "0.03" because "published spread of spheres carried in pipes, 4 to 8 % above the mean (Ellis 1964)"],
        /// Rolling resistance of a ball on the low side.
        rolling_resistance: Ratio [assume "0.05" because "memory: rolling 0.02 to 0.1, up to 0.3 in sand"],
        /// Factor on swept volume from earlier landings; 1 until there are any.
        job_factor: Ratio [default "1"],
        /// Least rise at the surface that counts as seen.
        visible_rise: Pressure [default "200 psi"],
        /// Least number of samples it must last.
        visible_samples: usize [default "3"],
        /// Kept free below the trip while landing.
        headroom: Pressure [required],
        /// Highest force of the pressure step on ball and seat that is taken, as a share of the ball's rating.
        impact_share: Ratio [default "0.8"],
    }
}
