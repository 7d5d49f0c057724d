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
use serde_json::{Value, json};

use crate::answer::{self, Edited, Figure, RunOf, Save};
use crate::assets;
use crate::desk::{Desk, Unsaved};
use crate::guard::guard;

/// Longest request body, bytes: several times the longest job file that is read.
const LONGEST: usize = 4 << 20;

/// The whole page for a desk.
pub fn router(desk: Desk) -> Router {
    let desk = Arc::new(desk);
    Router::new()
        .route("/api/job", get(job).put(save))
        .route("/api/check", post(check))
        .route("/api/plan", post(plan))
        .route("/api/working", post(working))
        .route("/api/run", post(run))
        .route("/api/faults", get(|| async { Json(answer::faults()) }))
        .route("/api/documents/{name}", get(document))
        .fallback(get(|uri: Uri| async move { assets::file(uri.path()) }))
        .layer(DefaultBodyLimit::max(LONGEST))
        .layer(middleware::from_fn_with_state(Arc::clone(&desk), guard))
        .with_state(desk)
}

type Body<T> = Result<Json<T>, JsonRejection>;

/// An answer that says what is wrong.
fn wrong(status: StatusCode, what: impl Into<String>) -> Response {
    (status, Json(json!({ "error": what.into() }))).into_response()
}

/// Takes a body apart, or says what is wrong with it.
fn open<T>(body: Body<T>) -> Result<T, Box<Response>> {
    body.map(|Json(b)| b).map_err(|e| Box::new(wrong(e.status(), e.body_text())))
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
        Ok(Ok((text, hash))) => Json(json!({ "text": text, "hash": hash })).into_response(),
        Ok(Err(e)) => wrong(StatusCode::INTERNAL_SERVER_ERROR, e),
        Err(answer) => *answer,
    }
}

async fn save(State(desk): State<Arc<Desk>>, body: Body<Save>) -> Response {
    let ask = match open(body) {
        Ok(ask) => ask,
        Err(answer) => return *answer,
    };
    match work(desk, move |d| d.save(&ask.text, &ask.base)).await {
        Ok(Ok(hash)) => Json(json!({ "hash": hash })).into_response(),
        Ok(Err(Unsaved::Changed(hash))) => {
            let what = "the job file was changed by someone else since this page read it";
            (StatusCode::CONFLICT, Json(json!({ "error": what, "hash": hash }))).into_response()
        }
        Ok(Err(Unsaved::Refused(e))) => wrong(StatusCode::INTERNAL_SERVER_ERROR, e),
        Err(answer) => *answer,
    }
}

/// Answers a request with a task on the desk.
async fn answered<T: Send + 'static>(
    desk: Arc<Desk>,
    body: Body<T>,
    task: impl FnOnce(&Desk, T) -> Response + Send + 'static,
) -> Response {
    let ask = match open(body) {
        Ok(ask) => ask,
        Err(answer) => return *answer,
    };
    work(desk, move |d| task(d, ask)).await.unwrap_or_else(|answer| *answer)
}

async fn check(State(desk): State<Arc<Desk>>, body: Body<Edited>) -> Response {
    answered(desk, body, |d, ask| Json(answer::check(d, ask)).into_response()).await
}

async fn plan(State(desk): State<Arc<Desk>>, body: Body<Edited>) -> Response {
    let told = |result: Result<Value, String>| match result {
        Ok(value) => Json(value).into_response(),
        Err(e) => wrong(StatusCode::UNPROCESSABLE_ENTITY, e),
    };
    answered(desk, body, move |d, ask| told(answer::plan(d, ask))).await
}

async fn working(State(desk): State<Arc<Desk>>, body: Body<Figure>) -> Response {
    answered(desk, body, |d, ask| match answer::working(d, ask) {
        Some(value) => Json(value).into_response(),
        None => wrong(StatusCode::NOT_FOUND, "the plan has no such figure"),
    })
    .await
}

async fn run(State(desk): State<Arc<Desk>>, body: Body<RunOf>) -> Response {
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
