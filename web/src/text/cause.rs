//! What may be wrong with a part, in words.

use super::number::fixed;
use kernel::{Change, Layout};

/// Which way a joint sits, along x, y and z as a left wheel's: less, more.
const WAYS: [[&str; 2]; 3] = [["further back", "further forward"], ["further in", "further out"], ["lower", "higher"]];

/// A part that differs by so much, mm or degrees; against the other side's, if nobody knows how it should be.
pub fn cause(layout: &Layout, change: Change, by: f64, against: bool) -> String {
    let more = usize::from(by > 0.0);
    let amount = match change.unit() {
        "°" => fixed(by.abs(), 2) + "°",
        unit => format!("{} {unit}", fixed(by.abs(), 2)),
    };
    let than = if against { " than the other side’s" } else { "" };
    let way = |axis: usize| WAYS[axis.min(2)][more];
    match change {
        Change::Length(member) => {
            let too = match (against, by > 0.0) {
                (true, true) => "longer",
                (true, false) => "shorter",
                (false, true) => "too long",
                (false, false) => "too short",
            };
            format!("{} {amount} {too}{than}", member.name(layout))
        }
        Change::StrutLine(axis) => format!("strut bent, its top {amount} {}{than}", way(axis)),
        Change::Joint(id, axis) => format!("{} {amount} {}{than}", id.name(), way(axis)),
        Change::CarrierCamber => format!("carrier bent, its camber {amount} {}{than}", ["less", "more"][more]),
        Change::CarrierToe => format!("carrier bent, its toe {amount} {}{than}", ["further out", "further in"][more]),
        Change::Subframe(0) => format!("subframe {amount} {}", way(0)),
        Change::Subframe(_) => format!("subframe {amount} to the {}", ["right", "left"][more]),
        Change::SubframeYaw => format!("subframe turned {amount} to the {}", ["right", "left"][more]),
        _ => format!("{} {amount} {}", change.label(layout), ["less", "more"][more]),
    }
}

/// How well a cause fits, by its χ² and the number ν of values beyond the unknowns. A sum of ν squares, each over its own error, is ν on average with a
/// deviation of √(2ν); the bound lies two deviations above that.
pub fn fit(chi2: f64, spare: i32) -> &'static str {
    let spare = f64::from(spare);
    let within = spare + 2.0 * (2.0 * spare).sqrt();
    match () {
        () if spare <= 0.0 => "fits, but with as many unknowns as values anything might",
        () if chi2 <= within => WITHIN,
        () if chi2 <= ROUGHLY * within => "fits roughly",
        () => NOT,
    }
}

/// A fit that leaves up to so many times what errors leave is a rough one: errors twice as large as told would do.
const ROUGHLY: f64 = 4.0;

/// What is said of a fit that errors alone may leave.
pub const WITHIN: &str = "fits within the errors";

/// What is said of one that leaves far more.
pub const NOT: &str = "does not fit";
