//! The PDF of a program: a typst manuscript with the report's own drawings and data.

mod press;

pub use press::{Manuscript, PressError, press};
