//! Proofs of the water hammer: closed forms, textbooks, balances, faults.
#![allow(clippy::unwrap_used, reason = "tests")]

mod closed_forms;
mod faults;
mod staircase;
mod steady;
mod strings;
