//! The form of a job file: its description walked beside its text.

use toml_edit::{Document, Item, TableLike, Value};

use super::{EditError, FormChoice, FormField, FormShape, FormTable, MOST_TABLES};
use crate::record::{Absent, FieldDoc, Shape, TableDoc};

/// Every table of a job file with its fields and their values, in the order of the description; a table that
/// is absent is there with empty fields.
///
/// # Errors
/// Where the text is no TOML, or has too many tables.
pub fn form(root: &TableDoc, text: &str) -> Result<Vec<FormTable>, EditError> {
    let document = Document::parse(text).map_err(|e| EditError::broken(text, &e))?;
    let lines = Lines::of(text);
    let mut walk = Walk { lines, out: Vec::new() };
    let place = Place { path: String::new(), required: true, in_list: false };
    walk.table(root, Some(document.as_table()), place)?;
    Ok(walk.out)
}

/// Where lines begin.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Self {
        Self(std::iter::once(0).chain(text.match_indices('\n').map(|(i, _)| i + 1)).collect())
    }

    fn at(&self, offset: usize) -> usize {
        self.0.partition_point(|s| *s <= offset)
    }
}

struct Place {
    path: String,
    required: bool,
    in_list: bool,
}

struct Walk {
    lines: Lines,
    out: Vec<FormTable>,
}

impl Walk {
    fn table(&mut self, doc: &TableDoc, here: Option<&dyn TableLike>, place: Place) -> Result<(), EditError> {
        if self.out.len() >= MOST_TABLES {
            return Err(EditError::Many { count: self.out.len() + 1, what: "tables", most: MOST_TABLES });
        }
        let item = |key: &str| here.and_then(|t| t.get(key));
        let plain = doc.fields.iter().filter_map(|f| self.field(f, item(f.key))).collect::<Vec<_>>();
        if !plain.is_empty() {
            self.out.push(FormTable {
                path: place.path.clone(),
                doc: tidy(doc.doc),
                present: here.is_some(),
                in_list: place.in_list,
                required: place.required,
                fields: plain,
            });
        }
        for field in &doc.fields {
            let path = joined(&place.path, field.key);
            let required = place.required && field.absent == Absent::Refused;
            match field.shape {
                Shape::Table(table) => {
                    let under = item(field.key).and_then(Item::as_table_like);
                    self.table(&table(), under, Place { path, required, in_list: false })?;
                }
                Shape::List(of) => {
                    if let Shape::Table(table) = of() {
                        self.list(&table(), item(field.key), &path)?;
                    }
                }
                _ => {}
            }
        }
        Ok(())
    }

    /// Every item of a list of tables, and one more that may be added.
    fn list(&mut self, doc: &TableDoc, item: Option<&Item>, path: &str) -> Result<(), EditError> {
        let items: Vec<&dyn TableLike> = match item {
            Some(Item::ArrayOfTables(list)) => list.iter().map(|t| t as &dyn TableLike).collect(),
            Some(Item::Value(Value::Array(list))) => {
                list.iter().filter_map(|v| v.as_inline_table()).map(|t| t as &dyn TableLike).collect()
            }
            _ => Vec::new(),
        };
        for (i, here) in items.iter().map(|t| Some(*t)).chain([None]).enumerate() {
            let path = format!("{path}[{}]", i + 1);
            self.table(doc, here, Place { path, required: false, in_list: true })?;
        }
        Ok(())
    }

    fn field(&self, doc: &FieldDoc, item: Option<&Item>) -> Option<FormField> {
        let (shape, units, choices) = shape(doc.shape)?;
        let absent = match doc.absent {
            Absent::Refused => "must be given".to_string(),
            Absent::Empty => "may be left out".to_string(),
            Absent::Default(value) => format!("{value} if left out"),
            Absent::Assumed(value, basis) => format!("{value} is assumed if left out ({basis})"),
        };
        let value = item.and_then(Item::as_value);
        Some(FormField {
            key: doc.key.to_string(),
            doc: tidy(doc.doc),
            shape,
            units,
            choices,
            absent,
            required: doc.absent == Absent::Refused,
            value: value.map(typed),
            line: value.and_then(|v| v.span()).map(|s| self.lines.at(s.start)),
        })
    }
}

