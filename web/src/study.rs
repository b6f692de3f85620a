//! What is solved for a document: the axle in its position and along its curves, what it carries, what an answer is worth.

mod kept;
pub mod loaded;
pub mod marking;
mod whole;

pub use kept::{Curve, MOST_TRAVEL, ROLL, Solved, Study, TRAVEL, Trouble};
