//! Undo and redo: whole documents, as many as a long session makes.

/// States before the present one, and those undone.
pub struct History<T> {
    past: Vec<T>,
    future: Vec<T>,
}

/// A document is a few hundred bytes; a thousand steps back is more than anybody takes.
const MOST: usize = 1_000;

impl<T> Default for History<T> {
    fn default() -> Self {
        History { past: Vec::new(), future: Vec::new() }
    }
}

impl<T> History<T> {
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
