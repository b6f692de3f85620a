//! Changes of where the axle stands.

use crate::app::refusal::Refusal;
use crate::document::place::{MOST_TRAVEL, ROLL};
use crate::document::{Document, Freedom};
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
    /// Travel and rack displacement of the wheel shown, mm, without roll.
    At(f64, f64),
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

impl Stand {
    /// The document after it. `good` is the axle on which the springs, or two wheels of different travel, find their position.
    pub fn on(self, document: &Document, good: &Solved) -> Result<Document, Refusal> {
        let mut after = document.clone();
        match self {
            Stand::Travel(travel) => Freedom::Travel.set(&mut after, travel),
            Stand::Rack(rack) => Freedom::Rack.set(&mut after, rack),
            Stand::Ride(ride) => Freedom::Ride.set(&mut after, ride),
            Stand::At(travel, rack) => {
                Freedom::Travel.set(&mut after, travel);
                Freedom::Rack.set(&mut after, rack);
                after.roll = 0.0;
            }
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
            Stand::AtRest => (after.travel, after.rack, after.roll) = (document.ride(), 0.0, 0.0),
        }
        Ok(after)
    }
}
