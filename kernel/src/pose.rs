//! From a linkage and a demand to a pose, or to a report that says why not.

#[cfg(feature = "counted")]
mod counted;
mod guess;
mod newton;
mod settled;
mod steer;
mod sweep;
mod unsolved;

#[cfg(feature = "counted")]
#[doc(hidden)]
pub use counted::newton_runs;
pub use guess::Guess;
pub use settled::settled;
pub use steer::{steer_angle, steer_row};
pub use sweep::{range, sweep};
pub use unsolved::{Reason, Unsolved};

use crate::linkage::{Linkage, motions};
use crate::math::{Factored, Line, Pose, Twist};
use newton::{CONTRACTION, REACH, newton};
use std::cell::OnceCell;

/// Vertical demand: one of the two degrees of freedom that the guiding members, the track rod among them, and the rack leave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Height {
    /// Rise of the wheel centre relative to the body, mm, positive in bump; of a wheel that sits elsewhere on its carrier, of the carrier's point
    /// that is the wheel centre in the design.
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
                Height::Travel(_) => Height::Travel(linkage.travel(pose)),
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

impl Position {
    /// The position at rest: where a search begins.
    pub fn at_rest(linkage: &Linkage) -> Position {
        Position { pose: linkage.rest(), rack: 0.0 }
    }
}

/// A position that closes the linkage, with the equations factored there for whoever reads it.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The position.
    pub position: Position,
    /// Plücker lines of the five guiding rows about the wheel centre.
    pub guides: [Line; 5],
    /// The five guides and, last, the wheel centre's rise, factored.
    pub jacobian: Factored,
    /// How fast the rack's way shortens the track rod, mm per mm.
    pub rack_rate: f64,
    /// Largest residual of the guides, mm.
    pub residual: f64,
    /// Newton steps taken from the guess.
    pub iterations: u32,
    /// False for a row of a [`sweep()`] that can't be reached from the row before it without taking the linkage apart.
    pub connected: bool,
    motions: OnceCell<[Twist; 2]>,
}

impl Solved {
    /// The equations factored at a position, whether it closes the linkage or not.
    pub(crate) fn at(linkage: &Linkage, position: Position) -> Solved {
        let guides = linkage.guides(&position.pose, position.rack).1;
        let [g0, g1, g2, g3, g4] = guides;
        let jacobian = Factored::near(&[g0, g1, g2, g3, g4, linkage.rise(&position.pose)], &linkage.order);
        Solved::with(linkage, position, guides, jacobian)
    }

    /// From the guides and the factored equations there.
    #[inline]
    fn with(linkage: &Linkage, position: Position, guides: [Line; 5], jacobian: Factored) -> Solved {
        Solved {
            position,
            guides,
            jacobian,
            rack_rate: linkage.rack_rate(&guides),
            residual: 0.0,
            iterations: 0,
            connected: true,
            motions: OnceCell::new(),
        }
    }

    /// The carrier's motions here: per mm of travel with the rack held, per mm of rack with the travel held. Worked out once.
    pub fn motions(&self) -> [Twist; 2] {
        *self.motions.get_or_init(|| motions(&self.jacobian, self.rack_rate))
    }
}

/// The largest residual of a solved pose, mm: a thousandth of what may be promised (1e-9), a hundred times the noise of
/// coordinates of a metre in double precision.
pub const TOLERANCE: f64 = 1e-11;

/// Coordinates of ten metres carry more noise; a pose whose residual stops falling is accepted up to this, mm.
pub const PROMISED: f64 = 1e-9;

