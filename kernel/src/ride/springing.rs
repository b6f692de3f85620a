//! The springing of one corner: wheel rate, frequency, preload, ride height.
//!
//! With i = −dL/ds the motion ratio over travel s, and F the spring's force, the spring's vertical force at the wheel is F·i by virtual
//! work, so the wheel rate has a term of the spring's stiffness and one of the changing ratio:
//! ```text
//! k_wheel = d(F i)/ds = k i² + F di/ds
//! ```
//! di/ds is a second derivative; it is taken from solved states at ±h, ±2h, extrapolated (Richardson), good to about 1e-9 of its size. It is the rate at the wheel centre; the contact force's own rate differs from
//! it by the little that the contact point rises more or less than the wheel centre (under 1 % at rest on usual front axles).

use super::slope::slope;
use super::turned::{self, TurnedBush};
use crate::axle::Axle;
use crate::layout::Vehicle;
use crate::linkage::Linkage;
use crate::loads::{Load, Statics};
use crate::pose::{Demand, Guess};
use crate::state::State;
use std::f64::consts::PI;

/// An axle has settled when it would move by less than this, mm.
const SETTLED: f64 = 1e-9;

/// Steps towards it that are tried.
const SETTLING: usize = 60;

/// The longest of them, mm.
const MOST_STEP: f64 = 40.0;

/// The springing of one corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Springing {
    /// Spring stiffness, N/mm.
    pub rate: f64,
    /// Force of the spring where the car stands, N.
    pub preload: f64,
    /// Its length without load, mm.
    pub free_length: f64,
}

impl Springing {
    /// The spring that carries the vehicle's standing load where the car stands; `None` where it can't, or has nothing to carry.
    pub fn of(axle: &Axle) -> Option<Springing> {
        Springing::standing(axle, axle.stands())
    }

    /// The same of the left and of the right wheel.
    pub fn of_both(axle: &Axle) -> Option<[Springing; 2]> {
        let [left, right] = axle.both_stand();
        let of_left = Springing::standing(axle, left)?;
        Some([of_left, if axle.sides_differ() { Springing::standing(axle, right)? } else { of_left }])
    }

    fn standing(axle: &Axle, stands: &State) -> Option<Springing> {
        let vehicle = axle.vehicle();
        if vehicle.trouble().is_some() {
            return None;
        }
        let preload = asked(stands, &Load::braking(&vehicle, 0.0))?;
        let rate = axle.layout().spring.rate;
        Some(Springing { rate, preload, free_length: stands.spring_length + preload / rate })
    }

    /// Its force at a length, N.
    pub fn force(&self, length: f64) -> f64 {
        self.rate * (self.free_length - length)
    }

    /// Vertical force at the wheel, N, and wheel rate, N/mm, at a state.
    pub fn at_wheel(&self, linkage: &Linkage, state: &State) -> Option<(f64, f64)> {
        let (i, force) = (state.bump.motion_ratio, self.force(state.spring_length));
        Some((force * i, self.rate * i * i + force * ratio_slope(linkage, state)?))
    }

    /// The travel, mm, at which this spring alone holds a load on the wheel, at a state's rack: how far the car sinks (+) or rises (−). Both
    /// wheels are taken to bear it, so that an anti-roll bar does nothing; stops are not in it.
    pub fn settles(&self, linkage: &Linkage, load: &Load, from: &State) -> Option<f64> {
        self.settles_with(&[], linkage, load, from)
    }

    /// The same together with bushes that resist turning. Newton's method on the vertical force at the wheel, with the wheel rate as slope.
    pub fn settles_with(&self, bushes: &[TurnedBush], linkage: &Linkage, load: &Load, from: &State) -> Option<f64> {
        let (mut travel, mut guess) = (from.travel, Guess::from(from));
        for _ in 0..SETTLING {
            let state = State::solve(linkage, Demand::new(travel, from.position.rack), guess).ok()?;
            guess = Guess::from(&state);
            let lacking = asked(&state, load)? - self.force(state.spring_length);
            let (_, rate) = self.at_wheel(linkage, &state)?;
            let (held, stiffens) = turned::at_wheel(bushes, linkage, &state)?;
            let step = (lacking * state.bump.motion_ratio - held) / (rate + stiffens);
            travel += step.clamp(-MOST_STEP, MOST_STEP);
            if step.abs() < SETTLED {
                return Some(travel);
            }
        }
        None
    }

    /// The braking, in g, under which a state is where the axle settles; `None` where no braking that a car reaches makes it.
    ///
    /// What a load asks of the spring is linear in the load: with F_0 and F_1 what standing and one g ask, a = (F − F_0)/(F_1 − F_0).
    pub fn braking_at(&self, state: &State, vehicle: &Vehicle) -> Option<f64> {
        let standing = asked(state, &Load::braking(vehicle, 0.0))?;
        let per_g = asked(state, &Load::braking(vehicle, 1.0))? - standing;
        let braking = (self.force(state.spring_length) - standing) / per_g;
        (-SETTLED..vehicle.most_braking()).contains(&braking).then(|| braking.max(0.0))
    }
}

/// The force of the spring that a load asks for, N.
fn asked(state: &State, load: &Load) -> Option<f64> {
    Statics::at(state).members(&load.wrench(state)).map(|members| members.spring)
}

/// d(motion ratio)/d(travel), 1/mm, at the state's rack.
pub fn ratio_slope(linkage: &Linkage, state: &State) -> Option<f64> {
    slope(linkage, state, |state| Some(state.bump.motion_ratio))
}

/// Undamped frequency of a mass on a wheel rate, Hz; kg and N/mm. `None` for a rate or a mass that is not positive.
pub fn frequency(rate: f64, mass: f64) -> Option<f64> {
    (rate > 0.0 && mass > 0.0).then(|| (rate * 1000.0 / mass).sqrt() / (2.0 * PI))
}
