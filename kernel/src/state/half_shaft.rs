//! The half-shaft: how far its joints bend, how far it slides, and what its bent joints put on the carrier.
//!
//! A constant-velocity joint passes its moment through the plane that halves the angle between its two axes, square to that plane: the
//! moment across it lies along the bisector of the two axes, and its part along either of them is the torque T. With the shaft's direction
//! s, the wheel's axis n and the car's lateral axis a at the inner joint:
//! ```text
//! outer joint   M_o = T (s+n)/(1+s·n)      inner joint   M_i = T (s+a)/(1+s·a)
//! ```
//! The wheel's bearings hand to the carrier what of M_o is not along n: a couple of size T·tan(β/2) square to n. The shaft itself, of length
//! L, gets M_i at one end and −M_o at the other; they differ across s as soon as n and a are not parallel, and a pair of radial forces at its
//! joints holds the rest. The outer one acts on the carrier:
//! ```text
//! M_i − M_o = L s×Q   ⇒   Q = −s×(M_i − M_o)/L
//! ```
//! about T·tan(δ/2)/L, vertical, at a steer angle δ: it lifts one side and presses the other. (H. C. Seherr-Thoss, F. Schmelz, E. Aucktor,
//! *Universal Joints and Driveshafts*, Springer: from memory; it also follows from the equilibrium of joints and shaft alone.) Friction
//! and the force of sliding are left out.

use crate::frame::Vec3;
use crate::layout::HalfShaft;
use crate::linkage::Linkage;
use crate::math::Wrench;
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
    /// The outer joint from the wheel centre, mm.
    outer: Vec3,
    /// Between the joints now, mm.
    length: f64,
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
            outer: pose.r * (shaft.outer - linkage.centre),
            length,
        })
    }

    /// What a driving torque on the wheel (N·mm, positive driving forward) puts on the carrier, about the wheel centre: the couple of the
    /// bent outer joint and the radial force Q there. `None` for a joint folded back on itself.
    pub fn wrench(&self, torque: f64) -> Option<Wrench> {
        let moment = |axis: Vec3| {
            let bisector = (self.direction + axis).try_normalize(1e-6)?;
            // Driving forward turns the left wheel about +y, its outward axis, by the right hand: +n.
            Some(bisector * (torque / bisector.dot(&axis)))
        };
        let (inner, outer) = (moment(Vec3::y())?, moment(self.spin)?);
        let radial = -self.direction.cross(&(inner - outer)) / self.length;
        let couple = Wrench { force: Vec3::zeros(), moment: outer - self.spin * torque };
        Some(couple.plus(&Wrench::at(self.outer, radial)))
    }
}
