//! Rigid-body mathematics: motion, force, place; least squares; the plane; random numbers. No axle in here.

mod bounded;
mod damped;
mod factored;
mod least_squares;
pub mod plane;
mod pose;
mod random;
mod screw;
mod within;

pub use bounded::{Bounded, Least, Stopped, Values, bounded, outside};
pub use damped::damped;
pub use factored::{Factored, Order};
pub use least_squares::least_squares;
pub use pose::Pose;
pub use random::Random;
pub use screw::{Line, Screw, Twist, Wrench, matrix};
pub use within::{squares, within};
