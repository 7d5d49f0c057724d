//! Strings of pipe and the joints of the liner.

use quantity::*;

use crate::record::{choice, record};

choice! {
    /// What a string is for.
    pub enum StringRole {
        /// Cemented casing.
        Casing = "casing",
        /// The string the treatment is pumped through, above the liner.
        Treating = "treating",
        /// The liner that carries packers and sleeves.
        Liner = "liner",
    }
}

record! {
    /// One string of pipe. Sizes come from the catalogue by outer diameter and weight; anything
    /// stated here goes before the catalogue.
    pub struct StringTable {
        /// Name.
        name: String [required],
        /// What it is for.
        role: StringRole [required],
        /// Upper end.
        top: MeasuredDepth [required],
        /// Lower end; for the liner, the planned shoe.
        bottom: MeasuredDepth [required],
        /// Outer diameter.
        od: Diameter [required],
        /// Nominal weight, threaded and coupled.
        weight: MassPerLength [required],
        /// Grade of the catalogue, such as "P110", or the user's own with `yield_strength`.
        grade: String [required],
        /// Minimum yield of a grade of the user's own.
        yield_strength: Pressure [optional],
        /// Minimum ultimate strength of a grade of the user's own.
        ultimate_strength: Pressure [optional],
        /// Inner diameter of pipe that is not in the catalogue.
        id: Diameter [optional],
        /// Drift that goes before the rule.
        drift: Diameter [optional],
        /// Thread: "short-round", "long-round", "buttress" or "rated" with the ratings below.
        connection: Connection [required],
        /// Outer diameter of the connection.
        connection_od: Diameter [optional],
        /// Tension rating of a rated connection.
        connection_tension: Force [optional],
        /// Internal pressure rating of a rated connection.
        connection_internal: Pressure [optional],
        /// Compression rating of a rated connection.
        connection_compression: Force [optional],
        /// Roughness of the inner wall.
        roughness: Diameter [assume "0.0018 in" because "memory: commercial steel; friction reducer masks most of it"],
        /// Share of the yield that is left at the highest temperature.
        yield_factor: Ratio [default "1"],
        /// Where ratings that are not computed come from.
        source: String [optional],
    }
}

choice! {
    /// A thread.
    pub enum Connection {
        /// Short round thread and coupling.
        ShortRound = "short-round",
        /// Long round thread and coupling.
        LongRound = "long-round",
        /// Buttress thread and coupling.
        Buttress = "buttress",
        /// A connection rated by its supplier.
        Rated = "rated",
    }
}

record! {
    /// The joints of the liner, as measured or simulated.
    pub struct TallyTable {
        /// CSV file of measured joints beside the job file.
        file: String [optional],
        /// Joints made up by the program where there is no measured tally; marked as such.
        simulated: SimulatedTally [optional],
        /// Pup joints on location that the tally file does not list, one entry each.
        pup: Length [list],
        /// Length lost at each make-up, where the file's lengths are overall lengths.
        make_up_loss: Length [default "0 ft"],
    }
}

choice! {
    /// Length range of pipe.
    pub enum LengthRange {
        /// Range 2.
        Two = "R2",
        /// Range 3.
        Three = "R3",
    }
}

record! {
    /// A tally made up by the program.
    pub struct SimulatedTally {
        /// How many joints.
        count: usize [required],
        /// Length range.
        range: LengthRange [default "R3"],
        /// Seed of the random numbers.
        seed: usize [default "1"],
    }
}
