//! The generated documents are committed as the program writes them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::root;

#[test]
fn no_generated_document_is_stale() {
    let stale: Vec<_> = heelward::upkeep::stale(&root()).unwrap().into_iter().map(|d| d.path).collect();
    assert!(
        stale.is_empty(),
        "stale; run `cargo run --release --locked -p heelward -- upkeep --write`: {stale:#?}"
    );
}
