//! The LAS reader on real and awkward files, where the folder with them is present. What each
//! file holds was counted with another reader.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

mod las_beside;

use las_beside::file;
use quantity::MeasuredDepth;
use well::Finding;
use well::las::{Las, Version, Wrap, read_las};

fn ids(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|f| f.id).collect()
}

/// What a file is known to hold.
struct Known {
    name: &'static str,
    curves: usize,
    rows: usize,
    /// First and last depth, m.
    ends: Option<(f64, f64)>,
    findings: &'static [&'static str],
}

const KNOWN: [Known; 9] = [
    Known { name: "1.2_sample_wrapped.las", curves: 36, rows: 5, ends: Some((910.0, 909.5)), findings: &[] },
    Known { name: "1001178549.las", curves: 27, rows: 5, ends: Some((543.6108, 543.9156)), findings: &[] },
    Known {
        name: "2.0_sample_2.0_based.las",
        curves: 3,
        rows: 6,
        ends: None,
        findings: &["las-index-kind", "las-start-stop"],
    },
    Known {
        name: "2.0_sample_2.0_minimal.las",
        curves: 8,
        rows: 2,
        ends: Some((635.0, 634.875)),
        findings: &["las-start-stop"],
    },
    Known {
        name: "2.0_sample_2.0_tab_dlm.las",
        curves: 8,
        rows: 3,
        ends: Some((1670.0, 1669.75)),
        findings: &[],
    },
    Known {
        name: "2.0_sample_2.0_wrapped.las",
        curves: 36,
        rows: 2,
        ends: Some((910.0, 909.875)),
        findings: &["las-start-stop"],
    },
    Known {
        name: "autodepthindex_M_FT.las",
        curves: 2,
        rows: 101,
        ends: Some((0.0, 100.0)),
        findings: &["las-index-unit"],
    },
    Known {
        // 986904 and 890160 tenths of an inch.
        name: "autodepthindex_point_one_inch.las",
        curves: 2,
        rows: 8063,
        ends: Some((2506.73616, 2261.0064)),
        findings: &["las-index-unit"],
    },
    Known {
        name: "barebones.las",
        curves: 1,
        rows: 2,
        ends: Some((60.96, 61.2648)),
        findings: &["las-version", "las-wrap", "las-section", "las-section", "las-null"],
    },
];

#[test]
fn real_awkward_files_hold_what_is_known() {
    for known in &KNOWN {
        let Some(bytes) = file(&format!("corpus/{}", known.name)) else { return };
        let read = read_las(&bytes, known.name);
        assert_eq!(ids(&read.findings), known.findings, "{}", known.name);
        let las = read.value.unwrap();
        assert_eq!((las.curves.len(), las.rows()), (known.curves, known.rows), "{}", known.name);
        let ends = las.depths().and_then(|d| Some((d.first()?.in_m(), d.last()?.in_m())));
        assert_eq!(ends.is_some(), known.ends.is_some(), "{}", known.name);
        if let (Some(a), Some(b)) = (ends, known.ends) {
            assert!((a.0 - b.0).abs() < 1e-9 && (a.1 - b.1).abs() < 1e-9, "{}: {a:?}", known.name);
        }
    }
}

fn sum(las: &Las, name: &str) -> f64 {
    las.curve(name).and_then(|c| c.numbers()).unwrap_or(&[]).iter().filter(|v| v.is_finite()).sum()
}

#[test]
fn real_caliper_log_in_version_1_and_feet() {
    let Some(bytes) = file("forge_78B-32_caliper.las") else { return };
    let read = read_las(&bytes, "caliper.las");
    assert_eq!(ids(&read.findings), Vec::<&str>::new());
    let las = read.value.unwrap();
    assert_eq!((las.version, las.wrap, las.null), (Version::V1, Wrap::No, Some(-999.25)));
    assert_eq!((las.curves.len(), las.rows()), (51, 400));
    let depths = las.depths().unwrap();
    assert_eq!((depths[0], depths[399]), (MeasuredDepth::ft(3200.5), MeasuredDepth::ft(3400.0)));
    assert!((sum(&las, "CALI") - 4548.5618).abs() < 1e-6);
    assert!((sum(&las, "DCAL") - 298.0415).abs() < 1e-6);
    assert!((las.diameter("BS").unwrap().in_inch() - 10.625).abs() < 1e-12);
    // In version 1.2 the value stands after the first colon, whatever colons it has itself.
    assert_eq!(las.item("WELL").unwrap().value, "FORGE 78B-32");
    let place = las.well.iter().find(|i| i.mnemonic == "LOC").unwrap();
    assert!(place.value.starts_with("Lat: 38."), "{}", place.value);
}
