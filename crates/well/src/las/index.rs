//! The index: which curve the rows are listed by, in which unit, and whether STRT, STOP and STEP
//! agree with it.

use crate::las::check;
use crate::las::header::Header;
use crate::las::model::{Curve, Data, Index, Item};
use crate::las::notes::Notes;
use crate::las::null::same;
use crate::las::unit::{depth_factor, is_tenth_inch, is_time};
use quantity::MeasuredDepth;

const DEPTH_NAMES: [&str; 7] = ["DEPT", "DEPTH", "MD", "TDEP", "DPTH", "DEP", "MDEPTH"];
const TIME_NAMES: [&str; 4] = ["TIME", "ETIM", "DATE", "DATETIME"];
const VERTICAL_NAMES: [&str; 4] = ["TVD", "TVDSS", "TVDKB", "TVDRKB"];
/// No hole is deeper along its length, m.
const DEEPEST: f64 = 16_000.0;

/// The index curve, from the header alone, counted from 0.
pub(super) fn choose(header: &Header, notes: &mut Notes) -> usize {
    let named = |item: &Item| DEPTH_NAMES.iter().any(|n| item.mnemonic.eq_ignore_ascii_case(n));
    let Some(first) = header.curves.first() else { return 0 };
    if named(first) {
        return 0;
    }
    if let Some(at) = header.curves.iter().position(named) {
        let name = header.curves.get(at).map_or("", |c| c.mnemonic.as_str());
        let message = format!(
            "the first curve is {}; {name}, number {}, is taken as the index",
            first.mnemonic,
            at + 1
        );
        notes.file(&check::INDEX, message);
        return at;
    }
    let mut known = TIME_NAMES.iter().chain(&VERTICAL_NAMES).chain(&["INDEX"]);
    if !known.any(|n| first.mnemonic.eq_ignore_ascii_case(n)) {
        let message = format!(
            "no curve is called DEPT, DEPTH or MD; the first, `{}`, is taken as the index",
            first.mnemonic
        );
        notes.file(&check::INDEX, message);
    }
    0
}

/// The index with typed depths. Rows without one are taken out of every curve.
pub(super) fn build(
    header: &Header,
    at: usize,
    null: Option<f64>,
    curves: &mut [Curve],
    notes: &mut Notes,
) -> Index {
    let Some(curve) = curves.get(at) else { return Index::None };
    let (name, unit) = (curve.mnemonic.clone(), curve.unit.clone());
    let vertical = VERTICAL_NAMES.iter().any(|n| name.eq_ignore_ascii_case(n))
        || curve.description.to_ascii_lowercase().contains("vertical");
    if vertical {
        notes.file(&check::INDEX_KIND, format!("the index `{name}` is vertical depth"));
        return Index::Vertical { curve: at };
    }
    let timed = TIME_NAMES.iter().any(|n| name.eq_ignore_ascii_case(n)) && depth_factor(&unit).is_none();
    if is_time(&unit) || timed {
        notes.file(&check::INDEX_KIND, format!("the index `{name}` is time, in `{unit}`"));
        check_span(header, curves, at, 1.0, notes);
        return Index::Time { curve: at };
    }
    let Some((factor, unit)) = unit_of_depth(header, &name, &unit, notes) else {
        return Index::Other { curve: at };
    };
    drop_rows_without_index(curves, at, null, notes);
    let Some(numbers) = curves.get(at).and_then(Curve::numbers) else {
        notes.file(&check::INDEX_VALUE, format!("the index `{name}` holds words, not depths"));
        return Index::Other { curve: at };
    };
    let depths: Vec<MeasuredDepth> = numbers.iter().map(|n| MeasuredDepth::m(n * factor)).collect();
    if is_tenth_inch(&unit) {
        notes.file(&check::INDEX_UNIT, "depth is counted in tenths of an inch and converted");
    }
    if depths.iter().any(|d| d.in_m().abs() > DEEPEST) {
        let message = format!("depths beyond {DEEPEST} m: the unit `{unit}` is doubtful");
        notes.file(&check::INDEX_UNIT, message);
    }
    note_order(&depths, notes);
    check_span(header, curves, at, factor, notes);
    Index::Depth { curve: at, depths }
}

fn well_item<'h>(header: &'h Header, name: &str) -> Option<&'h Item> {
    header.well.iter().find(|i| i.mnemonic.eq_ignore_ascii_case(name))
}

