//! Why nothing can be searched.

use crate::axle::NoAxle;
use std::fmt;

/// Why a search for goals, or a fit, can't begin; its `Display` is a sentence.
#[derive(Clone, Debug)]
pub enum NoSearch {
    /// The present axle is none, or can't be where a reading is wanted or was taken.
    Axle(NoAxle),
    /// It has no such reading, by its column, at a travel and rack, mm.
    NoReading(&'static str, [f64; 2]),
    /// It can't be where this condition is to be kept, counted from 0, or has nothing to keep there.
    NoCondition(usize),
}

impl fmt::Display for NoSearch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoSearch::Axle(why) => why.fmt(f),
            NoSearch::NoReading(column, [travel, rack]) => {
                write!(
                    f,
                    "The axle has no {column} at travel {travel} mm and rack {rack} mm, so it can’t be searched for."
                )
            }
            NoSearch::NoCondition(at) => write!(
                f,
                "The axle can’t be where condition {} is to be kept, or has nothing there that it is of.",
                at + 1
            ),
        }
    }
}

impl std::error::Error for NoSearch {}
