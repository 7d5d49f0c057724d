//! A survey as a text table.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| claims::survey_csv(bytes));
