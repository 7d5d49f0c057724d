//! The LAS reader on hostile input: no panic on any bytes, no size it could choke on, no time
//! that grows faster than the file.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

use proptest::prelude::*;
use std::time::{Duration, Instant};
use well::las::{Index, caliper_curve, read_las};

const HEAD: &str =
    "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n STRT.M 1 :\n STOP.M 9 :\n STEP.M 1 :\n NULL. -999.25 :\n";

/// Reads, checks what must hold of any reading, and says why it was refused.
fn read(bytes: &[u8]) -> Option<&'static str> {
    let read = read_las(bytes, "hostile.las");
    assert!(read.findings.len() < 200, "{} findings", read.findings.len());
    match read.value {
        Some(las) => {
            let rows = las.rows();
            assert!(las.curves.iter().all(|c| c.len() == rows));
            if let Index::Depth { depths, .. } = &las.index {
                assert!(depths.len() == rows && depths.iter().all(|d| d.in_m().is_finite()));
            }
            for curve in las.curves.iter().filter_map(|c| c.numbers()) {
                assert!(curve.iter().all(|v| !v.is_infinite()));
            }
            if let Some(caliper) = caliper_curve(&las, None).value {
                assert!(caliper.depth().is_sorted() && caliper.diameter().iter().all(|d| d.in_m() > 0.0));
            }
            None
        }
        None => Some(read.findings.last().map_or("", |f| f.id)),
    }
}

/// Pieces that LAS files are made of, whole and broken.
fn piece() -> impl Strategy<Value = String> {
    let fixed = prop::sample::select(vec![
        "~V\n",
        "~W\n",
        "~C\n",
        "~P\n",
        "~O\n",
        "~A\n",
        "~",
        "~ \n",
        "~Log_Data | x\n",
        "~Log_Definition\n",
        "#",
        "\n",
        "\r",
        "\r\n",
        "VERS. 2.0 :\n",
        "VERS. 3.0 :\n",
        "VERS. 1.2:\n",
        "WRAP. YES :\n",
        "WRAP. NO :\n",
        "DLM. COMMA :\n",
        "DLM. TAB :\n",
        "NULL. -999.25 :\n",
        "NULL. x :\n",
        "STRT.M 1 :\n",
        "STOP..1IN 2 :\n",
        "STEP.F 0 :\n",
        "DEPT.M :\n",
        "DEPT. :\n",
        "CALI.IN :\n",
        "DCAL.MM :\n",
        "C1.IN :\n",
        "C2.IN :\n",
        "TIME.S :\n",
        "TVD.M :\n",
        "BS.IN 8.5 :\n",
        "..\n",
        ". .:\n",
        ":\n",
        "1 2 3\n",
        "1\n",
        "2 3\n",
        "1,2,3\n",
        "1\t2\t3\n",
        "1.5-2.5-3\n",
        "1.2.3 4\n",
        "****\n",
        "-999.25 ",
        "8.5 ",
        "\"a b\" ",
        "' ",
        "\"",
        "1,5 ",
        "nan inf 1e999\n",
        "1e308 -1e308\n",
        "\u{feff}",
        "\0",
        "é",
        "\u{2028}",
        "0 ",
        "-",
        "1D5 ",
    ]);
    let number = any::<f64>().prop_map(|v| format!("{v} "));
    prop_oneof![4 => fixed.prop_map(str::to_string), 2 => number, 1 => ".{0,12}"]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        read(&bytes);
    }

    #[test]
    fn any_bytes_behind_a_header(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        let head = format!("{HEAD}~C\n DEPT.M :\n CALI.IN :\n~A\n");
        read(&[head.as_bytes(), &bytes].concat());
    }

    #[test]
    fn any_pieces(pieces in prop::collection::vec(piece(), 0..80)) {
        read(pieces.concat().as_bytes());
    }

    #[test]
    fn a_good_file_with_bytes_changed(changes in prop::collection::vec((0usize..400, any::<u8>()), 0..12)) {
        let mut bytes = format!("{HEAD}~C\n DEPT.M :\n CALI.IN :\n C1.IN :\n C2.IN :\n~A\n").into_bytes();
        for row in 1..9 {
            bytes.extend(format!("{row} 8.5 8.{row} 9.{row}\n").bytes());
        }
        for (at, byte) in changes {
            if let Some(slot) = bytes.get_mut(at) {
                *slot = byte;
            }
        }
        read(&bytes);
    }

    #[test]
    fn numbers_come_back_as_written(
        values in prop::collection::vec((-1e6..1e6f64).prop_filter("null", |v| v.abs() > 1e-3), 1..60),
    ) {
        let rows: String = values.iter().enumerate().map(|(i, v)| format!("{} {v}\n", i + 1)).collect();
        let las = read_las(format!("{HEAD}~C\n DEPT.M :\n X. :\n~A\n{rows}").as_bytes(), "t").value.unwrap();
        prop_assert_eq!(las.curve("X").unwrap().numbers().unwrap(), values.as_slice());
    }
}

