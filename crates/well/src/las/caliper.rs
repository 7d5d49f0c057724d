//! The hole diameter out of a log: which curve, in which unit, without what is no diameter.

use crate::Read;
use crate::hole::{Caliper, PLAUSIBLE, Sample};
use crate::las::check;
use crate::las::model::{Curve, Las};
use crate::las::notes::{Notes, Refusal};
use crate::las::unit::diameter_factor;
use quantity::constant::INCH;
use quantity::{Diameter, MeasuredDepth};

/// Curves of hole diameter by name, the usual ones first.
const NAMES: [&str; 16] = [
    "CALI", "CAL", "HCAL", "CALS", "ACAL", "CALA", "CALD", "CALX", "CAL1", "C1", "C13", "HD1", "HDIA",
    "HDAR", "LCAL", "CALY",
];
/// Two arms across each other.
const PAIRS: [(&str, &str); 7] = [
    ("C1", "C2"),
    ("C13", "C24"),
    ("CAL1", "CAL2"),
    ("CALX", "CALY"),
    ("HD1", "HD2"),
    ("CALI1", "CALI2"),
    ("CALIX", "CALIY"),
];
/// Readings outside these are no hole where the bit size is not known, m.
const EXPECTED: (f64, f64) = (2.0 * INCH, 60.0 * INCH);

/// A median below this share of the bit size is that of a differential caliper.
const DIFFERENTIAL: f64 = 0.35;

/// What a curve of length may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Nature {
    Diameter,
    Differential,
    Radius,
    Unrelated,
}

/// The hole diameter of a log, by the name of its curve or, without a name, the most likely one.
///
/// Curves that are no diameter are refused by name: a differential caliper (which reads about
/// zero), a radius, an unknown unit. Readings below half or above three times the bit size of
/// the log are left out and counted.
pub fn caliper_curve(las: &Las, name: Option<&str>) -> Read<Caliper> {
    let mut notes = Notes::new(&las.file);
    let made = taken(las, name, &mut notes);
    let mut findings = notes.finish();
    match made {
        Ok((source, samples)) => {
            let built = Caliper::new(&source, samples, Caliper::BRIDGE);
            findings.extend(built.findings);
            Read { value: built.value, findings }
        }
        Err(refusal) => {
            findings.push(*refusal);
            Read::none(findings)
        }
    }
}

type Taken = (String, Vec<Sample>);

fn taken(las: &Las, name: Option<&str>, notes: &mut Notes) -> Result<Taken, Refusal> {
    let Some(depths) = las.depths() else {
        return Err(notes.refuse(&check::CALIPER_DEPTH, "the log is not listed by measured depth"));
    };
    let curve = match name {
        Some(name) => named(las, name, notes)?,
        None => likely(las, notes)?,
    };
    let first = diameters(las, curve, notes)?;
    let across = match across(las, curve) {
        Some(second) => {
            let message = format!("{} and {} are taken as two arms", curve.mnemonic, second.mnemonic);
            notes.file(&check::CALIPER_TWO_ARMS, message);
            diameters(las, second, notes)?
        }
        None => Vec::new(),
    };
    let samples = depths.iter().zip(first).enumerate().map(|(row, (depth, diameter))| {
        let across = across.get(row).copied().flatten();
        // One arm alone still measures.
        Sample { depth: *depth, diameter: diameter.or(across), across: diameter.and(across) }
    });
    Ok((format!("{} of {}", curve.mnemonic, las.file), samples.collect()))
}

fn nature(curve: &Curve) -> Nature {
    let (name, told) = (curve.mnemonic.to_ascii_uppercase(), curve.description.to_ascii_lowercase());
    let has = |words: &[&str]| words.iter().any(|w| told.contains(w));
    if name == "DCAL" || (has(&["differential"]) && has(&["calip"])) {
        return Nature::Differential;
    }
    if has(&["radius", "radii"])
        || name.starts_with("RAD")
        || name.starts_with("CR") && diameter_factor(&curve.unit).is_some()
    {
        return Nature::Radius;
    }
    let known = NAMES.contains(&name.as_str()) || PAIRS.iter().any(|(a, b)| name == *a || name == *b);
    let described = has(&["caliper", "hole diameter", "borehole diameter"]);
    let bit = name == "BS" || has(&["bit size"]);
    let length = curve.unit.trim().is_empty() || diameter_factor(&curve.unit).is_some();
    if (known || described) && length && !bit { Nature::Diameter } else { Nature::Unrelated }
}

