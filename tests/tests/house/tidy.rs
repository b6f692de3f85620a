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

/// The rooms of the kernel, from the bottom to the top: a file imports from its own room and from rooms before it.
const KERNEL: [&str; 11] =
    ["frame", "math", "layout", "linkage", "pose", "state", "axle", "loads", "ride", "both", "reading"];

/// In each crate imports go down, by room, without exceptions.
#[test]
fn imports_go_down() {
    for (folder, rooms) in [("kernel/src", &KERNEL[..])] {
        for (path, text) in sources(folder) {
            let inside = path.split(&format!("{folder}/")).last().unwrap_or_default();
            let room = inside.split(['/', '.']).next().unwrap_or_default();
            if room == "lib" {
                continue;
            }
            let own = rooms.iter().position(|name| *name == room);
            let own = own.unwrap_or_else(|| panic!("{path} is in no room of the table"));
            for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
                for imported in line.split("crate::").skip(1) {
                    let name: String = imported.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                    let other = rooms.iter().position(|room| *room == name);
                    assert!(other.is_some_and(|other| other <= own), "{path} imports {name}");
                }
            }
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
