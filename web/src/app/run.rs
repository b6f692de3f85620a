//! The axle moves by itself. The whole movement is one step to undo.

use super::App;
use crate::document::Freedom;

/// A movement that runs by itself.
#[derive(Clone, Copy, Debug)]
pub enum Run {
    /// It begins: undo brings the document as it is now back.
    Begin,
    /// It has come to this travel and rack, mm.
    To(f64, f64),
}

impl App {
    /// Follows a movement.
    pub(super) fn run(&mut self, run: Run) {
        match run {
            Run::Begin => self.history.push(self.document.clone()),
            Run::To(travel, rack) => {
                Freedom::Travel.set(&mut self.document, travel);
                Freedom::Rack.set(&mut self.document, rack);
                self.solve(None);
            }
        }
    }
}
