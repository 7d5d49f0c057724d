//! A log, and the hole with the caliper taken from it.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| claims::las(bytes));
