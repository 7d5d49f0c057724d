//! Edits of single fields: the value changes, all other text stays as it was typed.

use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value};

use super::EditError;
use super::path::{Step, steps};
use crate::record::{Shape, TableDoc};

/// Most edits at once: a ladder of a hundred rungs written anew takes a fifth of them.
const MOST: usize = 1000;
/// Longest value, bytes.
const LONGEST: usize = 65_536;

/// One edit.
#[derive(Debug, Clone, PartialEq, Eq, serde::Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// Path of a field, such as `ladder.rung[2].seat`; tables and the next item of a list are made where
    /// they are absent.
    pub path: String,
    /// What to write, as it is typed in a form; nothing to take the field, table or item out.
    pub value: Option<String>,
}

/// Does edits in order.
///
/// # Errors
/// Where the text is no TOML, or an edit names no field or has a value of another shape; nothing is done then.
pub fn edit(root: &TableDoc, text: &str, edits: &[Edit]) -> Result<String, EditError> {
    if edits.len() > MOST {
        return Err(EditError::Many { count: edits.len(), what: "edits", most: MOST });
    }
    let mut document: DocumentMut = text.parse().map_err(|e| EditError::broken(text, &e))?;
    for one in edits {
        let steps = steps(&one.path)?;
        let shape = described(root, &steps).ok_or_else(|| EditError::Unknown { path: one.path.clone() })?;
        match &one.value {
            Some(value) => set(document.as_table_mut(), &steps, worded(shape, value, &one.path)?, &one.path)?,
            None => take_out(document.as_table_mut(), &steps, &one.path)?,
        }
    }
    Ok(document.to_string())
}

/// Shape at the end of a path; none where the job file has no such field.
fn described(root: &TableDoc, steps: &[Step]) -> Option<Shape> {
    let mut shape: Option<Shape> = None;
    for step in steps {
        shape = match (step, shape) {
            (Step::Key(key), None) => root.fields.iter().find(|f| f.key == key).map(|f| f.shape),
            (Step::Key(key), Some(Shape::Table(table))) => {
                table().fields.iter().find(|f| f.key == key).map(|f| f.shape)
            }
            (Step::Item(_), Some(Shape::List(of))) => Some(of()),
            _ => None,
        };
        shape?;
    }
    shape
}

/// A value of a shape, as it is typed in a form.
fn worded(shape: Shape, text: &str, path: &str) -> Result<Value, EditError> {
    let text = text.trim();
    let wrong =
        |wanted| EditError::Value { path: path.to_string(), value: text.chars().take(80).collect(), wanted };
    if text.len() > LONGEST {
        return Err(wrong("shorter than 64 kB"));
    }
    let literal = || text.parse::<Value>().ok();
    match shape {
        Shape::Quantity(kind) if kind.unitless => {
            let number = literal().filter(|v| v.is_float() || v.is_integer());
            Ok(number.unwrap_or_else(|| Value::from(text)))
        }
        Shape::Quantity(_) | Shape::Text | Shape::Choice(_) => Ok(Value::from(text)),
        Shape::Whole => literal().filter(Value::is_integer).ok_or_else(|| wrong("a whole number")),
        Shape::Bool => literal().filter(Value::is_bool).ok_or_else(|| wrong("true or false")),
        Shape::List(_) => literal().filter(Value::is_array).ok_or_else(|| wrong("a list in square brackets")),
        Shape::Table(_) => Err(wrong("one of its fields")),
    }
}

fn set(root: &mut Table, steps: &[Step], value: Value, path: &str) -> Result<(), EditError> {
    let mut here: &mut dyn TableLike = root;
    let mut rest = steps;
    loop {
        match rest {
            [Step::Key(key)] => {
                put(here, key, value);
                return Ok(());
            }
            [Step::Key(key), Step::Item(at), Step::Key(_), ..] => {
                here = item_of(here, key, *at, path)?;
                rest = &rest[2..];
            }
            [Step::Key(key), Step::Key(_), ..] => {
                here = table_of(here, key, path)?;
                rest = &rest[1..];
            }
            _ => return Err(EditError::Path { path: path.to_string() }),
        }
    }
}

