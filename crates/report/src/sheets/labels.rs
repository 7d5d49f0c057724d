//! What the faults of a simulated job really did: the truth beside its channels.

use pump::Run;
use quantity::number;

use super::{Sheet, plain, seconds};

/// The labels as a table; an empty end means that the fault lasted to the end of the record.
pub fn labels_csv(run: &Run) -> String {
    let heads = [seconds("from"), seconds("until"), plain("fault"), plain("stage"), plain("what")];
    let mut sheet = Sheet::new("Faults of the simulated job, as they really were", &run.header, &heads);
    for l in &run.labels {
        let until = l.until.map(|t| number(t.in_seconds(), 2)).unwrap_or_default();
        let from = number(l.from.in_seconds(), 2);
        sheet.row([from, until, l.kind.name().to_string(), l.stage.to_string(), l.text.clone()]);
    }
    sheet.finish()
}
