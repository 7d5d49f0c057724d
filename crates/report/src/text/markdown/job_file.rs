//! The job file, field by field, from the description its reader uses.

use well::record::{Absent, FieldDoc, Shape, TableDoc};

use super::head;
use crate::text::table::{Table, left};

/// The document of the job file.
pub fn document(root: &TableDoc) -> String {
    let about = "Every table and field of `job.toml`. A quantity is text with its unit; any unit of the kind is \
                 taken. What is assumed when a field is absent is listed in every document.";
    let mut out = head("The job file", about);
    let mut made = Vec::new();
    table("", root, &mut out, &mut made);
    out
}

/// One table and, after it, the tables inside it; a table that is used twice is shown once.
fn table(path: &str, doc: &TableDoc, out: &mut String, made: &mut Vec<(&'static str, String)>) {
    if let Some((_, first)) = made.iter().find(|(name, _)| *name == doc.name) {
        *out += &format!("\n## `{path}`\n\n{} Fields as in `{first}`.\n", tidy(doc.doc));
        return;
    }
    made.push((doc.name, path.to_string()));
    if !path.is_empty() {
        *out += &format!("\n## `{path}`\n");
    }
    *out += &format!("\n{}\n\n", tidy(doc.doc));
    let mut rows = Table::new(&[left("field"), left("holds"), left("if absent"), left("what it is")]);
    for field in &doc.fields {
        rows.row([field.key.to_string(), holds(field.shape), absent(field), tidy(field.doc)]);
    }
    *out += &rows.markdown();
    for field in &doc.fields {
        if let Some((inner, mark)) = inner(field.shape) {
            let at = if path.is_empty() { field.key.to_string() } else { format!("{path}.{}", field.key) };
            table(&format!("{at}{mark}"), &inner(), out, made);
        }
    }
}

/// Makes the description of a table.
type TableOf = fn() -> TableDoc;

/// The table inside a shape, and the mark of a list.
fn inner(shape: Shape) -> Option<(TableOf, &'static str)> {
    match shape {
        Shape::Table(table) => Some((table, "")),
        Shape::List(item) => match item() {
            Shape::Table(table) => Some((table, "[]")),
            _ => None,
        },
        _ => None,
    }
}

fn holds(shape: Shape) -> String {
    match shape {
        Shape::Quantity(kind) if kind.unitless => "a number or a percentage".into(),
        Shape::Quantity(kind) => format!("{} ({})", kind.name, kind.unit_list()),
        Shape::Text => "text".into(),
        Shape::Whole => "a whole number".into(),
        Shape::Bool => "true or false".into(),
        Shape::Choice(words) => {
            words.iter().map(|(w, _)| format!("\"{w}\"")).collect::<Vec<_>>().join(" or ")
        }
        Shape::List(item) => match item() {
            Shape::Table(_) => "a list of tables".into(),
            other => format!("a list, each: {}", holds(other)),
        },
        Shape::Table(_) => "a table".into(),
    }
}

fn absent(field: &FieldDoc) -> String {
    match field.absent {
        Absent::Refused => "refused".into(),
        Absent::Empty => "left out".into(),
        Absent::Default(text) => format!("{text} is taken"),
        Absent::Assumed(text, basis) => format!("{text} is assumed and listed ({basis})"),
    }
}

fn tidy(doc: &str) -> String {
    doc.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_table_of_the_job_file_is_there() {
        let text = super::document(&well::job::JobFile::table());
        for part in ["## `hole.section[]`", "## `packer.swell.row[]`", "bbl/min", "is assumed and listed"] {
            assert!(text.contains(part), "{part} is not in the document");
        }
    }
}
