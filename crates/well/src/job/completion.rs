//! The system, its sleeves, the toe, the casing packer, and how the layout is judged.

use quantity::*;

use super::packer::{Device, Envelope};
use crate::record::{choice, record};

choice! {
    /// How the open-hole packers are set.
    pub enum SystemKind {
        /// Packers that swell in a fluid: N stages, N balls.
        FluidActivated = "fluid-activated",
        /// Packers set by pressure: one setting ball and N - 1 frac balls.
        HydraulicSet = "hydraulic-set",
    }
}

record! {
    /// The kind of system and the stages wanted.
    pub struct System {
        /// How the packers are set.
        kind: SystemKind [required],
        /// How many stages; or give `spacing`.
        stages: usize [optional],
        /// Target length of a stage, packer to packer; or give `stages`.
        spacing: Length [optional],
        /// Heel end of the interval to be treated.
        heel_limit: MeasuredDepth [required],
        /// Toe end of the interval to be treated; the shoe if absent.
        toe_limit: MeasuredDepth [optional],
        /// Hole left below the shoe.
        rathole: Length [required],
    }
}

record! {
    /// The ball-activated sleeve. Depth, seat and ball are the layout's and the ladder's.
    pub struct Sleeve {
        /// Largest outer diameter.
        od: Diameter [required],
        /// Overall length.
        length: Length [required],
        /// Distance from the upper end to the middle of the ports.
        ports_from_top: Length [required],
        /// Inner diameter beside the seat.
        id: Diameter [required],
        /// Mass.
        mass: Mass [required],
        /// Number of ports.
        ports: usize [required],
        /// Diameter of a port, or of the circle of the same area.
        port_diameter: Diameter [required],
        /// Discharge coefficient of the ports.
        port_coefficient: Ratio [assume "0.85" because "memory: rounded or slightly worn holes"],
        /// What shears to let it open.
        shear: Device [required],
        /// Length of the seat's bore.
        seat_length: Length [required],
        /// Shape of the seat's inlet, for the loss of pressure through it.
        seat_inlet: SeatInlet [required],
        /// Half angle of the seat's cone from the axis.
        seat_angle: Angle [required],
        /// Largest seat that fits the body.
        largest_seat: Diameter [required],
        /// Smallest seat that is made.
        smallest_seat: Diameter [required],
        /// Sharpest bend it may stand in.
        max_dogleg: Curvature [required],
        /// Differential pressure the body is rated for.
        rating: Pressure [required],
        /// Where these figures come from.
        source: String [required],
    }
}

choice! {
    /// Shape of a seat as a restriction in the bore.
    pub enum SeatInlet {
        /// A thick sharp-edged orifice.
        Thick = "thick",
        /// A sudden contraction and a sudden expansion.
        Sharp = "sharp",
        /// A tapered inlet and a sudden expansion.
        Tapered = "tapered",
    }
}

record! {
    /// What closes the toe of the liner, from the shoe up.
    pub struct Toe {
        /// Length of the shoe and what stands below the toe tool.
        shoe_length: Length [required],
        /// Length of the toe tool: isolation tool, or plug and landing seat.
        tool_length: Length [required],
        /// Largest outer diameter.
        od: Diameter [required],
        /// Mass of shoe and toe tool.
        mass: Mass [required],
        /// Ball of the isolation tool (hydraulic-set only).
        setting_ball: Diameter [optional],
        /// Seat of the isolation tool (hydraulic-set only).
        setting_seat: Diameter [optional],
        /// Closing device of the isolation tool (hydraulic-set only).
        isolation: Device [optional],
        /// How the toe takes fluid while the first ball travels (fluid-activated only).
        first_ball_path: String [optional],
        /// Sleeve that pressure opens for stage 1 (hydraulic-set only).
        pressure_sleeve: PressureSleeve [optional],
        /// Where these figures come from.
        source: String [required],
    }
}

choice! {
    /// What a pressure device measures against.
    pub enum Reference {
        /// The pressure outside the string.
        Differential = "differential",
        /// A sealed atmospheric chamber or a burst disc against one.
        Absolute = "absolute",
    }
}

record! {
    /// The sleeve that pressure opens for stage 1.
    pub struct PressureSleeve {
        /// Length.
        length: Length [required],
        /// Mass.
        mass: Mass [required],
        /// Opening pressure.
        opening: Device [required],
        /// Number of ports.
        ports: usize [required],
        /// Diameter of a port.
        port_diameter: Diameter [required],
    }
}

record! {
    /// The packer that hangs and seals the liner in the casing.
    pub struct CasingPacker {
        /// Planned measured depth of its top.
        depth: MeasuredDepth [required],
        /// Length.
        length: Length [required],
        /// Largest outer diameter.
        od: Diameter [required],
        /// Inner diameter.
        id: Diameter [required],
        /// Mass.
        mass: Mass [required],
        /// Highest temperature.
        max_temperature: Temperature [required],
        /// What starts it to set.
        start: Device [required],
        /// Differential that sets it fully.
        full_set: Pressure [required],
        /// Piston area that sets it.
        piston_area: Area [optional],
        /// Rated pairs of differential and load, as a polygon from the highest differential at
        /// the highest load downwards; both signs of load by their own columns.
        envelope: Envelope [list],
        /// Where these figures come from.
        source: String [required],
    }
}

record! {
    /// How the layout weighs its aims. Hard limits are not weighed.
    pub struct LayoutAims {
        /// Weight of the hole size over a packer.
        hole_weight: Ratio [default "1"],
        /// Weight of the bend at a packer.
        bend_weight: Ratio [default "0.3"],
        /// Weight of a stage's length against the target.
        spacing_weight: Ratio [default "1"],
        /// Weight of the sleeve's place between its packers.
        sleeve_weight: Ratio [default "0.3"],
        /// Weight of the distance to exclusion zones.
        exclusion_weight: Ratio [default "0.2"],
        /// Weight of rock quality at the sleeve.
        quality_weight: Ratio [default "0.3"],
        /// Where the ports stand between the packers: 0 at the toe side, 1 at the heel side.
        sleeve_place: Ratio [default "0.5"],
        /// Shortest stage that is taken, as a share of the target.
        shortest_stage: Ratio [default "0.4"],
        /// Longest stage that is taken, as a share of the target.
        longest_stage: Ratio [default "1.8"],
        /// Least distance of a packer from the casing shoe.
        shoe_distance: Length [default "50 ft"],
        /// How many standard deviations of depth a hole size must hold over.
        depth_sigmas: Ratio [default "2"],
        /// Distance to an exclusion zone within which a packer is marked down.
        exclusion_reach: Length [default "30 ft"],
    }
}
