//! A reading at a place of its own, whatever is shown.

use crate::document::Document;
use crate::document::lesson::{Aim, Prediction};
use crate::document::place::Place;
use kernel::{Axle, Demand, Reading, Snapshot, Stance, Whole};
use std::rc::Rc;

/// The value of a reading on a document's axle at a place; `None` where the axle does not have it or can't get there.
pub fn value_at(document: &Document, place: Place, reading: &Reading) -> Option<f64> {
    let axle = Rc::new(Axle::new(&document.layout).ok()?.looking_at(document.side));
    let Place { roll, travel, rack } = place;
    let value = if roll == 0.0 {
        (reading.value)(&Snapshot::level(&axle, &axle.state(Demand::new(travel, rack)).ok()?))
    } else {
        let whole = Whole::at(&axle, Stance { roll, travel, rack }, &axle.at_rest()).ok()?;
        (reading.value)(&Snapshot::both(&whole))
    };
    value.filter(|value| value.is_finite())
}

impl Aim {
    /// A reading as it is on a document's axle where it is shown, to five of the last digit shown.
    pub fn of(column: &'static str, document: &Document) -> Option<Aim> {
        let (reading, place) = (Reading::named(column)?, Place::of(document));
        let (decimals, factor, _) = document.units.shown(reading);
        let tolerance = 5.0 * 10.0_f64.powi(-(decimals as i32)) / factor;
        Some(Aim { column, value: value_at(document, place, reading)?, tolerance, place })
    }
}

impl Prediction {
    /// Of a reading's change from what it is on a document's axle where it is shown.
    pub fn of(column: &'static str, document: &Document) -> Option<Prediction> {
        let place = Place::of(document);
        let value = value_at(document, place, Reading::named(column)?)?;
        // To the digits that a link carries.
        Some(Prediction { column, before: (value * 1e6).round() / 1e6, place })
    }
}
