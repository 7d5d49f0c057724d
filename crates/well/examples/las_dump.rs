//! Prints what the LAS reader makes of a file, as JSON, one line a file: the curves with their
//! sums and ends, the header items, the findings. Used to compare it with another reader.
//!
//! `cargo run -q -p well --example las_dump -- FILE...`

use quantity::Quantity;
use serde_json::{Value, json};
use well::las::{Curve, Data, Index, Item, Las, Version, Wrap, read_las};

fn main() -> std::process::ExitCode {
    for path in std::env::args().skip(1) {
        match std::fs::read(&path) {
            Ok(bytes) => println!("{}", dump(&bytes, &path)),
            Err(error) => {
                eprintln!("{path}: {error}");
                return std::process::ExitCode::from(1);
            }
        }
    }
    std::process::ExitCode::SUCCESS
}

fn dump(bytes: &[u8], path: &str) -> Value {
    let read = read_las(bytes, path);
    let findings: Vec<Value> = read
        .findings
        .iter()
        .map(|f| json!({"id": f.id, "severity": f.severity.word(), "message": f.message, "line": f.place.line}))
        .collect();
    let refused = read.findings.last().filter(|_| read.value.is_none()).map(|f| f.id);
    json!({
        "file": path,
        "refused": refused,
        "findings": findings,
        "las": read.value.as_ref().map(las),
    })
}

fn las(las: &Las) -> Value {
    let version = match las.version {
        Version::V1 => "1.2",
        Version::V2 => "2.0",
        Version::V3 => "3.0",
    };
    json!({
        "version": version,
        "wrap": las.wrap == Wrap::Yes,
        "null": las.null,
        "encoding": format!("{:?}", las.encoding),
        "index": index(&las.index),
        "well": las.well.iter().map(item).collect::<Vec<_>>(),
        "parameters": las.parameters.iter().map(item).collect::<Vec<_>>(),
        "curves": las.curves.iter().map(curve).collect::<Vec<_>>(),
    })
}

fn index(index: &Index) -> Value {
    let kind = match index {
        Index::Depth { .. } => "depth",
        Index::Vertical { .. } => "vertical",
        Index::Time { .. } => "time",
        Index::Other { .. } => "other",
        Index::None => "none",
    };
    let ends = match index {
        Index::Depth { depths, .. } => [depths.first(), depths.last()].map(|d| d.map(|d| d.si())),
        _ => [None, None],
    };
    json!({"kind": kind, "curve": index.curve(), "first_m": ends[0], "last_m": ends[1]})
}

fn item(item: &Item) -> Value {
    json!({"mnemonic": item.mnemonic, "unit": item.unit, "value": item.value, "description": item.description})
}

fn curve(curve: &Curve) -> Value {
    let data = match &curve.data {
        Data::Numbers(numbers) => {
            let finite: Vec<f64> = numbers.iter().copied().filter(|n| n.is_finite()).collect();
            let end = |n: Option<&f64>| n.copied().filter(|n| n.is_finite());
            json!({
                "kind": "numbers",
                "finite": finite.len(),
                "sum": finite.iter().fold(0.0, |sum, n| sum + n),
                "first": end(numbers.first()),
                "last": end(numbers.last()),
                "min": finite.iter().copied().reduce(f64::min),
                "max": finite.iter().copied().reduce(f64::max),
            })
        }
        Data::Text(text) => json!({
            "kind": "text",
            "characters": text.iter().map(|w| w.chars().count()).sum::<usize>(),
            "first": text.get(0),
            "last": text.len().checked_sub(1).and_then(|at| text.get(at)),
        }),
    };
    json!({"mnemonic": curve.mnemonic, "unit": curve.unit, "rows": curve.len(), "data": data})
}
