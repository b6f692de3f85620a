//! What a lesson changes on the drawing: what it hides is not lettered, what it frees is marked.

use super::Picture;
use kernel::PointId;

impl Picture<'_> {
    /// True while a lesson hides a reading.
    pub(super) fn hides(&self, column: &str) -> bool {
        self.lesson.is_some_and(|(lesson, answer)| lesson.hides(answer, column))
    }

    /// What is lettered of a reading's value.
    pub(super) fn told(&self, column: &str, text: String) -> String {
        if self.hides(column) { "?".into() } else { text }
    }

    /// True for a joint that a lesson frees.
    pub(super) fn freed(&self, id: PointId) -> bool {
        self.lesson.is_some_and(|(lesson, _)| lesson.free.iter().any(|free| free.point == id))
    }
}
