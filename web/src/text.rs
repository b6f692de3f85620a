//! What people read and type: numbers, their units, names of quantities.

pub mod number;
pub mod typed;
