//! A tally of measured joints.

#![no_main]

use libfuzzer_sys::fuzz_target;
use well::tally::read_tally_csv;

fuzz_target!(|bytes: &[u8]| {
    let read = read_tally_csv(bytes, "joints.csv");
    claims::said(&read, bytes);
    for joint in read.value.iter().flatten() {
        assert!(joint.length.in_m() > 0.0 && joint.length.in_m().is_finite(), "{joint:?}");
    }
});
