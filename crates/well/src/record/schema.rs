//! The JSON Schema of the job file, made from the records' own description.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use super::{Absent, Shape, TableDoc};

/// The schema (draft 2020-12) of a document whose root is `root`.
pub fn json_schema(root: TableDoc, title: &str) -> Value {
    let mut definitions = BTreeMap::new();
    let mut schema = object(&root, &mut definitions);
    if let Some(map) = schema.as_object_mut() {
        map.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
        map.insert("title".into(), json!(title));
        map.insert("$defs".into(), json!(definitions));
    }
    schema
}

fn object(table: &TableDoc, definitions: &mut BTreeMap<String, Value>) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in &table.fields {
        let mut schema = shape(field.shape, definitions);
        if let Some(map) = schema.as_object_mut() {
            let mut text = tidy(field.doc);
            match field.absent {
                Absent::Refused => required.push(field.key),
                Absent::Default(d) => {
                    map.insert("default".into(), json!(d));
                }
                Absent::Assumed(value, basis) => {
                    text = format!("{text} If absent, {value} is assumed ({basis}) and listed.");
                }
                Absent::Empty => {}
            }
            map.insert("description".into(), json!(text));
        }
        properties.insert(field.key.to_string(), schema);
    }
    json!({
        "type": "object",
        "description": tidy(table.doc),
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn tidy(doc: &str) -> String {
    doc.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn shape(shape_of: Shape, definitions: &mut BTreeMap<String, Value>) -> Value {
    match shape_of {
        Shape::Quantity(kind) if kind.unitless => json!({ "type": ["number", "string"] }),
        Shape::Quantity(kind) => {
            let units = kind.units.iter().map(|u| escape(u.symbol)).collect::<Vec<_>>().join("|");
            json!({
                "type": "string",
                "pattern": format!("^\\s*[-+0-9_./eE ]+\\s*({units}|bpm|ppg|ppf|°F|°C)\\s*$"),
                "examples": [format!("1 {}", kind.field)],
            })
        }
        Shape::Text => json!({ "type": "string" }),
        Shape::Whole => json!({ "type": "integer", "minimum": 0 }),
        Shape::Bool => json!({ "type": "boolean" }),
        Shape::Choice(words) => {
            let list: Vec<Value> =
                words.iter().map(|(w, doc)| json!({ "const": w, "description": tidy(doc) })).collect();
            json!({ "oneOf": list })
        }
        Shape::List(item) => json!({ "type": "array", "items": shape(item(), definitions) }),
        Shape::Table(table) => {
            let table = table();
            if !definitions.contains_key(table.name) {
                definitions.insert(table.name.to_string(), Value::Null);
                let schema = object(&table, definitions);
                definitions.insert(table.name.to_string(), schema);
            }
            json!({ "$ref": format!("#/$defs/{}", table.name) })
        }
    }
}

fn escape(symbol: &str) -> String {
    symbol.chars().flat_map(|c| if "().^".contains(c) { vec!['\\', c] } else { vec![c] }).collect()
}
