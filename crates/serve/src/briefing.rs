//! The briefing: one HTML file that shows and plays the job in any browser, without the program and without
//! a network. Script, style, plan and run stand in it; it may ask nothing of anyone.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use miniz_oxide::deflate::compress_to_vec_zlib;
use plan::Program;
use pump::{Run, Settings};
use quantity::{Quantity as _, Time};
use report::text::caution::{CAUTIONS, STANDING};
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};
use well::Job;

use crate::answer;
use crate::assets;

/// Name of the document.
pub const NAME: &str = "briefing.html";

/// How a briefing begins; what does not begin so was written by something else.
pub const MARK: &str = "<!doctype html>\n<!-- heelward briefing -->\n";

/// Most samples of the run that a briefing holds, so that its file stays below about 10 MB.
const MOST_SAMPLES: f64 = 200_000.0;

/// Longest step between samples, s.
const LONGEST_STEP: f64 = 10.0;

/// How hard the run is packed.
const HARDEST: u8 = 9;

/// Why there is no briefing.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BriefingError {
    /// The program was built without its page.
    #[error("this program was built without its page, which the briefing is made of")]
    NoPage,
    /// What it holds cannot be written as JSON.
    #[error("the plan cannot be written into the briefing: {0}")]
    Unwritten(String),
}

/// The briefing of a planned job: the bytes of one HTML file, the same for the same job.
///
/// A job that cannot be pumped has a briefing too, which says why.
///
/// # Errors
/// Where the program was built without its page.
pub fn briefing(job: &Job, program: &Program) -> Result<Vec<u8>, BriefingError> {
    let script = assets::text("briefing/briefing.js").ok_or(BriefingError::NoPage)?;
    let style = assets::text("briefing/briefing.css").ok_or(BriefingError::NoPage)?;
    let run = pump::pump(job, program, &settings(program));
    let unpumped = run.as_ref().err().map(ToString::to_string);
    let packed = match &run {
        Ok(run) => compress_to_vec_zlib(&answer::packed(run), HARDEST),
        Err(_) => Vec::new(),
    };
    let data = data(job, program, run.as_ref().ok(), unpumped)?;
    Ok(document(&Parts {
        title: &format!("Briefing: {}, {}", program.header.well, program.header.job),
        script: &inert_script(&script),
        style: &style.replace("</", "<\\/"),
        data: &inert_json(&data),
        run: &STANDARD.encode(packed),
    })
    .into_bytes())
}

/// A sample a second, or as far apart as keeps the file small; a second round events in any case.
fn settings(program: &Program) -> Settings {
    let planned = program.balls.as_ref().map_or(0.0, |b| b.job_time.si());
    let step = (planned / MOST_SAMPLES).ceil().clamp(1.0, LONGEST_STEP);
    Settings { sample: Time::seconds(step), fine: Some(Time::seconds(1.0)), ..Settings::default() }
}

/// What the script shows beside the run.
fn data(
    job: &Job,
    program: &Program,
    run: Option<&Run>,
    unpumped: Option<String>,
) -> Result<Value, BriefingError> {
    let system = job.file.job.units.system();
    let plan = answer::plan_of(job, program.clone(), system);
    let mut plan = serde_json::to_value(plan).map_err(|e| BriefingError::Unwritten(e.to_string()))?;
    if let Some(fields) = plan.as_object_mut() {
        // What the page opens to its workings, and what it shows in views of its own.
        for left_out in ["figures", "layout", "setting", "casing_packer", "assumptions"] {
            fields.remove(left_out);
        }
    }
    Ok(json!({
        "plan": plan,
        "standing": STANDING,
        "cautions": CAUTIONS,
        "seed": run.map_or(program.header.seed, |r| r.header.seed),
        "sample": run.map(|r| r.sample),
        "unpumped": unpumped,
    }))
}

/// JSON that ends no element it stands in.
fn inert_json(value: &Value) -> String {
    value.to_string().replace('<', "\\u003c")
}

/// Script that ends no element it stands in: these words stand in its texts only, where an escape is the same.
fn inert_script(script: &str) -> String {
    script.replace("<!--", "\\x3c!--").replace("<script", "\\x3cscript").replace("</script", "\\x3c/script")
}

/// A text as it stands between tags.
fn plain(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

struct Parts<'a> {
    title: &'a str,
    script: &'a str,
    style: &'a str,
    data: &'a str,
    run: &'a str,
}

fn document(parts: &Parts<'_>) -> String {
    let Parts { title, script, style, data, run } = *parts;
    let hash = STANDARD.encode(Sha256::digest(script.as_bytes()));
    let title = plain(title);
    let standing = plain(STANDING);
    format!(
        r#"{MARK}<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'sha256-{hash}'; style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<link rel="icon" href="data:,">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<div id="page"></div>
<noscript><h1>{title}</h1><p>{standing}</p><p>This file needs a browser with scripts to show the job.</p></noscript>
<script type="application/json" id="data">{data}</script>
<script type="text/plain" id="run">{run}</script>
<script>{script}</script>
</body>
</html>
"#
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_ends_the_element_it_stands_in() {
        let evil = json!({ "job": "a </script><script>alert(1)</script> <!-- b" });
        let text = inert_json(&evil);
        assert!(!text.contains('<'));
        assert_eq!(serde_json::from_str::<Value>(&text).unwrap(), evil);
        let script = inert_script("const a = '</script>' + `<!---->` + '<script';");
        assert_eq!(script, r"const a = '\x3c/script>' + `\x3c!---->` + '\x3cscript';");
        assert_eq!(plain("<b> & \"c\""), "&lt;b&gt; &amp; &quot;c&quot;");
    }

    #[test]
    fn only_the_one_script_may_run() {
        let parts = Parts { title: "</title>", script: "1", style: "", data: "{}", run: "" };
        let text = document(&parts);
        assert!(text.starts_with(MARK));
        // The SHA-256 of `1`.
        assert!(text.contains("script-src 'sha256-a4ayc/80/OGda4BO/1o/V0etpOqiLx1JwB5S3beHW0s='"), "{text}");
        assert_eq!(text.matches("</title>").count(), 1);
        assert!(!text.contains("http://") && !text.contains("https://"));
    }
}
