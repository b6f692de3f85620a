//! The bump motion: what the wheel does per mm of travel with the rack held.
//!
//! v_C is the velocity of the carrier's point that is at the contact point now, as with a locked wheel: the one that does the
//! work of a road force. It is not the rate of the contact point's place on the tyre, which the table's track and wheelbase
//! changes would give by differences.

use super::Attitude;
use crate::frame::Vec3;
use crate::math::{Line, Twist};

/// Rates per mm of wheel travel, and what is read from them. Angles degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bump {
    /// Motion per mm of rise of the wheel centre.
    pub twist: Twist,
    /// d toe, °/mm.
    pub steer: f64,
    /// d camber, °/mm.
    pub camber: f64,
    /// Spring compression per wheel travel.
    pub motion_ratio: f64,
    /// Roll centre height over the road of a symmetric axle, mm; `None` where the contact point does not rise.
    pub roll_centre: Option<f64>,
    /// Support angle for an outboard brake.
    pub support_brake: f64,
    /// Support angle for a force at the wheel centre.
    pub support_wheel: f64,
}

impl Bump {
    /// Reads a bump motion. `centre` is the wheel centre in the car's axes, `spring` the spring's equivalent line.
    pub fn new(twist: Twist, attitude: &Attitude, centre: Vec3, spring: &Line) -> Bump {
        let contact = twist.velocity(attitude.contact);
        let from_centre_plane = centre.y + attitude.contact.y;
        // The contact point's rise per wheel travel; when it (nearly) does not rise, its path has no height to point at.
        let rises = contact.z.abs() > 1e-6;
        Bump {
            twist,
            steer: -attitude.steer_rate(&twist).to_degrees(),
            camber: attitude.camber_rate(&twist).to_degrees(),
            motion_ratio: -spring.rate(&twist),
            roll_centre: rises.then(|| from_centre_plane * contact.y / contact.z),
            support_brake: contact.x.atan2(contact.z).to_degrees(),
            support_wheel: twist.v.x.atan2(twist.v.z).to_degrees(),
        }
    }
}
