//! The LAS reader on files that keep the standard, and on the common ways of breaking it. The
//! files are invented.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

use quantity::MeasuredDepth;
use well::las::{CHECKS, Data, Encoding, Index, Las, Version, Wrap, read_las};
use well::{Finding, Severity};

/// A file of three curves with these parts in place of the usual ones.
struct Parts<'a> {
    version: &'a str,
    well: &'a str,
    curve: &'a str,
    data: &'a str,
}

const USUAL: Parts = Parts {
    version: "~Version\n VERS. 2.0 : v\n WRAP. NO : w\n",
    well: "~Well\n STRT.M 100.0 : a\n STOP.M 101.0 : b\n STEP.M 0.5 : c\n NULL. -999.25 : n\n WELL. ONE : well\n",
    curve: "~Curve\n DEPT.M : depth\n CALI.IN : caliper\n GR.GAPI : gamma\n",
    data: "~A\n 100.0 8.50 60\n 100.5 8.75 70\n 101.0 -999.25 80\n",
};

impl Parts<'_> {
    fn text(&self) -> String {
        [self.version, self.well, self.curve, self.data].concat()
    }

    fn read(&self) -> (Las, Vec<Finding>) {
        read(self.text().as_bytes())
    }
}

fn read(bytes: &[u8]) -> (Las, Vec<Finding>) {
    let read = read_las(bytes, "test.las");
    assert!(read.findings.iter().all(|f| CHECKS.iter().any(|c| c.id == f.id)));
    (read.value.unwrap_or_else(|| panic!("refused: {:?}", read.findings)), read.findings)
}

fn refusal(bytes: &[u8]) -> &'static str {
    let read = read_las(bytes, "test.las");
    assert!(read.value.is_none(), "read, though it should not");
    let last = read.findings.last().unwrap();
    assert_eq!(last.severity, Severity::Stop);
    assert_eq!(last.place.file.as_deref(), Some("test.las"));
    last.id
}

fn ids(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|f| f.id).collect()
}

fn numbers<'l>(las: &'l Las, name: &str) -> &'l [f64] {
    las.curve(name).and_then(|c| c.numbers()).unwrap_or_else(|| panic!("no numbers {name}"))
}

/// Compares, taking two missing values for equal.
fn assert_values(found: &[f64], expected: &[f64]) {
    let same = |a: &f64, b: &f64| a == b || (a.is_nan() && b.is_nan());
    let equal = found.len() == expected.len() && found.iter().zip(expected).all(|(a, b)| same(a, b));
    assert!(equal, "{found:?} against {expected:?}");
}

#[test]
fn a_plain_file_is_read_without_a_word() {
    let (las, findings) = USUAL.read();
    assert_eq!(ids(&findings), Vec::<&str>::new());
    assert_eq!((las.version, las.wrap, las.null), (Version::V2, Wrap::No, Some(-999.25)));
    assert_eq!(las.depths().unwrap(), [100.0, 100.5, 101.0].map(MeasuredDepth::m));
    assert_values(numbers(&las, "CALI"), &[8.5, 8.75, f64::NAN]);
    assert_values(numbers(&las, "gr"), &[60.0, 70.0, 80.0]);
    assert_eq!(las.item("WELL").unwrap().value, "ONE");
}

#[test]
fn version_1_has_values_after_the_colon() {
    let well =
        "~Well\n STRT.M 100.0 :\n STOP.M 101.0 :\n STEP.M 0.5 :\n NULL. -999.25 :\n WELL. WELL : ONE\n";
    let version = "~V\n VERS. 1.2 :\n WRAP. NO :\n";
    let (las, findings) = Parts { version, well, ..USUAL }.read();
    assert_eq!(ids(&findings), Vec::<&str>::new());
    assert_eq!((las.version, las.item("WELL").unwrap().value.as_str()), (Version::V1, "ONE"));
    // Without VERS the word before the colon gives it away.
    let (las, findings) = Parts { version: "~V\n WRAP. NO :\n", well, ..USUAL }.read();
    assert_eq!((las.version, ids(&findings)), (Version::V1, vec!["las-version"]));
}

