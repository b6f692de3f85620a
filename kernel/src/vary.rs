//! What readings do when a number of the layout is varied. A [`Parameter`] is such a number, an [`Outcome`] a reading at a position of a wheel;
//! every question is about outcomes as functions of parameters.

mod aim;
mod outcome;
mod parameter;
mod sensitivity;
mod tangent;
mod turn;

pub use aim::{Aim, Answer, Effect, Move};
pub use outcome::{Outcome, Quantity, read};
pub use parameter::{Design, Parameter, is_of_a_part};
pub use sensitivity::{STEP, Sensitivity};
pub use turn::{Turning, turn};
