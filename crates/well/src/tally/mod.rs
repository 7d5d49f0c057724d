//! The joint tally: measured joints read from a file, or joints made up for planning.

mod check;
mod joint;
mod range;
mod read;
mod simulated;

pub use check::CHECKS;
pub use joint::{Joint, JointKind, LengthOrigin, total_length};
pub use range::LengthRange;
pub use read::read_tally_csv;
pub use simulated::{SimulationError, simulated_tally};
