//! The faults a simulated job can have: what each shows, what tells it from its look-alikes, what
//! crews do.

use pump::fault::{Begins, FAULTS, FaultDoc};
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
    let mark = match doc.begins {
        Begins::Launch => "when the ball of the stage is launched".to_string(),
        Begins::Landing => "when the ball of the stage lands".to_string(),
        Begins::AfterOpening => {
            format!("{} after the sleeve of the stage has opened (`after`)", text(doc.after))
        }
        Begins::AfterOpeningBefore => {
            format!("{} after the sleeve of the stage before has opened (`after`)", text(doc.after))
        }
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