fn named<'l>(las: &'l Las, name: &str, notes: &Notes) -> Result<&'l Curve, Refusal> {
    let refuse = |check, message: String| Err(notes.refuse(check, message));
    let Some(curve) = las.curve(name) else {
        return refuse(
            &check::CALIPER_MISSING,
            format!("the log has no curve {name}; it has {}", lengths(las)),
        );
    };
    match nature(curve) {
        Nature::Differential => {
            let message =
                format!("{} is a differential caliper: the diameter less the bit size", curve.mnemonic);
            refuse(&check::CALIPER_DIFFERENTIAL, message)
        }
        Nature::Radius => refuse(&check::CALIPER_RADIUS, format!("{} is a radius", curve.mnemonic)),
        Nature::Diameter | Nature::Unrelated => Ok(curve),
    }
}

/// Curves that could be a diameter, for a message.
fn lengths(las: &Las) -> String {
    let fits = las.curves.iter().filter(|c| diameter_factor(&c.unit).is_some());
    let names: Vec<&str> = fits.take(8).map(|c| c.mnemonic.as_str()).collect();
    if names.is_empty() {
        "no curve of length".to_string()
    } else {
        format!("of length: {}", names.join(", "))
    }
}

fn likely<'l>(las: &'l Las, notes: &mut Notes) -> Result<&'l Curve, Refusal> {
    let rank = |curve: &Curve| {
        let place = NAMES.iter().position(|n| curve.mnemonic.eq_ignore_ascii_case(n));
        place.unwrap_or(NAMES.len())
    };
    let mut found: Vec<&Curve> =
        las.curves.iter().filter(|c| nature(c) == Nature::Diameter && c.numbers().is_some()).collect();
    found.sort_by_key(|c| rank(c));
    for (wanted, check, what) in [
        (Nature::Differential, &check::CALIPER_DIFFERENTIAL, "a differential caliper"),
        (Nature::Radius, &check::CALIPER_RADIUS, "a radius"),
    ] {
        let names: Vec<&str> =
            las.curves.iter().filter(|c| nature(c) == wanted).take(6).map(|c| c.mnemonic.as_str()).collect();
        if !names.is_empty() && found.is_empty() {
            let message =
                format!("{} is {what} and no diameter; the log has no other caliper", names.join(", "));
            return Err(notes.refuse(check, message));
        }
    }
    let Some(first) = found.first() else {
        let message = format!("no curve looks like a caliper; the log has {}", lengths(las));
        return Err(notes.refuse(&check::CALIPER_MISSING, message));
    };
    let second = across(las, first).map(|c| c.mnemonic.as_str());
    let others: Vec<&str> =
        found.iter().skip(1).map(|c| c.mnemonic.as_str()).filter(|n| Some(*n) != second).take(6).collect();
    if !others.is_empty() {
        let message = format!("{} is taken; there are also {}", first.mnemonic, others.join(", "));
        notes.file(&check::CALIPER_CHOICE, message);
    }
    Ok(first)
}

/// The arm across this one.
fn across<'l>(las: &'l Las, curve: &Curve) -> Option<&'l Curve> {
    let (_, second) = PAIRS.iter().find(|(first, _)| curve.mnemonic.eq_ignore_ascii_case(first))?;
    las.curve(second).filter(|c| nature(c) == Nature::Diameter && c.numbers().is_some())
}

