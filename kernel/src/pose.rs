//! From a linkage and a demand to a pose, or to a report that says why not.

mod newton;
mod sweep;
mod unsolved;

pub use sweep::{range, sweep};
pub use unsolved::{Reason, Unsolved};

use crate::attitude::steer_angle;
use crate::linkage::{Linkage, Pose};
use crate::screw::Line;
use nalgebra::{LU, U6};
use newton::{REACH, Step, newton};

/// What is held up and down: one of the two freedoms that five guides and a track rod leave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Height {
    /// Rise of the wheel centre relative to the body, mm, positive in bump.
    Travel(f64),
    /// Length of the spring, mm.
    SpringLength(f64),
}

/// What is held sideways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Steering {
    /// Displacement of the rack, mm, positive to the left.
    Rack(f64),
    /// Steer angle of the wheel, degrees, positive to the left.
    Steer(f64),
}

/// What a pose has to meet, exactly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// Up and down.
    pub height: Height,
    /// Sideways.
    pub steering: Steering,
}

impl Demand {
    /// Travel and rack, mm: the usual one.
    pub fn new(travel: f64, rack: f64) -> Demand {
        Demand { height: Height::Travel(travel), steering: Steering::Rack(rack) }
    }

    /// The values a position has of the quantities demanded here.
    fn at(&self, linkage: &Linkage, position: &Position) -> Demand {
        let pose = &position.pose;
        Demand {
            height: match self.height {
                Height::Travel(_) => Height::Travel(pose.w.z - linkage.centre.z),
                Height::SpringLength(_) => Height::SpringLength(linkage.spring.evaluate(pose).0),
            },
            steering: match self.steering {
                Steering::Rack(_) => Steering::Rack(position.rack),
                Steering::Steer(_) => Steering::Steer(steer_angle(pose.r * linkage.spin).to_degrees()),
            },
        }
    }

    /// Part of the way from one demand to another of the same kind.
    fn between(from: &Demand, to: &Demand, part: f64) -> Demand {
        let mix = |a: f64, b: f64| if part == 1.0 { b } else { a + (b - a) * part };
        Demand {
            height: match (from.height, to.height) {
                (Height::Travel(a), Height::Travel(b)) => Height::Travel(mix(a, b)),
                (Height::SpringLength(a), Height::SpringLength(b)) => Height::SpringLength(mix(a, b)),
                (_, other) => other,
            },
            steering: match (from.steering, to.steering) {
                (Steering::Rack(a), Steering::Rack(b)) => Steering::Rack(mix(a, b)),
                (Steering::Steer(a), Steering::Steer(b)) => Steering::Steer(mix(a, b)),
                (_, other) => other,
            },
        }
    }
}

/// A carrier pose and the rack displacement it belongs to, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// The carrier.
    pub pose: Pose,
    /// The rack, mm.
    pub rack: f64,
}

/// A position that closes the linkage, with the equations factored there for whoever reads it.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The position.
    pub position: Position,
    /// Plücker lines of the five guiding rows about the wheel centre.
    pub guides: [Line; 5],
    /// The five guides and, last, the wheel centre's rise, factored: solving gives twists.
    pub jacobian: LU<f64, U6, U6>,
    /// Largest residual of the guides, mm.
    pub residual: f64,
    /// Newton steps taken from the guess.
    pub iterations: u32,
}

/// The largest residual of a solved pose, mm: a thousandth of what may be promised (1e-9), a hundred times the noise of
/// coordinates of a metre in double precision.
pub const TOLERANCE: f64 = 1e-11;

/// Coordinates of ten metres carry more noise; a pose whose residual stops falling is accepted up to this, mm.
pub const PROMISED: f64 = 1e-9;

/// Finds the position that meets a demand, on the assembly branch of the layout's rest position.
///
/// One Newton run from `guess` is tried first (warm start). If it does not contract at once, the demand is approached from
/// rest in steps that shrink until each contracts (affine-invariant step control after P. Deuflhard, *Newton Methods for
/// Nonlinear Problems*, Springer 2011, sec. 5.1), so that the path cannot leap to another branch. A path that would pass
/// through a singular position, where branches meet, ends there.
///
/// Guarantee: residuals below 1e-9 mm, the demand met as exactly; never NaN; ends after a bounded number of steps.
pub fn solve(linkage: &Linkage, demand: Demand, guess: &Position) -> Result<Solved, Unsolved> {
    unsolved::check_demand(linkage, &demand)?;
    if let Step::Closed(solved) = newton(linkage, &demand, guess)
        && same_branch(linkage, &solved)
    {
        return Ok(*solved);
    }
    follow(linkage, demand)
}

/// The longest path, steps: halvings and doublings included. Far more than any sound axle needs (a handful).
const MOST_STEPS: u32 = 400;

/// The path ends when a step this small, as part of the whole way, still fails.
const SMALLEST_STEP: f64 = 1e-7;

/// Approaches a demand from rest in steps short enough for each to contract.
fn follow(linkage: &Linkage, demand: Demand) -> Result<Solved, Unsolved> {
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    if let Some(members) = unsolved::dependent_at(linkage, &rest) {
        return Err(Unsolved::singular_at_rest(demand, rest, members));
    }
    let start = demand.at(linkage, &rest);
    let (mut here, mut done, mut step) = (rest, 0.0, 1.0_f64);
    for _ in 0..MOST_STEPS {
        let next = (done + step).min(1.0);
        match newton(linkage, &Demand::between(&start, &demand, next), &here) {
            Step::Closed(solved) if same_branch(linkage, &solved) => {
                if next == 1.0 {
                    return Ok(*solved);
                }
                (here, done, step) = (solved.position, next, 2.0 * step);
            }
            _ => step /= 2.0,
        }
        if step < SMALLEST_STEP {
            break;
        }
    }
    Err(Unsolved::out_of_reach(linkage, demand, Demand::between(&start, &demand, done), here))
}

/// Determinants of the Jacobian smaller than this, with moments in units of [`REACH`], count as none: the demos have
/// from a tenth to one and a half.
const FLAT: f64 = 1e-9;

/// True if no singular position lies here, or between here and rest, where the determinant would change its sign.
fn same_branch(linkage: &Linkage, solved: &Solved) -> bool {
    let determinant = solved.jacobian.determinant() / REACH.powi(3);
    determinant.abs() > FLAT && determinant * linkage.orientation > 0.0
}
