//! A reading at a place of its own, whatever is shown.

use crate::document::Document;
use crate::document::lesson::{Aim, Prediction};
use crate::document::place::Place;
use crate::text::quantity::Quantity;
use kernel::{Axle, Demand, Stance, State, Whole};
use std::rc::Rc;

/// The value of a quantity on a document's axle at a place; `None` where the axle does not have it or can't get there.
pub fn value_at(document: &Document, place: Place, quantity: Quantity) -> Option<f64> {
    let axle = Rc::new(Axle::new(&document.layout).ok()?.looking_at(document.side));
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

impl Aim {
    /// A reading as it is on a document's axle where it is shown, to five of the last digit shown.
    pub fn of(column: &'static str, document: &Document) -> Option<Aim> {
        let (quantity, place) = (Quantity::named(column)?, Place::of(document));
        let (decimals, factor, _) = document.units.shown(quantity);
        let tolerance = 5.0 * 10.0_f64.powi(-(decimals as i32)) / factor;
        Some(Aim { column, value: value_at(document, place, quantity)?, tolerance, place })
    }
}

impl Prediction {
    /// Of a reading's change from what it is on a document's axle where it is shown.
    pub fn of(column: &'static str, document: &Document) -> Option<Prediction> {
        let place = Place::of(document);
        let value = value_at(document, place, Quantity::named(column)?)?;
        // To the digits that a link carries.
        Some(Prediction { column, before: (value * 1e6).round() / 1e6, place })
    }
}
