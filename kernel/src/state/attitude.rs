//! How the wheel stands: camber, steer, contact point, and the wheel's own directions on the road.

use crate::frame::{Vec3, contact_point, level};
use crate::math::Twist;
use crate::pose::{steer_angle, steer_row};

/// How the left wheel stands at a pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attitude {
    /// Outward spin axis n.
    pub spin: Vec3,
    /// Degrees, positive when the wheel's top leans out: −asin(n_z).
    pub camber: f64,
    /// Degrees, positive when the wheel turns left: atan2(−n_x, n_y). Toe of the left wheel is its negative.
    pub steer: f64,
    /// Contact point from the wheel centre, mm: `loaded_radius` down the wheel plane's steepest line.
    pub contact: Vec3,
    /// The wheel's heading on the road, e_x' = n×e_z/‖n×e_z‖.
    pub heading: Vec3,
    /// The wheel's side direction on the road, e_y' = e_z×e_x'.
    pub side: Vec3,
}

impl Attitude {
    /// The attitude of a wheel with outward spin axis n and a loaded radius, mm.
    pub fn new(spin: Vec3, radius: f64) -> Attitude {
        let level = level(spin);
        let heading = Vec3::new(spin.y, -spin.x, 0.0) / level;
        Attitude {
            spin,
            camber: -spin.z.atan2(level).to_degrees(),
            steer: steer_angle(spin).to_degrees(),
            contact: contact_point(spin, radius),
            heading,
            side: Vec3::new(-heading.y, heading.x, 0.0),
        }
    }

    /// A force given along (e_x', e_y', e_z), in the car's axes.
    pub fn along(&self, force: Vec3) -> Vec3 {
        self.heading * force.x + self.side * force.y + Vec3::z() * force.z
    }

    /// Rate of camber under a motion, rad per unit: −dn_z/√(1−n_z²) with dn = ω×n.
    pub fn camber_rate(&self, twist: &Twist) -> f64 {
        let n = self.spin;
        -(twist.omega.x * n.y - twist.omega.y * n.x) / level(n)
    }

    /// Rate of steer under a motion, rad per unit.
    pub fn steer_rate(&self, twist: &Twist) -> f64 {
        steer_row(self.spin).rate(twist)
    }
}
