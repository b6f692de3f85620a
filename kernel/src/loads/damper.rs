//! The strut's rod as a beam, and the spring's line that spares it.
//!
//! The strut's two guiding rows are the side force H that the top mount puts on the rod. The rod is held by its guide, a below the
//! mount, and its piston, b further down (statics of a beam on two supports; geometry.md):
//! ```text
//! guide H(a+b)/b,   piston H a/b,   moment in the rod at the guide H a,   friction µ(guide + piston)
//! stress 32 M/(π d³)   ⇒   d = (32 M/(π σ))^(1/3)
//! ```
//! In bump the rod goes in: a shrinks by as much as b grows. A damper held by a ball or rubber joint at either end can carry no side
//! force at all: H = 0, and its rod need not be thick.

use super::MemberForces;
use crate::frame::Vec3;
use crate::layout::Damper;
use crate::linkage::{Constraint, Linkage, Member};
use crate::screw::{Line, Wrench, matrix};
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
        let shortened = strut_length(linkage, None)? - strut_length(linkage, Some(state))?;
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

/// Top mount to foot at rest or at a state, mm.
fn strut_length(linkage: &Linkage, state: Option<&State>) -> Option<f64> {
    linkage.rows.iter().find_map(|row| match row.constraint {
        Constraint::Slide { top, foot, .. } => {
            let pose = state.map_or_else(|| linkage.rest(), |state| state.position.pose);
            Some((pose.place(foot) - top).norm())
        }
        Constraint::Rod { .. } => None,
    })
}

/// The line along which a spring on the strut would have to push at its foot for the strut to carry no side force under a load:
/// unit direction from top to foot, and the spring force, N. With the two guiding rows of the strut out, the three rods and the
/// three components of the force at the foot balance the load: six equations for six unknowns.
/// `None` without a strut, or where no line does it.
pub fn side_free_spring(linkage: &Linkage, state: &State, wrench: &Wrench) -> Option<(Vec3, f64)> {
    let pose = &state.position.pose;
    let foot = linkage.spring.foot(pose) - pose.w;
    let rods: Vec<Line> =
        (0..5).filter(|i| linkage.rows[*i].member != Member::Strut).map(|i| state.guides[i]).collect();
    let [a, b, c] = rods[..] else { return None };
    let at_foot = |axis: usize| Line::through(foot, -Vec3::ith(axis, 1.0));
    let rows = matrix(&[a, b, c, at_foot(0), at_foot(1), at_foot(2)]).transpose();
    let solved = rows.lu().solve(&wrench.vector())?;
    let push = Vec3::new(solved[3], solved[4], solved[5]);
    let force = push.norm();
    // A spring pushes its foot down.
    let direction = push.try_normalize(1e-9)? * -push.z.signum();
    force.is_finite().then(|| if push.z <= 0.0 { (direction, force) } else { (direction, -force) })
}
