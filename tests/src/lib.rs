//! What the tests share: the demos, and comparing numbers.

use kernel::{Axle, Built, Change, Demand, Layout, Linkage, Member, Position, Reading, Snapshot, State, settled};

/// Every demo by the name of its file.
pub const DEMOS: [&str; 6] =
    ["strut", "double-wishbone", "strut-over-arms", "wishbone-over-arms", "four-arm", "five-rod-unsteered"];

/// A demo by the name of its file.
///
/// # Panics
/// If it is not there or not a layout.
pub fn demo(name: &str) -> Layout {
    let path = format!("{}/../demo-layouts/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    Layout::from_json(&text).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// The linkage of a sound layout.
///
/// # Panics
/// If the layout has a problem.
pub fn linkage(layout: &Layout) -> Linkage {
    Linkage::new(layout).unwrap_or_else(|problems| panic!("{}: {problems:?}", layout.name))
}

/// The axle of a sound layout, standing as drawn.
///
/// # Panics
/// If there is none.
pub fn axle(layout: &Layout) -> Axle {
    Axle::new(layout).unwrap_or_else(|why| panic!("{}: {why}", layout.name))
}

/// The same with one member longer by so many mm, where its wheel comes to rest.
///
/// # Panics
/// If it can't be assembled.
pub fn longer(layout: &Layout, linkage: &Linkage, member: Member, by: f64) -> Linkage {
    let built = Built::with(layout, [(Change::Length(member), by)].into_iter().collect());
    settled(linkage, layout, &built).unwrap_or_else(|why| panic!("{why}"))
}

/// Where a search begins.
pub fn rest(linkage: &Linkage) -> Position {
    Position::at_rest(linkage)
}

/// A state that can be assembled.
///
/// # Panics
/// If it can't.
pub fn state(linkage: &Linkage, demand: Demand) -> State {
    State::solve(linkage, demand, &rest(linkage)).unwrap_or_else(|why| panic!("{why}"))
}

/// The value of a reading.
///
/// # Panics
/// If there is no such reading or the state has none.
pub fn read(state: &State, column: &str) -> f64 {
    let reading = Reading::named(column).unwrap_or_else(|| panic!("no reading {column}"));
    (reading.value)(&Snapshot::of(state)).unwrap_or_else(|| panic!("no value of {column}"))
}

/// What an example says to a call from the project's root: as `cargo test` has just built it, with the features that it has here.
///
/// # Panics
/// If cargo does not run.
pub fn example(name: &str, arguments: &[&str]) -> std::process::Output {
    let mut call = std::process::Command::new(env!("CARGO"));
    call.current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."));
    call.args(["run", "--quiet", "--locked", "-p", "kernel", "--features", "counted", "--example", name, "--"]);
    call.args(arguments).output().expect("cargo runs")
}

/// Asserts that two numbers are within `tolerance` of each other.
///
/// # Panics
/// If they are not, or one is NaN.
#[track_caller]
pub fn near(is: f64, should: f64, tolerance: f64, what: &str) {
    assert!((is - should).abs() <= tolerance, "{what}: {is}, not {should} ± {tolerance}");
}

/// So many random cases, the same in every run; `PROPTEST_RNG_SEED=…` tries others.
pub fn cases(cases: u32) -> proptest::test_runner::Config {
    use proptest::test_runner::{Config, RngSeed};
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    if std::env::var_os("PROPTEST_RNG_SEED").is_some() {
        config
    } else {
        Config { rng_seed: RngSeed::Fixed(2026), ..config }
    }
}

/// The page's markup as it is written: its table of contents, and behind it all parts.
pub fn markup() -> String {
    let web = concat!(env!("CARGO_MANIFEST_DIR"), "/../web");
    let parts = std::fs::read_dir(format!("{web}/parts")).expect("a folder");
    let parts = parts.map(|part| part.expect("an entry").path());
    let files = std::iter::once(format!("{web}/index.html").into()).chain(parts);
    files.map(|path: std::path::PathBuf| std::fs::read_to_string(path).expect("a text")).collect()
}
