//! What the project is built from: each with its reason in DEVELOPERS.md, each under a licence that is named there.

use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

fn json(path: &str) -> Value {
    serde_json::from_str(&text(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// The lines of DEVELOPERS.md under a heading.
fn section(heading: &str) -> String {
    let developers = text("DEVELOPERS.md");
    let (_, after) = developers.split_once(&format!("\n## {heading}\n")).expect("the heading");
    after.split("\n## ").next().expect("its lines").to_owned()
}

/// What the table of dependencies gives a reason for.
fn reasoned() -> BTreeSet<String> {
    let rows = section("Dependencies");
    let rows = rows.lines().filter_map(|line| line.strip_prefix("| `")?.split_once(" | "));
    rows.filter(|(_, reason)| reason.len() > 10)
        .flat_map(|(names, _)| names.split('`').map(str::to_owned).collect::<Vec<_>>())
        .filter(|name| !name.is_empty() && name != ", ")
        .collect()
}

/// The licences that are named there.
fn accepted() -> BTreeSet<String> {
    let words = section("Dependencies");
    let line = words.lines().find_map(|line| line.strip_prefix("Licences: ")).expect("the licences");
    line.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

/// True if an SPDX expression leaves the choice of accepted licences only (older crates write `/` for `OR`).
fn allowed(licence: &str, accepted: &BTreeSet<String>) -> bool {
    let licence = licence.replace('/', " OR ");
    let all = |part: &str| part.split(" AND ").all(|one| accepted.contains(one.trim_matches(['(', ')', ' '])));
    match licence.split_once(") AND ") {
        Some((choice, and)) => allowed(choice.trim_start_matches('('), accepted) && allowed(and, accepted),
        None => licence.split(" OR ").any(all),
    }
}

fn packages() -> Vec<Value> {
    let cargo = Command::new(env!("CARGO"))
        .args(["metadata", "--locked", "--format-version", "1"])
        .current_dir(root())
        .output()
        .expect("cargo");
    assert!(cargo.status.success(), "{}", String::from_utf8_lossy(&cargo.stderr));
    let metadata: Value = serde_json::from_slice(&cargo.stdout).expect("cargo's list");
    metadata["packages"].as_array().expect("packages").clone()
}

/// What node's packages need by themselves, and their lock files' packages.
fn node_packages() -> Vec<(String, Value)> {
    let locks = ["web/package-lock.json", "tests/browser/package-lock.json"].map(json);
    let all = locks.iter().flat_map(|lock| lock["packages"].as_object().expect("packages").clone());
    all.filter_map(|(path, package)| Some((path.strip_prefix("node_modules/")?.to_owned(), package))).collect()
}

#[test]
fn every_dependency_has_its_reason() {
    let reasoned = reasoned();
    let text_of = |value: &Value| value.as_str().expect("a text").to_owned();
    let ours = ["kernel", "web", "tests"];
    let mut needed = BTreeSet::new();
    for package in packages().iter().filter(|package| package["source"].is_null()) {
        needed.extend(package["dependencies"].as_array().expect("a list").iter().map(|one| text_of(&one["name"])));
    }
    for path in ["web/package.json", "tests/browser/package.json"] {
        let package = json(path);
        let of = |kind: &str| package[kind].as_object().cloned().unwrap_or_default();
        needed.extend(of("dependencies").into_iter().chain(of("devDependencies")).map(|(name, _)| name));
    }
    needed.extend(
        text("tests/reference/requirements.txt").lines().filter_map(|line| Some(line.split_once("==")?.0.to_owned())),
    );
    needed.retain(|name| !ours.contains(&&name[..]));
    let missing: Vec<&String> = needed.difference(&reasoned).collect();
    assert!(missing.is_empty(), "DEVELOPERS.md gives no reason for {missing:?}");
    let tools = ["trunk", "wasm-bindgen-cli"].map(String::from);
    let gone: Vec<&String> = reasoned.difference(&needed).filter(|name| !tools.contains(name)).collect();
    assert!(gone.is_empty(), "nothing needs {gone:?} any more");
}

#[test]
fn every_licence_is_listed() {
    let accepted = accepted();
    assert!(accepted.len() > 3, "{accepted:?}");
    let mut seen = 0;
    for package in packages() {
        let licence = package["license"].as_str().unwrap_or("none");
        assert!(allowed(licence, &accepted), "{} is under {licence}", package["name"]);
        seen += 1;
    }
    for (name, package) in node_packages() {
        let licence = package["license"].as_str().unwrap_or("none");
        assert!(allowed(licence, &accepted), "{name} is under {licence}");
        seen += 1;
    }
    assert!(seen > 50, "{seen} packages");
}

#[test]
fn a_choice_of_licences_needs_one_and_a_sum_all() {
    let accepted = ["MIT", "Unicode-3.0"].map(String::from).into();
    for (licence, is) in [
        ("MIT OR Apache-2.0", true),
        ("Unlicense/MIT", true),
        ("Apache-2.0", false),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
        ("(MIT OR Apache-2.0) AND BSL-1.0", false),
        ("MIT AND Apache-2.0", false),
        ("none", false),
    ] {
        assert_eq!(allowed(licence, &accepted), is, "{licence}");
    }
}
