//! Text form both ways, and the exactness of the constants.

use proptest::prelude::*;
use quantity::*;

#[test]
fn units_that_fit_are_named() {
    let bare = "4.5".parse::<Length>().unwrap_err().to_string();
    assert!(bare.contains("no unit") && bare.contains("ft"), "{bare}");
    let wrong = "4.5 lb".parse::<Pressure>().unwrap_err().to_string();
    assert_eq!(
        wrong,
        "`lb` is not a unit of pressure difference; use one of: Pa, psi, kPa, MPa, bar, ksi, GPa"
    );
    let comma = "4,5 in".parse::<Diameter>().unwrap_err().to_string();
    assert!(comma.contains("point"), "{comma}");
}

#[test]
fn fractions_and_spellings() {
    assert_eq!("4-1/2 in".parse::<Diameter>().unwrap(), Diameter::inch(4.5));
    assert_eq!("1/16 in".parse::<Diameter>().unwrap(), Diameter::inch(0.0625));
    assert_eq!("4 1/2in".parse::<Diameter>().unwrap(), Diameter::inch(4.5));
    assert_eq!("15 bpm".parse::<FlowRate>().unwrap(), FlowRate::bbl_per_min(15.0));
    assert_eq!("1e3 psi".parse::<Pressure>().unwrap(), Pressure::psi(1e3));
    assert_eq!("0.3".parse::<Ratio>().unwrap(), Ratio::of(0.3));
    assert!("".parse::<Length>().is_err());
    assert!("nan ft".parse::<Length>().is_err());
    assert!("1e400 ft".parse::<Length>().is_err());
}

#[test]
fn printed_conversions() {
    // NIST SP 811 (2008), appendix B.8: printed factors, to their printed digits.
    assert!((Pressure::psi(1.0).si() - 6.894_757e3).abs() < 5e-4);
    assert!((Volume::bbl(1.0).si() - 1.589_873e-1).abs() < 5e-8);
    assert!((Power::hp(1.0).si() - 7.456_999e2).abs() < 5e-5);
    assert!((Temperature::deg_f(212.0).in_deg_c() - 100.0).abs() < 1e-10);
    // hydraulic horsepower, psi times bbl/min over 40.8163
    let hp = (Pressure::psi(8000.0) * FlowRate::bbl_per_min(15.0)).in_hp();
    assert!((hp - 8000.0 * 15.0 / 40.8163).abs() < 0.01);
}

#[test]
fn reciprocal_units_are_read() {
    assert_eq!("3e-6 1/psi".parse::<Compressibility>().unwrap(), Compressibility::per_psi(3e-6));
    assert_eq!("511 1/s".parse::<ShearRate>().unwrap(), ShearRate::per_second(511.0));
    assert!("1/s".parse::<ShearRate>().is_err());
}

#[test]
fn written_roots_square_to_their_unit() {
    use quantity::constant::*;
    assert!((ROOT_BARREL_PER_MINUTE.powi(2) * MINUTE / BARREL - 1.0).abs() < 1e-15);
    assert!((ROOT_MINUTE.powi(2) / MINUTE - 1.0).abs() < 1e-15);
    assert!((ROOT_INCH.powi(2) / INCH - 1.0).abs() < 1e-15);
}

#[test]
fn json_is_si_with_its_unit() {
    let text = serde_json::to_string(&Diameter::inch(4.5)).unwrap();
    assert_eq!(text, r#"{"value":0.1143,"unit":"m"}"#);
}

#[test]
fn no_quantity_is_left_out_of_the_round_trip() {
    let declared = include_str!("../src/types.rs").lines().filter(|l| *l == "quantity! {").count();
    assert_eq!(KINDS.len(), declared);
}

/// Text in any unit reads as the number it says.
fn round_trip(kind: &'static Kind, value: f64) -> Result<(), TestCaseError> {
    for unit in kind.units {
        let text =
            if unit.symbol.is_empty() { format!("{value}") } else { format!("{value} {}", unit.symbol) };
        let read = Value::parse(&text, kind).map_err(|e| TestCaseError::fail(e.to_string()))?;
        let back = unit.from_si(read.si());
        let scale = value.abs().max((unit.offset / unit.factor).abs()).max(1e-300);
        prop_assert!((back - value).abs() <= 1e-14 * scale, "{}: {text}: {back}", kind.name);
    }
    Ok(())
}

/// What is printed for a person reads as the figure it was printed from, within the digits shown.
fn printed(kind: &'static Kind, system: System, value: f64, digits: usize) -> Result<(), TestCaseError> {
    let unit = kind.shown(system);
    let figure = Value::from_si(unit.to_si(value), kind);
    let read = |text: &str| Value::parse(text, kind).map_err(|e| TestCaseError::fail(e.to_string()));
    let noise = 1e-12 * (value.abs() + (unit.offset / unit.factor).abs());
    let exact = unit.from_si(read(&figure.exact_text(system, digits))?.si());
    let slack = value.abs() * 0.5 * 10f64.powi(1 - digits as i32) + noise;
    prop_assert!((exact - value).abs() <= slack, "{}: {value} as {exact}", kind.name);
    // Long spans of time are shown in another unit than short ones.
    let text = figure.text(system);
    let unit = text.rsplit_once(' ').and_then(|(_, symbol)| kind.unit(symbol)).unwrap_or(unit);
    let value = unit.from_si(figure.si());
    let shown = unit.from_si(read(&text)?.si());
    let slack = 0.5 * 10f64.powi(-(unit.decimals as i32)) + noise;
    prop_assert!((shown - value).abs() <= slack, "{}: {value} as {shown}", kind.name);
    Ok(())
}

proptest! {
    #[test]
    fn unit_text_round_trips(value in -1e9f64..1e9, small in -1e-9f64..1e-9) {
        for kind in KINDS {
            round_trip(kind, value)?;
            round_trip(kind, small)?;
        }
    }

    #[test]
    fn printed_text_reads_back_within_its_digits(value in -1e7f64..1e7, digits in 3usize..15) {
        for kind in KINDS {
            for system in [System::Field, System::Metric] {
                printed(kind, system, value, digits)?;
            }
        }
    }

    #[test]
    fn no_text_panics(text in "\\PC{0,24}") {
        let _ = text.parse::<Length>();
        let _ = text.parse::<Ratio>();
    }
}

#[test]
fn long_spans_of_time_are_read_in_hours_and_days() {
    let text = |t: Time| Value::of(t).text(System::Field);
    assert_eq!(text(Time::minutes(95.0)), "95.0 min");
    assert_eq!(text(Time::hours(12.5)), "12.50 h");
    assert_eq!(text(Time::days(9.5)), "9.50 d");
    assert_eq!(Value::of(Time::minutes(13_294.0)).exact_text(System::Metric, 6), "9.23194 d");
    assert_eq!(Value::of(Length::ft(1e6)).text(System::Field), "1000000.00 ft", "only time has such units");
}
