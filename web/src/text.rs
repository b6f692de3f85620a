//! What people read and type: numbers, their units, names of quantities, the caution.

pub mod cause;
pub mod caution;
pub mod change;
pub mod number;
pub mod printout;
pub mod sentence;
pub mod typed;
pub mod unbroken;
