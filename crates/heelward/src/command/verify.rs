//! `verify`: the reference cases, built in or given, and how far the program is from them.

use std::path::{Path, PathBuf};

use report::terminal::verify;
use report::text::json;
use report::text::markdown::accuracy;
use report::text::verdict::{Judged, Tally};

use super::Outcome;
use crate::cli::Verify;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;
use crate::{VERSION, embedded};

/// How many folders deep case files are looked for.
const DEEPEST: usize = 16;

pub(crate) fn run(args: &Verify, screen: &mut Screen) -> Outcome {
    let cases = if args.paths.is_empty() { built_in()? } else { given(&args.paths)? };
    let families = embedded::families()?;
    if args.json {
        screen.data(&json::text(&json::cases(&cases, &families, VERSION)))?;
    } else if args.markdown {
        screen.data(&accuracy::document(&cases, &families))?;
    } else {
        if !screen.quiet {
            screen.data(&(verify::lines(&cases, &screen.look) + "\n"))?;
        }
        screen.data(&verify::misses(&cases, &screen.look))?;
        screen.data(&verify::summary(&cases, &families, &screen.look))?;
    }
    Ok(if Tally::of(&cases).failed == 0 { Ended::Done } else { Ended::Stopped })
}

/// The built-in cases, run.
pub(crate) fn built_in() -> Result<Vec<Judged>, Fault> {
    Ok(embedded::cases()?.iter().map(|(file, case)| Judged::of(file, case.clone())).collect())
}

fn given(paths: &[PathBuf]) -> Result<Vec<Judged>, Fault> {
    let mut files = Vec::new();
    for path in paths {
        let before = files.len();
        collect(path, DEEPEST, &mut files)?;
        if files.len() == before {
            let what = format!("`{}` holds no case file", path.display());
            return Err(Fault::input_next(
                what,
                "Give a .toml file of [[case]] tables, or a folder of them.",
            ));
        }
    }
    let mut out = Vec::new();
    for file in files {
        let name = file.display().to_string();
        let refused = |what: String| {
            Fault::input_next(
                format!("`{name}`: {what}"),
                "See the files in `cases/` for the form of a case.",
            )
        };
        let text = std::fs::read_to_string(&file).map_err(|e| refused(e.to_string()))?;
        let cases = proof::read_cases(&text).map_err(refused)?;
        out.extend(cases.into_iter().map(|case| Judged::of(&name, case)));
    }
    if out.is_empty() {
        return Err(Fault::input_next("the files hold no case", "Write one as a [[case]] table."));
    }
    Ok(out)
}

/// All case files at or below a path, in the order of their names.
fn collect(path: &Path, deep: usize, out: &mut Vec<PathBuf>) -> Result<(), Fault> {
    let refused = |e: std::io::Error| Fault::input(format!("`{}` cannot be read: {e}", path.display()));
    let about = std::fs::metadata(path).map_err(refused)?;
    if about.is_file() {
        out.push(path.to_path_buf());
        return Ok(());
    }
    if deep == 0 {
        return Err(Fault::input(format!("`{}` lies deeper than {DEEPEST} folders", path.display())));
    }
    let mut inside = Vec::new();
    for entry in std::fs::read_dir(path).map_err(refused)? {
        inside.push(entry.map_err(refused)?.path());
    }
    inside.sort();
    for entry in inside {
        if entry.is_dir() && !embedded::NO_CASES.iter().any(|name| entry.ends_with(name)) {
            collect(&entry, deep - 1, out)?;
        } else if entry.is_file() && entry.extension().is_some_and(|e| e == "toml") {
            out.push(entry);
        }
    }
    Ok(())
}
