//! Files and functions that can be read in one sitting.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{named, root, sources, with_extension};

use syn::spanned::Spanned as _;
use syn::visit::Visit;

const LONGEST_FILE: usize = 600;
const MEDIAN_FILE: usize = 250;
const LONGEST_FUNCTION: usize = 80;
const NINE_IN_TEN_FUNCTIONS: usize = 40;
const MOST_PARAMETERS: usize = 6;

/// The value a share of the sorted list lies at or below.
fn quantile(mut list: Vec<usize>, share: f64) -> usize {
    list.sort_unstable();
    let last = list.len().saturating_sub(1);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
    let at = (share * last as f64).ceil() as usize;
    list.get(at).copied().unwrap_or(0)
}

#[test]
fn files_are_short() {
    let mut written = with_extension(&root().join("crates"), &["rs"]);
    written.extend(with_extension(&root().join("web"), &["ts", "js", "svelte", "css", "mjs"]));
    written.extend(with_extension(&root().join("cases/oracle"), &["py"]));
    written.extend(with_extension(&root().join("scripts"), &["py", "sh", "mjs"]));
    // What a tool writes is nobody's to read.
    written.retain(|p| !named(p).contains(".generated."));
    let lines = |p: &std::path::PathBuf| std::fs::read_to_string(p).unwrap_or_default().lines().count();
    let sizes: Vec<(usize, String)> = written.iter().map(|p| (lines(p), named(p))).collect();
    let long: Vec<_> = sizes.iter().filter(|(n, _)| *n > LONGEST_FILE).collect();
    assert!(long.is_empty(), "longer than {LONGEST_FILE} lines: {long:#?}");
    let median = quantile(sizes.iter().map(|(n, _)| *n).collect(), 0.5);
    assert!(median <= MEDIAN_FILE, "the median file has {median} lines");
}

/// Length and number of parameters of every function of a file.
#[derive(Default)]
struct Functions {
    found: Vec<(usize, usize, String)>,
}

impl Functions {
    fn add(&mut self, signature: &syn::Signature, block: &syn::Block) {
        let start = signature.span().start().line;
        let lines = block.span().end().line + 1 - start;
        self.found.push((lines, signature.inputs.len(), format!("{}, line {start}", signature.ident)));
    }
}

impl<'a> Visit<'a> for Functions {
    fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
        self.add(&item.sig, &item.block);
        syn::visit::visit_item_fn(self, item);
    }
    fn visit_impl_item_fn(&mut self, item: &'a syn::ImplItemFn) {
        self.add(&item.sig, &item.block);
        syn::visit::visit_impl_item_fn(self, item);
    }
    fn visit_trait_item_fn(&mut self, item: &'a syn::TraitItemFn) {
        if let Some(block) = &item.default {
            self.add(&item.sig, block);
        }
        syn::visit::visit_trait_item_fn(self, item);
    }
}

#[test]
fn functions_are_short_and_take_few_parameters() {
    let mut all = Vec::new();
    for path in sources(&root().join("crates")) {
        let text = std::fs::read_to_string(&path).unwrap();
        let file = syn::parse_file(&text).unwrap_or_else(|e| panic!("{}: {e}", named(&path)));
        let mut functions = Functions::default();
        functions.visit_file(&file);
        all.extend(functions.found.into_iter().map(|(n, p, f)| (n, p, format!("{}: {f}", named(&path)))));
    }
    let long: Vec<_> = all.iter().filter(|(lines, _, _)| *lines > LONGEST_FUNCTION).collect();
    assert!(long.is_empty(), "longer than {LONGEST_FUNCTION} lines: {long:#?}");
    let wide: Vec<_> = all.iter().filter(|(_, parameters, _)| *parameters > MOST_PARAMETERS).collect();
    assert!(wide.is_empty(), "more than {MOST_PARAMETERS} parameters: {wide:#?}");
    let usual = quantile(all.iter().map(|(lines, _, _)| *lines).collect(), 0.9);
    assert!(usual <= NINE_IN_TEN_FUNCTIONS, "one function in ten is longer than {usual} lines");
}
