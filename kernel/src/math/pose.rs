//! Where a rigid body is.

use super::Twist;
use crate::frame::{Rotation, Vec3};
use nalgebra::Quaternion;

/// Where the carrier is: its wheel centre W and its rotation from rest, in the car's axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// The wheel centre W, mm.
    pub w: Vec3,
    /// Rotation from rest.
    pub r: Rotation,
}

impl Pose {
    /// Where a point of the carrier is now, given where it is relative to W at rest, mm.
    pub fn place(&self, carrier_point: Vec3) -> Vec3 {
        self.w + self.r * carrier_point
    }

    /// Where a motion takes it in a unit of time: the wheel centre straight on, and round it by the turn ω.
    pub fn moved(&self, twist: &Twist) -> Pose {
        Pose { w: self.w + twist.v, r: turn(twist.omega) * self.r }
    }
}

/// Below this, rad², a turn's quaternion is the beginning of its series, to the last digit.
const SMALL: f64 = 1e-4;

/// The turn by ω, with θ = ‖ω‖ the unit quaternion (cos θ/2, ω/θ·sin θ/2): of a small one
/// ```text
/// cos θ/2 = 1 − θ²/8 + θ⁴/384 − θ⁶/46,080 …      sin(θ/2)/θ = 1/2 − θ²/48 + θ⁴/3,840 − …
/// ```
/// whose further terms are below 1e-16 where θ² is below 1e-4.
fn turn(omega: Vec3) -> Rotation {
    let square = omega.norm_squared();
    if square > SMALL {
        return Rotation::new(omega);
    }
    let cosine = 1.0 - square / 8.0 * (1.0 - square / 48.0);
    let sine = 0.5 - square / 48.0 * (1.0 - square / 80.0);
    Rotation::new_unchecked(Quaternion::from_parts(cosine, omega * sine))
}