#[test]
fn wrapped_rows() {
    let wrapped = "~A\n100.0\n 8.50\n 60\n100.5\n 8.75\n 70\n101.0\n -999.25\n 80\n";
    let yes = "~V\n VERS. 2.0 :\n WRAP. YES :\n";
    for (version, data, expected) in [
        (yes, wrapped, vec![]),
        (yes, "~A\n100.0\n 8.50 60\n100.5\n 8.75 70\n101.0\n -999.25 80\n", vec![]),
        // The flag is wrong, either way.
        (USUAL.version, "~A\n100.0\n 8.50 60\n100.5\n 8.75 70\n101.0\n -999.25 80\n", vec!["las-wrap"]),
        (yes, USUAL.data, vec!["las-wrap"]),
    ] {
        let (las, findings) = Parts { version, data, ..USUAL }.read();
        assert_eq!(ids(&findings), expected);
        assert_values(numbers(&las, "GR"), &[60.0, 70.0, 80.0]);
        assert_values(numbers(&las, "CALI"), &[8.5, 8.75, f64::NAN]);
    }
    // A row cut off at the end is left out.
    let (las, findings) = Parts { version: yes, data: &format!("{wrapped} 101.5\n 8.6\n"), ..USUAL }.read();
    assert_eq!((las.rows(), ids(&findings)), (3, vec!["las-row-length"]));
    // Rows that do not come out are refused.
    let text = Parts { version: yes, data: "~A\n100.0\n 8.50 60 1\n100.5\n 8.75 70\n", ..USUAL }.text();
    assert_eq!(refusal(text.as_bytes()), "las-row-shape");
}

#[test]
fn every_character_coding() {
    let text = USUAL.text().replace("ONE", "Höhe");
    let wide = |big: bool, mark: bool| -> Vec<u8> {
        let units = mark.then_some(0xfeffu16).into_iter().chain(text.encode_utf16());
        units.flat_map(|u| if big { u.to_be_bytes() } else { u.to_le_bytes() }).collect()
    };
    let latin: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let marked = [b"\xef\xbb\xbf".as_slice(), text.as_bytes()].concat();
    for (bytes, encoding, told) in [
        (text.as_bytes().to_vec(), Encoding::Utf8, false),
        (marked, Encoding::Utf8, false),
        (wide(false, true), Encoding::Utf16Le, true),
        (wide(true, true), Encoding::Utf16Be, true),
        (wide(false, false), Encoding::Utf16Le, true),
        (wide(true, false), Encoding::Utf16Be, true),
        (latin, Encoding::Windows1252, true),
    ] {
        let (las, findings) = read(&bytes);
        assert_eq!((las.encoding, las.item("WELL").unwrap().value.as_str()), (encoding, "Höhe"));
        assert_eq!(ids(&findings), if told { vec!["las-encoding"] } else { vec![] });
        assert_eq!(las.rows(), 3);
    }
}

#[test]
fn every_line_end_and_padding() {
    for end in ["\r\n", "\r", "\n\n"] {
        let (las, findings) = read(USUAL.text().replace('\n', end).as_bytes());
        assert_eq!((las.rows(), ids(&findings)), (3, vec![]), "{end:?}");
    }
    let (las, findings) = read(format!("{}\u{1a}\0\0", USUAL.text()).as_bytes());
    assert_eq!((las.rows(), ids(&findings)), (3, vec![]));
}

#[test]
fn every_delimiter() {
    let declared = |word: &str| format!("~V\n VERS. 2.0 :\n WRAP. NO :\n DLM. {word} :\n");
    let (comma, tab, blank) = (declared("COMMA"), declared("TAB"), declared("SPACE"));
    let commas = "~A\n100.0, 8.50, 60\n100.5,8.75,70,\n101.0,,80\n";
    let tabs = "~A\n100.0\t8.50\t60\n100.5\t8.75\t70\n101.0\t\t80\n";
    for (version, data, expected) in [
        (comma.as_str(), commas, vec![]),
        (tab.as_str(), tabs, vec![]),
        (blank.as_str(), USUAL.data, vec![]),
        (USUAL.version, tabs, vec![]),
        (USUAL.version, commas, vec!["las-delimiter"]),
        (blank.as_str(), commas, vec!["las-delimiter"]),
        (comma.as_str(), USUAL.data, vec!["las-delimiter"]),
    ] {
        let (las, findings) = Parts { version, data, ..USUAL }.read();
        assert_eq!(ids(&findings), expected, "{data}");
        assert_values(numbers(&las, "CALI"), &[8.5, 8.75, f64::NAN]);
        assert_values(numbers(&las, "GR"), &[60.0, 70.0, 80.0]);
    }
}

