//! Layout and tally: where every packer and sleeve stands.

pub mod problem;
mod result;
pub mod score;
pub mod search;

pub use result::*;
