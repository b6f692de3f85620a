//! Where a rigid body is.

use crate::frame::{Rotation, Vec3};

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
}