#[test]
fn values_that_ran_together() {
    let data = "~A\n 100.0 8.50-160.5\n 100.5 8.75 70\n 101.0 9.1120.5\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-run-on"]);
    assert_values(numbers(&las, "CALI"), &[8.5, 8.75, f64::NAN]);
    assert_values(numbers(&las, "GR"), &[-160.5, 70.0, f64::NAN]);
}

#[test]
fn rows_of_the_wrong_length_keep_only_what_is_certain() {
    let data = "~A\n 100.0 8.50 60\n 100.25 70\n 100.5 8.7 ****\n 100.75 8.7 ********\n 101.0 8.75 70\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-row-length", "las-non-numeric", "las-step"]);
    assert_values(numbers(&las, "CALI"), &[8.5, f64::NAN, 8.7, 8.7, 8.75]);
    assert_values(numbers(&las, "GR"), &[60.0, f64::NAN, f64::NAN, f64::NAN, 70.0]);
    let data = "~A\n 100.0 8.50 60\n 100.5 8.7 60 99\n 101.0 8.75 70\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-row-length"]);
    assert_values(numbers(&las, "CALI"), &[8.5, f64::NAN, 8.75]);
}

#[test]
fn columns_and_curves_may_differ_throughout() {
    let data = "~A\n 100.0 8.5\n 100.5 8.6\n 101.0 8.7\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-columns"]);
    assert!(findings[0].message.contains("GR"), "{}", findings[0].message);
    assert_values(numbers(&las, "GR"), &[f64::NAN; 3]);
    let data = "~A\n 100.0 8.5 1 2\n 100.5 8.6 1 2\n 101.0 8.7 1 2\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!((las.curves.len(), ids(&findings)), (4, vec!["las-columns"]));
    let mixed = "~A\n 1 2 3 4 5\n 1 2\n 1 2 3 4\n 1 2 3 4 5 6\n";
    assert_eq!(refusal(Parts { data: mixed, ..USUAL }.text().as_bytes()), "las-row-shape");
}

#[test]
fn words_dates_and_marks() {
    let curve = "~C\n DEPT.M :\n ZONE. :\n TIME.HHMMSS :\n CALI.IN :\n";
    let data =
        "~A\n 100.0 \"upper sand\" 00:00:01 (null)\n 100.5 shale 00:00:02 8.5\n 101.0 'b c' 00:00:03 8,75\n";
    let (las, findings) = Parts { curve, data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-decimal-comma", "las-text-curve", "las-non-numeric"]);
    let Data::Text(zone) = &las.curve("ZONE").unwrap().data else { panic!("numbers") };
    assert_eq!(zone.iter().collect::<Vec<_>>(), ["upper sand", "shale", "b c"]);
    assert_values(numbers(&las, "CALI"), &[f64::NAN, 8.5, 8.75]);
}

#[test]
fn null_values() {
    let well = "~W\n STRT.M 100.0 :\n STOP.M 101.0 :\n STEP.M 0.5 :\n";
    let (las, findings) = Parts { well, ..USUAL }.read();
    assert_eq!((las.null, ids(&findings)), (None, vec!["las-null", "las-null"]));
    assert_values(numbers(&las, "CALI"), &[8.5, 8.75, f64::NAN]);
    let data = "~A\n 100.0 -9999 60\n 100.5 8.75 70\n 101.0 -999.25 80\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-other-null"]);
    assert_values(numbers(&las, "CALI"), &[-9999.0, 8.75, f64::NAN]);
    let well = &USUAL.well.replace("-999.25", "none");
    assert_eq!(ids(&Parts { well, ..USUAL }.read().1), ["las-null", "las-null"]);
}

