//! Helpers of tests and benchmarks: jobs made in memory.

#![allow(dead_code)] // each test file takes what it needs
#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

pub mod folder;
pub mod made;
pub mod noise;
pub mod picture;
pub mod real_data;
pub mod real_hole;
