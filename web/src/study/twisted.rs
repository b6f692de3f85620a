//! Bushes that resist turning: how far each is twisted, and what that does to ride height and wheel rate.

use super::solved::Solved;
use kernel::{Anchor, Demand, Load, Springing, TurnedBush, Twisted, bushes_at_wheel};

/// One bush.
#[derive(Clone, Debug, PartialEq)]
pub struct Bush {
    /// Which.
    pub anchor: Anchor,
    /// The travel at which it was tightened, mm.
    pub tightened: f64,
    /// Where the car stands; `None` where its twist is not known.
    pub stands: Option<Twisted>,
    /// Its twist, degrees, at each of [`Bushes::travels`], wheels ahead.
    pub along: Vec<Option<f64>>,
}

impl Bush {
    /// The size of its greatest twist over the travel, degrees.
    pub fn most(&self) -> Option<f64> {
        self.along.iter().flatten().map(|twist| twist.abs()).reduce(f64::max)
    }
}

/// All of an axle.
#[derive(Clone, Debug, PartialEq)]
pub struct Bushes {
    /// Each.
    pub all: Vec<Bush>,
    /// Travels at which twists are told, mm.
    pub travels: Vec<f64>,
    /// What they add where the car stands by its springs: to the vertical force at the wheel, N, and to the wheel rate, N/mm.
    pub adds: Option<(f64, f64)>,
    /// The spring's wheel rate there, N/mm.
    pub rate: Option<f64>,
    /// How far the car then sinks (+) or rises (−), mm.
    pub settles: Option<f64>,
}

/// Parts of the reach of the curves at which twists are told.
const PARTS: [f64; 5] = [-1.0, -0.5, 0.0, 0.5, 1.0];

impl Bushes {
    /// Of the wheel shown; `None` where no bush has a torsional stiffness.
    pub fn of(solved: &Solved) -> Option<Bushes> {
        let (axle, linkage) = (&solved.axle, solved.linkage());
        let turned = TurnedBush::all(axle);
        if turned.is_empty() {
            return None;
        }
        let travels: Vec<f64> = PARTS.map(|part| part * solved.reach).into();
        let states: Vec<_> = travels.iter().map(|travel| axle.state(Demand::new(*travel, 0.0)).ok()).collect();
        let bush = |bush: &TurnedBush| Bush {
            anchor: bush.anchor,
            tightened: bush.tightened,
            stands: bush.at(linkage, axle.stands()),
            along: states.iter().map(|state| Some(bush.at(linkage, state.as_ref()?)?.twist)).collect(),
        };
        let spring: Option<Springing> = solved.springing();
        let load = Load::braking(&axle.vehicle(), 0.0);
        let settled = spring.and_then(|spring| spring.settles_with(&turned, linkage, &load, axle.stands()));
        Some(Bushes {
            all: turned.iter().map(bush).collect(),
            adds: bushes_at_wheel(&turned, linkage, axle.stands()),
            rate: spring.and_then(|spring| spring.at_wheel(linkage, axle.stands())).map(|(_, rate)| rate),
            settles: settled.map(|travel| travel - axle.standing_travel()),
            travels,
        })
    }
}
