//! Words that must not stand in the repository, and calls that must not stand outside tests.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{files, for_tests, named, root, sources};

use syn::visit::Visit;

/// Marks of unfinished work and of the workplace; put together so that this file does not hold them.
fn forbidden() -> Vec<String> {
    let pairs = [("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("HA", "CK"), ("/work", "/"), ("lorem", " ipsum")];
    pairs.iter().map(|(a, b)| format!("{a}{b}")).collect()
}

const TEXT: &[&str] = &[
    "rs", "toml", "md", "py", "sh", "ts", "js", "mjs", "svelte", "css", "html", "json", "yml", "yaml", "typ",
];

/// Whether `word` stands in `line` with no letter on either side.
fn stands(line: &str, word: &str) -> bool {
    line.match_indices(word).any(|(at, _)| {
        let letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
        !letter(line[..at].chars().last()) && !letter(line[at + word.len()..].chars().next())
    })
}

#[test]
fn no_unfinished_work_is_committed() {
    let words = forbidden();
    let mut found = Vec::new();
    for path in files(&root()) {
        let name = named(&path);
        let plain = path.extension().and_then(|e| e.to_str()).is_some_and(|e| TEXT.contains(&e))
            || name.starts_with("scripts/")
            || name.starts_with(".ci/");
        let lock = name.ends_with(".lock") || name.ends_with("package-lock.json");
        if !plain || lock {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        for (i, line) in text.lines().enumerate() {
            if let Some(word) = words.iter().find(|w| stands(line, w)) {
                found.push(format!("{name}:{}: {word}", i + 1));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Calls that end the program, outside tests.
#[derive(Default)]
struct Calls {
    found: Vec<(usize, String)>,
}

fn of_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|a| {
        a.path().is_ident("test")
            || a.path().is_ident("cfg") && a.parse_args::<syn::Ident>().is_ok_and(|inside| inside == "test")
    })
}

impl<'a> Visit<'a> for Calls {
    fn visit_item_mod(&mut self, item: &'a syn::ItemMod) {
        if !of_tests(&item.attrs) {
            syn::visit::visit_item_mod(self, item);
        }
    }
    fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
        if !of_tests(&item.attrs) {
            syn::visit::visit_item_fn(self, item);
        }
    }
    fn visit_expr_method_call(&mut self, call: &'a syn::ExprMethodCall) {
        let name = call.method.to_string();
        if ["unwrap", "expect", "unwrap_err", "expect_err"].contains(&name.as_str()) {
            self.found.push((call.method.span().start().line, name));
        }
        syn::visit::visit_expr_method_call(self, call);
    }
    fn visit_macro(&mut self, makro: &'a syn::Macro) {
        let name = makro.path.segments.last().map(|s| s.ident.to_string()).unwrap_or_default();
        if ["panic", "todo", "unimplemented", "unreachable", "dbg"].contains(&name.as_str()) {
            let line = makro.path.segments.last().map_or(0, |s| s.ident.span().start().line);
            self.found.push((line, name));
        }
        syn::visit::visit_macro(self, makro);
    }
}

#[test]
fn nothing_outside_tests_ends_the_program() {
    let mut found = Vec::new();
    for path in sources(&root().join("crates")) {
        let name = named(&path);
        if for_tests(&path) || name.starts_with("crates/house/") {
            continue;
        }
        let file = syn::parse_file(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let mut calls = Calls::default();
        calls.visit_file(&file);
        found.extend(calls.found.into_iter().map(|(line, call)| format!("{name}:{line}: {call}")));
    }
    assert!(found.is_empty(), "{found:#?}");
}
