//! One Newton run on SE(3).

use super::{Demand, Height, PROMISED, Position, Solved, Steering, TOLERANCE};
use super::{steer_angle, steer_row};
use crate::frame::Rotation;
use crate::linkage::{Linkage, TRACK_ROD};
use crate::math::{Line, Twist, matrix};
use nalgebra::Vector6;

/// How a Newton run ended.
pub(super) enum Step {
    /// The linkage closes and the demand is met.
    Closed(Box<Solved>),
    /// It does not contract, or the equations are singular, from this guess.
    Stuck,
}

/// Each correction must be at most this part of the one before: inside the region where Newton's method contracts to the
/// one solution near the guess (Deuflhard's Θ ≤ 1/4).
pub(super) const CONTRACTION: f64 = 0.25;

/// Corrections below this, mm, are rounding noise and are not asked to contract.
const NOISE: f64 = 1e-8;

/// A run that contracts by 1/4 or, near the end, quadratically, is done long before this.
const MOST: u32 = 12;

/// A first correction longer than this, mm, is no warm start.
const LONGEST: f64 = 150.0;

/// An angle counts as the path of a point this far out, mm: about a wheel's radius.
pub(super) const REACH: f64 = 300.0;

/// Solves, at each pose, the six linear equations *row·ξ = −residual* (five guides and the height) for the twist ξ and
/// applies it. Where a steer angle is held, the rack's displacement q is a seventh unknown that only the track rod's row
/// sees, d‖d‖/dq = −u·stroke (u_y where the rack lies across the car), so with J·a = −residual and J·b = (u·stroke)·e_track_rod
/// ```text
/// ξ = a + b·q,   steer_row·ξ = wanted − steer   ⇒   q = (wanted − steer − steer_row·a)/(steer_row·b)
/// ```
pub(super) fn newton(linkage: &Linkage, demand: &Demand, guess: &Position) -> Step {
    #[cfg(feature = "counted")]
    super::counted::count();
    let mut position = *guess;
    if let Steering::Rack(rack) = demand.steering {
        position.rack = rack;
    }
    let mut before = f64::INFINITY;
    for iterations in 0..=MOST {
        let (residuals, guides) = linkage.guides(&position.pose, position.rack);
        let (short, height) = height(linkage, demand, &position);
        let turn = steer_short(linkage, demand, &position);
        let residual = residuals.iter().fold(0.0_f64, |most, r| most.max(r.abs()));
        let miss = residual.max(short.abs()).max(turn.abs() * REACH);
        if miss < TOLERANCE || (before < NOISE && miss < PROMISED) {
            return closed(linkage, position, guides, residual, iterations);
        }
        let [g0, g1, g2, g3, g4] = guides;
        let jacobian = matrix(&[g0, g1, g2, g3, g4, height]).lu();
        let [r0, r1, r2, r3, r4] = residuals;
        let Some(a) = jacobian.solve(&Vector6::new(-r0, -r1, -r2, -r3, -r4, short)) else {
            return Step::Stuck;
        };
        let (xi, rack) = if let Steering::Steer(_) = demand.steering {
            let mut unit = Vector6::zeros();
            unit[TRACK_ROD] = linkage.rack_rate(&guides);
            let Some(b) = jacobian.solve(&unit) else { return Step::Stuck };
            let row = steer_row(position.pose.r * linkage.spin).row();
            let q = (turn - (row * a).x) / (row * b).x;
            (a + b * q, q)
        } else {
            (a, 0.0)
        };
        let twist = Twist::from_vector(&xi);
        let size = twist.v.norm() + REACH * twist.omega.norm() + rack.abs();
        // NaN contracts to nothing and is no warm start.
        let contracts = size <= LONGEST && (size <= CONTRACTION * before || size <= NOISE);
        if !contracts {
            return Step::Stuck;
        }
        before = size;
        position.rack += rack;
        position.pose.w += twist.v;
        position.pose.r = Rotation::new(twist.omega) * position.pose.r;
    }
    Step::Stuck
}

/// How far the height is from what is demanded, mm, and its row.
fn height(linkage: &Linkage, demand: &Demand, position: &Position) -> (f64, Line) {
    match demand.height {
        Height::Travel(travel) => (travel - linkage.travel(&position.pose), linkage.rise(&position.pose)),
        Height::SpringLength(length) => {
            let (now, line) = linkage.spring.evaluate(&position.pose);
            (length - now, line)
        }
    }
}

/// How far the steer angle is from what is demanded, rad; 0 where the rack is held instead.
fn steer_short(linkage: &Linkage, demand: &Demand, position: &Position) -> f64 {
    match demand.steering {
        Steering::Rack(_) => 0.0,
        Steering::Steer(steer) => steer.to_radians() - steer_angle(position.pose.r * linkage.spin),
    }
}

fn closed(linkage: &Linkage, position: Position, guides: [Line; 5], residual: f64, iterations: u32) -> Step {
    Step::Closed(Box::new(Solved { residual, iterations, ..Solved::with(linkage, position, guides) }))
}
