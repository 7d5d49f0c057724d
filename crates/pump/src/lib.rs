//! The treatment simulator: the whole continuous job in time, from the first stage to the last
//! flush, with the channels a recorder would keep.
//!
//! Fluid moves in parcels ([`mod@column`]) along a way laid out by volume ([`route`]); the pumps send
//! what the orders say ([`orders`]) at the rate the crew goes for ([`crew`]); balls ride down
//! ([`flight`]) to the first seat they cannot pass, and open sleeves ([`sleeve`]).

mod branch;
pub mod checks;
pub mod column;
pub mod crew;
mod error;
pub mod fault;
pub mod flight;
pub mod fluids;
pub mod heat;
mod landing;
mod log;
mod mishap;
pub mod orders;
mod pressure;
pub mod record;
mod result;
mod rock;
pub mod route;
mod run;
pub mod sensors;
pub mod sleeve;
mod step;
mod string;
mod surge;
mod watch;
mod world;

pub use checks::CHECKS;
pub use error::PumpError;
pub use result::{BallTrace, LandingRun, RockRun, Run, SleeveTrace, StageRun};
pub use run::{Settings, pump};
