//! Reading a LAS file: characters, sections, header, layout, rows, nulls, index.

use crate::Read;
use crate::las::check;
use crate::las::decode::decode;
use crate::las::header::{Header, read_header};
use crate::las::index;
use crate::las::layout::find_layout;
use crate::las::model::{Curve, Data, Item, Las, Wrap};
use crate::las::notes::{Notes, Refusal};
use crate::las::null;
use crate::las::section::sections;
use crate::las::table::read_table;
use crate::las::{limit, model};
use std::collections::BTreeSet;

/// Reads a LAS file from its bytes. `file_name` is only for the findings.
///
/// There is no value if the file is refused; the last finding then says why.
pub fn read_las(bytes: &[u8], file_name: &str) -> Read<Las> {
    let mut notes = Notes::new(file_name);
    let read = read(bytes, file_name, &mut notes);
    let mut findings = notes.finish();
    match read {
        Ok(las) => Read::some(las, findings),
        Err(refusal) => {
            findings.push(*refusal);
            Read::none(findings)
        }
    }
}

fn read(bytes: &[u8], file_name: &str, notes: &mut Notes) -> Result<Las, Refusal> {
    let decoded = decode(bytes, notes)?;
    let sections = sections(&decoded.text, notes)?;
    let header = read_header(&sections, notes)?;
    let at = index::choose(&header, notes);
    let null = null::declared(&header, notes);
    let (mut curves, wrap) = curves(&header, bytes.len(), notes)?;
    note_duplicates(&curves, notes);
    null::mask(&mut curves, null, Some(at), notes);
    let index = index::build(&header, at, null, &mut curves, notes);
    if curves.first().is_none_or(Curve::is_empty) {
        notes.file(&check::NO_DATA, "the file has no rows");
    }
    Ok(Las {
        file: file_name.to_string(),
        encoding: decoded.encoding,
        version: header.version,
        wrap,
        null,
        well: header.well,
        parameters: header.parameters,
        other: header.other,
        curves,
        index,
    })
}

/// The curves of the header with their columns.
fn curves(header: &Header, bytes: usize, notes: &mut Notes) -> Result<(Vec<Curve>, Wrap), Refusal> {
    let Some(section) = &header.data else {
        let empty = header.curves.iter().map(|item| curve(item, Data::Numbers(Vec::new())));
        return Ok((empty.collect(), header.wrap.unwrap_or(Wrap::No)));
    };
    let layout = find_layout(section, header, notes)?;
    let columns = read_table(section, layout, &header.curves, bytes, notes)?;
    let rows = columns.first().map_or(0, |data| match data {
        Data::Numbers(n) => n.len(),
        Data::Text(t) => t.len(),
    });
    let width = columns.len().max(header.curves.len());
    if width.saturating_mul(rows) > limit::cells(bytes) {
        return Err(
            notes.refuse(&check::LIMIT, format!("{width} curves of {rows} rows are more than is read"))
        );
    }
    let titled = titled_columns(section.title, header, columns.len(), notes);
    let mut columns = columns.into_iter();
    let curves = (0..width).map(|at| {
        let data = columns.next().unwrap_or_else(|| Data::Numbers(vec![f64::NAN; rows]));
        match header.curves.get(at).or_else(|| titled.get(at)) {
            Some(item) => curve(item, data),
            None => curve(&Item::default(), data),
        }
    });
    Ok((curves.collect(), layout.wrap))
}

fn curve(item: &Item, data: Data) -> Curve {
    Curve {
        mnemonic: item.mnemonic.clone(),
        unit: item.unit.clone(),
        code: item.value.clone(),
        description: item.description.clone(),
        data,
    }
}

/// Without a curve section, names from the words after `~A`, if they are as many as the columns.
fn titled_columns(title: &str, header: &Header, columns: usize, notes: &mut Notes) -> Vec<model::Item> {
    let words: Vec<&str> = title.split_whitespace().skip(1).collect();
    if !header.curves.is_empty() || words.len() != columns {
        return Vec::new();
    }
    notes.file(&check::SECTION, "the columns are named by the words after `~A`; they have no units");
    words.iter().map(|word| Item { mnemonic: word.to_string(), ..Item::default() }).collect()
}

fn note_duplicates(curves: &[Curve], notes: &mut Notes) {
    let mut seen = BTreeSet::new();
    let mut names = BTreeSet::new();
    for curve in curves.iter().filter(|c| !c.mnemonic.is_empty()) {
        let name = curve.mnemonic.to_ascii_uppercase();
        if seen.contains(&name) {
            names.insert(name);
        } else {
            seen.insert(name);
        }
    }
    if !names.is_empty() {
        let list: Vec<&str> = names.iter().take(6).map(String::as_str).collect();
        notes.file(&check::DUPLICATE, format!("several curves are called {}", list.join(", ")));
    }
}
