//! The reader of joint tallies.

use std::collections::HashMap;

use super::check;
use super::joint::{Joint, JointKind, LengthOrigin};
use super::range::LengthRange;
use crate::finding::{Read, Severity};
use crate::table::{Caps, Column, Notes, Row, in_file_order, read_table_within};
use quantity::{Diameter, Length, Quantity, Ratio, said};

/// The columns of a tally, with the names they go by. A name that leaves the pin out goes
/// before one that does not.
const WANTED: &[Column] = &[
    Column::required::<Length>(
        "length",
        &[
            "net length",
            "effective length",
            "made up length",
            "make up length",
            "length less thread",
            "tally length",
            "joint length",
            "strapped length",
            "measured length",
            "len",
            "feet",
            "ft",
            "metres",
            "meters",
            "m",
            "overall length",
            "total joint length",
            "length overall",
        ],
    ),
    Column::optional::<Ratio>("tenths", &["10ths"]),
    Column::optional::<Ratio>("hundredths", &["100ths"]),
    Column::text(
        "number",
        &[
            "joint no",
            "joint number",
            "joint",
            "jt no",
            "jt",
            "jnt",
            "jnt no",
            "no",
            "nr",
            "nbr",
            "tally no",
            "item no",
            "item number",
            "joint id",
            "row",
        ],
    ),
    Column::text(
        "serial",
        &[
            "serial no",
            "serial number",
            "s n",
            "sn",
            "pipe no",
            "pipe number",
            "heat no",
            "heat number",
            "heat",
        ],
    ),
    Column::text(
        "description",
        &[
            "item description",
            "desc",
            "item",
            "component",
            "type",
            "kind",
            "remarks",
            "remark",
            "comments",
            "comment",
            "notes",
        ],
    ),
    Column::optional::<Diameter>("od", &["outer diameter", "outside diameter", "o d"]).assuming("in"),
    Column::optional::<Diameter>("id", &["inner diameter", "inside diameter", "i d"]).assuming("in"),
];

/// Headings under which the pin is in the length.
const OVERALL: &[&str] = &["overall", "total"];

/// Bounds of a plausible length, m.
const PLAUSIBLE: std::ops::RangeInclusive<f64> = 0.3..=16.0;

