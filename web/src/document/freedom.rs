//! What an axle is free to do on the page, and how far.

use super::place::{MOST_TRAVEL, ROLL};
use super::saved::Document;

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
            Freedom::Ride => document.ride(),
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
        let value = value.clamp(-most, most);
        match self {
            Freedom::Travel => document.travel = value,
            Freedom::Rack => document.rack = value,
            Freedom::Ride => document.set_ride(value),
            Freedom::Roll => document.roll = value,
        }
    }
}
