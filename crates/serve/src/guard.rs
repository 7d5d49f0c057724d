//! Who may ask: this machine's own page, or whoever has the token where the page is shared.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::http::header::{self, HeaderMap, HeaderValue};
use axum::middleware::Next;
use axum::response::Response;

use crate::desk::Desk;
use crate::routes::wrong;

/// A secret that a page on another machine must show.
#[derive(Clone, PartialEq, Eq)]
pub struct Token(pub String);

impl std::fmt::Debug for Token {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Token(..)")
    }
}

/// Name of the cookie that carries the token.
const COOKIE: &str = "heelward";

/// What every answer says of itself: nothing from elsewhere, nothing kept, no frame around it.
const HEADERS: [(header::HeaderName, &str); 5] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; frame-ancestors 'none'; \
         base-uri 'none'; form-action 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::CACHE_CONTROL, "no-store"),
];

/// Lets a request through, or says why not.
pub(crate) async fn guard(State(desk): State<Arc<Desk>>, request: Request, next: Next) -> Response {
    let mut answer = match refused(&desk, &request) {
        Some((status, why)) => wrong(status, why),
        None => {
            let cookie = fresh_cookie(&desk, &request);
            let mut answer = next.run(request).await;
            if let Some(cookie) = cookie {
                answer.headers_mut().insert(header::SET_COOKIE, cookie);
            }
            answer
        }
    };
    for (name, value) in HEADERS {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    answer
}

fn refused(desk: &Desk, request: &Request) -> Option<(StatusCode, &'static str)> {
    let headers = request.headers();
    let host = text(headers, header::HOST).unwrap_or_default();
    if desk.token.is_none() && !is_loopback(host) {
        return Some((StatusCode::FORBIDDEN, "this page answers on this machine only"));
    }
    if let Some(origin) = text(headers, header::ORIGIN)
        && origin.split_once("://").map(|o| o.1) != Some(host)
    {
        return Some((StatusCode::FORBIDDEN, "another page asks"));
    }
    if let Some(Token(secret)) = &desk.token
        && shown(request).is_none_or(|t| !same(&t, secret))
    {
        return Some((StatusCode::UNAUTHORIZED, "open the address with its token, as it was printed"));
    }
    None
}

fn text(headers: &HeaderMap, name: header::HeaderName) -> Option<&str> {
    headers.get(name)?.to_str().ok()
}

fn is_loopback(host: &str) -> bool {
    let name = match host.strip_prefix('[') {
        Some(rest) => rest.split(']').next().unwrap_or_default(),
        None => host.split(':').next().unwrap_or_default(),
    };
    matches!(name, "127.0.0.1" | "localhost" | "::1")
}

/// The token that a request shows, by its address or its cookie.
fn shown(request: &Request) -> Option<String> {
    let from = |list: &str, mark: char, name: &str| {
        let mut parts = list.split(mark).map(str::trim).filter_map(|p| p.split_once('='));
        parts.find(|p| p.0 == name).map(|p| p.1.to_string())
    };
    let query = request.uri().query().and_then(|q| from(q, '&', "token"));
    query.or_else(|| from(text(request.headers(), header::COOKIE)?, ';', COOKIE))
}

/// Compares in a time that does not tell where two texts part.
fn same(a: &str, b: &str) -> bool {
    a.len() == b.len() && a.bytes().zip(b.bytes()).fold(0, |sum, (x, y)| sum | (x ^ y)) == 0
}

/// The cookie for a page that was opened with the token in its address.
fn fresh_cookie(desk: &Desk, request: &Request) -> Option<HeaderValue> {
    let Token(secret) = desk.token.as_ref()?;
    request.uri().query()?.contains("token=").then_some(())?;
    HeaderValue::from_str(&format!("{COOKIE}={secret}; Path=/; HttpOnly; SameSite=Strict")).ok()
}
