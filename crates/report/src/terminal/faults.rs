//! The faults a simulated job can have: what each shows, what tells it from its look-alikes, what
//! crews do.

use pump::fault::{FAULTS, FaultDoc};
use quantity::{Quantity, System, Time};

use crate::text::look::{Look, Role};

/// All faults, each with its page.
pub fn list(look: &Look) -> String {
    FAULTS.iter().map(|d| page(d, look)).collect::<Vec<_>>().join("\n")
}

fn page(doc: &FaultDoc, look: &Look) -> String {
    let mut out = format!("{}\n", look.paint(Role::Name, doc.name));
    out += &look.paint(Role::Title, &look.wrap(0, doc.title));
    let parts = [
        ("  begins", begins(doc, look.system)),
        ("  size", size(doc)),
        ("  shows", doc.signature.to_string()),
        ("  told by", doc.telling.to_string()),
        ("  response", doc.response.to_string()),
    ];
    for (label, text) in parts.iter().filter(|p| !p.1.is_empty()) {
        out += &look.hang(label, 12, text);
    }
    out
}

/// When a fault begins, in words.
pub fn begins(doc: &FaultDoc, system: System) -> String {
    let text = |s: f64| Time::seconds(s).text(system);
    let words = doc.begins.words();
    let mark = match doc.begins.waits() {
        true => format!("{} {words} (`after`)", text(doc.after)),
        false => words.to_string(),
    };
    if doc.over > 0.0 { format!("{mark}; over {} (`over`)", text(doc.over)) } else { mark }
}

/// What the size of a fault means, in words; empty where it has none.
pub fn size(doc: &FaultDoc) -> String {
    match doc.size {
        ("", _) => String::new(),
        (what, usual) => format!("{what} (`size`, {usual})"),
    }
}
