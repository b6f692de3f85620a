//! A lesson as a whole: a copy of it is edited, it is tried as a student gets it, left, and come back to. Nobody loses a lesson by a click.

use super::App;
use crate::document::Document;
use crate::document::lesson::{Answer, Lesson, mark};

/// What becomes of a lesson as a whole.
#[derive(Clone, Debug)]
pub enum Course {
    /// A copy of it is prepared anew, whoever made it.
    Copy,
    /// It is tried as a student gets it.
    Try,
    /// Back to the preparation from where it was tried.
    Back,
    /// It is left: the axle stays.
    Leave,
    /// Back to the lesson that was left last, as it was.
    Return,
    /// An answer of earlier to the lesson shown is gone on with.
    Resume(Box<Document>),
}

/// A lesson that has been left: as it was opened, and as it was.
pub(super) struct Left {
    start: Document,
    now: Document,
}

impl App {
    /// Follows a command.
    pub(super) fn course(&mut self, course: Course) {
        self.notices.clear();
        match course {
            Course::Copy => self.copy_lesson(),
            Course::Try => self.try_lesson(),
            Course::Back => {
                if let Some(prepared) = self.tried.take() {
                    self.begin_with(*prepared);
                }
            }
            Course::Leave => {
                let (lesson, answer) = Default::default();
                self.begin_with(Document { lesson, answer, compared: None, ..self.document.clone() });
            }
            Course::Return => {
                if let Some(left) = self.left.take() {
                    let Left { start, now } = *left;
                    self.begin_with(start);
                    self.replace(now);
                }
            }
            Course::Resume(document) => self.replace(*document),
        }
    }

    /// True while a lesson is tried by who prepares it.
    pub fn tries(&self) -> bool {
        self.tried.is_some() && self.document.sealed()
    }

    /// True in a lesson to which something has been answered, or of which something has been moved.
    pub fn answered(&self) -> bool {
        self.document.answered()
    }

    /// True if there is a lesson to come back to that is not the one shown.
    pub fn has_left(&self) -> bool {
        let shown = self.document.lesson.as_ref();
        self.left.as_ref().is_some_and(|left| left.now.lesson.as_ref() != shown)
    }

    /// The lesson as it was opened, on the axle that it begins with, to be prepared anew.
    fn copy_lesson(&mut self) {
        let begins = self.start.lesson == self.document.lesson;
        let from = if begins { &self.start } else { &self.document };
        if let Some(lesson) = &from.lesson {
            let lesson = Some(Lesson { begin: 0, ..lesson.clone() });
            self.begin_with(Document { lesson, answer: Answer::default(), ..from.clone() });
        }
    }

    fn try_lesson(&mut self) {
        if let Some(lesson) = self.document.lesson.clone().filter(|lesson| !lesson.sealed()) {
            let prepared = Box::new(self.document.clone());
            let lesson = Lesson { begin: mark(&prepared.layout), ..lesson };
            self.begin_with(Document { lesson: Some(lesson), answer: Answer::default(), ..*prepared.clone() });
            self.tried = Some(prepared);
        }
    }

    /// Before another document is begun with: a lesson that somebody works on is kept to come back to, and it is said.
    pub(super) fn leave_for(&mut self, next: &Document) {
        let Some(lesson) = &self.document.lesson else { return };
        if next.lesson.as_ref().is_some_and(|other| other.same(lesson)) {
            return;
        }
        self.tried = None;
        if !lesson.sealed() || self.document.answered() {
            let what = if lesson.sealed() { "exercise" } else { "lesson you were preparing" };
            self.notices.push(format!("You have left the {what} (“{}”). Nothing of it is lost.", lesson.title()));
            self.left = Some(Box::new(Left { start: self.start.clone(), now: self.document.clone() }));
        }
    }
}
