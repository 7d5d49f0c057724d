//! Findings: severity in words, place with the line of the file, value against limit, and the
//! next action.

use quantity::Quantity;
use well::{Finding, Place, Severity};

use super::explain::role;
use crate::text::look::{Look, Role, count, width};

/// Column at which the text of a finding stands.
const INDENT: usize = 6;

/// All findings, the gravest first, with a line that counts them. Those of one check that mean
/// the same place stand together, each with its own words and figures.
pub fn page(findings: &[Finding], look: &Look) -> String {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| f.severity);
    let groups = sorted.chunk_by(|a, b| alike(a, b));
    let mut out: String = groups.map(|g| group(g, look) + "\n").collect();
    out += &summary(findings);
    out += "\n";
    out
}

/// Whether two findings differ in nothing but their words, their figures and where along the well
/// they are.
fn alike(a: &Finding, b: &Finding) -> bool {
    let key = |f: &Finding| (f.id, f.severity, f.place.line);
    let texts = |f: &Finding| (f.place.file.clone(), f.place.field.clone(), f.next.to_string());
    key(a) == key(b) && texts(a) == texts(b)
}

fn group(group: &[&Finding], look: &Look) -> String {
    match group {
        [one] => entry(one, look),
        [first, ..] => {
            let shared = Place { stage: None, depth: None, ..first.place.clone() };
            let mut out = head(first, &shared, look);
            for finding in group {
                out += &look.hang("      -", INDENT + 2, &member(finding, look));
            }
            out + &next(first, look)
        }
        [] => String::new(),
    }
}

/// One finding of a group: where along the well, what is so, and its figures.
fn member(finding: &Finding, look: &Look) -> String {
    let along = Place { stage: finding.place.stage, depth: finding.place.depth, ..Place::default() };
    let at = match place(&along, look) {
        at if at.is_empty() => at,
        at => format!("{at}: "),
    };
    let message = sentence(&finding.message.text(look.system));
    let figures = figures(finding, look).map(|f| format!(" ({f})")).unwrap_or_default();
    format!("{at}{}{figures}.", message.trim_end_matches('.'))
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
    let mut out = head(finding, &finding.place, look);
    out += &look.wrap(INDENT, &sentence(&finding.message.text(look.system)));
    if let Some(figures) = figures(finding, look) {
        out += &look.wrap(INDENT, &figures);
    }
    out + &next(finding, look)
}

/// Severity, check and place, with the line of the file.
fn head(finding: &Finding, at: &Place, look: &Look) -> String {
    let word = look.paint(role(finding.severity), finding.severity.word());
    let line = format!("{word}  {}  {}", look.paint(Role::Name, finding.id), place(at, look));
    format!("{}\n{}", line.trim_end(), excerpt(finding, look))
}

fn next(finding: &Finding, look: &Look) -> String {
    look.hang("      next:", INDENT + 6, &finding.next.text(look.system))
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
