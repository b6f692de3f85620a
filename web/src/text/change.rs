//! What is different from the design, in words.

use super::number::signed;
use kernel::{Adjusted, Adjuster, Change, Layout, LeftOrRight, Sides};

/// One change with its amount and its side.
pub fn changed(layout: &Layout, of: Sides, change: Change, by: f64) -> String {
    let space = if change.unit() == "°" { "" } else { " " };
    let side = match of {
        Sides::Both if change.of_both() => "",
        Sides::Both => ", both wheels",
        Sides::One(LeftOrRight::Left) => ", left wheel",
        Sides::One(LeftOrRight::Right) => ", right wheel",
    };
    format!("{} {}{space}{}{side}", change.label(layout), signed(by, 2), change.unit())
}

/// All of them, those of both sides first.
pub fn changes(layout: &Layout) -> Vec<String> {
    layout.changes.iter().map(|(of, change, by)| changed(layout, of, change, by)).collect()
}

/// What an adjuster is called, to stand behind “the”.
pub fn label(layout: &Layout, adjuster: &Adjuster) -> String {
    match &adjuster.set {
        Adjusted::Change(change) => change.label(layout),
        Adjusted::Along(id, _) => format!("{}, along its slot or shims", id.name()),
    }
}

/// So far on an adjuster: in its unit, and in turns or shims if it has them.
pub fn moved(adjuster: &Adjuster, by: f64) -> String {
    let amount = match adjuster.unit() {
        "°" => signed(by, 2) + "°",
        unit => format!("{} {unit}", signed(by, 2)),
    };
    match worked(adjuster, by) {
        none if none.is_empty() => amount,
        work => format!("{amount} ({work})"),
    }
}

/// So far on an adjuster as hands do it: turns of a thread, shims; nothing where it has neither.
pub fn worked(adjuster: &Adjuster, by: f64) -> String {
    let turns = adjuster.pitch.map(|pitch| format!("{} turns", signed(by / pitch, 2)));
    let shims = adjuster.step.map(|step| format!("{} × {} mm", signed(by / step, 0), step));
    turns.or(shims).unwrap_or_default()
}
