//! The spring: its length and the line that is equivalent to it on the carrier.
//!
//! A foot that rides on a member loads the carrier through that member's outer joint, so its *equivalent line* is the
//! gradient of the spring length with respect to that joint's position: not a unit vector, but length per length.

use crate::frame::{Rotation, Vec3};
use crate::layout::{Rocker, Rod};
use crate::math::{Line, Pose};

/// The spring's upper end and what its foot rides on, or a rocker between.
#[derive(Clone, Debug, PartialEq)]
pub struct SpringLine {
    /// Upper end on the body, mm.
    pub top: Vec3,
    /// What the foot, or the rod to the rocker, rides on.
    pub follower: Follower,
    /// The rocker, if there is one.
    pub rocker: Option<RockerLine>,
}

/// A rocker: it turns until its rod has its length.
///
/// With e the axis, the rod's joint J = a + ρ cos θ + (e×ρ) sin θ from the pivot (a along e, ρ across), f the rod's foot from the pivot
/// and l the rod's length, ‖J − f‖ = l is
/// ```text
/// cos θ·(ρ·f) + sin θ·((e×ρ)·f) = (‖J‖² + ‖f‖² − l²)/2 − a·f = C      ⇒   θ = atan2(B, A) ± acos(C/√(A² + B²))
/// ```
/// of which the branch is kept that gives θ = 0 at rest. With u from J to the foot and s from the spring's top to its joint S:
/// ```text
/// u·(v_f − θ' e×J) = 0,   d(spring length) = s·(e×S) θ'   ⇒   k = s·(e×S)/u·(e×J)  spring per rod
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct RockerLine {
    pivot: Vec3,
    axis: Vec3,
    /// From the pivot, at rest: the rod's joint and the spring's.
    rod: Vec3,
    spring: Vec3,
    length: f64,
    branch: f64,
}

/// A rocker at a pose. Places mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RockerState {
    /// Turn from rest, rad, about its axis.
    pub turn: f64,
    /// Its pivot.
    pub pivot: Vec3,
    /// The rod's joint.
    pub rod: Vec3,
    /// The spring's joint.
    pub spring: Vec3,
    /// Change of the spring's length per change of the distance from the rod's joint to its foot.
    pub ratio: f64,
}

impl RockerLine {
    /// The rocker of a layout; its axis has a direction.
    pub fn new(rocker: &Rocker, foot: Vec3) -> RockerLine {
        let axis = rocker.axis.try_normalize(0.0).unwrap_or_else(Vec3::x);
        let (rod, foot_from) = (rocker.rod - rocker.pivot, foot - rocker.pivot);
        let branch = if axis.cross(&rod).dot(&foot_from) > 0.0 { -1.0 } else { 1.0 };
        let (spring, length) = (rocker.spring - rocker.pivot, (rocker.rod - foot).norm());
        RockerLine { pivot: rocker.pivot, axis, rod, spring, length, branch }
    }

    /// The same elsewhere: `place` moves points as `turn` turns directions.
    pub(crate) fn moved(&self, place: impl Fn(Vec3) -> Vec3, turn: &Rotation) -> RockerLine {
        let [axis, rod, spring] = [self.axis, self.rod, self.spring].map(|direction| turn * direction);
        RockerLine { pivot: place(self.pivot), axis, rod, spring, ..self.clone() }
    }

    /// Where it is when its rod's foot is there and the spring's top here. Where the rod can't reach, as near as it comes.
    fn at(&self, foot: Vec3, top: Vec3) -> RockerState {
        let (e, f) = (self.axis, foot - self.pivot);
        let along = e * e.dot(&self.rod);
        let across = self.rod - along;
        let (a, b) = (across.dot(&f), e.cross(&across).dot(&f));
        let reach = a.hypot(b).max(f64::MIN_POSITIVE);
        let c = (self.rod.norm_squared() + f.norm_squared() - self.length.powi(2)) / 2.0 - along.dot(&f);
        let turn = b.atan2(a) + self.branch * (c / reach).clamp(-1.0, 1.0).acos();
        let turned = Rotation::from_scaled_axis(e * turn);
        let (rod, spring) = (turned * self.rod, turned * self.spring);
        let u = (f - rod).try_normalize(0.0).unwrap_or_else(Vec3::zeros);
        let s = (self.pivot + spring - top).try_normalize(0.0).unwrap_or_else(Vec3::zeros);
        let lever = u.dot(&e.cross(&rod));
        // Rod and pivot in one line: the rod no longer turns the rocker.
        let ratio = if lever.abs() > DEAD { s.dot(&e.cross(&spring)) / lever } else { 0.0 };
        RockerState { turn, pivot: self.pivot, rod: self.pivot + rod, spring: self.pivot + spring, ratio }
    }
}

/// A rod that passes the rocker's pivot this near, mm, does not turn it.
const DEAD: f64 = 1e-6;

