//! The half-shaft: how far its joints bend, how far it slides, and the couple a bent joint puts on the carrier.
//!
//! A constant-velocity joint passes its moment through the plane that halves the angle β between its two axes, square to that
//! plane: the moment across it lies along the bisector b of shaft direction s and wheel axis n, and its part along n is the torque T:
//! ```text
//! b = (s+n)/‖s+n‖,   M = b·T/(b·n) = b·T/cos(β/2)
//! ```
//! The wheel's bearings hand to the carrier what is not along n: a couple of size T·tan(β/2) square to n. (H. C. Seherr-Thoss,
//! F. Schmelz, E. Aucktor, *Universal Joints and Driveshafts*, Springer: from memory; it also follows from the equilibrium of the
//! joint alone.) Friction and the force of sliding are left out.

use crate::frame::Vec3;
use crate::layout::HalfShaft;
use crate::linkage::Linkage;
use crate::pose::Position;

/// A half-shaft at a position. Angles degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftState {
    /// Angle at the inner joint, between the shaft and the car's lateral axis.
    pub inner_angle: f64,
    /// Angle at the outer joint, between the shaft and the wheel's spin axis.
    pub outer_angle: f64,
    /// Lengthening from rest that the sliding joint takes up, mm.
    pub plunge: f64,
    /// Unit direction outward along the shaft.
    direction: Vec3,
    spin: Vec3,
}

impl ShaftState {
    /// The shaft at a position; `None` if the linkage has none.
    pub fn at(linkage: &Linkage, position: &Position) -> Option<ShaftState> {
        ShaftState::of(linkage.half_shaft?, linkage, position)
    }

    /// The right wheel's shaft at the mirror image of a position, seen as a left one; `None` if it is the left one's mirror image.
    pub fn right(linkage: &Linkage, position: &Position) -> Option<ShaftState> {
        let mut shaft = linkage.half_shaft?;
        shaft.inner.y = -shaft.right_inner_y?;
        ShaftState::of(shaft, linkage, position)
    }

    fn of(shaft: HalfShaft, linkage: &Linkage, position: &Position) -> Option<ShaftState> {
        let pose = &position.pose;
        let spin = pose.r * linkage.spin;
        let along = pose.place(shaft.outer - linkage.centre) - shaft.inner;
        let length = along.norm();
        // Drawn together to a point a shaft has no direction.
        let direction = along.try_normalize(0.0)?;
        Some(ShaftState {
            inner_angle: direction.y.clamp(-1.0, 1.0).acos().to_degrees(),
            outer_angle: direction.dot(&spin).clamp(-1.0, 1.0).acos().to_degrees(),
            plunge: length - (shaft.outer - shaft.inner).norm(),
            direction,
            spin,
        })
    }

    /// The couple on the carrier, N·mm, for a driving torque, N·mm, on the wheel (positive driving forward). `None` for a joint
    /// folded back on itself.
    pub fn couple(&self, torque: f64) -> Option<Vec3> {
        let bisector = (self.direction + self.spin).try_normalize(1e-6)?;
        // Driving forward turns the left wheel about +y, its outward axis, by the right hand: +n.
        let moment = bisector * (torque / bisector.dot(&self.spin));
        Some(moment - self.spin * torque)
    }
}