#[test]
fn the_index_by_name_place_and_unit() {
    let feet = |curve: &str| Parts { curve, ..USUAL }.read();
    let (las, findings) = feet("~C\n DEPTH.F :\n CALI.IN :\n GR. :\n");
    assert_eq!(ids(&findings), ["las-index-unit"]);
    assert_eq!(las.depths().unwrap()[0], MeasuredDepth::ft(100.0));
    // Not first.
    let data = "~A\n 8.5 100.0 60\n 8.6 100.5 70\n 8.7 101.0 80\n";
    let (las, findings) = Parts { curve: "~C\n CALI.IN :\n DEPT.M :\n GR. :\n", data, ..USUAL }.read();
    assert_eq!((las.index.curve(), ids(&findings)), (Some(1), vec!["las-index"]));
    assert_eq!(las.depths().unwrap()[2], MeasuredDepth::m(101.0));
    // Not named.
    let (las, findings) = feet("~C\n X.M :\n CALI.IN :\n GR. :\n");
    assert_eq!((las.index.curve(), ids(&findings)), (Some(0), vec!["las-index"]));
    // Without a unit of its own, and without any.
    let (las, findings) = feet("~C\n DEPT. :\n CALI.IN :\n GR. :\n");
    assert_eq!((las.depths().map(<[_]>::len), ids(&findings)), (Some(3), vec!["las-index-unit"]));
    let well = &USUAL.well.replace(".M", ".");
    let (las, findings) = Parts { well, curve: "~C\n DEPT. :\n CALI.IN :\n GR. :\n", ..USUAL }.read();
    assert!(matches!(las.index, Index::Other { curve: 0 }));
    assert_eq!(ids(&findings), ["las-index-unit"]);
    // Vertical depth and time are no measured depth.
    let (las, _) = feet("~C\n TVD.M :\n CALI.IN :\n GR. :\n");
    assert!(matches!(las.index, Index::Vertical { curve: 0 }) && las.depths().is_none());
    let (las, _) = feet("~C\n TIME.S :\n CALI.IN :\n GR. :\n");
    assert!(matches!(las.index, Index::Time { curve: 0 }));
}

