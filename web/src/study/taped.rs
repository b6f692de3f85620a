//! What the tape readings of a document say.

use crate::document::tapes::{SIGMAS, Spot, Tapes};
use crate::document::{Document, MOST_ERROR, Measured};
use kernel::tape::{Found, Network};

/// The list, and what comes of it.
pub struct Taped {
    /// What is understood of the list.
    pub tapes: Tapes,
    /// Where its points are; `None` where there is nothing to find, or nothing was found.
    pub found: Option<Found>,
}

impl Taped {
    /// Of a document.
    pub fn of(document: &Document) -> Taped {
        let tapes = Tapes::read(&document.papers.measuring.tapes, &document.layout);
        let readings = tapes.readings.iter().map(|(_, tape)| *tape).collect::<Vec<_>>();
        let network = Network::new(tapes.thought(&document.layout), readings).ok();
        let network = network.filter(|network| !network.tapes().is_empty());
        Taped { found: network.and_then(|network| network.solve()), tapes }
    }

    /// How far a coordinate may be off, mm each way; `None` where it is not determined.
    pub fn error(&self, spot: usize, axis: usize) -> Option<f64> {
        Some(self.found.as_ref()?.errors[spot][axis]? * SIGMAS)
    }

    /// The points of the axle, as far as they are determined; each may be off as far as the worst of its coordinates.
    pub fn measured(&self) -> Vec<Measured> {
        let Some(found) = &self.found else { return Vec::new() };
        let measured = |(at, spot): (usize, &Spot)| {
            let Spot::Point(point) = *spot else { return None };
            let errors = [0, 1, 2].map(|axis| self.error(at, axis));
            let worst = errors.into_iter().flatten().reduce(f64::max)?;
            let place = found.places[at];
            let coordinate = |axis: usize| errors[axis].map(|_| place[axis]);
            Some(Measured { point, at: [0, 1, 2].map(coordinate), error: Some(worst.min(MOST_ERROR)) })
        };
        self.tapes.spots.iter().enumerate().filter_map(measured).collect()
    }
}
