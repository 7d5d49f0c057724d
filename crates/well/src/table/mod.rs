//! Text tables as people export them: any encoding, any delimiter, any column order, units in
//! headings, in a row below them or in the cells, remarks between the rows, decimal commas.
//!
//! A reader says what it wants ([`Column`]), and gets rows of quantities with the line each
//! stands on. Nothing is guessed in silence: what was assumed, passed over or refused is a
//! finding at its line. Memory is bounded by [`Caps`]; no input makes it panic.
//!
//! ```
//! use quantity::{Angle, MeasuredDepth};
//! use well::table::{Column, read_table};
//! const WANTED: &[Column] = &[
//!     Column::required::<MeasuredDepth>("md", &["measured depth", "depth"]),
//!     Column::required::<Angle>("inc", &["incl", "inclination"]).assuming("deg"),
//!     Column::text("remark", &["comment", "comments", "remarks"]),
//! ];
//! let read = read_table(b"# survey\nComment;MD (ft);Incl\n;100,0;1,5\nkick-off;200,0;3,5\n", "s.csv", WANTED);
//! let table = read.value.ok_or("no table")?;
//! let second = table.rows().nth(1).ok_or("no row")?;
//! assert_eq!(second.get::<MeasuredDepth>("md").map(|d| d.in_ft().round()), Some(200.0));
//! assert_eq!(second.text("remark"), Some("kick-off"));
//! assert_eq!(second.line(), 4);
//! let ids: Vec<_> = read.findings.iter().map(|f| f.id).collect();
//! assert_eq!(ids, ["table-unit-assumed", "table-decimal-comma"]);
//! # Ok::<(), &str>(())
//! ```

pub mod cell;
mod check;
mod column;
mod data;
pub mod decode;
pub mod delimiter;
pub mod header;
pub mod line;
mod notes;
mod read;
mod rows;
#[cfg(test)]
mod tests;
pub mod unit;

pub use check::CHECKS;
pub use column::{Caps, Cell, Column, Need};
pub use notes::{Notes, in_file_order};
pub use read::{read_table, read_table_within};
pub use rows::{Row, Table};
