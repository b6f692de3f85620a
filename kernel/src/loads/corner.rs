//! Forces at every joint of one corner, from the member forces: what holds the carrier, and what the body feels.
//!
//! A rod without the spring carries its tension T from end to end. A wishbone's two legs are taken as rods. A member that carries
//! the spring has an equilibrium of its own; with F the spring's force, s its direction from top to foot, g the gradient with which
//! it acts on the carrier (see `linkage::spring`), f the foot and o the outer joint, both from the body joint:
//! ```text
//! on the carrier at o    −T u + F g
//! arm: on the body       T u − F g + F s, and a couple f×F s − o×F g in its bush, which keeps the arm from spinning
//! wishbone: on the body  the legs' tensions along the legs, and with M = f×F s − o×F g from the front joint, e and D the
//!                        direction and length from the front to the rear one, R = F s − F g:
//!                        at the rear joint across e  −(e×M)/D,   at the front joint the rest of R across e
//! ```
//! A rocker passes k F along its rod to the foot, k the spring's change per rod's, and hands F s − k F u and the couple to its bearing.
//!
//! Rigid-body statics cannot determine how the two body joints of a wishbone share a force along e. Assumed: of R, half each.

use super::{MemberForces, Statics};
use crate::frame::Vec3;
use crate::layout::{Member, Part, PointId};
use crate::linkage::{Constraint, Follower, Linkage};
use crate::math::Wrench;
use crate::state::State;

/// The force at a joint, N, in the car's axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joint {
    /// The joint.
    pub id: PointId,
    /// Where it is, from the wheel centre, mm.
    pub at: Vec3,
    /// The force.
    pub force: Vec3,
}

/// Everything that is carried at one corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Along the members.
    pub members: MemberForces,
    /// On the carrier, at its joints; for a strut, at the top mount (the side force) and at the spring's foot.
    pub carrier: Vec<Joint>,
    /// On the body (the track rod's on the rack), at its joints.
    pub body: Vec<Joint>,
    /// On the body, in the bush of an arm that carries the spring and in a rocker's bearing, N·mm.
    pub bush: Vec3,
    /// What the spring does to the arm that it is mounted on.
    pub bent: Option<Bending>,
}

/// An arm that carries the spring, as a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bending {
    /// The arm.
    pub member: Member,
    /// The greatest moment that bends it, N·mm: where the spring's foot is on its line.
    pub moment: f64,
    /// Force along it, N, tension positive: from the foot to the inner joint, and from the foot to the outer one. The spring's part along the
    /// arm is between them.
    pub axial: [f64; 2],
}

/// A member that carries the spring, in the car's axes from the wheel centre.
struct Carried {
    /// Spring force on the member at the foot, N.
    push: Vec3,
    /// What of it reaches the carrier at the outer joint, N.
    passed: Vec3,
    foot: Vec3,
}

impl Corner {
    /// The corner under a wrench on the carrier about the wheel centre; `None` where the members do not hold it.
    pub fn under(linkage: &Linkage, state: &State, statics: &Statics, wrench: &Wrench) -> Option<Corner> {
        let members = statics.members(wrench)?;
        let pose = &state.position.pose;
        let foot = linkage.spring.foot(pose) - pose.w;
        let [top, end] = linkage.spring.ends(pose).map(|end| end - pose.w);
        let spring = (end - top).try_normalize(0.0)? * members.spring;
        let rocker = linkage.spring.rocker_at(pose);
        // What pushes at the foot: the spring, or the rod from the rocker.
        let push = match rocker {
            None => spring,
            Some(rocker) => (foot + pose.w - rocker.rod).try_normalize(0.0)? * (members.spring * rocker.ratio),
        };
        let carried = Carried { push, passed: state.spring.u * members.spring, foot };
        let mut corner = Corner {
            members,
            carrier: Vec::with_capacity(7),
            body: Vec::with_capacity(7),
            bush: Vec3::zeros(),
            bent: None,
        };
        for (first, rows) in linkage.parts() {
            let spring = (linkage.spring_part() == Some(rows[0].part)).then_some(&carried);
            match rows {
                [row, _] if row.part == Part::Strut => corner.strut(linkage, state, first),
                [_, _] => corner.wishbone(linkage, state, first, spring),
                _ => corner.arm(linkage, state, first, spring),
            }
        }
        if let Follower::Carrier(_) = linkage.spring.follower {
            corner.carrier.push(Joint { id: PointId::SpringFoot, at: foot, force: push });
        }
        corner.body.push(Joint { id: PointId::SpringTop, at: top, force: -spring });
        if let Some(rocker) = rocker {
            let [at, rod] = [rocker.pivot, rocker.rod].map(|place| place - pose.w);
            corner.body.push(Joint { id: PointId::RockerPivot, at, force: spring - push });
            corner.bush += (end - at).cross(&spring) - (rod - at).cross(&push);
        }
        Some(corner)
    }

