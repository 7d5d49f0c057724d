//! Drawings as SVG: one writer, one chart with axes, and the pictures of path, strip, seats and
//! pressure sequence. A drawing shows figures; it computes none.

pub mod axis;
pub mod chart;
pub mod path;
pub mod seat;
pub mod sequence;
pub mod strip;
pub mod svg;
pub mod volume_line;
