//! Whole tables, as files come.

use super::*;
use proptest::prelude::*;
use quantity::{Angle, Length, MeasuredDepth, Quantity};

const SURVEY: &[Column] = &[
    Column::required::<MeasuredDepth>("md", &["measured depth", "depth"]).assuming("ft"),
    Column::required::<Angle>("inc", &["incl", "inclination"]).assuming("deg"),
    Column::required::<Angle>("azi", &["azim", "azimuth", "azi grid"]).assuming("deg"),
    Column::text("remark", &["comment", "comments"]),
];
const LENGTHS: &[Column] =
    &[Column::required::<Length>("length", &["len"]), Column::text("number", &["no", "joint"])];

fn ids<T>(read: &crate::Read<T>) -> Vec<&'static str> {
    read.findings.iter().map(|f| f.id).collect()
}

fn lengths(text: &str) -> (Vec<f64>, Vec<&'static str>) {
    let read = read_table(text.as_bytes(), "t.csv", LENGTHS);
    let found = ids(&read);
    let list = read.value.map(|t| t.rows().filter_map(|r| r.get::<Length>("length")).map(round).collect());
    (list.unwrap_or_default(), found)
}

fn round(l: Length) -> f64 {
    (l.in_m() * 1e4).round() / 1e4
}

#[test]
fn units_may_stand_in_heading_row_or_cell() {
    assert_eq!(lengths("No,Length (ft)\n1,10\n").0, [3.048]);
    assert_eq!(lengths("No,Length\n,ft\n1,10\n").0, [3.048]);
    assert_eq!(lengths("No,Length\n1,10 ft\n2,3 m\n").0, [3.048, 3.0]);
    assert_eq!(lengths("No\tLength_m\n1\t10\n").0, [10.0]);
    assert_eq!(lengths("No,\"Length\n(m)\"\n1,10\n").0, [10.0]);
    assert_eq!(lengths("Joint,Length\nNo,(m)\n1,10\n").0, [10.0]);
    assert_eq!(lengths("No,Length\n1,10\n"), (vec![], vec!["table-unit-missing"]));
    assert_eq!(lengths("No,Length (ft),Length (m)\n1,10,3.048\n"), (vec![3.048], vec!["table-column-twice"]));
}

#[test]
fn remarks_blank_rows_and_repeated_headings_do_no_harm() {
    let text = "My well\n\n#,Length (m)\n# first rack\n1,12.1\n--- second rack ---\n#,Length (m)\n2,12.2\n,,\n3,N/A\n";
    let (list, found) = lengths(text);
    assert_eq!(list, [12.1, 12.2]);
    assert_eq!(found, ["table-row-passed", "table-cell-missing"]);
}

#[test]
fn a_commented_heading_is_taken_when_there_is_no_other() {
    assert_eq!(lengths("# No, Length (m)\n1, 12.5\n").0, [12.5]);
}

#[test]
fn decimal_commas_are_settled_or_refused() {
    assert_eq!(
        lengths("No;Length (m)\n1;12,61\n2;1,234\n"),
        (vec![12.61, 1.234], vec!["table-decimal-comma"])
    );
    assert_eq!(lengths("No\tLength (m)\n1\t1,234.5\n"), (vec![1234.5], vec!["table-thousands"]));
    assert_eq!(lengths("No;Length (m)\n1;12,612\n").1, ["table-cell"]);
    let (list, found) = lengths("No,Length (m)\n1,12,61\n2,12\n");
    assert_eq!((list, found), (vec![12.0], vec!["table-cells-extra"]));
}

#[test]
fn faults_stand_at_their_line_and_reading_goes_on() {
    let text = "No,Length (m)\r\n1,12.1\r\n2,12.6l\r\n3,12.3\r\n";
    let read = read_table(text.as_bytes(), "tally.csv", LENGTHS);
    let fault = read.findings.first().unwrap();
    assert_eq!((fault.id, fault.place.line), ("table-cell", Some(3)));
    assert_eq!(fault.place.shown.as_deref(), Some("2,12.6l"));
    assert_eq!(fault.place.file.as_deref(), Some("tally.csv"));
    assert_eq!(read.value.unwrap().len(), 3);
}

#[test]
fn what_is_no_table_is_refused_by_name() {
    assert_eq!(lengths("PK\u{3}\u{4}abc").1, ["table-not-text"]);
    assert_eq!(lengths("").1, ["table-header-missing"]);
    assert_eq!(lengths("1;2\n3;4\n").1, ["table-header-missing"]);
    assert_eq!(lengths("No,Length (m)\n").1, ["table-empty"]);
    let caps = Caps { bytes: 10, ..Caps::default() };
    assert_eq!(ids(&read_table_within(b"No,Length (m)\n1,2\n", "t", LENGTHS, caps)), ["table-too-large"]);
}

#[test]
fn findings_and_rows_are_bounded() {
    let mut text = String::from("No,Length (m)\n");
    (0..500).for_each(|n| text += &format!("{n},x{n}\n"));
    let caps = Caps { findings: 5, ..Caps::default() };
    let read = read_table_within(text.as_bytes(), "t", LENGTHS, caps);
    assert_eq!(read.findings.len(), 6);
    assert!(read.findings.last().unwrap().message.starts_with("495 more"));
    let caps = Caps { rows: 10, ..Caps::default() };
    assert_eq!(read_table_within(text.as_bytes(), "t", LENGTHS, caps).value.unwrap().len(), 10);
}

#[test]
fn real_surveys_are_read() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data/survey");
    for (name, rows) in [("forge_16a.csv", 422), ("marcellus_5h.csv", 153), ("well_1515.csv", 83)] {
        let Ok(bytes) = std::fs::read(folder.join(name)) else {
            println!("skipped: {} is not here", folder.join(name).display());
            return;
        };
        let read = read_table(&bytes, name, SURVEY);
        assert_eq!(read.value.as_ref().map(Table::len), Some(rows), "{name}: {:?}", read.findings);
        assert!(read.value.unwrap().rows().all(|r| !r.is_faulty()));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..600)) {
        let _ = read_table(&bytes, "t", SURVEY);
    }

    #[test]
    fn no_text_makes_it_panic(body in "[0-9.,;\t \"'#\n\r°/a-fmt-]{0,200}") {
        let text = format!("No;Length (ft)\n{body}");
        let read = read_table(text.as_bytes(), "t", LENGTHS);
        for row in read.value.iter().flat_map(Table::rows) {
            prop_assert!(row.get::<Length>("length").is_none_or(|l| l.is_finite()));
        }
    }

    #[test]
    fn what_is_written_is_read_back(
        list in proptest::collection::vec(0.3f64..16.0, 1..40),
        comma in any::<bool>(),
    ) {
        let cell = |l: &f64| { let t = format!("{l:.2}"); if comma { t.replace('.', ",") } else { t } };
        let rows: Vec<String> = list.iter().enumerate().map(|(i, l)| format!("{i};{}", cell(l))).collect();
        let (got, _) = lengths(&format!("No;Length (m)\n{}\n", rows.join("\n")));
        prop_assert_eq!(got.len(), list.len());
        for (g, w) in got.iter().zip(&list) {
            prop_assert!((g - w).abs() <= 0.00501);
        }
    }
}
