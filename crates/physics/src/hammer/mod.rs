//! Water hammer in a string of reaches: every wave of a landing, by the method of
//! characteristics.
//!
//! [`Hammer`] is built once from a [`HammerString`] and moved step by step; a whole landing with
//! its ringing takes milliseconds. Pumps stand above, rock below; a ball lands between, holds,
//! leaks or breaks, and shears its sleeve.

use crate::Relation;

pub mod boundary;
mod build;
pub mod grid;
pub mod landing_place;
mod node;
mod power;
mod pump;
pub mod reflection;
mod ring;
mod run;
pub mod string;
pub mod uniform;
pub mod unsteady;
mod waves;

pub use boundary::{Governor, Lower, Ramp, Relief, Sink, Trip, Upper};
pub use build::HammerString;
pub use grid::{Fineness, Grid};
pub use landing_place::{BallFate, BallState, Landing, Sleeve, SleeveState};
pub use run::{Balance, Hammer};
pub use string::{CellFill, CellPlace, FrictionLaw, LumpedLoss, Reach};

/// Name under which the kernel refuses an input.
pub(crate) const NAME: &str = "hammer";

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] =
    &[&uniform::HAMMER_LANDING, &reflection::WAVE_REFLECTION, &unsteady::UNSTEADY_FRICTION];
