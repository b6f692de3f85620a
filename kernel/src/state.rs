//! One state: a solved position with everything that is read from it.

mod attitude;
mod bump;
mod half_shaft;
mod steering_axis;
mod swing_centre;

pub use attitude::Attitude;
pub use bump::Bump;
pub use half_shaft::ShaftState;
pub use steering_axis::{NoAxis, SteeringAxis};
pub use swing_centre::SwingCentre;

use crate::frame::Vec3;
use crate::linkage::Linkage;
use crate::math::{Line, Twist};
use crate::pose::{Demand, Guess, Position, Solved, Unsolved, solve};

/// A solved state of the left wheel.
#[derive(Clone, Debug)]
pub struct State {
    /// Rise of the wheel centre of the design, a point of the carrier, mm.
    pub travel: f64,
    /// Carrier pose and rack displacement.
    pub position: Position,
    /// Plücker lines of the five guiding rows about the wheel centre.
    pub guides: [Line; 5],
    /// Spring length, mm.
    pub spring_length: f64,
    /// The spring's equivalent line.
    pub spring: Line,
    /// How the wheel stands.
    pub attitude: Attitude,
    /// Movement of the contact point from the design's rest, mm.
    pub contact_shift: Vec3,
    /// The steering axis, or why there is none.
    pub axis: Result<SteeringAxis, NoAxis>,
    /// The bump motion.
    pub bump: Bump,
    /// The carrier's motion per mm of rack, travel held.
    pub steered: Twist,
    /// The half-shaft, if there is one.
    pub half_shaft: Option<ShaftState>,
}

/// Spring compression per wheel travel below which the spring is taken not to hold the wheel.
const IDLE: f64 = 1e-9;

impl State {
    /// Solves a demand and reads everything. See [`solve`] for `guess`, guarantees and errors.
    pub fn solve(linkage: &Linkage, demand: Demand, guess: impl Into<Guess>) -> Result<State, Unsolved> {
        solve(linkage, demand, guess).map(|solved| State::read(linkage, &solved))
    }

    /// The carrier's motions: per mm of travel with the rack held, per mm of rack with the travel held.
    fn motions(&self) -> [Twist; 2] {
        [self.bump.twist, self.steered]
    }

    /// Reads everything from a solved position. With J the guides and the rise, factored:
    /// ```text
    /// bump motion, rack held        J·b = e_rise
    /// rack motion, travel held      J·s = (u·stroke)·e_track_rod     (per mm of rack: d‖d‖/d rack = −u·stroke)
    /// steering motion, spring held  s − b·(spring·s)/(spring·b)
    /// ```
    pub fn read(linkage: &Linkage, solved: &Solved) -> State {
        let Position { pose, .. } = solved.position;
        let [bump, steered] = solved.motions();
        let attitude = Attitude::new(pose.r * linkage.spin, linkage.loaded_radius);
        let (spring_length, spring) = linkage.spring.evaluate(&pose);
        let bump = Bump::new(bump, &attitude, pose.w, &spring);
        let axis = if !linkage.steered {
            Err(NoAxis::NotSteered)
        } else if bump.motion_ratio.abs() < IDLE {
            Err(NoAxis::SpringIdle)
        } else {
            SteeringAxis::new(&steered.plus(spring.rate(&steered) / bump.motion_ratio, &bump.twist), &attitude)
        };
        State {
            travel: linkage.travel(&pose),
            position: solved.position,
            guides: solved.guides,
            spring_length,
            spring,
            attitude,
            contact_shift: pose.w + attitude.contact - linkage.rest_contact,
            axis,
            bump,
            steered,
            half_shaft: ShaftState::at(linkage, &solved.position),
        }
    }
}

/// A state is the best guess for one near it.
impl From<&State> for Guess {
    fn from(state: &State) -> Guess {
        Guess { position: state.position, motions: Some(state.motions()), bend: None }
    }
}

impl Guess {
    /// The guess that a state makes of the one after it on a way in even steps, where this was the one before it: nearer than [`Guess::from`] the state
    /// alone, since it knows how the motions change.
    pub fn onward(&self, state: &State) -> Guess {
        self.then(state.position, state.motions())
    }
}
