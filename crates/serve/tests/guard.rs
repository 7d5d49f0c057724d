//! What the server answers, and what it refuses.
#![allow(clippy::unwrap_used, reason = "tests")]

use std::path::PathBuf;

use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt as _;
use plan::Program;
use quantity::System;
use serve::{Desk, Printer, Token, router};
use tower::ServiceExt as _;
use well::Job;

struct Press;

impl Printer for Press {
    fn documents(&self, _: &Job, _: &Program) -> Result<Vec<(String, Vec<u8>)>, String> {
        Ok(vec![("tally.csv".into(), b"tally".to_vec())])
    }

    fn working(&self, program: &Program, figure: &str, _: System) -> Option<String> {
        program.workings.contains_key(figure).then(|| "step 1".to_string())
    }
}

/// A copy of an example in a folder of its own, which goes when it is dropped.
struct Copy(PathBuf);

impl Copy {
    fn new(name: &str) -> Self {
        let from = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/shallow-oil");
        let to = std::env::temp_dir().join(format!("heelward-serve-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&to).unwrap();
        for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
            std::fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
        }
        Self(to)
    }

    fn page(&self, token: Option<&str>) -> Router {
        router(Desk::new(&self.0, Box::new(Press), token.map(|t| Token(t.into()))))
    }
}

impl Drop for Copy {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

struct Asked {
    method: &'static str,
    path: &'static str,
    headers: Vec<(&'static str, &'static str)>,
    body: String,
}

fn ask(method: &'static str, path: &'static str, body: &str) -> Asked {
    let mut headers = vec![("host", "127.0.0.1:4000")];
    if !body.is_empty() {
        headers.push(("content-type", "application/json"));
    }
    Asked { method, path, headers, body: body.into() }
}

async fn answer(page: &Router, asked: Asked) -> (StatusCode, Vec<u8>) {
    let mut request = Request::builder().method(asked.method).uri(asked.path);
    for (name, value) in asked.headers {
        request = request.header(name, value);
    }
    let answer = page.clone().oneshot(request.body(Body::from(asked.body)).unwrap()).await.unwrap();
    let status = answer.status();
    (status, answer.into_body().collect().await.unwrap().to_bytes().to_vec())
}

#[tokio::test]
async fn only_this_machine_and_its_own_page_are_answered() {
    let copy = Copy::new("guard");
    let page = copy.page(None);
    assert_eq!(answer(&page, ask("GET", "/api/job", "")).await.0, StatusCode::OK);
    for (name, value, status) in [
        ("host", "well.example:80", StatusCode::FORBIDDEN),
        ("host", "127.0.0.1.well.example", StatusCode::FORBIDDEN),
        ("host", "", StatusCode::FORBIDDEN),
        ("origin", "http://well.example", StatusCode::FORBIDDEN),
        ("origin", "null", StatusCode::FORBIDDEN),
    ] {
        let mut asked = ask("GET", "/api/job", "");
        asked.headers.retain(|h| h.0 != name);
        asked.headers.push((name, value));
        assert_eq!(answer(&page, asked).await.0, status, "{name}: {value}");
    }
    let mut form = ask("POST", "/api/plan", "{}");
    form.headers = vec![("host", "localhost"), ("content-type", "text/plain")];
    assert_eq!(answer(&page, form).await.0, StatusCode::UNSUPPORTED_MEDIA_TYPE);
}

#[tokio::test]
async fn a_shared_page_asks_for_its_token() {
    let copy = Copy::new("token");
    let page = copy.page(Some("secret"));
    let from_afar = |path: &'static str, cookie: Option<&'static str>| {
        let mut asked = ask("GET", path, "");
        asked.headers = vec![("host", "10.0.0.7:4000")];
        asked.headers.extend(cookie.map(|c| ("cookie", c)));
        asked
    };
    for (path, cookie, status) in [
        ("/api/job", None, StatusCode::UNAUTHORIZED),
        ("/api/job?token=wrong!", None, StatusCode::UNAUTHORIZED),
        ("/api/job?token=secret", None, StatusCode::OK),
        ("/api/job", Some("heelward=secret"), StatusCode::OK),
        ("/api/job", Some("heelward=secre"), StatusCode::UNAUTHORIZED),
    ] {
        assert_eq!(answer(&page, from_afar(path, cookie)).await.0, status, "{path} {cookie:?}");
    }
}

#[tokio::test]
async fn a_job_is_saved_whole_and_only_over_what_was_read() {
    let copy = Copy::new("save");
    let page = copy.page(None);
    let (_, bytes) = answer(&page, ask("GET", "/api/job", "")).await;
    let job: serde_json::Value = serde_json::from_slice(&bytes).unwrap();
    let text = format!("{}\n# more\n", job["text"].as_str().unwrap());
    let body = serde_json::json!({ "text": text, "base": job["hash"] }).to_string();
    assert_eq!(answer(&page, ask("PUT", "/api/job", &body)).await.0, StatusCode::OK);
    assert_eq!(std::fs::read_to_string(copy.0.join("job.toml")).unwrap(), text);
    // The same request again is over another file than it read.
    assert_eq!(answer(&page, ask("PUT", "/api/job", &body)).await.0, StatusCode::CONFLICT);
    let left: Vec<_> = std::fs::read_dir(&copy.0).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert!(left.iter().all(|n| !n.to_string_lossy().starts_with('.')), "{left:?}");
}

#[tokio::test]
async fn bad_requests_are_refused_and_hurt_nothing() {
    let copy = Copy::new("bad");
    let page = copy.page(None);
    for (path, body, status) in [
        ("/api/plan", "{", StatusCode::BAD_REQUEST),
        ("/api/plan", "{\"txt\": \"\"}", StatusCode::UNPROCESSABLE_ENTITY),
        ("/api/working", "{\"figure\": \"none.such\"}", StatusCode::NOT_FOUND),
        ("/api/run", "{\"faults\": [\"none-such@2\"]}", StatusCode::UNPROCESSABLE_ENTITY),
        ("/api/run", "{\"text\": \"\"}", StatusCode::UNPROCESSABLE_ENTITY),
        ("/api/run", "{\"sample\": 0}", StatusCode::UNPROCESSABLE_ENTITY),
        ("/api/run", "{\"fine\": 60}", StatusCode::UNPROCESSABLE_ENTITY),
    ] {
        let (got, said) = answer(&page, ask("POST", path, body)).await;
        assert_eq!(got, status, "{path} {body}: {}", String::from_utf8_lossy(&said));
        assert!(String::from_utf8_lossy(&said).contains("error"));
    }
    let long = format!("{{\"text\": \"{}\"}}", "x".repeat(5 << 20));
    assert_eq!(answer(&page, ask("POST", "/api/plan", &long)).await.0, StatusCode::PAYLOAD_TOO_LARGE);
    for path in
        ["/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/api/documents/..%2Fjob.toml", "/job.toml"]
    {
        assert_eq!(answer(&page, ask("GET", path, "")).await.0, StatusCode::NOT_FOUND, "{path}");
    }
}

#[tokio::test]
async fn a_run_too_fine_for_the_page_is_refused_with_value_and_limit() {
    let copy = Copy::new("fine");
    let page = copy.page(None);
    for body in ["{\"sample\": 0.01}", "{\"sample\": 0.08, \"fine\": 0.01}"] {
        let (status, said) = answer(&page, ask("POST", "/api/run", body)).await;
        let said = String::from_utf8_lossy(&said);
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{body}");
        assert!(
            said.contains("samples, and 400000 are the most") && said.contains("further apart"),
            "{said}"
        );
    }
}

#[cfg(unix)]
#[tokio::test]
async fn a_link_that_leads_out_of_the_folder_is_not_followed() {
    let copy = Copy::new("link");
    let outside = std::env::temp_dir().join(format!("heelward-outside-{}.csv", std::process::id()));
    std::fs::write(&outside, "secret,figures\n1,2\n").unwrap();
    std::os::unix::fs::symlink(&outside, copy.0.join("linked.csv")).unwrap();
    let page = copy.page(None);
    let text = std::fs::read_to_string(copy.0.join("job.toml")).unwrap();
    for (name, told) in [
        ("linked.csv", "leads out of the job folder"),
        ("../../../etc/hostname", "leads out of the job folder"),
        ("/etc/hostname", "leads out of the job folder"),
    ] {
        let text = text.replace("file = \"survey.csv\"", &format!("file = \"{name}\""));
        let body = serde_json::json!({ "text": text }).to_string();
        let (status, said) = answer(&page, ask("POST", "/api/plan", &body)).await;
        let said = String::from_utf8_lossy(&said).into_owned();
        assert_eq!(status, StatusCode::OK);
        assert!(said.contains(told) && !said.contains("secret"), "{name}: {said}");
    }
    std::fs::remove_file(outside).unwrap();
}

#[tokio::test]
async fn a_run_comes_as_numbers_that_can_be_read_again() {
    let copy = Copy::new("run");
    let page = copy.page(None);
    let (status, bytes) = answer(&page, ask("POST", "/api/run", "{\"faults\": [\"pump-trip@2\"]}")).await;
    assert_eq!(status, StatusCode::OK);
    let length = u32::from_le_bytes(bytes[..4].try_into().unwrap()) as usize;
    assert_eq!((4 + length) % 8, 0);
    let about: serde_json::Value = serde_json::from_slice(&bytes[4..4 + length]).unwrap();
    let count = about["samples"].as_u64().unwrap() as usize;
    let channels = about["channels"].as_array().unwrap().len();
    assert_eq!(bytes.len(), 4 + length + count * (8 + 4 * (channels - 1)));
    assert_eq!(about["run"]["labels"][0]["kind"], "pump-trip");
    let time = |i: usize| f64::from_le_bytes(bytes[4 + length + 8 * i..][..8].try_into().unwrap());
    assert!((1..count).all(|i| time(i) > time(i - 1)));
}
