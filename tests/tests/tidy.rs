//! Invariants of the tree that a compiler does not check.

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn sources(folder: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                found.push((path.display().to_string(), fs::read_to_string(&path).expect("a text")));
            }
        }
    }
    assert!(!found.is_empty(), "{folder} has no source");
    found
}

/// Only the browser's folder, the panes and the entry name web types.
#[test]
fn web_types_stay_in_the_browser_and_the_panes() {
    for (path, text) in sources("kernel/src").into_iter().chain(sources("web/src")) {
        let allowed = path.contains("/browser") || path.contains("/panes");
        let names = ["web_sys", "js_sys", "wasm_bindgen"].iter().any(|name| text.contains(name));
        assert!(allowed || !names, "{path} names web types");
    }
}

/// In the kernel, imports go one way; `frame` knows nobody, the readings do not know the table.
#[test]
fn kernel_imports_go_one_way() {
    // Attitude is read by the steer row of the solver, so it stands before the pose.
    const ORDER: [&str; 17] = [
        "frame",
        "layout",
        "screw",
        "linkage",
        "attitude",
        "pose",
        "half_shaft",
        "steering_axis",
        "bump",
        "state",
        "axle",
        "reading",
        "loads",
        "turning",
        "ride",
        "whole",
        "table",
    ];
    for (path, text) in sources("kernel/src") {
        let Some(own) =
            ORDER.iter().position(|name| path.contains(&format!("/src/{name}.rs")) || path.contains(&format!("/src/{name}/")))
        else {
            continue;
        };
        for (other, name) in ORDER.iter().enumerate() {
            let upwards = text.contains(&format!("use crate::{name}::")) && other > own;
            // The two know each other: a linkage keeps the contact point at rest, an attitude is of a linkage.
            let pair = ORDER[own] == "linkage" && *name == "attitude";
            assert!(!upwards || pair, "{path} imports {name}");
        }
    }
}

/// A file of more than 300 lines says why in its first lines.
#[test]
fn long_files_have_a_reason() {
    for folder in ["kernel", "web/src", "tests"] {
        for (path, text) in sources(folder) {
            let reason = text.lines().take(12).any(|line| line.contains("Long because"));
            assert!(
                text.lines().count() <= 300 || reason || path.contains("/target/"),
                "{path}: {} lines",
                text.lines().count()
            );
        }
    }
}

/// The style sheet and the drawing use the same colours.
#[test]
fn the_page_and_the_drawing_share_their_colours() {
    use web::drawing::{Ink, Theme};
    let style = fs::read_to_string(root().join("web/style.css")).expect("the style sheet");
    let (light, dark) = style.split_once("prefers-color-scheme: dark").expect("both themes");
    for (name, ink) in [
        ("paper", Ink::Paper),
        ("panel", Ink::Panel),
        ("ink", Ink::Ink),
        ("ink-2", Ink::Ink2),
        ("ink-3", Ink::Ink3),
        ("rule", Ink::Rule),
        ("selected", Ink::Selected),
        ("fault", Ink::Fault),
    ] {
        for (part, theme) in [(light, Theme::LIGHT), (dark, Theme::DARK)] {
            let rule = format!("--{name}: {};", ink.colour(theme));
            assert!(part.contains(&rule), "{rule} is missing for {theme:?}");
        }
    }
}
