//! A whole axle in one stance.

use super::known::Known;
use crate::axle::Axle;
use crate::both::{AxleState, Place, Stance, Turn, lift, steering_ratio, toe_out_on_turns};
use crate::layout::LeftOrRight;
use crate::loads::{Load, SteeringMoment};
use crate::pose::{Guess, Unsolved};
use crate::ride::{RollStiffness, Springing, both, frequency, support};
use crate::state::State;
use std::cell::OnceCell;
use std::rc::Rc;

/// A whole axle in one stance. What is read from it is worked out when it is asked for, and once.
#[derive(Clone, Debug)]
pub struct Whole {
    /// Both wheels.
    pub axle: AxleState,
    of: Rc<Axle>,
    at_rack: Rc<AtRack>,
    rates: OnceCell<[Option<f64>; 2]>,
    pub(super) known: Known,
}

/// What depends on the rack alone, since it is said of the car at its ride height: one for all stances with the same rack.
#[derive(Debug, Default)]
struct AtRack {
    turn: OnceCell<Option<Turn>>,
    toe_out: OnceCell<Option<f64>>,
    lift: OnceCell<Option<[f64; 2]>>,
}

impl Whole {
    /// An axle in a stance.
    pub fn at(of: &Rc<Axle>, stance: Stance, guess: &[Guess; 2]) -> Result<Whole, Unsolved> {
        let axle = AxleState::rolled(of, stance, guess)?;
        Ok(Whole { axle, of: of.clone(), at_rack: Rc::default(), rates: OnceCell::new(), known: Known::default() })
    }

    /// The same axle in another stance.
    pub fn moved(&self, stance: Stance, guess: &[Guess; 2]) -> Result<Whole, Unsolved> {
        let there = Whole::at(&self.of, stance, guess)?;
        Ok(if stance.rack == self.axle.rack { Whole { at_rack: self.at_rack.clone(), ..there } } else { there })
    }

    /// An axle where the car stands.
    pub fn standing(of: &Rc<Axle>) -> Result<Whole, Unsolved> {
        let travel = of.standing_travel();
        Whole::at(of, Stance { travel, ..Stance::default() }, &of.at_rest())
    }

    /// Both wheels at rest: where a search begins.
    pub fn at_rest(&self) -> [Guess; 2] {
        self.of.at_rest()
    }

    /// The axle it is a stance of.
    pub(super) fn of(&self) -> &Axle {
        &self.of
    }

    fn sides(&self) -> [&State; 2] {
        self.axle.sides.each_ref().map(|side| &side.state)
    }

    /// How it turns at this rack displacement, where the car stands.
    pub fn turn(&self) -> Option<&Turn> {
        let turn = || Turn::at(&self.of, self.axle.rack).ok().filter(|_| self.of.steered());
        self.at_rack.turn.get_or_init(turn).as_ref()
    }

    /// Diameter of the outermost tyre's circle, mm: of its outer edge, kerb to kerb, or of its middle.
    pub fn circle(&self, edge: bool) -> Option<f64> {
        let width = if edge { self.of.built_of(LeftOrRight::Left).wheel.width } else { 0.0 };
        Some(2.0 * self.turn()?.kerb_radius(&self.of.vehicle(), width)?)
    }

    /// Diameter of the circle of the body's foremost corner, wall to wall, mm.
    pub fn wall_circle(&self) -> Option<f64> {
        Some(2.0 * self.turn()?.wall_radius(&self.of.vehicle())?)
    }

    /// Toe-out on turns with the inner wheel at 20°, degrees.
    pub fn toe_out(&self) -> Option<f64> {
        let toe_out = || toe_out_on_turns(&self.of, 20.0).ok().filter(|_| self.of.steered());
        *self.at_rack.toe_out.get_or_init(toe_out)
    }

    /// Degrees of the steering wheel per degree of the mean road wheel.
    pub fn ratio(&self) -> Option<f64> {
        steering_ratio(&self.axle, self.of.layout().rack.as_ref()?)
    }

    /// What steering lifts left and right, mm, from where the car stands.
    pub fn lift(&self) -> Option<[f64; 2]> {
        *self.at_rack.lift.get_or_init(|| lift(&self.of, self.axle.rack).ok().filter(|_| self.of.steered()))
    }

    /// Moment of both standing wheel loads, less the wheels' own weight, about the steering axes that turns the wheels to the left, N·mm.
    pub fn self_centring(&self) -> Option<f64> {
        let standing = Load::braking(&self.of.vehicle(), 0.0);
        let [left, right] = self.sides().map(|state| SteeringMoment::of(&standing, state).map(|moment| moment.total()));
        Some(left? - right?)
    }

    /// Wheel rates of left and right, N/mm.
    pub fn rates(&self) -> [Option<f64>; 2] {
        let rate = |i: usize, springing: Springing| springing.at_wheel(&self.of.linkages()[i], self.sides()[i]);
        *self.rates.get_or_init(|| {
            let springs = Springing::of_both(&self.of);
            [0, 1].map(|i| Some(rate(i, springs?[i])?.1))
        })
    }

    /// Frequency of the sprung mass on the mean of both wheels' rates, Hz.
    pub fn frequency(&self) -> Option<f64> {
        frequency(both(self.rates())?, self.of.vehicle().sprung_mass())
    }

    /// Of the axle at these travels, N·m per degree.
    pub fn roll_stiffness(&self) -> Option<RollStiffness> {
        RollStiffness::with(&self.of, self.rates(), self.sides(), self.axle.track())
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
        let [springing, _] = Springing::of_both(&self.of).filter(|_| self.axle.roll == 0.0 && self.axle.rack == 0.0)?;
        springing.braking_at(self.sides()[0], &self.of.vehicle())
    }
}
