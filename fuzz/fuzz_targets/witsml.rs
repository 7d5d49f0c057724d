//! A survey as a WITSML trajectory.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| claims::witsml(bytes));
