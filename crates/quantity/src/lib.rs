//! Typed quantities: newtypes over an SI `f64`, with their text form both ways.
//!
//! Every public figure of the program travels as one of these types, so a length cannot be
//! added to a pressure and a measured depth cannot be mistaken for a vertical one. Inside a
//! numerical kernel the plain SI number is taken out with [`Quantity::si`].
//!
//! ```
//! use quantity::{Diameter, FlowRate, Quantity, System};
//! let bore: Diameter = "3.920 in".parse()?;
//! let rate = FlowRate::bbl_per_min(15.0);
//! let speed = rate / bore.circle();
//! assert_eq!(speed.text(System::Field), "16.75 ft/s");
//! # Ok::<(), quantity::UnitError>(())
//! ```

pub mod constant;
mod dynamic;
mod kind;
mod kinds;
mod law;
mod said;
mod text;
mod types;

pub use dynamic::Value;
pub use kind::{Kind, Quantity, System, Unit};
pub use kinds::KINDS;
pub use law::Point;
pub use said::Text;
pub use text::{UnitError, number, parse_number, round_significant};
pub use types::*;
