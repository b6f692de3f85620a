//! A whole axle in one stance.

use crate::axle::Axle;
use crate::both::{AxleState, Place, Stance, Turn, lift, steering_ratio, toe_out_on_turns};
use crate::loads::{Load, SteeringMoment};
use crate::pose::{Position, Unsolved};
use crate::ride::{RollStiffness, Springing, both, frequency, support};
use crate::state::State;
use std::rc::Rc;

/// A whole axle in one stance. What is read from it is worked out when it is asked for.
#[derive(Clone, Debug)]
pub struct Whole {
    /// Both wheels.
    pub axle: AxleState,
    of: Rc<Axle>,
}

impl Whole {
    /// An axle in a stance.
    pub fn at(of: &Rc<Axle>, stance: Stance, guess: &[Position; 2]) -> Result<Whole, Unsolved> {
        Ok(Whole { axle: AxleState::rolled(of, stance, guess)?, of: of.clone() })
    }

    /// An axle where the car stands.
    pub fn standing(of: &Rc<Axle>) -> Result<Whole, Unsolved> {
        let travel = of.standing_travel();
        Whole::at(of, Stance { travel, ..Stance::default() }, &of.at_rest())
    }

    /// The left wheel where the car stands.
    pub(super) fn stands(&self) -> &State {
        self.of.stands()
    }

    fn sides(&self) -> [&State; 2] {
        self.axle.sides.each_ref().map(|side| &side.state)
    }

    /// How it turns at this rack displacement, where the car stands.
    pub fn turn(&self) -> Option<Turn> {
        Turn::at(&self.of, self.axle.rack).ok().filter(|_| self.of.steered())
    }

    /// Diameter of the outermost tyre's circle, mm: of its outer edge, kerb to kerb, or of its middle.
    pub fn circle(&self, edge: bool) -> Option<f64> {
        let width = if edge { self.of.layout().wheel.width } else { 0.0 };
        Some(2.0 * self.turn()?.kerb_radius(&self.of.vehicle(), width)?)
    }

    /// Diameter of the circle of the body's foremost corner, wall to wall, mm.
    pub fn wall_circle(&self) -> Option<f64> {
        Some(2.0 * self.turn()?.wall_radius(&self.of.vehicle())?)
    }

    /// Toe-out on turns with the inner wheel at 20°, degrees.
    pub fn toe_out(&self) -> Option<f64> {
        toe_out_on_turns(&self.of, 20.0).ok().filter(|_| self.of.steered())
    }

    /// Degrees of the steering wheel per degree of the mean road wheel.
    pub fn ratio(&self) -> Option<f64> {
        steering_ratio(&self.axle, self.of.layout().rack.as_ref()?)
    }

    /// What steering lifts left and right, mm, from where the car stands.
    pub fn lift(&self) -> Option<[f64; 2]> {
        lift(&self.of, self.axle.rack).ok().filter(|_| self.of.steered())
    }

    /// Moment of both standing wheel loads, less the wheels' own weight, about the steering axes that turns the wheels to the left, N·mm.
    pub fn self_centring(&self) -> Option<f64> {
        let standing = Load::braking(&self.of.vehicle(), 0.0);
        let [left, right] = self.sides().map(|state| SteeringMoment::of(&standing, state).map(|moment| moment.total()));
        Some(left? - right?)
    }

    /// Wheel rates of left and right, N/mm.
    pub fn rates(&self) -> [Option<f64>; 2] {
        let springing = Springing::of(&self.of);
        let sides = self.sides();
        [0, 1].map(|i| Some(springing?.at_wheel(&self.of.linkages()[i], sides[i])?.1))
    }

    /// Frequency of the sprung mass on the mean of both wheels' rates, Hz.
    pub fn frequency(&self) -> Option<f64> {
        frequency(both(self.rates())?, self.of.vehicle().sprung_mass())
    }

    /// Of the axle at these travels, N·m per degree.
    pub fn roll_stiffness(&self) -> Option<RollStiffness> {
        RollStiffness::at(&self.of, self.sides(), self.axle.track())
    }

    /// Support, in percent, of a longitudinal force with this share in front. Braking pulls rearward and moves load forward, driving the other way:
    /// one tangent serves each.
    fn support(&self, share: f64, at: Place) -> Option<f64> {
        self.axle.carried(at).map(|tangent| support(share, tangent, &self.of.vehicle()))
    }

    /// Against the dive of braking, brakes at the wheels, percent.
    pub fn anti_dive(&self) -> Option<f64> {
        self.support(self.of.vehicle().brake_share, Place::Road)
    }

    /// Against the dive of braking through half-shafts, percent.
    pub fn anti_dive_inboard(&self) -> Option<f64> {
        self.support(self.of.vehicle().brake_share, Place::Centre)
    }

    /// Against the lift of driving through half-shafts, percent.
    pub fn anti_lift(&self) -> Option<f64> {
        self.support(self.of.vehicle().drive_share(), Place::Centre)
    }

    /// Braking, in g, whose dive brings the axle to this travel; only without roll, wheels straight ahead.
    pub fn braking(&self) -> Option<f64> {
        let springing = Springing::of(&self.of).filter(|_| self.axle.roll == 0.0 && self.axle.rack == 0.0)?;
        springing.braking_at(self.sides()[0], &self.of.vehicle())
    }
}
