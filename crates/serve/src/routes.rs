//! The addresses of the page and of what it asks.

use std::sync::Arc;

use axum::Json;
use axum::Router;
use axum::extract::rejection::JsonRejection;
use axum::extract::{DefaultBodyLimit, Path, State};
use axum::http::{StatusCode, Uri, header};
use axum::middleware;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use schemars::JsonSchema;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use crate::answer;
use crate::ask::Save;
use crate::assets;
use crate::desk::{Desk, Unsaved};
use crate::guard::guard;
use crate::openapi;

/// Longest request body, bytes: several times the longest job file that is read.
const LONGEST: usize = 4 << 20;

/// The whole page for a desk.
pub fn router(desk: Desk) -> Router {
    let desk = Arc::new(desk);
    Router::new()
        .route("/api/job", get(job).put(save))
        .route("/api/form", post(form))
        .route("/api/edit", post(edit))
        .route("/api/plan", post(plan))
        .route("/api/working", post(working))
        .route("/api/run", post(run))
        .route("/api/faults", get(|| async { Json(answer::faults()) }))
        .route("/api/checks/{id}", get(explain))
        .route("/api/documents/{name}", get(document))
        .route("/api/openapi.json", get(|| async { Json(openapi::document()) }))
        .fallback(get(|uri: Uri| async move { assets::file(uri.path()) }))
        .layer(DefaultBodyLimit::max(LONGEST))
        .layer(middleware::from_fn_with_state(Arc::clone(&desk), guard))
        .with_state(desk)
}

/// A body: a JSON object, and no list in its place.
type Body = Result<Json<Map<String, Value>>, JsonRejection>;

/// The job file as it stands.
#[derive(Serialize, JsonSchema)]
pub(crate) struct JobText {
    /// Its text.
    text: String,
    /// Hash (SHA-256) of the text, to save over it.
    hash: String,
}

/// The job file was saved.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Saved {
    /// Hash of its text now.
    hash: String,
}

/// What is wrong.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Wrong {
    /// In words.
    pub error: String,
    /// Hash of the job file now, where it was changed by someone else.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hash: Option<String>,
}

/// An answer that says what is wrong.
pub(crate) fn wrong(status: StatusCode, what: impl Into<String>) -> Response {
    (status, Json(Wrong { error: what.into(), hash: None })).into_response()
}

/// Takes a body apart, or says what is wrong with it.
fn open<T: DeserializeOwned>(body: Body) -> Result<T, Box<Response>> {
    let Json(fields) = body.map_err(|e| Box::new(wrong(e.status(), e.body_text())))?;
    let unlike = |e: serde_json::Error| Box::new(wrong(StatusCode::UNPROCESSABLE_ENTITY, e.to_string()));
    serde_json::from_value(Value::Object(fields)).map_err(unlike)
}

/// Works on the desk away from the threads that answer.
async fn work<T: Send + 'static>(
    desk: Arc<Desk>,
    task: impl FnOnce(&Desk) -> T + Send + 'static,
) -> Result<T, Box<Response>> {
    let done = tokio::task::spawn_blocking(move || task(&desk)).await;
    done.map_err(|e| Box::new(wrong(StatusCode::INTERNAL_SERVER_ERROR, e.to_string())))
}

async fn job(State(desk): State<Arc<Desk>>) -> Response {
    match work(desk, |d| d.text()).await {
        Ok(Ok((text, hash))) => Json(JobText { text, hash }).into_response(),
        Ok(Err(e)) => wrong(StatusCode::INTERNAL_SERVER_ERROR, e),
        Err(answer) => *answer,
    }
}

async fn save(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask: Save| match d.save(&ask.text, &ask.base) {
        Ok(hash) => Json(Saved { hash }).into_response(),
        Err(Unsaved::Changed(hash)) => {
            let error = "the job file was changed by someone else since this page read it".to_string();
            (StatusCode::CONFLICT, Json(Wrong { error, hash: Some(hash) })).into_response()
        }
        Err(Unsaved::Refused(e)) => wrong(StatusCode::INTERNAL_SERVER_ERROR, e),
    })
    .await
}

/// Answers a request with a task on the desk.
async fn answered<T: DeserializeOwned + Send + 'static>(
    desk: Arc<Desk>,
    body: Body,
    task: impl FnOnce(&Desk, T) -> Response + Send + 'static,
) -> Response {
    let ask = match open(body) {
        Ok(ask) => ask,
        Err(answer) => return *answer,
    };
    work(desk, move |d| task(d, ask)).await.unwrap_or_else(|answer| *answer)
}

/// An answer, or why there is none.
fn told<T: Serialize>(result: Result<T, String>) -> Response {
    match result {
        Ok(value) => Json(value).into_response(),
        Err(e) => wrong(StatusCode::UNPROCESSABLE_ENTITY, e),
    }
}

async fn form(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask| told(answer::form(d, ask))).await
}

async fn edit(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask| told(answer::edit(d, ask))).await
}

async fn plan(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask| Json(answer::plan(d, ask)).into_response()).await
}

async fn working(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask| match answer::working(d, ask) {
        Some(value) => Json(value).into_response(),
        None => wrong(StatusCode::NOT_FOUND, "the plan has no such figure"),
    })
    .await
}

async fn explain(Path(id): Path<String>) -> Response {
    match answer::explain(&id) {
        Some(value) => Json(value).into_response(),
        None => wrong(StatusCode::NOT_FOUND, "no check is called so"),
    }
}

async fn run(State(desk): State<Arc<Desk>>, body: Body) -> Response {
    answered(desk, body, |d, ask| match answer::run(d, ask) {
        Ok(bytes) => ([(header::CONTENT_TYPE, "application/octet-stream")], bytes).into_response(),
        Err(e) => wrong(StatusCode::UNPROCESSABLE_ENTITY, e),
    })
    .await
}

async fn document(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Response {
    let kind = match name.rsplit_once('.').map(|n| n.1) {
        Some("pdf") => "application/pdf",
        Some("html") => "text/html; charset=utf-8",
        _ => "text/plain; charset=utf-8",
    };
    // A document is kept, not shown as a part of this page.
    let kept = (header::CONTENT_DISPOSITION, "attachment");
    match work(desk, move |d| answer::document(d, &name)).await {
        Ok(Ok(Some(bytes))) => ([(header::CONTENT_TYPE, kind), kept], bytes).into_response(),
        Ok(Ok(None)) => wrong(StatusCode::NOT_FOUND, "the plan has no such document"),
        Ok(Err(e)) => wrong(StatusCode::UNPROCESSABLE_ENTITY, e),
        Err(answer) => *answer,
    }
}