/// Reads a tally: any column order, feet or metres, feet with tenths or hundredths beside,
/// remarks between the rows. Rows with a fault are left out and named in a finding; reading
/// goes on.
///
/// ```
/// use well::tally::{JointKind, read_tally_csv};
/// let file = b"Joint No,Serial,Length (ft),Description\n1,A100,41.35,4-1/2 in 13.5 lb/ft\n2,A101,10.02,pup\n";
/// let read = read_tally_csv(file, "tally.csv");
/// let joints = read.value.ok_or("no tally")?;
/// assert_eq!(joints.len(), 2);
/// assert_eq!(joints[1].kind, JointKind::Pup);
/// assert!(read.findings.is_empty());
/// # Ok::<(), &str>(())
/// ```
pub fn read_tally_csv(bytes: &[u8], file: &str) -> Read<Vec<Joint>> {
    let caps = Caps { rows: 20_000, ..Caps::default() };
    let read = read_table_within(bytes, file, WANTED, caps);
    let Some(table) = read.value else { return Read::none(read.findings) };
    let mut notes = Notes::new(file, caps.findings);
    let length = table.columns().iter().find(|c| c.name == "length");
    let heading = length.map(|c| c.heading.to_lowercase()).unwrap_or_default();
    if OVERALL.iter().any(|w| heading.contains(w)) {
        let shown = length.map(|c| c.heading.as_str()).unwrap_or_default();
        notes.at(&check::OVERALL, table.header_line, shown, "the lengths have the pin in them");
    }
    let in_feet = length.and_then(|c| c.scale.as_ref()).is_some_and(|s| s.symbol == "ft");
    let mut kept: Vec<(Joint, Row<'_>)> = Vec::with_capacity(table.len());
    let mut stated = Vec::with_capacity(table.len());
    for row in table.rows() {
        let Some(joint) = joint(&row, in_feet) else { continue };
        if is_total(&row) {
            compare_total(kept.iter().map(|(j, _)| j.length), &joint, &row, &mut notes);
            continue;
        }
        if joint.kind == JointKind::Joint {
            stated.push(joint.length);
        }
        if is_plausible(&joint, &row, &mut notes) {
            kept.push((joint, row));
        }
    }
    doubt_unit(stated, &mut notes);
    note_twice(&kept, &mut notes);
    let joints = kept.into_iter().map(|(joint, _)| joint).collect();
    Read::some(joints, in_file_order(read.findings, notes.finish()))
}

/// The joint of a row, if its length could be read.
fn joint(row: &Row<'_>, in_feet: bool) -> Option<Joint> {
    let stated: Length = row.get("length")?;
    // feet in one column, tenths or hundredths of a foot in another
    let part = |name, share: f64| row.get::<Ratio>(name).map(|r| Length::ft(r.si() / share));
    let beside = part("tenths", 10.0).or_else(|| part("hundredths", 100.0)).filter(|_| in_feet);
    let length = stated + beside.unwrap_or(Length::ZERO);
    let description = row.text("description").unwrap_or_default().to_string();
    Some(Joint {
        number: row.text("number").unwrap_or_default().to_string(),
        serial: row.text("serial").map(String::from),
        length,
        kind: JointKind::described(&description),
        description,
        od: row.get("od"),
        id: row.get("id"),
        origin: LengthOrigin::Measured,
        line: Some(row.line()),
    })
}

fn is_total(row: &Row<'_>) -> bool {
    let total = |name| {
        let words = row.text(name).unwrap_or_default().to_lowercase();
        ["total", "sum", "grand total", "subtotal"].iter().any(|w| words.trim().starts_with(w))
    };
    total("number") || total("description") || total("serial")
}

/// Holds a row called total against the sum of the joints above it.
fn compare_total(
    above: impl ExactSizeIterator<Item = Length>,
    total: &Joint,
    row: &Row<'_>,
    notes: &mut Notes,
) {
    // a hundredth of a foot a joint is rounding
    let slack = Length::ft(0.02 + 0.005 * above.len() as f64);
    let sum: Length = above.sum();
    if (total.length - sum).abs() > slack {
        let message = said!("the file's total is {}, the joints above it add up to {sum}", total.length);
        let finding = check::TOTAL.found(message).value(total.length).limit(sum);
        notes.add(finding.line(notes.file().to_string(), row.line(), row.shown()));
    }
}

/// Refuses a length no piece of pipe has; a tool may be long.
fn is_plausible(joint: &Joint, row: &Row<'_>, notes: &mut Notes) -> bool {
    let (length, name) = (joint.length, name(joint));
    let place = (notes.file().to_string(), row.line(), row.shown());
    if !(length.is_finite() && length.si() > 0.0) {
        let message = said!("{name} has a length of {length}");
        notes.add(check::SIGN.found(message).value(length).line(place.0, place.1, place.2));
        return false;
    }
    if PLAUSIBLE.contains(&length.si()) {
        return true;
    }
    let tool = joint.kind == JointKind::Tool || joint.kind == JointKind::Crossover;
    let limit =
        Length::m(if length.si() < *PLAUSIBLE.start() { *PLAUSIBLE.start() } else { *PLAUSIBLE.end() });
    let weight = if tool { Severity::Warn } else { Severity::Stop };
    let message = said!("{name} has a length of {length}");
    let finding = check::IMPLAUSIBLE.found(message).value(length).limit(limit).severity(weight);
    notes.add(finding.line(place.0, place.1, place.2));
    tool
}

fn name(joint: &Joint) -> String {
    match (joint.number.as_str(), joint.line) {
        ("", Some(line)) => format!("the {} on line {line}", joint.kind.word()),
        (number, _) => format!("{} {number}", joint.kind.word()),
    }
}

/// Whether the middle length fits no range of pipe, but would in the other unit.
fn doubt_unit(mut lengths: Vec<Length>, notes: &mut Notes) {
    lengths.sort_by(Length::total_cmp);
    let Some(middle) = lengths.get(lengths.len() / 2).copied() else { return };
    if lengths.len() < 5 || LengthRange::holding(middle).is_some() {
        return;
    }
    let (as_metres, as_feet) = (Length::m(middle.in_ft()), Length::ft(middle.in_m()));
    let other = [(as_metres, "metres under a heading in feet"), (as_feet, "feet under a heading in metres")];
    if let Some((_, words)) = other.iter().find(|(l, _)| LengthRange::holding(*l).is_some()) {
        let message =
            said!("the middle length of {} joints is {middle}; they look like {words}", lengths.len());
        notes.add(check::UNIT_DOUBT.found(message).value(middle).file(notes.file().to_string()));
    }
}

/// Numbers and serials that stand twice.
fn note_twice(kept: &[(Joint, Row<'_>)], notes: &mut Notes) {
    let numbers = kept.iter().map(|(j, r)| (j.number.as_str(), r)).filter(|(n, _)| !n.is_empty());
    for (number, row, first) in twice(numbers) {
        let message = said!("number {number} stands on line {first} too");
        notes.at(&check::NUMBER_TWICE, row.line(), row.shown(), message);
    }
    let serials = twice(kept.iter().filter_map(|(j, r)| Some((j.serial.as_deref()?, r))));
    // a column in which most numbers repeat holds heats
    if serials.len() * 5 > kept.len() {
        return;
    }
    for (serial, row, first) in serials {
        let message = said!("serial number {serial} stands on line {first} too");
        notes.at(&check::SERIAL_TWICE, row.line(), row.shown(), message);
    }
}

/// What stands again: the word, the row, and the line it stood on before.
fn twice<'t>(words: impl Iterator<Item = (&'t str, &'t Row<'t>)>) -> Vec<(&'t str, &'t Row<'t>, usize)> {
    let mut seen: HashMap<&str, usize> = HashMap::new();
    words.filter_map(|(word, row)| seen.insert(word, row.line()).map(|first| (word, row, first))).collect()
}
