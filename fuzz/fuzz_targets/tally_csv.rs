//! A tally of measured joints.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| claims::tally_csv(bytes));
