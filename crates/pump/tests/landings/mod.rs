//! The real landings: records, model, rings, comparison, tables and picture.

pub mod compare;
pub mod model;
pub mod picture;
pub mod records;
pub mod ring;
pub mod table;
