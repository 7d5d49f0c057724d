//! The description of the API (OpenAPI 3.1): made from the types that are asked with and answered with.

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, SchemaGenerator};
use serde_json::{Map, Value, json};

use crate::answer::{Edited, Explained, FaultAnswer, Form, PlanAnswer, Worked};
use crate::ask;
use crate::routes::{JobText, Saved, Wrong};

/// Makes a schema, or a reference to one.
type Made = fn(&mut SchemaGenerator) -> Value;

/// What an operation answers with.
enum Answer {
    /// JSON of a type.
    Json(Made),
    /// Bytes of these kinds.
    Bytes(&'static [&'static str]),
    /// This document.
    Itself,
}

/// One operation of the API.
struct Operation {
    method: &'static str,
    path: &'static str,
    id: &'static str,
    summary: &'static str,
    /// Name and meaning of the parameter in the path.
    parameter: Option<(&'static str, &'static str)>,
    body: Option<Made>,
    answer: Answer,
    /// Refusals beside those of every operation.
    refusals: &'static [u16],
}

fn of<T: JsonSchema>(generator: &mut SchemaGenerator) -> Value {
    generator.subschema_for::<T>().to_value()
}

/// What is refused before an operation is reached.
const ALWAYS: [u16; 2] = [401, 403];
/// What a body is refused for.
const BODY: [u16; 4] = [400, 413, 415, 422];

static OPERATIONS: &[Operation] = &[
    Operation {
        method: "get",
        path: "/api/job",
        id: "readJob",
        summary: "The job file as it stands",
        parameter: None,
        body: None,
        answer: Answer::Json(of::<JobText>),
        refusals: &[500],
    },
    Operation {
        method: "put",
        path: "/api/job",
        id: "saveJob",
        summary: "Save the job file, whole or not at all, over the one it was made from",
        parameter: None,
        body: Some(of::<ask::Save>),
        answer: Answer::Json(of::<Saved>),
        refusals: &[409, 500],
    },
    Operation {
        method: "post",
        path: "/api/form",
        id: "form",
        summary: "A job file as a form",
        parameter: None,
        body: Some(of::<ask::Edited>),
        answer: Answer::Json(of::<Form>),
        refusals: &[],
    },
    Operation {
        method: "post",
        path: "/api/edit",
        id: "edit",
        summary: "Edit single fields of a job file; nothing is saved",
        parameter: None,
        body: Some(of::<ask::Edits>),
        answer: Answer::Json(of::<Edited>),
        refusals: &[],
    },
    Operation {
        method: "post",
        path: "/api/plan",
        id: "plan",
        summary: "The plan of a job",
        parameter: None,
        body: Some(of::<ask::Edited>),
        answer: Answer::Json(of::<PlanAnswer>),
        refusals: &[],
    },
    Operation {
        method: "post",
        path: "/api/working",
        id: "working",
        summary: "Where a figure comes from",
        parameter: None,
        body: Some(of::<ask::Figure>),
        answer: Answer::Json(of::<Worked>),
        refusals: &[404],
    },
    Operation {
        method: "post",
        path: "/api/run",
        id: "run",
        summary: "The job pumped by the simulator: length of its description (4 bytes, little-endian), the \
                  description as JSON filled with spaces to a multiple of eight, times as 64-bit numbers, then \
                  every other channel as 32-bit numbers, little-endian, in SI units",
        parameter: None,
        body: Some(of::<ask::RunOf>),
        answer: Answer::Bytes(&["application/octet-stream"]),
        refusals: &[],
    },
    Operation {
        method: "get",
        path: "/api/faults",
        id: "faults",
        summary: "What may go wrong in a run",
        parameter: None,
        body: None,
        answer: Answer::Json(of::<Vec<FaultAnswer>>),
        refusals: &[],
    },
    Operation {
        method: "get",
        path: "/api/checks/{id}",
        id: "explain",
        summary: "What a check is, why it matters and what to do",
        parameter: Some(("id", "identity of the check, as a finding has it")),
        body: None,
        answer: Answer::Json(of::<Explained>),
        refusals: &[400, 404],
    },
    Operation {
        method: "get",
        path: "/api/documents/{name}",
        id: "document",
        summary: "A printed document of the job as it is saved",
        parameter: Some(("name", "name of the document, such as program.pdf")),
        body: None,
        answer: Answer::Bytes(&["application/pdf", "text/html; charset=utf-8", "text/plain; charset=utf-8"]),
        refusals: &[400, 404, 422, 500],
    },
    Operation {
        method: "get",
        path: "/api/openapi.json",
        id: "openapi",
        summary: "This document",
        parameter: None,
        body: None,
        answer: Answer::Itself,
        refusals: &[],
    },
];

