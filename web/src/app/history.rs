//! Undo and redo: whole documents, as many as a long session makes.

/// States before the present one, and those undone.
pub struct History<T> {
    past: Vec<T>,
    future: Vec<T>,
    run: Run,
}

/// How the next change counts.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Run {
    /// As a step of its own.
    None,
    /// As the first of a run that a hand holds.
    Opening,
    /// As part of the step that a held run has begun.
    Part,
}

/// A document is a few hundred bytes; a thousand steps back is more than anybody takes.
const MOST: usize = 1_000;

impl<T> Default for History<T> {
    fn default() -> Self {
        History { past: Vec::new(), future: Vec::new(), run: Run::None }
    }
}

impl<T> History<T> {
    /// From now on everything is one step, until [`History::release`].
    pub fn hold(&mut self) {
        self.run = Run::Opening;
    }

    /// From now on everything is a step of its own.
    pub fn release(&mut self) {
        self.run = Run::None;
    }

    /// What a hand that still holds something does from now on is another step.
    pub fn cut(&mut self) {
        if self.run == Run::Part {
            self.run = Run::Opening;
        }
    }

    /// True while a hand holds something.
    pub fn held(&self) -> bool {
        self.run != Run::None
    }

    /// Remembers a state that has changed, unless the change is part of a held step.
    pub fn record(&mut self, before: T) {
        if self.run != Run::Part {
            self.push(before);
        }
        if self.run == Run::Opening {
            self.run = Run::Part;
        }
    }

    /// Remembers a state that is about to change.
    pub fn push(&mut self, before: T) {
        if self.past.len() == MOST {
            self.past.remove(0);
        }
        self.past.push(before);
        self.future.clear();
    }

    /// The state before; `present` can be had back by [`History::redo`].
    pub fn undo(&mut self, present: T) -> Option<T> {
        let before = self.past.pop()?;
        self.future.push(present);
        Some(before)
    }

    /// The state that was undone last.
    pub fn redo(&mut self, present: T) -> Option<T> {
        let after = self.future.pop()?;
        self.past.push(present);
        Some(after)
    }

    /// True if there is something to undo.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// True if there is something to redo.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }
}
