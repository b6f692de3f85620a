//! What is solved for a document: the axle in its position and along its curves, what it carries, what an answer is worth.

pub mod alignment;
mod beside;
pub mod condition;
mod curve;
pub mod giving;
pub mod influence;
mod kept;
mod known;
pub mod loaded;
pub mod margins;
pub mod marking;
mod neighbour;
mod others;
pub mod setting;
mod solved;
pub mod space;
mod standing;
mod taped;
pub mod twisted;
pub mod value;
pub mod variation;
mod whole;

pub use curve::Curve;
pub use kept::{Study, laid_over};
pub use known::Known;
pub use neighbour::Neighbour;
pub use others::Others;
pub use solved::{Solved, Trouble};
pub use standing::Standing;
pub use taped::Taped;
