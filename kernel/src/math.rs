//! Rigid-body mathematics: motion, force, place; least squares; random numbers. No axle in here.

mod damped;
mod least_squares;
mod pose;
mod random;
mod screw;

pub use damped::{Least, Stopped, Values, damped, outside};
pub use least_squares::least_squares;
pub use pose::Pose;
pub use random::Random;
pub use screw::{Line, Screw, Twist, Wrench, matrix};
