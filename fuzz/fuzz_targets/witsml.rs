//! A survey as a WITSML trajectory.

#![no_main]

use libfuzzer_sys::fuzz_target;
use well::trajectory::{SurveyOptions, read_witsml_trajectory};

fuzz_target!(|bytes: &[u8]| {
    let read = read_witsml_trajectory(bytes, &SurveyOptions::for_file("survey.xml"));
    claims::said(&read, bytes);
    if let Some(table) = read.value {
        claims::survey(table, bytes);
    }
});
