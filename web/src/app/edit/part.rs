//! Changes of the layout's parts.

use crate::app::refusal::Refusal;
use crate::document::Document;
use kernel::{AntiRollBar, Damper, HalfShaft, Problem, Spring, Stops, Vehicle, validate};

/// A change of a part of the layout.
#[derive(Clone, Debug)]
pub enum Part {
    /// The vehicle that the load cases know.
    Vehicle(Vehicle),
    /// The damper in the strut.
    Damper(Damper),
    /// The half-shaft, or none.
    HalfShaft(Option<HalfShaft>),
    /// The anti-roll bar, or none.
    Bar(Option<AntiRollBar>),
    /// The spring, upright or on a rocker.
    Spring(Box<Spring>),
    /// Travels at which bump and rebound stops end the way, mm; or none.
    Stops(Option<Stops>),
}

impl Part {
    /// The document after it, if the layout has no problem that it did not have before.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        let mut after = document.clone();
        let layout = &mut after.layout;
        match self {
            Part::Vehicle(vehicle) => layout.vehicle = Some(vehicle),
            Part::Damper(damper) => layout.damper = Some(damper),
            Part::HalfShaft(shaft) => layout.half_shaft = shaft,
            Part::Bar(bar) => layout.anti_roll_bar = bar,
            Part::Spring(spring) => layout.spring = *spring,
            Part::Stops(stops) => layout.stops = stops,
        }
        let before = validate(&document.layout);
        let new: Vec<Problem> = validate(layout).into_iter().filter(|problem| !before.contains(problem)).collect();
        if new.is_empty() { Ok(after) } else { Err(Refusal::Problems(new)) }
    }
}
