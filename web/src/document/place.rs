//! A place: where the axle is taken to and read, and how far it goes.

use crate::text::number::Units;
use std::f64::consts::TAU;

/// Curves run over at least this much travel each way, mm.
pub const TRAVEL: f64 = 60.0;

/// Curves run over this much roll each way, and it can be asked for, degrees.
pub const ROLL: f64 = 5.0;

/// The travel and rack that can be asked for on the page, each way, mm.
pub const MOST_TRAVEL: f64 = 200.0;

/// So many turns after a movement began at `start`, to and fro as far as `reach` each way: a sine, entered where it has that height; 0 where
/// nothing moves.
pub fn swing(reach: f64, start: f64, turns: f64) -> f64 {
    match reach {
        0.0 => 0.0,
        _ => reach * (TAU * turns + (start / reach).clamp(-1.0, 1.0).asin()).sin(),
    }
}

/// Where something is read.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Rise of the wheel centre, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Roll of the body, degrees.
    pub roll: f64,
}

impl Place {
    /// The place in words.
    pub fn words(self, units: Units) -> String {
        let [travel, rack] = [self.travel, self.rack].map(|mm| units.signed_length(mm));
        let roll = if self.roll == 0.0 { String::new() } else { format!(", roll {}", units.angle(self.roll, 1)) };
        format!("at travel {travel}, rack {rack}{roll}")
    }
}
