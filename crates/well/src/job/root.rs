//! The root of the job file and its head.

use super::*;
use crate::record::{choice, record};

choice! {
    /// The unit system of printed documents.
    pub enum Units {
        /// Feet, inches, psi, barrels.
        Field = "field",
        /// Metres, millimetres, megapascals, cubic metres.
        Metric = "metric",
    }
}

impl Units {
    /// The system of units that figures are printed in.
    pub fn system(self) -> quantity::System {
        match self {
            Units::Field => quantity::System::Field,
            Units::Metric => quantity::System::Metric,
        }
    }
}

record! {
    /// The job file of one well: a ball-activated open-hole multistage completion.
    pub struct JobFile {
        /// What this job is and who stands for it.
        job: Head [required],
        /// The directional survey.
        survey: Survey [required],
        /// The hole as drilled.
        hole: HoleTable [required],
        /// Rock stress and temperature.
        rock: Rock [required],
        /// Every string of pipe, from the surface down.
        string: StringTable [list],
        /// The joints of the liner.
        tally: TallyTable [required],
        /// The kind of system and the stages wanted.
        system: System [required],
        /// The open-hole packer.
        packer: Packer [required],
        /// The ball-activated sleeve.
        sleeve: Sleeve [required],
        /// What closes the toe of the liner.
        toe: Toe [required],
        /// The packer that hangs and seals the liner in the casing.
        casing_packer: CasingPacker [required],
        /// Where the balls start.
        launcher: Launcher [required],
        /// How ball and seat sizes are chosen.
        ladder: Ladder [required],
        /// What the balls are made of.
        ball: Ball [required],
        /// Setting the packers.
        setting: Setting [required],
        /// Fluids that are pumped.
        fluid: Fluid [list],
        /// Proppants that are pumped.
        proppant: Proppant [list],
        /// The treatment of a stage.
        treatment: Treatment [required],
        /// Limits that nothing may exceed.
        limits: Limits [required],
        /// What stands on location.
        equipment: Equipment [required],
        /// How balls are launched and landed.
        ball_program: BallProgram [required],
        /// How the crew acts, in the simulator.
        crew: CrewTable [optional],
        /// Tools the user has fixed at a depth.
        pin: Pin [list],
        /// Depths where no packer or no sleeve may stand.
        exclusion: Exclusion [list],
        /// How the layout weighs its aims.
        layout: LayoutAims [required],
    }
}

record! {
    /// What this job is and who stands for it.
    pub struct Head {
        /// Name of the job.
        name: String [required],
        /// Name of the well.
        well: String [required],
        /// Revision of this file, as the engineer counts them.
        revision: String [default "A"],
        /// Role of whoever prepared it.
        prepared_by: String [default "completions engineer"],
        /// Whether the data are invented (examples and training).
        invented: bool [default "false"],
        /// Anything a reader should know first.
        note: String [optional],
        /// Units of printed documents.
        units: Units [default "field"],
    }
}

record! {
    /// A tool the user has fixed at a depth; the layout is built round it.
    pub struct Pin {
        /// Which tool.
        tool: PinnedTool [required],
        /// Stage, 1 at the toe. A packer of stage k is the one at the heel side of that stage.
        stage: usize [required],
        /// Measured depth of the tool's middle.
        depth: quantity::MeasuredDepth [required],
        /// How far the tool may stand from that depth.
        within: quantity::Length [default "25 ft"],
        /// Why.
        reason: String [optional],
    }
}

choice! {
    /// A tool that can be pinned.
    pub enum PinnedTool {
        /// The packer at the heel side of a stage.
        Packer = "packer",
        /// The sleeve of a stage.
        Sleeve = "sleeve",
    }
}

record! {
    /// An interval where a tool must not stand.
    pub struct Exclusion {
        /// Upper end.
        from: quantity::MeasuredDepth [required],
        /// Lower end.
        to: quantity::MeasuredDepth [required],
        /// What must not stand there.
        tools: ExcludedTools [default "packers"],
        /// Why: a fault, a shale, a washout, a water zone.
        reason: String [required],
    }
}

choice! {
    /// What an exclusion keeps out.
    pub enum ExcludedTools {
        /// Packers only.
        Packers = "packers",
        /// Sleeves only.
        Sleeves = "sleeves",
        /// Packers and sleeves.
        Both = "both",
    }
}
