//! The files of the page, embedded in the program.

use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use rust_embed::Embed;

#[derive(Embed)]
#[folder = "../../web/dist"]
struct Files;

/// A file of the page by its path; the page itself for the empty one.
pub(crate) fn file(path: &str) -> Response {
    let name = path.trim_start_matches('/');
    let name = if name.is_empty() { "index.html" } else { name };
    match Files::get(name) {
        Some(file) => ([(header::CONTENT_TYPE, kind(name))], file.data.into_owned()).into_response(),
        None => (StatusCode::NOT_FOUND, "there is no such file in the page").into_response(),
    }
}

/// The text of a file of the page; none where the program was built without it.
pub(crate) fn text(path: &str) -> Option<String> {
    String::from_utf8(Files::get(path)?.data.into_owned()).ok()
}

fn kind(name: &str) -> &'static str {
    match name.rsplit_once('.').map(|n| n.1) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("json") => "application/json",
        _ => "application/octet-stream",
    }
}
