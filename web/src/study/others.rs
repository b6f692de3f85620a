//! The load shown, on other axles.

use super::loaded::moment_on;
use super::solved::Solved;
use crate::document::{Document, Loads};
use kernel::{Layout, Vehicle};
use std::cell::RefCell;

/// Other axles, each with its name; and the moments asked for last, which most of what a hand does leaves as they are.
pub struct Others {
    axles: Vec<(&'static str, &'static Layout)>,
    last: RefCell<Option<(Asked, Moments)>>,
}

/// Names, and moments about the steering axis, N·mm.
type Moments = Vec<(&'static str, f64)>;

/// All that the moments depend on.
#[derive(Clone, PartialEq)]
struct Asked {
    vehicle: Vehicle,
    loads: Loads,
    /// Ride height, travel and rack, mm.
    at: [f64; 3],
    compared: Option<Layout>,
}

impl Others {
    /// None asked for yet.
    pub fn new(axles: Vec<(&'static str, &'static Layout)>) -> Others {
        Others { axles, last: RefCell::default() }
    }

    /// The moment of the same case of the same vehicle on the compared axle and on each of these, where they have one.
    pub fn moments(&self, solved: &Solved, document: &Document) -> Moments {
        let asked = Asked {
            vehicle: solved.layout().vehicle(),
            loads: document.loads,
            at: [document.ride(), document.travel, document.rack],
            compared: document.compared.clone(),
        };
        if let Some((before, moments)) = &*self.last.borrow()
            && *before == asked
        {
            return moments.clone();
        }
        let compared = document.compared.iter().map(|layout| ("compared axle", layout));
        let axles = compared.chain(self.axles.iter().copied());
        let moments: Moments =
            axles.filter_map(|(name, layout)| Some((name, moment_on(layout, solved, document)?))).collect();
        self.last.replace(Some((asked, moments.clone())));
        moments
    }
}
