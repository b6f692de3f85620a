//! Ride: springs, bushes that resist turning, anti-roll bar, roll stiffness, and the support of braking and drive.

mod anti_roll_bar;
mod roll_stiffness;
mod slope;
mod springing;
mod support;
mod turned;

pub use anti_roll_bar::BarState;
pub use roll_stiffness::{RollStiffness, both};
pub use springing::{Springing, frequency, ratio_slope};
pub use support::support;
pub use turned::{TurnedBush, Twisted, at_wheel as bushes_at_wheel};
