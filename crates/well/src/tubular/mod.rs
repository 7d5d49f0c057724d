//! Pipe: the catalogue of standard sizes and grades, and pipe the user defines.

mod catalogue;
mod check;
mod connection;
mod error;
mod pipe;
mod rating;
mod spec;

pub use catalogue::{Catalogue, Grade, Purpose, Size, inches};
pub use check::CHECKS;
pub use connection::{Connection, RatedConnection};
pub use error::TubularError;
pub use pipe::Pipe;
pub use rating::{Origin, Rated};
pub use spec::{PipeSpec, StatedRatings};
