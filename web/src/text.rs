//! What people read and type: numbers, their units, names of quantities, the caution.

pub mod caution;
pub mod change;
pub mod number;
pub mod sentence;
pub mod typed;