    fn arm(&mut self, linkage: &Linkage, state: &State, row: usize, spring: Option<&Carried>) {
        let ([inner_id, outer_id], [inner, outer]) = (linkage.rows[row].joints, ends(linkage, state, row));
        let pull = state.guides[row].u * self.members.rows[row];
        let (push, passed, foot) = spring.map_or(Default::default(), |s| (s.push, s.passed, s.foot));
        self.carrier.push(Joint { id: outer_id, at: outer, force: passed - pull });
        self.body.push(Joint { id: inner_id, at: inner, force: pull - passed + push });
        self.bush += (foot - inner).cross(&push) - (outer - inner).cross(&passed);
        if spring.is_some() {
            let line = (outer - inner).normalize();
            let below = inner + line * line.dot(&(foot - inner));
            // From either end; a foot off the line makes them differ. What runs along the line bends nothing.
            let moments = [(outer - below).cross(&passed), (inner - below).cross(&(push - passed))];
            self.bent = Some(Bending {
                member: linkage.rows[row].member,
                moment: moments[0].norm().max(moments[1].norm()),
                axial: [(pull - passed + push).dot(&line), (pull - passed).dot(&line)],
            });
        }
    }

    fn wishbone(&mut self, linkage: &Linkage, state: &State, front: usize, spring: Option<&Carried>) {
        let pulls = [front, front + 1].map(|row| state.guides[row].u * self.members.rows[row]);
        let [a, outer] = ends(linkage, state, front);
        let [b, _] = ends(linkage, state, front + 1);
        let (push, passed, foot) = spring.map_or(Default::default(), |s| (s.push, s.passed, s.foot));
        let moment = (foot - a).cross(&push) - (outer - a).cross(&passed);
        let (span, rest) = (b - a, push - passed);
        let length = span.norm().max(f64::MIN_POSITIVE);
        let e = span / length;
        let along = e * (rest.dot(&e) / 2.0);
        let rear = along - e.cross(&moment) / length;
        let id = linkage.rows[front].joints[1];
        self.carrier.push(Joint { id, at: outer, force: passed - pulls[0] - pulls[1] });
        for (row, at, force) in [(front, a, pulls[0] + rest - rear), (front + 1, b, pulls[1] + rear)] {
            self.body.push(Joint { id: linkage.rows[row].joints[0], at, force });
        }
    }

    fn strut(&mut self, linkage: &Linkage, state: &State, row: usize) {
        let force = -[row, row + 1].map(|row| state.guides[row].u * self.members.rows[row]).iter().sum::<Vec3>();
        if let Constraint::Slide { top, .. } = linkage.rows[row].constraint {
            let at = top - state.position.pose.w;
            self.carrier.push(Joint { id: PointId::StrutTop, at, force });
            self.body.push(Joint { id: PointId::StrutTop, at, force: -force });
        }
    }

    /// The sum of all forces on the body, about the wheel centre: what was put on the carrier.
    pub fn sum(&self) -> Wrench {
        let none = Wrench { force: Vec3::zeros(), moment: self.bush };
        self.body.iter().fold(none, |sum, joint| sum.plus(&Wrench::at(joint.at, joint.force)))
    }
}

/// A rod's inner and outer end, from the wheel centre, mm.
fn ends(linkage: &Linkage, state: &State, row: usize) -> [Vec3; 2] {
    let pose = &state.position.pose;
    let constraint = &linkage.rows[row].constraint;
    let (Constraint::Rod { outer, .. } | Constraint::Slide { foot: outer, .. }) = constraint;
    [constraint.inner_at(state.position.rack) - pose.w, pose.r * outer]
}
