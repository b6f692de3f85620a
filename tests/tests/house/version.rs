//! One version everywhere.

use std::fs;
use std::path::Path;

fn text(path: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path))
        .unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// The version in Cargo.toml is the newest that CHANGELOG.md tells of, and the page shows it from there.
#[test]
fn the_newest_change_is_of_this_version() {
    let manifest = text("Cargo.toml");
    let (_, version) = manifest.split_once("[workspace.package]\nversion = \"").expect("a version");
    let version = version.split('"').next().expect("a version");
    assert_eq!(version, env!("CARGO_PKG_VERSION"));
    let changes = text("CHANGELOG.md");
    let newest = changes.lines().find_map(|line| line.strip_prefix("## ")).expect("a version");
    assert_eq!(newest, version, "what CHANGELOG.md begins with, and Cargo.toml");
    assert!(text("web/src/panes/help/start.rs").contains("env!(\"CARGO_PKG_VERSION\")"), "the page says its version");
}
