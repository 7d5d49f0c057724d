//! Pages for a terminal: aligned, as wide as it is, and legible without colour.

pub mod assumption;
pub mod caution;
pub mod explain;
pub mod faults;
pub mod finding;
pub mod program;
pub mod relation;
pub mod run;
pub mod verify;
pub mod working;
