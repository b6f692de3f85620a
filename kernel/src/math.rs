//! Rigid-body mathematics: motion, force, place; and least squares. No axle in here.

mod damped;
mod least_squares;
mod pose;
mod screw;
mod within;

pub use damped::damped;
pub use least_squares::least_squares;
pub use pose::Pose;
pub use screw::{Line, Screw, Twist, Wrench, matrix};
pub use within::{squares, within};