#[test]
fn tenths_of_an_inch() {
    let well = "~W\n STRT ..1IN 1200 :\n STOP ..1IN 1440 :\n STEP ..1IN 120 :\n NULL. -999.25 :\n";
    let curve = "~C\n DEPT ..1IN :\n CALI.IN :\n";
    let (las, findings) = Parts { well, curve, data: "~A\n 1200 8\n 1320 8\n 1440 8\n", ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-index-unit"]);
    // 1200 tenths of an inch are ten feet.
    assert!((las.depths().unwrap()[0].in_ft() - 10.0).abs() < 1e-12);
}

#[test]
fn depths_that_turn_back_or_are_missing() {
    let data = "~A\n 100.0 8.5 60\n 100.5 8.6 70\n 100.5 8.7 80\n ERR 8.8 90\n 100.2 8.9 60\n 101.0 9 60\n";
    let (las, findings) = Parts { data, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-non-numeric", "las-index-value", "las-index-order"]);
    assert_eq!((las.rows(), las.depths().map(<[_]>::len)), (5, Some(5)));
    assert_values(numbers(&las, "CALI"), &[8.5, 8.6, 8.7, 8.9, 9.0]);
    let (las, findings) = Parts { data: "~A\n 101.0 8 6\n 100.5 8 6\n 100.0 8 6\n", ..USUAL }.read();
    assert_eq!(las.depths().unwrap()[0], MeasuredDepth::m(101.0));
    // Upward logs are allowed; only the header disagrees here.
    assert_eq!(ids(&findings), ["las-start-stop", "las-start-stop", "las-step"]);
}

#[test]
fn start_stop_and_step_against_the_data() {
    let well = "~W\n STRT.M 100.0 :\n STOP.M 500.0 :\n STEP.M 0.25 :\n NULL. -999.25 :\n";
    let (_, findings) = Parts { well, ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-start-stop", "las-step"]);
    assert_eq!(findings[0].place.line, Some(6));
    // Given in another unit they agree all the same.
    let well = "~W\n STRT.M 100.0 :\n STOP.FT 331.36483 :\n STEP.M 0 :\n NULL. -999.25 :\n";
    assert_eq!(ids(&Parts { well, ..USUAL }.read().1), ["las-index-unit"]);
}

#[test]
fn sections_missing_repeated_and_unknown() {
    let (las, findings) = Parts { well: "", ..USUAL }.read();
    assert_eq!((las.rows(), ids(&findings)), (3, vec!["las-section", "las-null", "las-null"]));
    let (las, findings) = Parts { curve: "", data: "~A DEPT CALI GR\n 1 2 3\n 2 3 4\n", ..USUAL }.read();
    assert_eq!(las.curves[1].mnemonic, "CALI");
    assert!(ids(&findings).contains(&"las-section"));
    let (las, findings) = Parts { data: "", ..USUAL }.read();
    assert_eq!((las.rows(), ids(&findings)), (0, vec!["las-section", "las-no-data"]));
    let twice = format!("{}{}~Zones\n a\n", USUAL.text(), USUAL.data);
    let (las, findings) = read(twice.as_bytes());
    assert_eq!((las.rows(), ids(&findings)), (3, vec!["las-section", "las-section", "las-section-unread"]));
    let unnamed = Parts { data: "~ DEPT CALI GR\n 100.0 8.5 60\n 101.0 8.5 60\n", ..USUAL };
    assert_eq!(unnamed.read().0.rows(), 2);
}

#[test]
fn header_lines_blank_commented_and_out_of_form() {
    let curve = "~C\n\n# a comment\n DEPT.M\n\n CALI.IN caliper\n GR\n ------\n";
    let data = "~A\n# head\n\n 100.0 8.5 60\n# 100.25 8.5 60\n 100.5 8.75 70\n 101.0 8.6 80\n";
    let (las, findings) = Parts { curve, data, ..USUAL }.read();
    assert_eq!(las.curves.len(), 3);
    assert_eq!(ids(&findings), ["las-header-line", "las-header-line", "las-header-line", "las-data-comment"]);
    assert_eq!(las.rows(), 3);
}

#[test]
fn curves_of_one_name_are_numbered() {
    let (las, findings) = Parts { curve: "~C\n DEPT.M :\n X.IN :\n x.IN :\n", ..USUAL }.read();
    assert_eq!(ids(&findings), ["las-duplicate-mnemonic"]);
    assert_values(numbers(&las, "X"), &[8.5, 8.75, f64::NAN]);
    assert_values(numbers(&las, "X:2"), &[60.0, 70.0, 80.0]);
    assert!(las.curve("X:3").is_none() && las.curve("X:0").is_none());
}

#[test]
fn version_3_with_one_log_is_read() {
    let head = "~Version\n VERS. 3.0 :\n WRAP. NO :\n DLM. COMMA :\n~Well\n STRT.M 1 :\n STOP.M 2 :\n STEP.M 1 :\n NULL. -999.25 :\n";
    let logs = "~Log_Definition\n DEPT.M : d {F}\n CALI.IN : c {F}\n~Core_Definition\n CT.M :\n~Log_Data | Log_Definition\n1,8.5\n2,\n";
    let (las, findings) = read(format!("{head}{logs}").as_bytes());
    assert_eq!((las.version, ids(&findings)), (Version::V3, vec!["las-section-unread"]));
    assert_values(numbers(&las, "CALI"), &[8.5, f64::NAN]);
    assert_eq!(
        refusal(format!("{head}{logs}~Log_Data[2] | Log_Definition\n1,2\n").as_bytes()),
        "las-version-3"
    );
}

#[test]
fn what_is_no_log_is_refused_by_name() {
    let binary: Vec<u8> = (0..4000u32).map(|i| (i * 37 % 251) as u8).collect();
    let cases: [(&[u8], &str); 11] = [
        (b"", "las-empty"),
        (b" \r\n\t ", "las-empty"),
        (b"<!DOCTYPE html><html><body>sign in</body></html>", "las-html"),
        (b"\n  <HTML>\n<head></head>", "las-html"),
        (b"<?xml version=\"1.0\"?><logs/>", "las-html"),
        (b"%PDF-1.7\n~A\n1 2", "las-pdf"),
        (b"PK\x03\x04~A", "las-archive"),
        (b"\x1f\x8b\x08~A", "las-archive"),
        (&binary, "las-binary"),
        (b"100.0, 0.63, 302.19\n200.0, 0.5, 284.6\n", "las-no-sections"),
        (b"just some words", "las-no-sections"),
    ];
    for (bytes, id) in cases {
        assert_eq!(refusal(bytes), id);
    }
}
