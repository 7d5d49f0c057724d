//! Tallies as they come from location, and tallies made up for planning.

use proptest::prelude::*;
use quantity::{Length, Quantity};
use well::tally::{
    JointKind, LengthOrigin, LengthRange, SimulationError, read_tally_csv, simulated_tally, total_length,
};
use well::{Read, Severity};

fn ids<T>(read: &Read<T>) -> Vec<&'static str> {
    read.findings.iter().map(|f| f.id).collect()
}

fn feet(text: &str) -> (Vec<f64>, Vec<&'static str>) {
    let read = read_tally_csv(text.as_bytes(), "tally.csv");
    let found = ids(&read);
    let joints = read.value.unwrap_or_default();
    (joints.iter().map(|j| (j.length.in_ft() * 100.0).round() / 100.0).collect(), found)
}

#[test]
fn columns_come_in_any_order_and_unit() {
    assert_eq!(feet("Length (ft),No\n41.35,1\n40.98,2\n"), (vec![41.35, 40.98], vec![]));
    assert_eq!(feet("Jt No;Länge;Length [m]\n1;x;12,60\n"), (vec![41.34], vec!["table-decimal-comma"]));
    assert_eq!(feet("#\tSerial\tLength\n\t\tft\n1\tA1\t41.35\n").0, [41.35]);
    assert_eq!(feet("Joint,Feet,Hundredths\n1,41,35\n2,40,5\n").0, [41.35, 40.05]);
    assert_eq!(feet("Joint,Feet,10ths\n1,41,3\n").0, [41.3]);
    assert_eq!(feet("No,Length (ft)\n1,41' 6\"\n2,41.35'\n").0, [41.5, 41.35]);
}

#[test]
fn a_length_without_the_pin_goes_before_one_with_it() {
    let both = "No,Overall Length (ft),Effective Length (ft)\n1,41.70,41.35\n";
    assert_eq!(feet(both), (vec![41.35], vec!["table-column-twice"]));
    assert_eq!(feet("No,Overall Length (ft)\n1,41.70\n"), (vec![41.7], vec!["tally-overall-length"]));
}

#[test]
fn everything_on_a_joint_is_kept() {
    let text = "No,Serial No,Length (m),Description,OD (in),ID (mm)\n57A,S9,3.05,pup joint,4.5,101.6\n";
    let read = read_tally_csv(text.as_bytes(), "tally.csv");
    let joint = read.value.unwrap().remove(0);
    assert_eq!((joint.number.as_str(), joint.serial.as_deref()), ("57A", Some("S9")));
    assert_eq!((joint.kind, joint.origin, joint.line), (JointKind::Pup, LengthOrigin::Measured, Some(2)));
    assert!((joint.od.unwrap().in_inch() - 4.5).abs() < 1e-9);
    assert!((joint.id.unwrap().in_inch() - 4.0).abs() < 1e-9);
}

#[test]
fn lengths_no_joint_has_are_refused_at_their_line() {
    let text = "No,Length (ft)\n1,41.35\n2,-41.2\n3,0\n4,412.5\n5,0.5\n6,40.9\n";
    let read = read_tally_csv(text.as_bytes(), "tally.csv");
    let lines: Vec<_> = read.findings.iter().map(|f| (f.id, f.place.line, f.severity)).collect();
    assert_eq!(
        lines,
        [
            ("tally-length-sign", Some(3), Severity::Stop),
            ("tally-length-sign", Some(4), Severity::Stop),
            ("tally-length-implausible", Some(5), Severity::Stop),
            ("tally-length-implausible", Some(6), Severity::Stop),
        ]
    );
    assert_eq!(read.findings[2].place.shown.as_deref(), Some("4,412.5"));
    assert_eq!(read.value.unwrap().len(), 2);
}

#[test]
fn a_long_tool_is_kept_with_a_warning() {
    let read = read_tally_csv(b"No,Length (ft),Item\n1,60,packer assembly\n", "tally.csv");
    assert_eq!(read.findings[0].severity, Severity::Warn);
    assert_eq!(read.value.unwrap().len(), 1);
}

#[test]
fn numbers_and_serials_that_stand_twice_are_named() {
    let rows: String = (1..=20).map(|n| format!("{n},S{n},41.{n:02}\n")).collect();
    let text = format!("No,Serial,Length (ft)\n{rows}7,S30,40.00\n21,S3,40.00\n");
    let read = read_tally_csv(text.as_bytes(), "tally.csv");
    assert_eq!(ids(&read), ["tally-number-twice", "tally-serial-twice"]);
    assert!(read.findings[0].message.contains("line 8"));
    let heats: String = (1..=20).map(|n| format!("{n},H7,41.00\n")).collect();
    assert_eq!(feet(&format!("No,Heat No,Length (ft)\n{heats}")).1, Vec::<&str>::new());
}

