//! Launcher, ladder and balls.

use quantity::*;

use crate::record::{choice, record};

record! {
    /// Where the balls start.
    pub struct Launcher {
        /// Smallest bore between the launcher and the treating string.
        bore: Diameter [required],
        /// Volume of surface lines from the meter to the launcher.
        line_volume: Volume [required],
        /// Volume from the launcher to the top of the treating string.
        tree_volume: Volume [default "0 bbl"],
        /// Where these figures come from.
        source: String [required],
    }
}

choice! {
    /// How ball and seat sizes are chosen.
    pub enum LadderMethod {
        /// The sizes listed in `rung`.
        Given = "given",
        /// A constant step.
        Step = "step",
        /// Balls of the list `fractions`.
        Fractions = "fractions",
        /// Interference in proportion to the ball, so that all stand the same stress.
        EqualStress = "equal-stress",
        /// The ladder that meets every limit with the least friction at the toe.
        Search = "search",
    }
}

record! {
    /// One ball and its seat.
    pub struct Rung {
        /// Ball.
        ball: Diameter [required],
        /// Seat.
        seat: Diameter [required],
    }
}

record! {
    /// The user's law of seat wear, calibrated on milled seats or friction tests.
    pub struct SeatErosion {
        /// Growth of the bore per mass of proppant at the reference rate and bore, per side.
        growth: Diameter [required],
        /// Mass of proppant of that growth.
        per_mass: Mass [required],
        /// Reference rate.
        reference_rate: FlowRate [required],
        /// Reference bore.
        reference_bore: Diameter [required],
        /// Where the calibration comes from.
        source: String [required],
    }
}

record! {
    /// How ball and seat sizes are chosen.
    pub struct Ladder {
        /// How.
        method: LadderMethod [required],
        /// Smallest ball.
        smallest_ball: Diameter [optional],
        /// Largest ball.
        largest_ball: Diameter [optional],
        /// Step of the balls (method "step").
        step: Diameter [optional],
        /// Balls on offer, smallest first (method "fractions").
        fractions: Diameter [list],
        /// Balls and seats (method "given"), smallest first.
        rung: Rung [list],
        /// Ball over its own seat, on the diameter (methods "step" and "fractions").
        interference: Diameter [optional],
        /// Least interference on the diameter that the search may take.
        least_interference: Diameter [assume "0.025 in" because "memory: finest ladders in use; the supplier's test decides"],
        /// Least clearance of a ball through a larger seat, on the diameter.
        clearance: Diameter [assume "0.020 in" because "memory: least passing clearance in use; the supplier's figure decides"],
        /// Balls are made to a multiple of this.
        increment: Diameter [assume "1/64 in" because "memory: usual rounding of ball sizes"],
        /// Manufacturing tolerance of a ball's diameter, either way.
        ball_tolerance: Diameter [required],
        /// Manufacturing tolerance of a seat's bore, either way.
        seat_tolerance: Diameter [required],
        /// Least clearance of the largest ball through a drift, on the diameter.
        drift_clearance: Diameter [assume "0.060 in" because "memory: usual passing clearance through pipe"],
        /// Wear of seats by proppant; off if absent.
        erosion: SeatErosion [optional],
        /// Where the sizes and tolerances come from.
        source: String [required],
    }
}

choice! {
    /// How the structure of a ball carries load.
    pub enum BallStructure {
        /// The same in all directions.
        Uniform = "uniform",
        /// A laminate: the weak plane decides, since the ball lands as it likes.
        Laminate = "laminate",
    }
}

record! {
    /// Strength of the ball's material at a temperature.
    pub struct StrengthRow {
        /// Temperature.
        temperature: Temperature [required],
        /// Bearing strength, in the strong plane of a laminate.
        bearing: Pressure [required],
        /// Shear strength.
        shear: Pressure [required],
    }
}

record! {
    /// A tested rating of ball on seat by the supplier.
    pub struct BallRating {
        /// Ball.
        ball: Diameter [required],
        /// Seat.
        seat: Diameter [required],
        /// Temperature.
        temperature: Temperature [required],
        /// Differential pressure held.
        pressure: Pressure [required],
    }
}

record! {
    /// How a ball dissolves.
    pub struct Dissolving {
        /// Recession of the surface, per side.
        recession: RecessionRate [required],
        /// Temperature of that figure.
        temperature: Temperature [required],
        /// Activation energy.
        activation_energy: MolarEnergy [required],
        /// Fluid of that figure.
        fluid: String [required],
        /// Where the figure comes from.
        source: String [required],
    }
}

record! {
    /// What the balls are made of.
    pub struct Ball {
        /// Material in plain words.
        material: String [required],
        /// Density.
        density: Density [required],
        /// Structure.
        structure: BallStructure [required],
        /// Strength of the weak plane over the strong one (laminates).
        weak_plane: Ratio [assume "0.5" because "published: laminated balls show a weak and a strong plane nearly 50 % apart (industry slide decks, 2013 and 2014)"],
        /// Factor on bearing strength for confinement by the seat; 1 takes none.
        confinement: Ratio [assume "1" because "memory: no credit without the supplier's test"],
        /// Strength by temperature.
        strength: StrengthRow [list],
        /// Tested ratings; they go before the computed ones.
        rating: BallRating [list],
        /// Dissolving; absent for balls that do not.
        dissolving: Dissolving [optional],
        /// Safety factor on ball and seat.
        safety_factor: Ratio [required],
        /// Where these figures come from.
        source: String [required],
    }
}
