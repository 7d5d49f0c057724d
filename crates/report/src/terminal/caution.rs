//! The cautions at the foot of a page.

use crate::text::caution::{CAUTIONS, STANDING};
use crate::text::look::{Look, Role};

/// The cautions, each under its subject.
pub fn page(look: &Look) -> String {
    let mut out = format!("{}\n", look.paint(Role::Title, "Cautions"));
    for caution in CAUTIONS {
        out += &look.wrap(2, &format!("{}: {}", caution.subject, caution.rule));
    }
    out += &look.wrap(0, STANDING);
    out
}
