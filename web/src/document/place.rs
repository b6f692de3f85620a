//! A reading at a place of its own, whatever is shown.

use crate::document::{Document, Quantity};
use crate::text::number::Units;
use kernel::{Demand, Linkage, Position, State, Whole, at_rest};

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
    let layout = &document.layout;
    let linkage = Linkage::new(layout).ok()?;
    let rest = Position { pose: linkage.rest(), rack: 0.0 };
    let at = |demand| State::solve(&linkage, demand, &rest).ok();
    let standing = at(Demand::new(document.ride, 0.0))?;
    let wheel = |mut state: State, value: fn(&State) -> Option<f64>| {
        // Track and wheelbase change count from where the car stands.
        state.contact_shift -= standing.contact_shift;
        value(&state)
    };
    let whole = || {
        let there = [place.roll, place.travel, place.rack];
        Whole::at(layout, &linkage, &standing, there, &at_rest(&linkage)).ok()
    };
    let value = match quantity {
        Quantity::Axle(reading) => (reading.value)(&whole()?),
        Quantity::Wheel(reading) if place.roll != 0.0 => wheel(whole()?.axle.sides[0].state.clone(), reading.value),
        Quantity::Wheel(reading) => wheel(at(Demand::new(place.travel, place.rack))?, reading.value),
    };
    value.filter(|value| value.is_finite())
}
