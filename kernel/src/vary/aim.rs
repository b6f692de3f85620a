//! What is wanted of a wheel, and an answer to it: what is turned how far, what is left over, what else moves.

use super::Quantity;
use crate::layout::{Changes, LeftOrRight};
use crate::reading::Unit;

/// What is wanted of a wheel where the car stands, wheels ahead.
#[derive(Clone, Copy)]
pub struct Aim {
    /// Of which quantity.
    pub quantity: Quantity,
    /// What it is to be.
    pub wanted: f64,
}

impl Quantity {
    /// What a careful workshop tells apart, in the quantity's own unit (an invention after common practice): toe to a minute or so, other angles to
    /// six, places to half a millimetre, bump steer to 0.005° per 10 mm.
    pub fn tolerance(self) -> f64 {
        let reading = self.reading();
        match (reading.column, reading.unit) {
            ("toe_deg" | "steer_deg", _) => 0.02,
            (_, Unit::Degree) => 0.1,
            (_, Unit::DegreePerMillimetre) => 5e-4,
            (_, Unit::Millimetre | Unit::MillimetrePerRadian) => 0.5,
            _ => 0.01,
        }
    }
}

/// An adjuster and how far it goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// Which of those that were offered.
    pub adjuster: usize,
    /// How far from where it is, mm, or degrees for an angle.
    pub by: f64,
    /// It is then at the end of its range.
    pub at_end: bool,
}

/// A reading of a wheel before and after.
#[derive(Clone, Copy)]
pub struct Effect {
    /// What moved.
    pub quantity: Quantity,
    /// Of which wheel.
    pub side: LeftOrRight,
    /// What it was.
    pub before: f64,
    /// What it is.
    pub after: f64,
}

/// An answer.
#[derive(Clone)]
pub struct Answer {
    /// What to turn, how far.
    pub moves: Vec<Move>,
    /// The changes then.
    pub changes: Changes,
    /// Wanted less reading, for each aim.
    pub left_over: Vec<f64>,
    /// Everything else that moved by more than a tenth of its tolerance, what a workshop measures most easily first.
    pub effects: Vec<Effect>,
}
