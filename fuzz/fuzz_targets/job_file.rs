//! The job file, and the job made from it with small data files beside it.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| claims::job_file(bytes));
