//! One Newton run on SE(3).

use super::{Demand, Guess, Height, PROMISED, Position, Solved, Steering, TOLERANCE};
use super::{steer_angle, steer_row};
use crate::linkage::Linkage;
use crate::math::{Factored, Line};

/// Each correction must be at most this part of the one before: inside the region where Newton's method contracts to the
/// one solution near the guess (Deuflhard's Θ ≤ 1/4).
pub(super) const CONTRACTION: f64 = 0.25;

/// Corrections below this, mm, are rounding noise and are not asked to contract.
const NOISE: f64 = 1e-8;

/// A run that contracts by 1/4 or, near the end, quadratically, is done long before this.
const MOST: u32 = 12;

/// Equations factored before a correction this short, mm, serve for the next one as well. What a correction of s leaves of the error is about
/// s²/2L, and the factors, which are those of a pose s away, leave s/L of that: of 0.01 mm, at a length L of 300 mm, 1e-7 and then 1e-11 mm.
const SERVES_AGAIN: f64 = 0.01;

/// A first correction longer than this, mm, is no warm start.
const LONGEST: f64 = 150.0;

/// An angle counts as the path of a point this far out, mm: about a wheel's radius.
pub(super) const REACH: f64 = 300.0;

/// One run from a guess; `None` where it does not contract, or the equations are singular, from there.
///
/// Solves, at each pose, the six linear equations *row·ξ = −residual* (five guides and the height) for the twist ξ and applies it. Where a steer angle is held, the rack's displacement q is a seventh unknown that only the track rod's row
/// sees, d‖d‖/dq = −u·stroke (u_y where the rack lies across the car), so with J·a = −residual and J·b = (u·stroke)·e_track_rod
/// ```text
/// ξ = a + b·q,   steer_row·ξ = wanted − steer   ⇒   q = (wanted − steer − steer_row·a)/(steer_row·b)
/// ```
pub(super) fn newton(linkage: &Linkage, demand: &Demand, guess: &Guess) -> Option<Solved> {
    #[cfg(feature = "counted")]
    super::counted::count();
    let mut position = foretold(linkage, demand, guess);
    let mut before = f64::INFINITY;
    let (mut jacobian, mut serves) = (Factored::none(&linkage.order), false);
    for iterations in 0..=MOST {
        let (residuals, guides) = linkage.guides(&position.pose, position.rack);
        let [g0, g1, g2, g3, g4] = guides;
        let (short, height) = height(linkage, demand, &position);
        let turn = steer_short(linkage, demand, &position);
        let residual = residuals.iter().fold(0.0, |most, r| greater(most, r.abs()));
        let miss = greater(greater(residual, short.abs()), turn.abs() * REACH);
        if miss < TOLERANCE || (before < NOISE && miss < PROMISED) {
            jacobian.refactor(&[g0, g1, g2, g3, g4, linkage.rise(&position.pose)]);
            return Some(Solved { residual, iterations, ..Solved::with(linkage, position, guides, jacobian) });
        }
        if !serves {
            jacobian.refactor(&[g0, g1, g2, g3, g4, height]);
        }
        let [r0, r1, r2, r3, r4] = residuals;
        let a = jacobian.twist(&[-r0, -r1, -r2, -r3, -r4, short])?;
        let (twist, rack) = if let Steering::Steer(_) = demand.steering {
            let b = jacobian.twist(&[0.0, 0.0, 0.0, 0.0, linkage.rack_rate(&guides), 0.0])?;
            let row = steer_row(position.pose.r * linkage.spin);
            let q = (turn - row.rate(&a)) / row.rate(&b);
            (a.plus(q, &b), q)
        } else {
            (a, 0.0)
        };
        let size = twist.v.norm() + REACH * twist.omega.norm() + rack.abs();
        // NaN contracts to nothing and is no warm start.
        let contracts = size <= LONGEST && (size <= CONTRACTION * before || size <= NOISE);
        if !contracts {
            return None;
        }
        before = size;
        position.rack += rack;
        position.pose = position.pose.moved(&twist);
        serves = size < SERVES_AGAIN;
    }
    None
}

/// The greater of two, the first if the second is NaN. WebAssembly has no such instruction, and calls `f64::max`.
fn greater(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

/// Where the run begins: with the rack where it is held, and where the motions at the guess, if they are known, lead from there.
fn foretold(linkage: &Linkage, demand: &Demand, guess: &Guess) -> Position {
    let mut position = guess.position;
    let Steering::Rack(rack) = demand.steering else { return position };
    if let Height::Travel(travel) = demand.height
        && let Some(twist) = guess.leads([travel - linkage.travel(&position.pose), rack - position.rack])
    {
        position.pose = position.pose.moved(&twist);
    }
    position.rack = rack;
    position
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
