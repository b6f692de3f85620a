//! A number as a sentence carries it.

use std::fmt;

/// A number from outside, as short as a sentence can carry: one with more digits than an axle has comes with its power of ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount(pub f64);

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Amount(value) = self;
        if *value != 0.0 && !(1e-4..1e7).contains(&value.abs()) { write!(f, "{value:e}") } else { write!(f, "{value}") }
    }
}
