//! The hole as drilled: cased and open sections from top to bottom, a caliper in the open hole,
//! the diameter at a depth and over a window, and volumes.
//!
//! ```
//! use quantity::{Diameter, Length, MeasuredDepth};
//! use well::hole::{Hole, Section, SectionKind};
//! let casing = SectionKind::Cased { inner: Diameter::inch(6.276), drift: None };
//! let open = SectionKind::Open { bit: Diameter::inch(6.125) };
//! let sections = vec![
//!     Section::new("intermediate casing", MeasuredDepth::m(0.0), MeasuredDepth::m(2000.0), casing),
//!     Section::new("lateral", MeasuredDepth::m(2000.0), MeasuredDepth::m(4000.0), open),
//! ];
//! let hole = Hole::new(sections, None, Length::ZERO).value.ok_or("no hole")?;
//! let volume = hole.volume(MeasuredDepth::m(2000.0), MeasuredDepth::m(4000.0)).map_err(|_| "outside")?;
//! assert!((volume.in_m3() - 38.0189).abs() < 1e-4);
//! # Ok::<(), &str>(())
//! ```

mod build;
mod caliper;
pub mod check;
mod extremes;
mod profile;
mod quality;
mod section;
mod volume;
mod window;

pub use build::Hole;
pub use caliper::{Caliper, Gap, Sample};
pub use check::CHECKS;
pub use profile::{HoleError, Local, Source};
pub(crate) use quality::PLAUSIBLE;
pub use section::{Section, SectionKind};
pub use volume::Annulus;
pub use window::{Window, WindowStatistics};
