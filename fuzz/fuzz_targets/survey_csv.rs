//! A survey as a text table.

#![no_main]

use libfuzzer_sys::fuzz_target;
use well::trajectory::{DepthUnit, SurveyOptions, read_survey_csv};

fuzz_target!(|bytes: &[u8]| {
    let plain = SurveyOptions::for_file("survey.csv");
    for options in [plain.clone().depth_unit(DepthUnit::Foot), plain] {
        let read = read_survey_csv(bytes, &options);
        claims::said(&read, bytes);
        if let Some(table) = read.value {
            claims::survey(table, bytes);
        }
    }
});
