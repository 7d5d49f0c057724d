//! What a person or another program reads: terminal text, JSON and committed documents, all as
//! strings. This floor touches no file and computes no figure; it words what the floors below
//! found.

pub mod document;
pub mod draw;
pub mod scene;
pub mod sheets;
pub mod terminal;
pub mod text;

pub use text::look::{Colour, Look, Role};
