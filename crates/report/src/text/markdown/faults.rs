//! The list of faults that a simulated job can have.

use pump::fault::FAULTS;
use quantity::System;

use super::head;
use crate::terminal::faults::{begins, size};

/// The document.
pub fn document() -> String {
    let about = "What can be made to go wrong in a simulated job, with `heelward pump JOB --fault NAME@STAGE` or a \
                 scenario file. `heelward pump JOB --fault list` prints the same. What crews do here is `practice`, not \
                 a procedure: local codes, the supplier and the engineer in charge go first.";
    let mut out = head("Faults", about);
    for d in FAULTS {
        let size = size(d);
        let size = if size.is_empty() { String::new() } else { format!("- size: {size}\n") };
        out += &format!(
            "\n## {}\n\n{}.\n\n- begins: {}\n{size}- shows: {}\n- told by: {}\n- response: {}\n",
            d.name,
            d.title,
            begins(d, System::Field),
            d.signature,
            d.telling,
            d.response
        );
    }
    out
}
