//! Null values: the declared one becomes `NaN`; the usual ones that stand in the data beside it
//! are told, and taken for null only where none is declared.

use crate::las::check;
use crate::las::header::Header;
use crate::las::model::{Curve, Data};
use crate::las::notes::Notes;

/// Null values in common use (LAS 1.2 and 2.0 name the first four; the rest are practice).
const USUAL: [f64; 6] = [-999.25, -9999.25, -9999.0, -999.0, -99999.0, -32768.0];

/// The declared null value.
pub(super) fn declared(header: &Header, notes: &mut Notes) -> Option<f64> {
    let item = header.well.iter().find(|i| i.mnemonic.eq_ignore_ascii_case("NULL"));
    let null = item.and_then(|i| i.number());
    match item {
        Some(item) if null.is_none() => {
            let message = format!("NULL is `{}`, which is no number", item.value);
            notes.line(&check::NULL, message, item.line, &item.value);
        }
        None => notes.file(&check::NULL, "there is no NULL line"),
        Some(_) => {}
    }
    null
}

/// Masks the null values of every curve but the index.
pub(super) fn mask(curves: &mut [Curve], null: Option<f64>, index: Option<usize>, notes: &mut Notes) {
    let mut usual = [0usize; USUAL.len()];
    for (at, curve) in curves.iter_mut().enumerate() {
        let Data::Numbers(numbers) = &mut curve.data else { continue };
        if Some(at) == index {
            continue;
        }
        for value in numbers.iter_mut() {
            if null.is_some_and(|n| same(*value, n)) {
                *value = f64::NAN;
            } else if let Some(which) = USUAL.iter().position(|u| same(*value, *u)) {
                if let Some(count) = usual.get_mut(which) {
                    *count += 1;
                }
                if null.is_none() {
                    *value = f64::NAN;
                }
            }
        }
    }
    let found: Vec<String> = USUAL
        .iter()
        .zip(usual)
        .filter(|(_, count)| *count > 0)
        .map(|(value, count)| format!("{value} ({count} times)"))
        .collect();
    if found.is_empty() {
        return;
    }
    let list = found.join(", ");
    match null {
        Some(null) => notes.file(&check::OTHER_NULL, format!("NULL is {null}; the data also hold {list}")),
        None => notes.file(&check::NULL, format!("taken for null, as none is declared: {list}")),
    }
}

/// Equal to the last digits a file writes.
pub(super) fn same(value: f64, null: f64) -> bool {
    (value - null).abs() <= 1e-9 * null.abs()
}
