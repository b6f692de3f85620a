//! The strut's rod as a beam, and the spring's line that spares it.
//!
//! The strut's two guiding rows are the side force H that the top mount puts on the rod. The rod is held by its guide, a below the
//! mount, and its piston, b further down (statics of a beam on two supports):
//! ```text
//! guide H(a+b)/b,   piston H a/b,   moment in the rod at the guide H a,   friction µ(guide + piston)
//! stress 32 M/(π d³)   ⇒   d = (32 M/(π σ))^(1/3)
//! ```
//! In bump the rod goes in: a shrinks by as much as b grows. A damper held by a ball or rubber joint at either end can carry no side
//! force at all: H = 0, and its rod need not be thick.

use super::MemberForces;
use crate::frame::Vec3;
use crate::layout::{Damper, Member};
use crate::linkage::{Constraint, Linkage};
use crate::math::{Line, Pose, Wrench, matrix};
use crate::state::State;
use std::f64::consts::PI;

/// What the rod of a strut carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RodForces {
    /// Side force at the top mount, H, N.
    pub side: f64,
    /// Force at the rod guide, N.
    pub guide: f64,
    /// Force at the piston, N.
    pub piston: f64,
    /// Friction along the strut when it moves, N.
    pub friction: f64,
    /// Greatest bending moment of the rod, at the guide, N·mm.
    pub moment: f64,
    /// Bending stress there, N/mm².
    pub stress: f64,
    /// From the top mount to the guide, a, and from the guide to the piston, b, now, mm.
    pub spans: [f64; 2],
}

impl RodForces {
    /// The rod of a strut under member forces; `None` for an axle without one, or where the piston would be at the guide.
    pub fn of(linkage: &Linkage, state: &State, forces: &MemberForces, damper: &Damper) -> Option<RodForces> {
        let side = forces.strut_side(linkage)?;
        let ([top, foot], length) = strut(linkage, &state.position.pose)?;
        let shortened = length - (foot - top).norm();
        let (a, b) = (damper.guide - shortened, damper.piston + shortened);
        if a <= 0.0 || b <= 0.0 {
            return None;
        }
        let (guide, piston, moment) = (side * (a + b) / b, side * a / b, side * a);
        Some(RodForces {
            side,
            guide,
            piston,
            friction: damper.friction * (guide + piston),
            moment,
            stress: 32.0 * moment / (PI * damper.rod.powi(3)),
            spans: [a, b],
        })
    }

    /// Friction as part of the spring force; `None` where the spring carries nothing.
    pub fn friction_share(&self, forces: &MemberForces) -> Option<f64> {
        (forces.spring.abs() > 1e-9).then(|| self.friction / forces.spring.abs())
    }

    /// The rod diameter that keeps the bending stress at an allowed one (N/mm²), mm.
    pub fn diameter_for(&self, stress: f64) -> f64 {
        (32.0 * self.moment / (PI * stress)).cbrt()
    }
}

/// Top mount and foot of the strut at a pose, and how far they are apart in the design, mm; `None` without a strut.
fn strut(linkage: &Linkage, pose: &Pose) -> Option<([Vec3; 2], f64)> {
    linkage.rows.iter().find_map(|row| match row.constraint {
        Constraint::Slide { top, foot, length, .. } => Some(([top, pose.place(foot)], length)),
        Constraint::Rod { .. } => None,
    })
}

/// Where a strut's lower spring seat usually is: this far below the top mount along the strut, mm (invented, of the usual size).
pub const SEAT: f64 = 300.0;

/// A spring between the top mount and a seat on the strut whose line takes the whole side force off the strut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SideFreeSpring {
    /// The top mount, about which the spring is tilted, from the wheel centre, mm.
    pub top: Vec3,
    /// Unit direction of its line, downward from the top mount.
    pub direction: Vec3,
    /// Its force, N, positive pushing.
    pub force: f64,
    /// Unit direction of the strut, from the top mount to its foot.
    pub strut: Vec3,
}

impl SideFreeSpring {
    /// The spring for a load on the carrier. With the two guiding rows of the strut out, three rods and the three components of the force
    /// at the top mount balance the load: six equations for six unknowns, and that force is the spring's own. The upper end stays where it
    /// is, because a built spring sits at the mount and is offset at its lower seat (common practice, no source).
    /// `None` without a strut, or where no line does it.
    pub fn of(linkage: &Linkage, state: &State, wrench: &Wrench) -> Option<SideFreeSpring> {
        let pose = &state.position.pose;
        let [top, foot] = strut(linkage, pose)?.0.map(|end| end - pose.w);
        let rods: Vec<Line> =
            (0..5).filter(|i| linkage.rows[*i].member != Member::Strut).map(|i| state.guides[i]).collect();
        let [a, b, c] = rods[..] else { return None };
        let at_top = |axis: usize| Line::through(top, -Vec3::ith(axis, 1.0));
        let rows = matrix(&[a, b, c, at_top(0), at_top(1), at_top(2)]).transpose();
        let solved = rows.lu().solve(&wrench.vector())?;
        let push = Vec3::new(solved[3], solved[4], solved[5]);
        // A spring pushes the strut down.
        let down = -push.z.signum();
        let direction = push.try_normalize(1e-9)? * down;
        let spring =
            SideFreeSpring { top, direction, force: push.norm() * down, strut: (foot - top).try_normalize(0.0)? };
        spring.force.is_finite().then_some(spring)
    }

    /// Its angle to the strut, degrees.
    pub fn tilt(&self) -> f64 {
        self.direction.cross(&self.strut).norm().atan2(self.direction.dot(&self.strut)).to_degrees()
    }

    /// How far the seat is off the strut's line, square to it, so many mm below the top mount along the strut. `None` for a line square to
    /// the strut, or rising.
    pub fn seat_offset(&self, below: f64) -> Option<Vec3> {
        let along = self.direction.dot(&self.strut);
        (along > 1e-6).then(|| self.direction * (below / along) - self.strut * below)
    }
}