/// Puts a value into a table in the place and with the spaces and comments of the old one.
fn put(table: &mut dyn TableLike, key: &str, mut value: Value) {
    if let Some(old) = table.get_mut(key).and_then(Item::as_value_mut) {
        *value.decor_mut() = old.decor().clone();
        *old = value;
        return;
    }
    table.insert(key, Item::Value(value));
}

fn table_of<'t>(
    here: &'t mut dyn TableLike,
    key: &str,
    path: &str,
) -> Result<&'t mut dyn TableLike, EditError> {
    if !here.contains_key(key) {
        here.insert(key, Item::Table(Table::new()));
    }
    let table = here.get_mut(key).and_then(Item::as_table_like_mut);
    table.ok_or_else(|| EditError::Unknown { path: path.to_string() })
}

/// An item of a list of tables, written either way; the next one is made.
fn item_of<'t>(
    here: &'t mut dyn TableLike,
    key: &str,
    at: usize,
    path: &str,
) -> Result<&'t mut dyn TableLike, EditError> {
    if !here.contains_key(key) {
        here.insert(key, Item::ArrayOfTables(ArrayOfTables::new()));
    }
    let list = here.get_mut(key).ok_or_else(|| EditError::Unknown { path: path.to_string() })?;
    let length = match &list {
        Item::ArrayOfTables(tables) => tables.len(),
        Item::Value(Value::Array(array)) => array.len(),
        _ => 0,
    };
    let beyond = || EditError::Item { path: path.to_string(), length };
    if at > length {
        return Err(beyond());
    }
    match list {
        Item::ArrayOfTables(tables) => {
            if at == length {
                tables.push(Table::new());
            }
            tables.get_mut(at).map(|t| t as &mut dyn TableLike).ok_or_else(beyond)
        }
        Item::Value(Value::Array(array)) => {
            if at == length {
                push_like_the_last(array);
            }
            let table = array.get_mut(at).and_then(Value::as_inline_table_mut);
            table.map(|t| t as &mut dyn TableLike).ok_or_else(beyond)
        }
        _ => Err(EditError::Unknown { path: path.to_string() }),
    }
}

/// A new inline table at the end of a list, on a line of its own where the others are.
fn push_like_the_last(array: &mut Array) {
    let before = array.iter().last().and_then(|v| v.decor().prefix()?.as_str().map(String::from));
    let mut value = Value::InlineTable(InlineTable::new());
    if let Some(before) = before {
        value.decor_mut().set_prefix(before);
    }
    array.push_formatted(value);
}

fn take_out(root: &mut Table, steps: &[Step], path: &str) -> Result<(), EditError> {
    let mut here: &mut dyn TableLike = root;
    let mut rest = steps;
    let unknown = || EditError::Unknown { path: path.to_string() };
    loop {
        match rest {
            // What is not there is out already.
            [Step::Key(key)] => {
                here.remove(key);
                return Ok(());
            }
            [Step::Key(key), Step::Item(at)] => return drop_item(here, key, *at, path),
            [Step::Key(key), Step::Item(at), ..] => {
                here = item_of(here, key, *at, path)?;
                rest = &rest[2..];
            }
            [Step::Key(key), ..] => {
                let Some(item) = here.get_mut(key) else { return Ok(()) };
                here = item.as_table_like_mut().ok_or_else(unknown)?;
                rest = &rest[1..];
            }
            _ => return Err(unknown()),
        }
    }
}