/// How a foot follows the carrier.
#[derive(Clone, Debug, PartialEq)]
pub enum Follower {
    /// Fixed in the carrier, from W at rest, mm.
    Carrier(Vec3),
    /// Turns with a wishbone about its body axis.
    Wishbone {
        /// A point of the body axis, mm.
        pivot: Vec3,
        /// Unit direction of the body axis.
        axis: Vec3,
        /// From the pivot to the middle between the body joints, mm.
        half: Vec3,
        /// The ball joint, from W at rest, mm.
        outer: Vec3,
        /// From the body axis to the ball joint at rest, perpendicular to it: unit vector.
        radial: Vec3,
        /// The foot at rest, from the pivot, mm.
        foot: Vec3,
    },
    /// Follows the smallest rotation that takes an arm's rest direction to its present one.
    Arm {
        /// The arm's inner joint, mm.
        inner: Vec3,
        /// The arm's outer joint, from W at rest, mm.
        outer: Vec3,
        /// The arm's direction at rest.
        rest: Vec3,
        /// The foot at rest, from the inner joint, mm.
        foot: Vec3,
    },
}

impl Follower {
    /// A foot fixed in the carrier.
    pub fn carrier(foot: Vec3, centre: Vec3) -> Follower {
        Follower::Carrier(foot - centre)
    }

    /// A foot on a wishbone.
    pub fn wishbone(front: Vec3, rear: Vec3, outer: Vec3, foot: Vec3, centre: Vec3) -> Follower {
        let axis = (rear - front).normalize();
        let arm = outer - front;
        let radial = (arm - axis * axis.dot(&arm)).normalize();
        let half = (rear - front) / 2.0;
        Follower::Wishbone { pivot: front, axis, half, outer: outer - centre, radial, foot: foot - front }
    }

    /// A foot on an arm.
    pub fn arm(rod: &Rod, foot: Vec3, centre: Vec3) -> Follower {
        Follower::Arm {
            inner: rod.inner,
            outer: rod.outer - centre,
            rest: (rod.outer - rod.inner).normalize(),
            foot: foot - rod.inner,
        }
    }
}

impl Follower {
    /// The design's foot on a part with these rods, each from the joint on the body to that on the carrier (from the wheel centre), where the wheel
    /// centre sits elsewhere on the carrier by `out`. What rides on an arm keeps its distance from the arm's inner joint and turns with it from the
    /// direction that the arm has in the design. What rides on a wishbone keeps its place in the wishbone's own frame: the middle between the body
    /// joints, the body axis, and the direction across it to the ball joint.
    pub(super) fn moved(&self, rods: &[[Vec3; 2]], out: Vec3) -> Follower {
        match (self, rods) {
            (Follower::Arm { rest, foot, .. }, [[inner, outer], ..]) => {
                Follower::Arm { inner: *inner, outer: *outer, rest: *rest, foot: *foot }
            }
            (Follower::Wishbone { axis, half, radial, foot, .. }, [[front, outer], [rear, _]]) => {
                let (new_half, middle) = ((rear - front) / 2.0, (front + rear) / 2.0);
                if new_half == *half {
                    return Follower::Wishbone {
                        pivot: *front,
                        axis: *axis,
                        half: *half,
                        outer: *outer,
                        radial: *radial,
                        foot: *foot,
                    };
                }
                let new_axis = new_half.normalize();
                // Any direction across the axis will do to count the ball joint's angle from, if the foot is laid in that frame.
                let new_radial = (radial - new_axis * new_axis.dot(radial)).normalize();
                let place = foot - half;
                let laid = new_axis * axis.dot(&place)
                    + new_radial * radial.dot(&place)
                    + new_axis.cross(&new_radial) * axis.cross(radial).dot(&place);
                Follower::Wishbone {
                    pivot: *front,
                    axis: new_axis,
                    half: new_half,
                    outer: *outer,
                    radial: new_radial,
                    foot: middle + laid - front,
                }
            }
            (Follower::Carrier(foot), _) => Follower::Carrier(foot - out),
            _ => self.clone(),
        }
    }
}

impl SpringLine {
    /// Where the foot is at a pose, mm.
    pub fn foot(&self, pose: &Pose) -> Vec3 {
        self.follower.foot(pose)
    }

    /// The rocker at a pose.
    pub fn rocker_at(&self, pose: &Pose) -> Option<RockerState> {
        Some(self.rocker.as_ref()?.at(self.foot(pose), self.top))
    }

    /// The spring's two ends, mm: on the body, and on its foot or the rocker.
    pub fn ends(&self, pose: &Pose) -> [Vec3; 2] {
        [self.top, self.rocker_at(pose).map_or_else(|| self.foot(pose), |rocker| rocker.spring)]
    }

    /// Spring length (mm) and equivalent line: the length's rate is `line.rate(twist)`.
    pub fn evaluate(&self, pose: &Pose) -> (f64, Line) {
        let Some(rocker) = self.rocker_at(pose) else { return self.follower.distance(self.top, pose) };
        let (_, rod) = self.follower.distance(rocker.rod, pose);
        ((rocker.spring - self.top).norm(), Line { u: rod.u * rocker.ratio, m: rod.m * rocker.ratio })
    }
}

