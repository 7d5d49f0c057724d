//! LAS 1.2 and 2.0 logs, the open ASCII standard of the Canadian Well Logging Society, and the
//! simple case of LAS 3.0.
//!
//! [`read_las`] takes the bytes of a file and gives what there is, with every departure from the
//! standard as a finding. A value is never guessed in silence: where the file contradicts itself
//! the finding says what was taken. What cannot be read is refused by name.
//!
//! [`caliper_curve`] takes the hole diameter out of a log, in typed depths and diameters.
//!
//! ```
//! use well::las::read_las;
//! let text = "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n STRT.M 100 :\n STOP.M 101 :\n STEP.M 1 :\n NULL. -999.25 :\n\
//!             ~C\n DEPT.M :\n CALI.IN :\n~A\n 100 8.5\n 101 -999.25\n";
//! let read = read_las(text.as_bytes(), "caliper.las");
//! let las = read.value.ok_or("refused")?;
//! assert_eq!(las.rows(), 2);
//! assert_eq!(las.depths().map(|d| d[1].in_m()), Some(101.0));
//! assert!(las.curve("CALI").is_some_and(|c| c.numbers().is_some_and(|n| n[1].is_nan())));
//! assert!(read.findings.is_empty());
//! # Ok::<(), &str>(())
//! ```

mod caliper;
mod cell;
pub mod check;
mod decode;
mod header;
mod index;
mod layout;
mod limit;
mod model;
mod notes;
mod null;
mod read;
mod section;
mod table;
mod unit;

pub use caliper::caliper_curve;
pub use check::CHECKS;
pub use model::{Curve, Data, Encoding, Index, Item, Las, TextColumn, Version, Wrap};
pub use read::read_las;
