//! Runs the case files given on the command line: `cargo run -p proof --example prove -- cases`.

use std::path::{Path, PathBuf};

fn files(path: &Path, out: &mut Vec<PathBuf>) {
    if path.is_dir() {
        let mut inside: Vec<_> =
            std::fs::read_dir(path).into_iter().flatten().flatten().map(|e| e.path()).collect();
        inside.sort();
        inside.iter().for_each(|p| files(p, out));
    } else if path.extension().is_some_and(|e| e == "toml") {
        out.push(path.to_path_buf());
    }
}

fn main() {
    let mut list = Vec::new();
    std::env::args().skip(1).for_each(|a| files(Path::new(&a), &mut list));
    let (mut passed, mut failed) = (0, 0);
    for file in &list {
        let text = std::fs::read_to_string(file).unwrap_or_default();
        match proof::read_cases(&text) {
            Err(e) => {
                failed += 1;
                println!("{}: {e}", file.display());
            }
            Ok(cases) => {
                for case in cases {
                    let verdict = proof::run(&case);
                    if verdict.passes() {
                        passed += 1;
                        continue;
                    }
                    failed += 1;
                    println!("{}: {} [{}]", file.display(), case.name, case.relation);
                    match verdict {
                        proof::Verdict::Compared(list) => list.iter().filter(|c| !c.passes()).for_each(|c| {
                            println!(
                                "    {}: expected {} got {} (SI), allowed {}",
                                c.output,
                                c.expected.si(),
                                c.got.si(),
                                c.allowed
                            );
                        }),
                        other => println!("    {other:?}"),
                    }
                }
            }
        }
    }
    println!("{passed} passed, {failed} failed");
    std::process::exit(i32::from(failed > 0));
}
