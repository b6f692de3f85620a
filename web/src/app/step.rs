//! Undo and redo.

use super::App;

/// Back and forth along what has been done.
#[derive(Clone, Copy, Debug)]
pub enum Step {
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
}

impl App {
    /// Goes a step back or forward, if there is one. What a hand that still holds something does from then on is a step of its own.
    pub(super) fn step(&mut self, step: Step) {
        self.history.cut();
        let present = self.document.clone();
        let other = match step {
            Step::Undo => self.history.undo(present),
            Step::Redo => self.history.redo(present),
        };
        if let Some(mut document) = other {
            self.keep_answer(&mut document);
            self.document = document;
            self.selected = self.selected.filter(|id| self.document.layout.point(*id).is_some());
            self.solve(None);
        }
    }
}
