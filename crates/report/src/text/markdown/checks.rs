//! The list of checks, each with its page.

use well::Check;

use super::head;
use crate::terminal::explain::meaning;
use crate::text::table::{Table, left};

/// The document.
pub fn document<'a>(checks: impl Iterator<Item = &'a Check> + Clone) -> String {
    let about = "Every finding of the program carries the name of its check. `heelward explain NAME` prints the \
                 same pages.";
    let mut table = Table::new(&[left("check"), left("weight"), left("what it finds")]);
    checks.clone().for_each(|c| table.row([c.id, c.severity.word(), c.title]));
    let pages: String = checks.map(page).collect();
    head("Checks", about) + &table.markdown() + &pages
}

fn page(check: &Check) -> String {
    format!(
        "\n## {}\n\n{}.\n\n- weight: {} ({})\n- checks: {}\n- why: {}\n- next: {}\n- example: {}\n- references: {}\n",
        check.id,
        check.title.trim_end_matches('.'),
        check.severity.word(),
        meaning(check.severity),
        check.checks,
        check.why,
        check.next,
        check.example,
        check.references,
    )
}
