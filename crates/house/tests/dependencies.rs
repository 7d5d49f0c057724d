//! Dependencies are few, listed with their reason, and of a licence that may be shipped.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{crates, read, root};

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use spdx::{Expression, LicenseItem, ParseMode};

const LIST: &str = "docs/dependencies.md";

/// Names of all direct dependencies, of the crates and of the page.
fn direct() -> BTreeSet<String> {
    let own: BTreeSet<String> = crates().into_iter().collect();
    let mut out = BTreeSet::new();
    for name in &own {
        let manifest: toml::Table = read(&format!("crates/{name}/Cargo.toml")).parse().unwrap();
        for table in ["dependencies", "dev-dependencies", "build-dependencies"] {
            out.extend(
                manifest.get(table).and_then(|t| t.as_table()).into_iter().flat_map(|t| t.keys().cloned()),
            );
        }
    }
    for package in ["web/package.json", "package.json"] {
        let text = std::fs::read_to_string(root().join(package)).unwrap_or_else(|_| "{}".into());
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        for table in ["dependencies", "devDependencies"] {
            out.extend(json[table].as_object().into_iter().flat_map(|t| t.keys().cloned()));
        }
    }
    for pins in [
        "cases/oracle/requirements.txt",
        "cases/oracle/requirements-hammer.txt",
        "cases/oracle/requirements-api.txt",
    ] {
        let text = read(pins);
        out.extend(text.lines().filter_map(|l| l.split("==").next()).map(|n| n.trim().to_string()));
    }
    out.retain(|name| !own.contains(name) && !name.is_empty() && !name.starts_with('#'));
    out
}

/// The cells of every row of a table whose first cell is a name in back quotes.
fn rows() -> BTreeMap<String, Vec<String>> {
    let text = read(LIST);
    let cells =
        |line: &str| line.trim_matches('|').split('|').map(|c| c.trim().to_string()).collect::<Vec<_>>();
    let rows = text.lines().filter(|l| l.starts_with("| `")).map(cells);
    rows.map(|row| (row[0].trim_matches('`').to_string(), row)).collect()
}

#[test]
fn every_direct_dependency_is_listed_with_its_reason() {
    let listed: BTreeSet<String> = rows().into_keys().collect();
    let direct = direct();
    let missing: Vec<_> = direct.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&direct).collect();
    assert!(missing.is_empty(), "not in {LIST}: {missing:?}");
    assert!(gone.is_empty(), "in {LIST} but not used: {gone:?}");
    for (name, row) in rows() {
        assert!(
            row.len() >= 5 && row.iter().all(|c| !c.is_empty()),
            "{LIST}: the row of {name} is not complete"
        );
    }
}

#[derive(serde::Deserialize)]
struct Deny {
    licenses: Licenses,
}

#[derive(serde::Deserialize)]
struct Licenses {
    allow: Vec<String>,
}

fn allowed() -> BTreeSet<String> {
    toml::from_str::<Deny>(&read("deny.toml")).unwrap().licenses.allow.into_iter().collect()
}

fn is_allowed(text: &str, allowed: &BTreeSet<String>) -> bool {
    let Ok(expression) = Expression::parse_mode(text, ParseMode::LAX) else { return false };
    expression.evaluate(|wanted| match &wanted.license {
        LicenseItem::Spdx { id, .. } => allowed.contains(id.name),
        LicenseItem::Other { .. } => false,
    })
}

#[test]
fn the_list_of_licences_is_read_as_it_is_meant() {
    let allowed: BTreeSet<String> = ["MIT".to_string(), "Apache-2.0".to_string()].into();
    assert!(is_allowed("MIT OR GPL-3.0-only", &allowed));
    assert!(is_allowed("MIT/Apache-2.0", &allowed));
    assert!(!is_allowed("MIT AND GPL-3.0-only", &allowed));
    assert!(!is_allowed("", &allowed));
}

/// What cargo knows of all packages; where there is no network, of those of this machine.
fn metadata() -> serde_json::Value {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".into());
    let ask = |words: &[&str]| {
        let mut command = Command::new(&cargo);
        command.current_dir(root()).args(["metadata", "--format-version", "1", "--locked"]).args(words);
        let output = command.output().unwrap();
        output.status.success().then(|| serde_json::from_slice(&output.stdout).unwrap())
    };
    let host = format!("{}-unknown-linux-gnu", std::env::consts::ARCH);
    ask(&[])
        .or_else(|| ask(&["--offline", "--filter-platform", &host]))
        .unwrap_or_else(|| panic!("cargo metadata fails"))
}

#[test]
fn every_package_has_a_licence_that_may_be_shipped() {
    let allowed = allowed();
    let known = metadata();
    let mut refused = Vec::new();
    for package in known["packages"].as_array().unwrap() {
        let licence = package["license"].as_str().unwrap_or("");
        if !is_allowed(licence, &allowed) {
            refused.push(format!("{} {}: `{licence}`", package["name"], package["version"]));
        }
    }
    for lock in ["web/package-lock.json", "package-lock.json"] {
        let text = std::fs::read_to_string(root().join(lock)).unwrap_or_else(|_| "{}".into());
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        for (path, package) in
            json["packages"].as_object().into_iter().flatten().filter(|(p, _)| !p.is_empty())
        {
            let licence = package["license"].as_str().unwrap_or("");
            if !is_allowed(licence, &allowed) {
                refused.push(format!("{path}: `{licence}`"));
            }
        }
    }
    assert!(refused.is_empty(), "licences that deny.toml does not allow: {refused:#?}");
}
