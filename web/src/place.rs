//! A reading at a place of its own, whatever is shown.

use crate::document::{Document, Quantity};
use crate::number::Units;
use kernel::{Axle, Demand, Stance, State, Whole};
use std::rc::Rc;

/// Where something is read.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Rise of the wheel centre, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Roll of the body, degrees.
    pub roll: f64,
}

impl Place {
    /// Where a document's axle is shown. One wheel alone does not roll.
    pub fn of(document: &Document) -> Place {
        let roll = if document.whole { document.roll } else { 0.0 };
        Place { travel: document.travel, rack: document.rack, roll }
    }

    /// The place in words.
    pub fn words(self, units: Units) -> String {
        let [travel, rack] = [self.travel, self.rack].map(|mm| units.signed_length(mm));
        let roll = if self.roll == 0.0 { String::new() } else { format!(", roll {}", units.angle(self.roll, 1)) };
        format!("at travel {travel}, rack {rack}{roll}")
    }
}

/// The value of a quantity on a document's axle at a place; `None` where the axle does not have it or can't get there.
pub fn value_at(document: &Document, place: Place, quantity: Quantity) -> Option<f64> {
    let axle = Rc::new(Axle::standing_at(&document.layout, document.ride).ok()?);
    let wheel = |mut state: State, value: fn(&State) -> Option<f64>| {
        // Track and wheelbase change count from where the car stands.
        state.contact_shift -= axle.stands().contact_shift;
        value(&state)
    };
    let whole = || {
        let there = Stance { roll: place.roll, travel: place.travel, rack: place.rack };
        Whole::at(&axle, there, &axle.at_rest()).ok()
    };
    let value = match quantity {
        Quantity::Axle(reading) => (reading.value)(&whole()?),
        Quantity::Wheel(reading) if place.roll != 0.0 => wheel(whole()?.axle.sides[0].state.clone(), reading.value),
        Quantity::Wheel(reading) => wheel(axle.state(Demand::new(place.travel, place.rack)).ok()?, reading.value),
    };
    value.filter(|value| value.is_finite())
}