/// The readings of a curve as diameters; `None` where there is none or it is implausible.
fn diameters(las: &Las, curve: &Curve, notes: &mut Notes) -> Result<Vec<Option<Diameter>>, Refusal> {
    let (name, unit) = (curve.mnemonic.as_str(), curve.unit.trim());
    let Some(factor) = diameter_factor(unit) else {
        let said = if unit.is_empty() { "no unit".to_string() } else { format!("the unit `{unit}`") };
        let message = format!("{name} has {said}; in, mm, cm, m or ft is wanted");
        return Err(notes.refuse(&check::CALIPER_UNIT, message));
    };
    let Some(numbers) = curve.numbers() else {
        return Err(notes.refuse(&check::CALIPER_MISSING, format!("{name} holds words")));
    };
    let bits = bit_sizes(las);
    let metres: Vec<f64> = numbers.iter().map(|n| n * factor).collect();
    refuse_by_readings(curve, &metres, bits.median, notes)?;
    let mut masked: Vec<usize> = Vec::new();
    let mut read: Vec<Option<Diameter>> = Vec::with_capacity(metres.len());
    for (row, diameter) in metres.into_iter().enumerate() {
        let (low, high) = bits.at(row).map_or(EXPECTED, |bit| (bit * PLAUSIBLE.0, bit * PLAUSIBLE.1));
        let good = diameter >= low && diameter <= high;
        if !good && !diameter.is_nan() {
            masked.push(row);
        }
        read.push(good.then(|| Diameter::m(diameter)));
    }
    if let Some(first) = masked.first() {
        let place = las.depths().and_then(|d| d.get(*first)).copied().unwrap_or(MeasuredDepth::ZERO);
        let message =
            format!("{} of {} readings of {name} are implausible and left out", masked.len(), read.len());
        notes.at(&check::CALIPER_MASKED, message, place);
    }
    Ok(read)
}

/// Refuses a curve whose readings, in m, cannot be diameters.
fn refuse_by_readings(curve: &Curve, metres: &[f64], bit: Option<f64>, notes: &Notes) -> Result<(), Refusal> {
    let mut valid: Vec<f64> = metres.iter().copied().filter(|d| d.is_finite()).collect();
    if valid.is_empty() {
        return Ok(());
    }
    let low = bit.map_or(EXPECTED.0, |bit| bit * DIFFERENTIAL);
    // A differential caliper lies about zero, much of it below; null values lie far below.
    let negative = valid.iter().filter(|d| **d < 0.0 && **d > -low).count();
    let middle = valid.len() / 2;
    let median = *valid.select_nth_unstable_by(middle, f64::total_cmp).1;
    let (name, unit) = (&curve.mnemonic, &curve.unit);
    if median.abs() < low && (median > 0.0 || negative > 0) {
        let message = format!("{name} reads about zero (median {:.3} in): it is no diameter", median / INCH);
        return Err(notes.refuse(&check::CALIPER_DIFFERENTIAL, message));
    }
    if median > EXPECTED.1 {
        let message = format!(
            "the median of {name} is {:.1} in under its unit `{unit}`, which no hole has",
            median / INCH
        );
        return Err(notes.refuse(&check::CALIPER_UNIT, message));
    }
    Ok(())
}

/// Bit size along the log: the curve BS, else the item BS of the header. In m.
struct BitSizes<'l> {
    curve: Option<(&'l [f64], f64)>,
    item: Option<f64>,
    median: Option<f64>,
}

impl BitSizes<'_> {
    fn at(&self, row: usize) -> Option<f64> {
        let read = self.curve.and_then(|(numbers, factor)| numbers.get(row).map(|n| n * factor));
        read.filter(|d| *d > 0.0).or(self.item)
    }
}

fn bit_sizes(las: &Las) -> BitSizes<'_> {
    let sane = |d: &f64| *d >= EXPECTED.0 && *d <= EXPECTED.1;
    let curve = las.curve("BS").and_then(|c| Some((c.numbers()?, diameter_factor(&c.unit)?)));
    let mut read: Vec<f64> = curve
        .into_iter()
        .flat_map(|(numbers, factor)| numbers.iter().map(move |n| n * factor))
        .filter(sane)
        .collect();
    let curve = curve.filter(|_| !read.is_empty());
    let item = las.diameter("BS").map(|d| d.in_m()).filter(sane);
    let middle = read.len() / 2;
    let median =
        if read.is_empty() { item } else { Some(*read.select_nth_unstable_by(middle, f64::total_cmp).1) };
    BitSizes { curve, item, median }
}
