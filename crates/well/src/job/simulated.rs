//! What only the simulator needs: how the rock opens and takes fluid, and how the crew acts.

use quantity::*;

use crate::record::{choice, record};

choice! {
    /// Form of a fracture.
    pub enum FractureForm {
        /// Long, of one height, each cross-section an ellipse (Perkins, Kern and Nordgren).
        Pkn = "pkn",
        /// Short, of one height, alike over it (Khristianovic, Geertsma and de Klerk).
        Kgd = "kgd",
        /// A growing circle.
        Radial = "radial",
    }
}

choice! {
    /// Where a fracture starts from the hole.
    pub enum Initiation {
        /// Across the hole.
        Transverse = "transverse",
        /// Along the hole: it may grow past a packer into the stage before.
        Axial = "axial",
    }
}

record! {
    /// How the rock opens and takes fluid. One fracture a stage.
    pub struct FractureTable {
        /// Form.
        form: FractureForm [required],
        /// Height; for every form but "radial".
        height: Length [optional],
        /// Where it starts.
        initiation: Initiation [default "transverse"],
        /// Closure stress over true vertical depth; where a stage has its own fracture gradient, this
        /// moves with it.
        closure_gradient: PressureGradient [required],
        /// Young's modulus.
        youngs_modulus: Pressure [required],
        /// Poisson's ratio.
        poisson: Ratio [required],
        /// Fracture toughness.
        toughness: Toughness [default "0 MPa.m0.5"],
        /// Leak-off coefficient.
        leakoff: Leakoff [required],
        /// Spurt loss.
        spurt: Spurt [default "0 L/m2"],
        /// Pressure above the fracture's own at which the rock of a stage first breaks down.
        breakdown: Pressure [default "0 psi"],
        /// Time in which that peak falls to a third once fluid goes in.
        breakdown_decay: Time [assume "10 s" because "memory: breakdowns fall off in seconds to half a minute"],
        /// Width over grain diameter below which grains bridge in the fracture.
        bridging: Ratio [assume "2.5" because "memory: bridging is put at 2 to 3 grain diameters; 2.5 is the middle"],
        /// Solid share at which slurry no longer flows.
        packed: Ratio [assume "0.6" because "memory: loosely packed round grains"],
        /// Where these figures come from.
        source: String [required],
    }
}

record! {
    /// How the crew acts, in the simulator.
    pub struct CrewTable {
        /// Time from a standstill to the highest rate of the job.
        ramp: Time [assume "60 s" because "memory: time from a standstill to the highest rate"],
        /// From the moment the surface sees a landing until the crew acts on it.
        reaction: Time [assume "15 s" because "memory: time from a landing at the surface until the crew acts"],
        /// How long the recorder runs on after the pumps have stopped.
        shut_in: Time [assume "10 min" because "practice: the pressure is watched a while after the pumps stop"],
        /// Rate at which a closed string is pressed to open its first sleeve.
        pressing: FlowRate [assume "1 bbl/min" because "memory: rate at which a closed string is pressed to open its first sleeve"],
        /// Time in which a trip or a stop brings the pumps to a standstill.
        trip_time: Time [assume "3 s" because "memory: time in which a trip stops the pumps"],
        /// Wait after a trip before the job goes on, where it may.
        restart: Time [assume "5 min" because "memory: time to find why the pumps tripped and reset them"],
    }
}