/// Shape of a field with its units and words; none where it is a table or a list of tables.
fn shape(of: Shape) -> Option<(FormShape, Vec<String>, Vec<FormChoice>)> {
    let plain = |shape| Some((shape, Vec::new(), Vec::new()));
    match of {
        Shape::Quantity(kind) => {
            let usual = [kind.field, kind.metric];
            let rest = kind.units.iter().map(|u| u.symbol).filter(|s| !usual.contains(s));
            let mut units: Vec<String> = usual.into_iter().chain(rest).map(String::from).collect();
            units.dedup();
            Some((FormShape::Quantity, units, Vec::new()))
        }
        Shape::Text => plain(FormShape::Text),
        Shape::Whole => plain(FormShape::Whole),
        Shape::Bool => plain(FormShape::Bool),
        Shape::Choice(words) => {
            let choice = |(word, doc): &(&str, &str)| FormChoice { word: (*word).into(), meaning: tidy(doc) };
            Some((FormShape::Choice, Vec::new(), words.iter().map(choice).collect()))
        }
        Shape::List(of) => match of() {
            Shape::Table(_) => None,
            _ => plain(FormShape::List),
        },
        Shape::Table(_) => None,
    }
}

/// A value as it is typed in a form: text without its quotes, all else as in the file.
fn typed(value: &Value) -> String {
    match value.as_str() {
        Some(text) => text.to_string(),
        None => value.clone().decorated("", "").to_string(),
    }
}

fn joined(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_string() } else { format!("{path}.{key}") }
}

fn tidy(doc: &str) -> String {
    doc.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;
    use crate::job::JobFile;

    const JOB: &str = include_str!("../../../../jobs/long-lateral/job.toml");

    fn value<'a>(form: &'a [FormTable], path: &str, key: &str) -> &'a FormField {
        form.iter().find(|t| t.path == path).unwrap().fields.iter().find(|f| f.key == key).unwrap()
    }

    #[test]
    fn the_example_is_a_form_with_the_lines_of_its_fields() {
        let form = form(&JobFile::table(), JOB).unwrap();
        let sigma = value(&form, "hole.caliper", "sigma");
        assert_eq!(sigma.value.as_deref(), Some("0.04 in"));
        let line = JOB.lines().position(|l| l.starts_with("sigma = \"0.04 in\"")).unwrap() + 1;
        assert_eq!(sigma.line, Some(line));
        assert_eq!(sigma.shape, FormShape::Quantity);
        assert_eq!(value(&form, "packer.rating[2]", "hole").value.as_deref(), Some("6.0 in"));
        assert_eq!(value(&form, "job", "invented").value.as_deref(), Some("true"));
        assert!(value(&form, "tally", "pup").value.as_deref().unwrap().starts_with('['));
        let words = &value(&form, "system", "kind").choices;
        assert!(words.iter().any(|w| w.word == "hydraulic-set"));
    }

    #[test]
    fn a_list_offers_one_more_item() {
        let form = form(&JobFile::table(), JOB).unwrap();
        let pins: Vec<_> = form.iter().filter(|t| t.path.starts_with("pin[")).collect();
        assert!(pins.last().is_some_and(|t| !t.present && t.in_list));
        assert!(pins.iter().rev().skip(1).all(|t| t.present));
    }

    #[test]
    fn an_empty_file_has_all_tables_and_no_values() {
        let form = form(&JobFile::table(), "").unwrap();
        assert!(form.len() > 20);
        assert!(form.iter().all(|t| t.fields.iter().all(|f| f.value.is_none())));
    }

    #[test]
    fn broken_text_is_told_by_its_line() {
        let e = form(&JobFile::table(), "[job]\nname = \"a\n").unwrap_err();
        assert!(matches!(e, EditError::Broken { line: 2, .. }), "{e}");
    }
}
