//! Invariants of the tree that a compiler does not check.

use std::collections::{BTreeMap, BTreeSet};
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

/// Only the browser's folder, the panes and what is handed out by the programs name web types.
#[test]
fn web_types_stay_in_the_browser_and_the_panes() {
    for (path, text) in sources("kernel/src").into_iter().chain(sources("web/src")) {
        let allowed = ["/browser", "/panes", "/main.rs", "/bin/"].iter().any(|place| path.contains(place));
        let names = ["web_sys", "js_sys", "wasm_bindgen"].iter().any(|name| text.contains(name));
        assert!(allowed || !names, "{path} names web types");
    }
}

/// Panes show what the state says; what has to be solved for it, the state is asked. These are what solves, and what works forces out.
#[test]
fn panes_do_not_solve() {
    let solvers = [
        "solve(",
        "sweep(",
        "swing(",
        "settles(",
        "frequency(",
        "value_at(",
        "reached(",
        "marking(&",
        "springing(",
        "set_for(",
        "toe_reset(",
        "shaft_difference(&",
        "loaded::members",
        "loaded::moment_on",
        "loaded::side_over_travel",
        "Axle::",
        "Linkage::",
        "State::",
        "Statics::",
        "Strength::",
        "Springing::",
        "Whole::",
        "Solved::",
        "Study::",
    ];
    let panes: Vec<_> = sources("web/src").into_iter().filter(|(path, _)| path.contains("/panes")).collect();
    assert!(panes.len() > 20, "the panes are found");
    for (path, text) in panes {
        let solver = |name: &&&str| {
            let before = |at: usize| text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
            text.match_indices(**name).any(|(at, _)| !before(at))
        };
        assert_eq!(solvers.iter().find(solver), None, "{path}");
    }
}

/// The rooms of the kernel, from the bottom to the top: a file imports from its own room and from rooms before it.
const KERNEL: [&str; 18] = [
    "frame",
    "math",
    "layout",
    "tape",
    "linkage",
    "pose",
    "state",
    "remark",
    "axle",
    "workshop",
    "space",
    "loads",
    "compliance",
    "ride",
    "both",
    "reading",
    "vary",
    "repair",
];

/// The rooms of the page, in the same way; `work` is for long work in slices.
const WEB: [&str; 13] = [
    "text", "document", "study", "content", "link", "drawing", "plot", "app", "work", "input", "exchange", "browser",
    "panes",
];

/// The files of a crate by the names of their modules (`lib.rs` is the empty one), without comments and tests.
fn modules(folder: &str) -> BTreeMap<String, String> {
    let name = |path: &str| {
        let inside = path.split(&format!("{folder}/")).last().unwrap_or_default();
        let name = inside.trim_end_matches(".rs").replace('/', "::");
        if name == "lib" { String::new() } else { name }
    };
    let code = |text: &str| {
        let text = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
        text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
    };
    sources(folder).iter().map(|(path, text)| (name(path), code(text))).collect()
}

/// The paths that a text begins with: `a::{b, c::d}` are `a::b` and `a::c::d`.
fn paths(text: &str) -> Vec<String> {
    let end = text.find(|c: char| !c.is_alphanumeric() && c != '_' && c != ':').unwrap_or(text.len());
    let (head, rest) = text.split_at(end);
    if !rest.starts_with('{') {
        return vec![head.trim_end_matches(':').to_string()];
    }
    let (mut depth, mut begin, mut found) = (0, 1, Vec::new());
    for (at, letter) in rest.char_indices() {
        if (letter == ',' || letter == '}') && depth == 1 {
            found.extend(paths(rest[begin..at].trim()).into_iter().map(|path| format!("{head}{path}")));
            begin = at + 1;
        }
        depth += i32::from(letter == '{') - i32::from(letter == '}');
        if depth == 0 {
            break;
        }
    }
    found
}

fn parent(module: &str) -> &str {
    module.rsplit_once("::").map_or("", |(parent, _)| parent)
}

fn within(module: &str, path: &str) -> String {
    if module.is_empty() { path.into() } else { format!("{module}::{path}") }
}