impl Follower {
    /// Where the foot is at a pose, mm.
    pub fn foot(&self, pose: &Pose) -> Vec3 {
        self.foot_and_gradient(pose, |_| Vec3::zeros()).0
    }

    /// Distance (mm) from a fixed point to the foot, and its equivalent line: the distance's rate is `line.rate(twist)`.
    pub fn distance(&self, from: Vec3, pose: &Pose) -> (f64, Line) {
        let along = |foot: Vec3| (foot - from).try_normalize(0.0).unwrap_or_else(Vec3::zeros);
        let (foot, joint, gradient) = self.foot_and_gradient(pose, along);
        ((foot - from).norm(), Line::through(joint, gradient))
    }

    /// The foot; the joint through which it acts on the carrier, from W; and the gradient, with respect to that joint, of
    /// the foot's movement along the direction that `along` gives for a foot.
    fn foot_and_gradient(&self, pose: &Pose, along: impl Fn(Vec3) -> Vec3) -> (Vec3, Vec3, Vec3) {
        match self {
            Follower::Carrier(point) => {
                let arm = pose.r * point;
                let foot = pose.w + arm;
                (foot, arm, along(foot))
            }
            Follower::Wishbone { pivot, axis, outer, radial, foot, .. } => {
                let joint = pose.r * outer;
                let (offset, gradient) = on_wishbone(pose.w + joint - pivot, *axis, *radial, *foot);
                (pivot + offset, joint, gradient(along(pivot + offset)))
            }
            Follower::Arm { inner, outer, rest, foot } => {
                let joint = pose.r * outer;
                let (offset, gradient) = on_arm(pose.w + joint - inner, *rest, *foot);
                (inner + offset, joint, gradient(along(inner + offset)))
            }
        }
    }
}

/// A foot that turns about the axis e, by the angle through which the ball joint at `arm` (from the pivot) has turned:
/// ```text
/// q = arm − e(e·arm),  ρ = ‖q‖,  n = e×q/ρ         n: the way the ball joint goes
/// rate of the angle   n·v_joint/ρ
/// foot's velocity     (e×foot)·n·v_joint/ρ          ⇒ gradient along s:  (s·(e×foot)/ρ)·n
/// ```
fn on_wishbone(arm: Vec3, e: Vec3, radial: Vec3, rest: Vec3) -> (Vec3, impl Fn(Vec3) -> Vec3) {
    let q = arm - e * e.dot(&arm);
    let rho = q.norm().max(f64::MIN_POSITIVE);
    let (cos, sin) = (radial.dot(&q) / rho, e.cross(&radial).dot(&q) / rho);
    // Rodrigues: the part along e stays, the rest turns.
    let along_e = e * e.dot(&rest);
    let foot = along_e + (rest - along_e) * cos + e.cross(&rest) * sin;
    (foot, move |s: Vec3| e.cross(&q) * (s.dot(&e.cross(&foot)) / (rho * rho)))
}

/// A foot f that follows the smallest rotation from the arm's rest direction a to its present one d. With k = a·d, c = a×d:
/// ```text
/// R·f   = k f + c×f + c (c·f)/(1+k)
/// s·dRf = (s·f) dk + s·(dc×f) + [(s·dc)(c·f) + (s·c)(dc·f)]/(1+k) − (s·c)(c·f) dk/(1+k)²,   dk = a·dd, dc = a×dd
///       = g·dd,  g = (s·f) a + ((f×s)×a) + [(s×a)(c·f) + (f×a)(s·c)]/(1+k) − a (s·c)(c·f)/(1+k)²
/// dd    = (v − d(d·v))/‖arm‖                       ⇒ gradient along s:  (g − d(d·g))/‖arm‖
/// ```
fn on_arm(arm: Vec3, a: Vec3, f: Vec3) -> (Vec3, impl Fn(Vec3) -> Vec3) {
    let length = arm.norm().max(f64::MIN_POSITIVE);
    let d = arm / length;
    let c = a.cross(&d);
    // An arm turned right round has no smallest rotation; it is far beyond any assembly, and the bound keeps numbers finite.
    let one_plus_k = (1.0 + a.dot(&d)).max(1e-9);
    let cf = c.dot(&f);
    let foot = f * (one_plus_k - 1.0) + c.cross(&f) + c * (cf / one_plus_k);
    let gradient = move |s: Vec3| {
        let sc = s.dot(&c);
        let g = a * (s.dot(&f) - sc * cf / (one_plus_k * one_plus_k))
            + f.cross(&s).cross(&a)
            + (s.cross(&a) * cf + f.cross(&a) * sc) / one_plus_k;
        (g - d * d.dot(&g)) / length
    };
    (foot, gradient)
}
