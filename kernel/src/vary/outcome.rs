//! Outcomes: readings at positions of a wheel, by their columns.

use crate::axle::{NoAxle, Swept};
use crate::layout::{Built, Layout, LeftOrRight, Rack};
use crate::linkage::Linkage;
use crate::pose::{Demand, Position, Unsolved, settled};
use crate::reading::{Known, READINGS, Reading, Snapshot, Subject};
use crate::state::State;

/// What can be an outcome: a reading of a wheel.
#[derive(Clone, Copy)]
pub struct Quantity(&'static Reading);

impl Quantity {
    /// Every quantity of a wheel, in the order of the table; travel and rack are held, not read.
    pub fn all() -> impl Iterator<Item = Quantity> {
        let varies = |reading: &&Reading| match reading.subject() {
            Subject::Wheel => !matches!(reading.column, "travel_mm" | "rack_mm"),
            subject => subject == Subject::Rig,
        };
        READINGS.iter().filter(varies).map(Quantity)
    }

    /// The quantity of a column.
    pub fn named(column: &str) -> Option<Quantity> {
        Quantity::all().find(|quantity| quantity.column() == column)
    }

    /// Its name in tables and files.
    pub fn column(self) -> &'static str {
        self.0.column
    }

    /// True for what a rig's sweep finds: it belongs to a height, whatever the rack.
    pub fn is_swept(self) -> bool {
        self.0.subject() == Subject::Rig
    }
}

/// A quantity at a position of a wheel.
#[derive(Clone, Copy)]
pub struct Outcome {
    /// What is read.
    pub quantity: Quantity,
    /// Of which wheel, as a left one.
    pub side: LeftOrRight,
    /// Rise of the wheel, mm; for a sweep, that at which the car stands on the rig.
    pub travel: f64,
    /// Rack displacement, mm: on the left wheel positive to the left, on the right one to the right. A sweep does not have it.
    pub rack: f64,
}

/// The outcomes of a layout as it is built, each `None` where the axle does not have it there; or why there is no such axle or position.
pub fn read(layout: &Layout, outcomes: &[Outcome]) -> Result<Vec<Option<f64>>, NoAxle> {
    let design = Linkage::new(layout).map_err(NoAxle::Problems)?;
    let mut wheels = [None, None];
    let mut values = Vec::with_capacity(outcomes.len());
    for outcome in outcomes {
        let wheel = match &mut wheels[outcome.side.index()] {
            Some(wheel) => wheel,
            none => none.insert(Wheel::of(&design, layout, outcome.side).map_err(NoAxle::Unsolved)?),
        };
        values.push(wheel.read(outcome).map_err(NoAxle::Unsolved)?);
    }
    Ok(values)
}

/// A wheel, and what has been solved of it: several quantities are read from one state.
struct Wheel<'a> {
    linkage: Linkage,
    rack: Option<&'a Rack>,
    states: Vec<([f64; 2], State)>,
    sweeps: Vec<(f64, Known)>,
}

impl Wheel<'_> {
    fn of<'a>(design: &Linkage, layout: &'a Layout, side: LeftOrRight) -> Result<Wheel<'a>, Unsolved> {
        let linkage = settled(design, layout, &Built::of(layout, side))?;
        Ok(Wheel { linkage, rack: layout.rack.as_ref(), states: Vec::new(), sweeps: Vec::new() })
    }

    fn read(&mut self, outcome: &Outcome) -> Result<Option<f64>, Unsolved> {
        let Quantity(reading) = outcome.quantity;
        if outcome.quantity.is_swept() {
            let known = self.swept(outcome.travel);
            // A height that it can't take has nothing to sweep.
            return Ok(self
                .state(outcome.travel, 0.0)
                .ok()
                .and_then(|s| (reading.value)(&Snapshot::of(s).knowing(&known))));
        }
        Ok((reading.value)(&Snapshot::of(self.state(outcome.travel, outcome.rack)?)))
    }

    fn state(&mut self, travel: f64, rack: f64) -> Result<&State, Unsolved> {
        let at = match self.states.iter().position(|(position, _)| *position == [travel, rack]) {
            Some(at) => at,
            None => {
                let start = Position::at_rest(&self.linkage);
                let state = State::solve(&self.linkage, Demand::new(travel, rack), &start)?;
                self.states.push(([travel, rack], state));
                self.states.len() - 1
            }
        };
        Ok(&self.states[at].1)
    }

    fn swept(&mut self, travel: f64) -> Known {
        if let Some((_, known)) = self.sweeps.iter().find(|(at, _)| *at == travel) {
            return known.clone();
        }
        let known = Known::of_rig(self.rack.and_then(|rack| Swept::of(&self.linkage, rack, travel, Swept::ANGLE)));
        self.sweeps.push((travel, known.clone()));
        known
    }
}
