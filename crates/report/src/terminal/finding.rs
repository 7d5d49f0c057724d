//! Findings: severity in words, place with the line of the file, value against limit, and the
//! next action.

use quantity::Quantity;
use well::{Finding, Place, Severity};

use super::explain::role;
use crate::text::look::{Look, Role, count, width};

/// Column at which the text of a finding stands.
const INDENT: usize = 6;

/// All findings, the gravest first, with a line that counts them.
pub fn page(findings: &[Finding], look: &Look) -> String {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| f.severity);
    let mut out: String = sorted.iter().map(|f| entry(f, look) + "\n").collect();
    out += &summary(findings);
    out += "\n";
    out
}

/// `2 stop, 1 warn, 3 note`, or that there are none.
pub fn summary(findings: &[Finding]) -> String {
    if findings.is_empty() {
        return "no findings".to_string();
    }
    let of = |s: Severity| findings.iter().filter(|f| f.severity == s).count();
    let weights = [Severity::Stop, Severity::Warn, Severity::Note].map(|s| format!("{} {}", of(s), s.word()));
    format!("{}: {}", count(findings.len(), "finding"), weights.join(", "))
}

/// One finding.
pub fn entry(finding: &Finding, look: &Look) -> String {
    let word = look.paint(role(finding.severity), finding.severity.word());
    let mut out = format!("{word}  {}  {}", look.paint(Role::Name, finding.id), place(&finding.place, look));
    out.truncate(out.trim_end().len());
    out += "\n";
    out += &excerpt(finding, look);
    out += &look.wrap(INDENT, &sentence(&finding.message));
    if let Some(figures) = figures(finding, look) {
        out += &look.wrap(INDENT, &figures);
    }
    out += &look.hang("      next:", INDENT + 6, &finding.next);
    out
}

fn sentence(message: &str) -> String {
    let text = message.trim().trim_end_matches('.');
    let mut rest = text.chars();
    let first: String = rest.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}.", rest.as_str())
}

fn figures(finding: &Finding, look: &Look) -> Option<String> {
    let text = |v: quantity::Value| v.text(look.system);
    match (finding.value, finding.limit) {
        (Some(v), Some(l)) => Some(format!("found {}, limit {}", text(v), text(l))),
        (Some(v), None) => Some(format!("found {}", text(v))),
        (None, Some(l)) => Some(format!("limit {}", text(l))),
        (None, None) => None,
    }
}

/// File and line, field, stage and depth, those that are known.
fn place(place: &Place, look: &Look) -> String {
    let mut parts = Vec::new();
    match (&place.file, place.line) {
        (Some(file), Some(line)) => parts.push(format!("{file}:{line}")),
        (Some(file), None) => parts.push(file.clone()),
        _ => {}
    }
    parts.extend(place.field.clone());
    parts.extend(place.stage.map(|s| format!("stage {s}")));
    parts.extend(place.depth.map(|d| format!("{} measured depth", d.text(look.system))));
    parts.join("  ")
}

/// The line of the file with marks under what is meant.
fn excerpt(finding: &Finding, look: &Look) -> String {
    let (Some(line), Some(shown)) = (finding.place.line, finding.place.shown.as_deref()) else {
        return String::new();
    };
    if shown.trim().is_empty() {
        return String::new();
    }
    let number = format!("{line:>INDENT$}");
    let gutter = " ".repeat(number.len());
    let mut out = format!("{number} | {}\n", shown.trim_end());
    if let Some((start, len)) = meant(finding, shown) {
        let before = " ".repeat(start);
        out += &format!("{gutter} | {before}{}\n", look.paint(role(finding.severity), &"^".repeat(len)));
    }
    out
}

/// Column and length of what a finding means in its line: the value of its field, else the
/// first text in quotes that the line holds.
fn meant(finding: &Finding, shown: &str) -> Option<(usize, usize)> {
    let range = quoted(&finding.message, shown).or_else(|| value_of_field(finding, shown))?;
    let before = shown.get(..range.start)?;
    let marked = shown.get(range)?;
    Some((width(before), width(marked).max(1)))
}

fn value_of_field(finding: &Finding, shown: &str) -> Option<std::ops::Range<usize>> {
    let field = finding.place.field.as_deref()?;
    let key = field.rsplit('.').next()?.split('[').next()?;
    let at = shown.match_indices(key).map(|(i, _)| i).find(|i| {
        let free = shown.get(..*i).and_then(|s| s.chars().last()).is_none_or(|c| !part_of_a_key(c));
        free && shown.get(i + key.len()..).is_some_and(|rest| rest.trim_start().starts_with('='))
    })?;
    let after = shown.get(at..)?.find('=')? + at + 1;
    let value = shown.get(after..)?;
    let start = after + (value.len() - value.trim_start().len());
    let value = shown.get(start..)?;
    let end = end_of_value(value);
    (end > 0).then(|| start..start + end)
}

fn part_of_a_key(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '-')
}

/// Where a value ends: at its closing quote, or before a comma or comment.
fn end_of_value(value: &str) -> usize {
    if let Some(rest) = value.strip_prefix('"') {
        return rest.find('"').map_or(value.trim_end().len(), |i| i + 2);
    }
    let end = value.find(['#', ',', '}']).unwrap_or(value.len());
    value.get(..end).map_or(0, |v| v.trim_end().len())
}

/// The first text in back quotes of the message that stands in the line as a whole word.
fn quoted(message: &str, shown: &str) -> Option<std::ops::Range<usize>> {
    message.split('`').skip(1).step_by(2).filter(|t| !t.trim().is_empty()).find_map(|text| {
        let at = shown.find(text)?;
        let free = |c: Option<char>| c.is_none_or(|c| !part_of_a_key(c));
        let before = shown.get(..at).and_then(|s| s.chars().last());
        let after = shown.get(at + text.len()..).and_then(|s| s.chars().next());
        (free(before) && free(after)).then(|| at..at + text.len())
    })
}