/// Finds the position that meets a demand: the one that the straight way from rest leads to, whatever the guess.
///
/// The demand is approached from rest in steps that shrink until Newton's method contracts in each (affine-invariant step
/// control after P. Deuflhard, *Newton Methods for Nonlinear Problems*, Springer 2011, sec. 5.1), so that the path cannot leap
/// to another branch; most demands take one step. A path that would pass through a singular position, where branches meet, ends
/// there. A guess near the answer only saves time (warm start): what is found from it counts if rest foresees it.
///
/// Guarantee: residuals below 1e-9 mm, the demand met as exactly; never NaN; ends after a bounded number of steps.
pub fn solve(linkage: &Linkage, demand: Demand, guess: impl Into<Guess>) -> Result<Solved, Unsolved> {
    unsolved::check_demand(linkage, &demand)?;
    let (rest, guess) = (Position::at_rest(linkage), guess.into());
    if guess.position != rest
        && let Some(solved) = newton(linkage, &demand, &guess)
        && same_branch(linkage, &solved)
        && foreseen(&rest, &linkage.motions, &solved.position)
    {
        return Ok(solved);
    }
    walk(linkage, &rest, &demand, 1.0).map_err(|(nearest, here)| Unsolved::out_of_reach(linkage, demand, nearest, here))
}

/// The longest path, steps: halvings and doublings included. Far more than any sound axle needs (a handful).
const MOST_STEPS: u32 = 400;

/// The path ends when a step this small, as part of the whole way, still fails.
const SMALLEST_STEP: f64 = 1e-7;

/// Approaches a demand in steps short enough for each to contract, none longer than this part of the way. Failing that, the
/// nearest demand that works, and the position there.
fn walk(linkage: &Linkage, from: &Position, demand: &Demand, longest: f64) -> Result<Solved, (Demand, Position)> {
    let start = demand.at(linkage, from);
    let (mut here, mut done, mut step) = (*from, 0.0, longest);
    for _ in 0..MOST_STEPS {
        let next = (done + step).min(1.0);
        match newton(linkage, &Demand::between(&start, demand, next), &Guess::from(&here)) {
            Some(solved) if same_branch(linkage, &solved) => {
                if next == 1.0 {
                    return Ok(solved);
                }
                (here, done, step) = (solved.position, next, longest.min(2.0 * step));
            }
            _ => step /= 2.0,
        }
        if step < SMALLEST_STEP {
            break;
        }
    }
    Err((Demand::between(&start, demand, done), here))
}

/// A position this near, as part of the way to it, to where the motions at the start point counts as the one they lead to: so
/// near ends a Newton run from there that contracts (Newton-Kantorovich, Deuflhard sec. 2.1). It tries the end, not the way:
/// that other ways end elsewhere is shown by random layouts (`tests/tests/ways.rs`).
const FORESEEN: f64 = CONTRACTION;

/// True if the motions at one position lead to another, so that no way round is needed to know that the two are connected.
fn foreseen(from: &Position, motions: &[Twist; 2], to: &Position) -> bool {
    let way = to.pose.w - from.pose.w;
    let turn = (to.pose.r * from.pose.r.inverse()).into_inner();
    // Twice the sine of half the turn serves for the turn.
    let moved = Twist { v: way, omega: turn.imag() * (2.0_f64).copysign(turn.w) };
    let told = motions[0].scaled(way.z).plus(to.rack - from.rack, &motions[1]);
    size(&moved.plus(-1.0, &told)) <= FORESEEN * size(&told)
}

/// How far a motion moves what it moves, mm.
fn size(motion: &Twist) -> f64 {
    motion.v.norm() + REACH * motion.omega.norm()
}

/// Determinants of the Jacobian smaller than this, with moments in units of [`REACH`], count as none: the demos have
/// from a tenth to one and a half.
const FLAT: f64 = 1e-9;

/// The determinant of guides and rise, in units of [`REACH`]; 0 if it is so small that the position counts as singular.
fn determinant(raw: f64) -> f64 {
    let determinant = raw / REACH.powi(3);
    if determinant.abs() > FLAT { determinant } else { 0.0 }
}

/// True if no singular position lies here, or between here and rest, where the determinant would change its sign.
fn same_branch(linkage: &Linkage, solved: &Solved) -> bool {
    determinant(solved.jacobian.determinant()) * linkage.orientation > 0.0
}
