//! Builds the page with npm where there is one; without it the program is built with a note in the
//! page's place, and all but the page works.

use std::path::Path;
use std::process::Command;

fn main() {
    let web = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web");
    for part in [
        "src",
        "index.html",
        "package.json",
        "package-lock.json",
        "vite.config.ts",
        "vite.briefing.config.ts",
        "svelte.config.js",
    ] {
        println!("cargo:rerun-if-changed={}", web.join(part).display());
    }
    println!("cargo:rerun-if-env-changed=HEELWARD_NO_PAGE");
    let dist = web.join("dist");
    let asked = std::env::var_os("HEELWARD_NO_PAGE").is_none();
    if asked && npm(&web, &["ci", "--no-audit", "--no-fund"]) && npm(&web, &["run", "build"]) {
        return;
    }
    println!(
        "cargo:warning=the page is left out: npm (Node 20) is needed to build it; everything but `heelward serve` and `heelward briefing` works"
    );
    let note = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>heelward</title><p>This program was built \
                without its page. Install Node 20 and build it again.</p></html>\n";
    // What an earlier build left of the page is not this program's.
    let _ = std::fs::remove_dir_all(&dist);
    // Where the note cannot be written, the build says so when it embeds the folder.
    let _ = std::fs::create_dir_all(&dist);
    let _ = std::fs::write(dist.join("index.html"), note);
}

fn npm(web: &Path, words: &[&str]) -> bool {
    let program = if cfg!(windows) { "npm.cmd" } else { "npm" };
    Command::new(program).args(words).current_dir(web).status().is_ok_and(|s| s.success())
}
