//! Where the bump motion turns, seen from ahead and from the side.

use super::State;
use crate::frame::Vec3;

/// Farther than this, mm, is "far away": beyond it the centre has no practical meaning.
const FAR: f64 = 50_000.0;

/// Where a wheel's bump motion turns, seen from ahead or from the side, and the arm from there to the contact point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SwingCentre {
    /// The place, car axes of a left wheel, in the plane of the wheel centre.
    pub at: Vec3,
    /// Level distance to the contact point, mm, positive when the centre is inboard (from ahead) or rearward (from the side) of it.
    pub arm: f64,
}

impl State {
    /// The instantaneous centre seen from ahead: with (v_y, v_z, ω_x) of the bump motion, y = W_y − v_z/ω_x, z = W_z + v_y/ω_x.
    /// `None` where it is far away.
    pub fn front_centre(&self) -> Option<SwingCentre> {
        let (w, twist) = (self.position.pose.w, &self.bump.twist);
        let at = Vec3::new(w.x, w.y - twist.v.z / twist.omega.x, w.z + twist.v.y / twist.omega.x);
        let contact = w + self.attitude.contact;
        near(at, w).then(|| SwingCentre { at, arm: contact.y - at.y })
    }

    /// The same from the side: x = W_x + v_z/ω_y, z = W_z − v_x/ω_y.
    pub fn side_centre(&self) -> Option<SwingCentre> {
        let (w, twist) = (self.position.pose.w, &self.bump.twist);
        let at = Vec3::new(w.x + twist.v.z / twist.omega.y, w.y, w.z - twist.v.x / twist.omega.y);
        let contact = w + self.attitude.contact;
        near(at, w).then(|| SwingCentre { at, arm: contact.x - at.x })
    }
}

fn near(at: Vec3, from: Vec3) -> bool {
    at.iter().all(|x| x.is_finite()) && (at - from).norm() < FAR
}