fn drop_item(here: &mut dyn TableLike, key: &str, at: usize, path: &str) -> Result<(), EditError> {
    let beyond = |length| EditError::Item { path: path.to_string(), length };
    let empty = match here.get_mut(key) {
        Some(Item::ArrayOfTables(tables)) if at < tables.len() => {
            tables.remove(at);
            tables.is_empty()
        }
        Some(Item::Value(Value::Array(array))) if at < array.len() => {
            array.remove(at);
            false
        }
        Some(Item::ArrayOfTables(tables)) => return Err(beyond(tables.len())),
        Some(Item::Value(Value::Array(array))) => return Err(beyond(array.len())),
        _ => return Err(beyond(0)),
    };
    if empty {
        here.remove(key);
    }
    Ok(())
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;
    use crate::job::JobFile;

    const JOB: &str = include_str!("../../../../jobs/long-lateral/job.toml");
    const OTHER: &str = include_str!("../../../../jobs/shallow-oil/job.toml");

    fn done(text: &str, list: &[(&str, Option<&str>)]) -> Result<String, EditError> {
        let edits: Vec<Edit> =
            list.iter().map(|(p, v)| Edit { path: (*p).into(), value: v.map(String::from) }).collect();
        edit(&JobFile::table(), text, &edits)
    }

    #[test]
    fn one_value_changes_and_nothing_else() {
        let out = done(JOB, &[("hole.caliper.sigma", Some("0.05 in"))]).unwrap();
        assert_eq!(out, JOB.replace("sigma = \"0.04 in\"", "sigma = \"0.05 in\""));
        assert_eq!(done(&out, &[("hole.caliper.sigma", Some("0.04 in"))]).unwrap(), JOB);
        assert_eq!(done(JOB, &[]).unwrap(), JOB);
    }

    #[test]
    fn a_row_of_a_list_changes_in_its_place() {
        let out = done(JOB, &[("packer.rating[2].pressure", Some("9900 psi"))]).unwrap();
        let from = "hole = \"6.0 in\", temperature = \"50 degF\", pressure = \"10000 psi\"";
        assert_eq!(out, JOB.replacen(from, &from.replace("10000", "9900"), 1));
    }

    #[test]
    fn a_pin_is_added_where_there_is_none_and_read_again() {
        let list =
            [("pin[1].tool", Some("packer")), ("pin[1].stage", Some("3")), ("pin[1].depth", Some("7000 ft"))];
        let out = done(OTHER, &list).unwrap();
        assert!(out.starts_with(OTHER.trim_end()), "what was there stays");
        let file: toml::Table = out.parse().unwrap();
        assert_eq!(file["pin"][0]["stage"].as_integer(), Some(3));
        let back = done(&out, &[("pin[1]", None)]).unwrap();
        assert!(back.parse::<toml::Table>().unwrap().get("pin").is_none());
    }

    #[test]
    fn a_ladder_is_written_anew() {
        let list = [
            ("ladder.method", Some("given")),
            ("ladder.rung[1].ball", Some("1.25 in")),
            ("ladder.rung[1].seat", Some("1.22 in")),
            ("ladder.rung[2].ball", Some("1.5 in")),
        ];
        let file: toml::Table = done(JOB, &list).unwrap().parse().unwrap();
        assert_eq!(file["ladder"]["rung"][1]["ball"].as_str(), Some("1.5 in"));
        assert_eq!(file["ladder"]["method"].as_str(), Some("given"));
    }

    #[test]
    fn shapes_are_kept_and_paths_are_known() {
        for (path, value) in [
            ("system.stages", "thirty"),
            ("job.invented", "maybe"),
            ("tally.pup", "2 ft"),
            ("hole.caliper", "x"),
            ("hole.colour", "red"),
            ("pin[5].stage", "1"),
            ("a[", "1"),
        ] {
            assert!(done(JOB, &[(path, Some(value))]).is_err(), "{path}");
        }
        assert!(done("a = ", &[]).is_err());
        let ratio = done(JOB, &[("packer.swell.swell_sigma", Some("7 %"))]).unwrap();
        assert!(ratio.contains("swell_sigma = \"7 %\""));
    }

    proptest::proptest! {
        #[test]
        fn no_edit_breaks_the_file(path in "[a-z_.\\[\\]0-9]{0,30}", value in "\\PC{0,40}") {
            if let Ok(out) = done(JOB, &[(&path, Some(&value))]) {
                proptest::prop_assert!(out.parse::<toml::Table>().is_ok());
            }
        }

        #[test]
        fn any_text_comes_back_as_it_was_typed(value in "\\PC{0,60}") {
            let out = done(JOB, &[("job.name", Some(&value))]).unwrap();
            let file: toml::Table = out.parse().unwrap();
            proptest::prop_assert_eq!(file["job"]["name"].as_str().unwrap(), value.trim());
        }
    }
}