/// The file that a path from the crate's root leads to; what a file only hands on (`pub use`) is sought where it comes from.
fn file_of(path: &str, modules: &BTreeMap<String, String>) -> String {
    let mut module = String::new();
    for part in path.split("::") {
        let inner = within(&module, part);
        if modules.contains_key(&inner) {
            module = inner;
            continue;
        }
        let handed = |text: &String| {
            let all = text.split("pub use ").skip(1).flat_map(paths).collect::<Vec<_>>();
            all.into_iter().find(|path| path.rsplit("::").next() == Some(part))
        };
        return match modules.get(&module).and_then(handed) {
            Some(handed) if !handed.starts_with("super::") => file_of(&within(&module, &handed), modules),
            _ => module,
        };
    }
    module
}

/// Which files each file of a crate imports: wherever it says `crate::` or `super::`. What a file says of the modules inside it
/// (`mod`, and calls by their bare names) is not seen, so a room's first file and the files of the room may know each other.
fn imports(folder: &str) -> BTreeMap<String, BTreeSet<String>> {
    let modules = modules(folder);
    let of = |module: &String, text: &String| {
        let mut found: Vec<String> = text.split("crate::").skip(1).flat_map(paths).collect();
        for (at, _) in text.match_indices("super::").filter(|(at, _)| !text[..*at].ends_with("::")) {
            let inner = text[at..].trim_start_matches("super::");
            let up = (text.len() - at - inner.len()) / "super::".len();
            let room = (0..up).fold(module.as_str(), |module, _| parent(module));
            found.extend(paths(inner).iter().map(|path| within(room, path)));
        }
        let files = found.iter().map(|path| file_of(path, &modules));
        files.filter(|file| file != module).collect::<BTreeSet<String>>()
    };
    modules.iter().map(|(module, text)| (module.clone(), of(module, text))).collect()
}

/// In each crate imports go down, by room, without exceptions.
#[test]
fn imports_go_down() {
    for (folder, rooms) in [("kernel/src", &KERNEL[..]), ("web/src", &WEB[..])] {
        let rank = |module: &str| {
            let room = module.split("::").next().unwrap_or_default();
            let rank = rooms.iter().position(|name| *name == room);
            rank.unwrap_or_else(|| panic!("{folder}: “{module}” is in no room of the table"))
        };
        for (file, imported) in
            imports(folder).iter().filter(|(file, _)| !["", "main", "bin::work"].contains(&file.as_str()))
        {
            for other in imported {
                assert!(rank(other) <= rank(file), "{folder}: {file} imports {other}");
            }
        }
    }
}

/// No files of a crate import each other in a circle, as far as [`imports`] sees.
#[test]
fn no_imports_in_a_circle() {
    for folder in ["kernel/src", "web/src"] {
        let mut left = imports(folder);
        loop {
            // What imports nothing that is left is in no circle.
            let files: BTreeSet<String> = left.keys().cloned().collect();
            left.retain(|_, imported| !imported.is_disjoint(&files));
            if left.len() == files.len() {
                break;
            }
        }
        assert!(left.is_empty(), "{folder}: in a circle, or above one: {left:#?}");
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

/// Markup bears the name of its pane; but `start` is there before the program, and `teller` is where the story is told.
#[test]
fn markup_is_named_after_its_pane() {
    for part in fs::read_dir(root().join("web/parts")).expect("the parts") {
        let name = part.expect("a part").path().file_stem().expect("a name").to_string_lossy().into_owned();
        let pane = root().join(format!("web/src/panes/{name}.rs"));
        assert!(pane.exists() || ["start", "teller"].contains(&name.as_str()), "web/parts/{name}.html has no pane");
    }
}

/// The style sheet and the drawing use the same colours.
#[test]
fn the_page_and_the_drawing_share_their_colours() {
    use web::drawing::{Ink, Theme};
    let style = fs::read_to_string(root().join("web/style/colours.css")).expect("the colours");
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

/// An id of the page's markup stands there once: a second one would be found in place of the first.
#[test]
fn ids_of_the_markup_are_unique() {
    let mut seen = BTreeSet::new();
    for entry in fs::read_dir(root().join("web/parts")).expect("the parts") {
        let text = fs::read_to_string(entry.expect("a part").path()).expect("a text");
        for id in text.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            assert!(seen.insert(id.to_string()), "“{id}” stands twice");
        }
    }
    assert!(seen.len() > 100, "the parts have ids");
}