#[test]
fn sizes_beyond_the_limits_are_refused() {
    let curves = |n: usize| -> String { (0..n).map(|i| format!(" C{i}.M :\n")).collect() };
    let narrow = "~C\n DEPT.M :\n X. :\n~A\n";
    let cases: [(&str, String); 7] = [
        ("one endless line", format!("{HEAD}{narrow}1 {}", "2".repeat(3 << 20))),
        ("one endless line of values", format!("{HEAD}{narrow}{}", "1 ".repeat(1 << 20))),
        ("a million sections", "~V\n".repeat(1 << 20)),
        ("too many curves", format!("{HEAD}~C\n{}~A\n1\n", curves(20_000))),
        ("too many header lines", format!("{HEAD}~P\n{}~C\n DEPT.M :\n~A\n1\n", " A. 1 :\n".repeat(120_000))),
        ("too many values on a line", format!("{HEAD}{narrow}{}\n", "1 ".repeat(20_000))),
        ("few values for many curves", format!("{HEAD}~C\n{}~A\n{}", curves(9_000), "1 2\n".repeat(20_000))),
    ];
    for (what, text) in cases {
        assert_eq!(read(text.as_bytes()), Some("las-limit"), "{what}");
    }
}

#[test]
fn time_does_not_outgrow_the_file() {
    let narrow = format!("{HEAD}~C\n DEPT.M :\n CALI.IN :\n~A\n");
    let wide: String = (0..9_000).map(|i| format!(" C{}.IN :\n", i / 2)).collect();
    let big = 1 << 19;
    let cases: [(&str, String); 10] = [
        ("quotation marks", narrow.clone() + &"' \" ".repeat(1000) + "\n" + &"\"a 'b \"c\n".repeat(big / 9)),
        (
            "minus signs",
            narrow.clone() + &("1 ".to_string() + &"1.5-".repeat(2000) + "\n").repeat(big / 8000),
        ),
        ("points", narrow.clone() + &("1 ".to_string() + &"1.".repeat(4000) + "\n").repeat(big / 8000)),
        ("commas", narrow.clone() + &"1,2,3,4,5,6,7,8\n".repeat(big / 16)),
        ("comments", narrow.clone() + &"#\n".repeat(big / 2)),
        ("short rows", narrow.clone() + &"1 2\n3\n".repeat(big / 6)),
        ("words", narrow.clone() + &"1 a\n".repeat(big / 4)),
        (
            "header lines out of form",
            format!("{HEAD}~P\n{}", "x y\n".repeat(90_000)) + "~C\n DEPT.M :\n~A\n1\n",
        ),
        ("names twice", format!("{HEAD}~C\n{wide}~A\n{}\n", "8.5 ".repeat(9_000))),
        ("lines before the first section", "x\n".repeat(big / 2) + &narrow + "1 8\n"),
    ];
    for (what, text) in cases {
        let start = Instant::now();
        read(text.as_bytes());
        let spent = start.elapsed();
        assert!(spent < Duration::from_secs(60), "{what}: {spent:?} for {} bytes", text.len());
        eprintln!("{what}: {spent:?} for {} bytes", text.len());
    }
}
