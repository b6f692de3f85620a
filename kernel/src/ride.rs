//! Ride: springs, anti-roll bar, roll stiffness, and the support of braking and drive.

mod anti_roll_bar;
mod roll_stiffness;
mod springing;
mod support;

pub use anti_roll_bar::BarState;
pub use roll_stiffness::{RollStiffness, both};
pub use springing::{Springing, frequency, ratio_slope};
pub use support::support;