/// What is asked with may leave out what is optional; what is answered with holds every field.
struct Schemas {
    asked: SchemaGenerator,
    told: SchemaGenerator,
}

fn settings() -> SchemaSettings {
    SchemaSettings::draft2020_12().with(|s| {
        s.definitions_path = "/components/schemas".into();
        s.meta_schema = None;
    })
}

/// The description of the API.
pub fn document() -> Value {
    let mut schemas =
        Schemas { asked: settings().into_generator(), told: settings().for_serialize().into_generator() };
    let wrong = of::<Wrong>(&mut schemas.told);
    let mut paths: Map<String, Value> = Map::new();
    for operation in OPERATIONS {
        let told = described(operation, &wrong, &mut schemas);
        let path = paths.entry(operation.path).or_insert_with(|| json!({}));
        if let Some(path) = path.as_object_mut() {
            path.insert(operation.method.into(), told);
        }
    }
    let mut definitions = schemas.told.take_definitions(true);
    definitions.extend(schemas.asked.take_definitions(true));
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "heelward",
            "version": env!("CARGO_PKG_VERSION"),
            "description": "What the local page asks of the program. Quantities in answers are in SI with their unit \
                            beside; quantities in a job file are text with any unit of their kind.",
        },
        "paths": paths,
        "components": { "schemas": definitions },
    })
}

fn described(operation: &Operation, wrong: &Value, schemas: &mut Schemas) -> Value {
    let content = match &operation.answer {
        Answer::Json(made) => json!({ "application/json": { "schema": made(&mut schemas.told) } }),
        Answer::Itself => json!({ "application/json": { "schema": { "type": "object" } } }),
        Answer::Bytes(kinds) => {
            kinds.iter().map(|k| (k.to_string(), json!({}))).collect::<Map<String, Value>>().into()
        }
    };
    let mut responses: Map<String, Value> = Map::new();
    responses.insert("200".into(), json!({ "description": "done", "content": content }));
    let body = if operation.body.is_some() { &BODY[..] } else { &[] };
    for status in ALWAYS.iter().chain(body).chain(operation.refusals) {
        let refused = json!({
            "description": reason(*status),
            "content": { "application/json": { "schema": wrong } },
        });
        responses.insert(status.to_string(), refused);
    }
    let mut told = json!({
        "operationId": operation.id,
        "summary": operation.summary,
        "responses": responses,
    });
    if let Some(map) = told.as_object_mut() {
        if let Some((name, meaning)) = operation.parameter {
            let parameter = json!({
                "name": name, "in": "path", "required": true, "description": meaning,
                "schema": { "type": "string", "minLength": 1 },
            });
            map.insert("parameters".into(), json!([parameter]));
        }
        if let Some(made) = operation.body {
            let content = json!({ "application/json": { "schema": made(&mut schemas.asked) } });
            map.insert("requestBody".into(), json!({ "required": true, "content": content }));
        }
    }
    told
}

fn reason(status: u16) -> &'static str {
    match status {
        400 => "the request is malformed",
        401 => "the page is shared and the token is missing",
        403 => "another page or another machine asks",
        404 => "there is nothing of that name",
        409 => "the job file was changed by someone else",
        413 => "the request is longer than 4 MiB",
        415 => "a request with a body is application/json",
        422 => "the request asks for what cannot be done; `error` says why",
        _ => "the program could not read or write",
    }
}
