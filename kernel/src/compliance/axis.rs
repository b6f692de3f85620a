//! How the steering axis leans as bushes give way: it is the screw of the carrier's motion when the rack moves and the spring keeps its length, with
//! everything that gives way frozen as it is.
//!
//! A body end moves by δ = D p + β, p what it feels and β the movement of what it is bolted to. With the carrier and the ends moved so, the rows are
//! evaluated anew; what the spring rides on is a rigid body of its own, moved by (δ, ω): an arm with its inner joint, turned with what that is bolted
//! to; a wishbone with both joints, ω = e×(δ_b − δ_a)/‖b − a‖. The rate is a central difference: the rows of a spring on a member have no short
//! derivative.

use super::bushes::End;
use super::deflection::Deflection;
use super::wheel::Wheel;
use crate::frame::{Rotation, Vec3};
use crate::linkage::{Constraint, Follower, Linkage, SpringLine, TRACK_ROD};
use crate::math::{Factored, Line, Pose, Twist};
use crate::state::State;

/// Part of the deflection that the difference spans each way: of millimetres some micrometres, on members of decimetres, so that what is of third
/// order and rounding are both below 1e-9 of it.
const STEP: f64 = 1e-3;

/// The change of caster of one wheel, degrees, under what moves it, to first order; `None` without an axis.
pub(super) fn caster(
    linkage: &Linkage,
    ends: &[End; 5],
    state: &State,
    wheel: &Wheel,
    moves: &Deflection,
) -> Option<f64> {
    state.axis.ok()?;
    let moved = Moved::new(linkage, ends, state, wheel, moves);
    let [back, forth] = [-STEP, STEP].map(|part| moved.caster(part));
    Some((forth? - back?) / (2.0 * STEP)).filter(|change| change.is_finite())
}

/// One wheel with everything that moves, in the axes of a left wheel's car.
struct Moved<'a> {
    linkage: &'a Linkage,
    state: &'a State,
    carrier: Twist,
    ends: [Vec3; 5],
    /// What the spring rides on, if not on the carrier: a point of it, and how it moves there.
    ridden: (Vec3, Twist),
    /// The spring's upper end.
    top: Vec3,
}

impl<'a> Moved<'a> {
    fn new(linkage: &'a Linkage, ends: &[End; 5], state: &'a State, wheel: &Wheel, moves: &Deflection) -> Moved<'a> {
        let moved = moves.ends;
        let part = linkage.parts().find(|(_, rows)| linkage.spring_part() == Some(rows[0].part));
        let ridden = part.map_or((Vec3::zeros(), Twist::NONE), |(first, _)| {
            let (a, b) = (wheel.body[first].at, wheel.body[(first + 1).min(TRACK_ROD)].at);
            let omega = match linkage.spring().follower {
                Follower::Wishbone { .. } => (b - a).cross(&(moved[first + 1] - moved[first])) / (b - a).norm_squared(),
                _ if ends[first].carried => moves.subframe.omega,
                _ => Vec3::zeros(),
            };
            (a, Twist { v: moved[first], omega })
        });
        let on_mount = |i: &usize| matches!(linkage.rows[*i].constraint, Constraint::Slide { top, .. } if top == linkage.spring.top);
        let top = (0..5).find(on_mount).map_or(Vec3::zeros(), |i| moved[i]);
        Moved { linkage, state, carrier: moves.carrier, ends: moved, ridden, top }
    }

    /// Caster, degrees, with so much of the movement.
    fn caster(&self, part: f64) -> Option<f64> {
        let (pose, rack) = (&self.state.position.pose, self.state.position.rack);
        let pose = pose.moved(&self.carrier.scaled(part));
        let r = pose.r.to_rotation_matrix().into_inner();
        let guides: [Line; 5] = std::array::from_fn(|i| {
            let mut constraint = self.linkage.rows[i].constraint.clone();
            match &mut constraint {
                Constraint::Rod { inner: end, .. } | Constraint::Slide { top: end, .. } => *end += self.ends[i] * part,
            }
            constraint.evaluate(pose.w, &r, rack).1
        });
        let [a, b, c, d, e] = guides;
        let jacobian = Factored::of(&[a, b, c, d, e, self.spring(part, &pose)]);
        let k = jacobian.twist(&[0.0, 0.0, 0.0, 0.0, 1.0, 0.0])?.omega;
        let k = if k.z < 0.0 { -k } else { k };
        Some((-k.x).atan2(k.z).to_degrees())
    }

    /// The spring's line: seen from what it rides on, all else moves the other way.
    fn spring(&self, part: f64, pose: &Pose) -> Line {
        let (about, motion) = self.ridden;
        let back = Rotation::new(motion.omega * -part);
        let place = |point: Vec3| about + back * (point - about - motion.v * part);
        let own = &self.linkage.spring;
        let spring = SpringLine {
            top: place(own.top + self.top * part),
            follower: own.follower.clone(),
            rocker: own.rocker.as_ref().map(|rocker| rocker.moved(place, &back)),
        };
        let line = spring.evaluate(&Pose { w: place(pose.w), r: back * pose.r }).1;
        Line { u: back.inverse() * line.u, m: back.inverse() * line.m }
    }
}