#[test]
fn a_total_is_held_against_the_sum() {
    let joints = "No,Length (ft)\n1,41.35\n2,40.98\n";
    assert_eq!(feet(&format!("{joints}Total,82.33\n")), (vec![41.35, 40.98], vec![]));
    assert_eq!(feet(&format!("{joints}Total,123.33\n")), (vec![41.35, 40.98], vec!["tally-total"]));
}

#[test]
fn lengths_of_the_other_unit_are_doubted() {
    let rows =
        |from: f64| (0..8).map(|n| format!("{n},{:.2}\n", from + 0.1 * f64::from(n))).collect::<String>();
    assert_eq!(feet(&format!("No,Length (ft)\n{}", rows(12.4))).1, ["tally-unit-doubt"]);
    let (joints, found) = feet(&format!("No,Length (m)\n{}", rows(41.0)));
    assert!(joints.is_empty() && found.contains(&"tally-unit-doubt"), "{found:?}");
    assert_eq!(feet(&format!("No,Length (ft)\n{}", rows(41.0))).1, Vec::<&str>::new());
}

#[test]
fn a_bare_length_is_refused() {
    let read = read_tally_csv(b"No,Length\n1,41.35\n", "tally.csv");
    assert!(read.value.is_none());
    assert_eq!(ids(&read), ["table-unit-missing"]);
}

#[test]
fn a_simulated_tally_says_so_and_can_be_repeated() {
    let (mean, sd) = LengthRange::Three.assumed();
    let tally = simulated_tally(11, 200, LengthRange::Three, mean, sd).unwrap();
    assert!(tally.iter().all(|j| j.origin == LengthOrigin::Simulated && j.description.contains("simulated")));
    assert_eq!(tally, simulated_tally(11, 200, LengthRange::Three, mean, sd).unwrap());
    assert_ne!(tally, simulated_tally(12, 200, LengthRange::Three, mean, sd).unwrap());
    let error = simulated_tally(1, 20_001, LengthRange::Three, mean, sd).unwrap_err();
    assert_eq!(error, SimulationError::Count { count: 20_001 });
    assert!(simulated_tally(1, 1, LengthRange::Three, Length::ft(30.0), sd).is_err());
    assert!(simulated_tally(1, 1, LengthRange::Three, mean, Length::ft(-1.0)).is_err());
    assert!(simulated_tally(1, 1, LengthRange::Three, mean, Length::from_si(f64::NAN)).is_err());
}

/// The program's own digits: they tell when the random numbers change, and prove nothing else.
#[test]
fn regress_first_simulated_joints() {
    let (mean, sd) = LengthRange::Three.assumed();
    let tally = simulated_tally(1, 5, LengthRange::Three, mean, sd).unwrap();
    let feet: Vec<String> = tally.iter().map(|j| format!("{:.2}", j.length.in_ft())).collect();
    assert_eq!(feet, REGRESS);
}

const REGRESS: [&str; 5] = ["44.00", "42.61", "41.31", "40.58", "40.13"];

#[test]
fn ranges_hold_their_lengths() {
    assert_eq!(LengthRange::holding(Length::ft(41.0)), Some(LengthRange::Three));
    assert_eq!(LengthRange::holding(Length::ft(30.0)), Some(LengthRange::Two));
    assert_eq!(LengthRange::holding(Length::ft(18.0)), Some(LengthRange::One));
    assert_eq!(LengthRange::holding(Length::ft(10.0)), None);
    assert_eq!(LengthRange::of("r3"), Some(LengthRange::Three));
}

proptest! {
    #[test]
    fn a_simulated_tally_keeps_to_its_range(seed in any::<u64>(), mean in 36.0f64..46.0, sd in 0.0f64..6.0) {
        let (mean, sd) = (Length::ft(mean), Length::ft(sd));
        let tally = simulated_tally(seed, 60, LengthRange::Three, mean, sd).unwrap();
        let (low, high) = LengthRange::Three.limits();
        prop_assert!(tally.iter().all(|j| j.length >= low && j.length <= high));
        prop_assert_eq!(tally.len(), 60);
    }

    #[test]
    fn no_bytes_make_the_reader_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read_tally_csv(&bytes, "tally.csv");
        let mut text = b"No;Serial;Length (ft);Description\n".to_vec();
        text.extend(bytes);
        let read = read_tally_csv(&text, "tally.csv");
        for joint in read.value.unwrap_or_default() {
            prop_assert!(joint.length.is_finite() && joint.length.in_m() >= 0.0);
        }
    }

    #[test]
    fn the_sum_survives_the_file(lengths in proptest::collection::vec(34.0f64..48.0, 1..60), metres in any::<bool>()) {
        let (unit, factor) = if metres { ("m", 0.3048) } else { ("ft", 1.0) };
        let rows: String =
            lengths.iter().enumerate().map(|(n, l)| format!("{},{:.4}\n", n + 1, l * factor)).collect();
        let read = read_tally_csv(format!("No,Length ({unit})\n{rows}").as_bytes(), "tally.csv");
        let sum = total_length(&read.value.unwrap()).in_ft();
        prop_assert!((sum - lengths.iter().sum::<f64>()).abs() < 0.01);
    }
}
