//! Balls and seats: the ladder from the toe to the heel.

mod result;

pub use result::*;
