//! A log, and the hole with the caliper taken from it.

#![no_main]

use libfuzzer_sys::fuzz_target;
use quantity::{Diameter, Length, MeasuredDepth, Quantity as _};
use well::hole::{Hole, Section, SectionKind};
use well::las::{caliper_curve, read_las};

fuzz_target!(|bytes: &[u8]| {
    let read = read_las(bytes, "caliper.las");
    claims::said(&read, bytes);
    let Some(las) = read.value else { return };
    let rows = las.curves.first().map_or(0, |c| c.len());
    assert!(las.curves.iter().all(|c| c.len() == rows), "columns of unlike length");
    let Some(caliper) = caliper_curve(&las, None).value else { return };
    assert!(caliper.depth().is_sorted_by(|a, b| a < b), "depths do not rise");
    assert!(caliper.diameter().iter().all(|d| d.is_finite() && d.in_m() > 0.0), "a diameter is none");
    let kind = SectionKind::Open { bit: Diameter::inch(6.0) };
    let section = Section::new("open hole", MeasuredDepth::ZERO, MeasuredDepth::ft(20_000.0), kind);
    let Some(hole) = Hole::new(vec![section], Some(caliper), Length::ZERO).value else { return };
    let volume = hole.volume(hole.top(), hole.bottom());
    assert!(volume.is_ok_and(|v| v.in_m3() > 0.0 && v.is_finite()), "no volume");
});
