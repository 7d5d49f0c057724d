//! Drawings as SVG: one writer, one chart with axes, and the pictures of well, seats and strip.
//! A drawing shows figures; it computes none.

pub mod chart;
pub mod seat;
pub mod svg;
pub mod well;
