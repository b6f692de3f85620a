//! Changes of where the axle stands.

use crate::app::refusal::Refusal;
use crate::document::Document;
use crate::document::place::{MOST_TRAVEL, ROLL};
use crate::study::Solved;

/// A change of where the axle stands.
#[derive(Clone, Copy, Debug)]
pub enum Stand {
    /// Wheel travel, mm.
    Travel(f64),
    /// Rack displacement, mm.
    Rack(f64),
    /// The travel at ride height, mm.
    Ride(f64),
    /// Roll of the body, degrees.
    Roll(f64),
    /// One of these four, typed, mm or degrees: what is out of its range is not taken.
    Typed(Freedom, f64),
    /// Travel of the left and of the right wheel, mm: mean travel and roll follow.
    Travels(f64, f64),
    /// The axle dives under braking, in g: travel follows, without roll.
    Braking(f64),
    /// To ride height, wheels straight ahead.
    AtRest,
}

/// What an axle is free to do on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Freedom {
    /// Wheel travel, mm.
    Travel,
    /// Rack displacement, mm.
    Rack,
    /// The travel at ride height, mm.
    Ride,
    /// Roll of the body, degrees.
    Roll,
}

impl Freedom {
    /// What it is called on the page.
    pub fn name(self) -> &'static str {
        match self {
            Freedom::Travel => "Travel",
            Freedom::Rack => "Rack",
            Freedom::Ride => "Ride height",
            Freedom::Roll => "Roll",
        }
    }

    /// Its unit.
    pub fn unit(self) -> &'static str {
        if self == Freedom::Roll { "°" } else { "mm" }
    }

    /// Its value in a document, mm or degrees.
    pub fn value(self, document: &Document) -> f64 {
        match self {
            Freedom::Travel => document.travel,
            Freedom::Rack => document.rack,
            Freedom::Ride => document.ride,
            Freedom::Roll => document.roll,
        }
    }

    /// How far it goes each way on a document's axle, mm or degrees.
    pub fn most(self, document: &Document) -> f64 {
        match self {
            Freedom::Travel | Freedom::Ride => MOST_TRAVEL,
            Freedom::Rack => document.rack_travel(),
            Freedom::Roll => ROLL,
        }
    }

    /// Sets it, as far as it goes and to the digits that a link carries: hundredths of a mm, ten-thousandths of a degree. What is not a number is 0.
    pub fn set(self, document: &mut Document, value: f64) {
        let most = self.most(document);
        let digits = if self == Freedom::Roll { 1e4 } else { 100.0 };
        let value = if value.is_finite() { (value * digits).round() / digits } else { 0.0 };
        let place = match self {
            Freedom::Travel => &mut document.travel,
            Freedom::Rack => &mut document.rack,
            Freedom::Ride => &mut document.ride,
            Freedom::Roll => &mut document.roll,
        };
        *place = value.clamp(-most, most);
    }
}

impl Stand {
    /// The document after it. `good` is the axle on which the springs, or two wheels of different travel, find their position.
    pub fn on(self, document: &Document, good: &Solved) -> Result<Document, Refusal> {
        let mut after = document.clone();
        match self {
            Stand::Travel(travel) => Freedom::Travel.set(&mut after, travel),
            Stand::Rack(rack) => Freedom::Rack.set(&mut after, rack),
            Stand::Ride(ride) => Freedom::Ride.set(&mut after, ride),
            Stand::Roll(roll) => Freedom::Roll.set(&mut after, roll),
            Stand::Typed(freedom, value) => {
                let most = freedom.most(document);
                if !(-most..=most).contains(&value) {
                    return Err(Refusal::Freedom { freedom, value, most });
                }
                freedom.set(&mut after, value);
            }
            Stand::Travels(left, right) => {
                let roll = good.standing([left, right], document.rack).map_err(Refusal::Unsolved)?;
                if roll.abs() > ROLL {
                    return Err(Refusal::Roll(roll));
                }
                Freedom::Travel.set(&mut after, f64::midpoint(left, right));
                Freedom::Roll.set(&mut after, roll);
            }
            Stand::Braking(braking) => {
                let most = document.layout.vehicle().most_braking();
                let dive = good.dive(braking).filter(|travel| travel.abs() <= MOST_TRAVEL);
                let travel = dive.filter(|_| (0.0..=most).contains(&braking));
                Freedom::Travel.set(&mut after, travel.ok_or(Refusal::Braking { braking, most })?);
                after.roll = 0.0;
            }
            Stand::AtRest => (after.travel, after.rack, after.roll) = (document.ride, 0.0, 0.0),
        }
        Ok(after)
    }
}