/// Metres in one unit of the index, and the unit taken.
fn unit_of_depth(header: &Header, name: &str, unit: &str, notes: &mut Notes) -> Option<(f64, String)> {
    let ends = ["STRT", "STOP", "STEP"].map(|n| well_item(header, n).map_or("", |i| i.unit.as_str()));
    let end = ends.iter().find(|u| depth_factor(u).is_some());
    if unit.is_empty() {
        let Some(end) = end else {
            notes.file(&check::INDEX_UNIT, format!("the index `{name}` has no unit"));
            return None;
        };
        notes.file(
            &check::INDEX_UNIT,
            format!("the index `{name}` has no unit; `{end}` of STRT, STOP or STEP is taken"),
        );
        return depth_factor(end).map(|f| (f, end.to_string()));
    }
    let Some(factor) = depth_factor(unit) else {
        notes.file(
            &check::INDEX_UNIT,
            format!("`{unit}`, the unit of the index `{name}`, is not known as one of depth"),
        );
        return None;
    };
    if let Some(other) = ends.iter().find(|u| depth_factor(u).is_some_and(|f| f != factor)) {
        let message = format!(
            "the index `{name}` is in `{unit}`, but STRT, STOP or STEP in `{other}`; `{unit}` is taken, one is wrong"
        );
        notes.file(&check::INDEX_UNIT, message);
    }
    Some((factor, unit.to_string()))
}

fn drop_rows_without_index(curves: &mut [Curve], at: usize, null: Option<f64>, notes: &mut Notes) {
    let Some(numbers) = curves.get(at).and_then(Curve::numbers) else { return };
    let missing = |v: f64| v.is_nan() || null.is_some_and(|n| n < 0.0 && same(v, n));
    let keep: Vec<bool> = numbers.iter().map(|v| !missing(*v)).collect();
    let dropped = keep.iter().filter(|k| !**k).count();
    if dropped == 0 {
        return;
    }
    notes.file(
        &check::INDEX_VALUE,
        format!("{dropped} of {} rows have no depth and are left out", keep.len()),
    );
    for curve in curves.iter_mut() {
        curve.data.retain(&keep);
    }
}

fn note_order(depths: &[MeasuredDepth], notes: &mut Notes) {
    let pairs = || depths.iter().zip(depths.iter().skip(1));
    let (rising, falling) = (pairs().filter(|(a, b)| b > a).count(), pairs().filter(|(a, b)| b < a).count());
    let repeated = pairs().count() - rising - falling;
    let turned = rising.min(falling);
    if turned + repeated == 0 {
        return;
    }
    let forward = rising >= falling;
    let fault = pairs().find(|(a, b)| if forward { b <= a } else { b >= a });
    let place = fault.map_or(MeasuredDepth::ZERO, |(_, b)| *b);
    let message = format!("depths turn back {turned} times and repeat {repeated} times");
    notes.at(&check::INDEX_ORDER, message, place);
}

/// STRT, STOP and STEP against the data. `factor` is metres in one unit of the index, or 1 for
/// time. An item is not held against the data if its bare number agrees: then the units differ,
/// which is told already.
fn check_span(header: &Header, curves: &[Curve], at: usize, factor: f64, notes: &mut Notes) {
    let Some(numbers) = curves.get(at).and_then(Curve::numbers) else { return };
    let (Some(first), Some(last)) = (numbers.first(), numbers.last()) else { return };
    let mut steps: Vec<f64> = numbers.iter().zip(numbers.iter().skip(1)).map(|(a, b)| b - a).collect();
    let middle = steps.len() / 2;
    let step = if steps.is_empty() { 0.0 } else { *steps.select_nth_unstable_by(middle, f64::total_cmp).1 };
    let slack = (0.5 * step.abs()).max(1e-6);
    for (name, row, value) in [("STRT", "first", first), ("STOP", "last", last)] {
        let Some((item, said)) = stated(header, name, factor) else { continue };
        if said.iter().all(|s| (s - value).abs() > slack) {
            let message = format!("{name} is {} {}, the {row} row {value}", item.value, item.unit);
            notes.line(&check::START_STOP, message, item.line, &item.value);
        }
    }
    let Some((item, said)) = stated(header, "STEP", factor) else { return };
    if step != 0.0 && said.iter().all(|s| *s != 0.0 && (s - step).abs() > 0.01 * s.abs()) {
        let message = format!("STEP is {} {}, the rows are mostly {step:.6} apart", item.value, item.unit);
        notes.line(&check::STEP, message, item.line, &item.value);
    }
}

/// An item of the well section in the unit of the index: by its own unit, and as it stands.
/// `None` if it has a unit that is none of depth while the index is depth.
fn stated<'h>(header: &'h Header, name: &str, factor: f64) -> Option<(&'h Item, [f64; 2])> {
    let item = well_item(header, name)?;
    let own = match depth_factor(&item.unit) {
        Some(own) => own / factor,
        None if is_time(&item.unit) && factor != 1.0 => return None,
        None => 1.0,
    };
    item.number().map(|n| (item, [n * own, n]))
}

impl Data {
    /// Keeps the rows marked.
    fn retain(&mut self, keep: &[bool]) {
        match self {
            Data::Numbers(numbers) => {
                let mut marks = keep.iter();
                numbers.retain(|_| marks.next().copied().unwrap_or(true));
            }
            Data::Text(text) => {
                let mut kept = crate::las::model::TextColumn::default();
                text.iter().zip(keep).filter(|(_, k)| **k).for_each(|(word, _)| kept.push(word));
                *text = kept;
            }
        }
    }
}
