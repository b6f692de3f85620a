//! Rigid-body mathematics: motion, force, place. No axle in here.

mod pose;
mod screw;

pub use pose::Pose;
pub use screw::{Line, Screw, Twist, Wrench, matrix};
