//! The assumptions taken where the job file gives no figure.

use well::record::Assumption;

use crate::text::look::{Look, Role, count};
use crate::text::table::{Table, left};

/// All assumptions; empty text where none were taken.
pub fn page(assumptions: &[Assumption], look: &Look) -> String {
    if assumptions.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&[left("field"), left("taken"), left("basis")]);
    for a in assumptions {
        table.row([&a.field, &a.value.text(look.system), &a.basis]);
    }
    let title = format!("{} taken; give the field to replace one", count(assumptions.len(), "assumption"));
    format!("{}\n{}", look.paint(Role::Title, &title), table.render(look, 2))
}
