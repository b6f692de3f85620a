//! A lesson as a whole, or a series of them: a copy of it is edited, it is tried as a student gets it, left, and come back to; its exercises are
//! turned to, added, removed. Nobody loses a lesson by a click.

use super::App;
use super::history::History;
use super::refusal::Refusal;
use crate::document::Document;
use crate::document::lesson::{Answer, Lesson, mark};
use crate::document::series::{MOST_EXERCISES, Series};
use crate::link;
use crate::study::variation::varied;
use kernel::Layout;

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
    /// Another exercise of the series is shown, by its place from 0.
    Turn(usize),
    /// An exercise is put behind the others, and prepared.
    Add(Box<Document>),
    /// An exercise that is not shown is taken out of the series, by its place from 0.
    Remove(usize),
    /// The start is that of a number in class, or a name, where starts vary.
    Vary(String),
}

/// A lesson that has been left: as it was opened, and as it was.
pub(super) struct Left {
    start: Document,
    now: Document,
}

/// An exercise that is sealed, or prepared anew, with nothing answered.
fn sealed(document: Document, begin: fn(&Layout) -> u32) -> Document {
    let lesson = document.lesson.clone().map(|lesson| Lesson { begin: begin(&document.layout), ..lesson });
    Document { lesson, answer: Answer::default(), ..document }
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
                let (lesson, answer, series) = Default::default();
                self.begin_with(Document { lesson, answer, series, compared: None, ..self.document.clone() });
            }
            Course::Return => {
                if let Some(left) = self.left.take() {
                    let Left { start, now } = *left;
                    self.begin_with(start);
                    self.replace(now);
                }
            }
            Course::Resume(document) => {
                // What it begins with may be a variant.
                self.start = self.start.turned(document.series.before.len());
                self.replace(*document);
            }
            Course::Turn(to) => self.turn_to(to),
            Course::Add(exercise) => self.add_exercise(*exercise),
            Course::Remove(at) => self.remove_exercise(at),
            Course::Vary(variant) => self.vary(&variant),
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

    /// The lesson, or the series, as it was opened, on the axles that it begins with, to be prepared anew.
    fn copy_lesson(&mut self) {
        self.tried = None;
        let from = if self.start.same_lessons(&self.document) { &self.start } else { &self.document };
        let copy = from.clone().each(&|document| sealed(document, |_| 0));
        self.begin_with(copy);
    }

    fn try_lesson(&mut self) {
        if self.document.lesson.is_some() && !self.document.sealed() {
            let prepared = Box::new(self.document.clone());
            self.begin_with(prepared.clone().each(&|document| sealed(document, mark)));
            self.tried = Some(prepared);
        }
    }

    /// What has been answered stays whatever is undone, so undo does not go back over a turn.
    fn turn_to(&mut self, to: usize) {
        self.start = self.start.turned(to);
        self.replace(self.document.turned(to));
        self.history = History::default();
    }

    fn add_exercise(&mut self, exercise: Document) {
        let (mut all, _) = self.document.exercises();
        if all.len() >= MOST_EXERCISES {
            return self.refuse(&Refusal::Exercises);
        }
        all.push(sealed(exercise, |_| 0));
        let to = all.len() - 1;
        self.rearrange(all, to);
    }

    fn remove_exercise(&mut self, at: usize) {
        let (mut all, shown) = self.document.exercises();
        if at < all.len() && at != shown {
            all.remove(at);
            self.rearrange(all, if at < shown { shown - 1 } else { shown });
        }
    }

    /// Puts the exercises in this order, one of them shown: a step to undo.
    fn rearrange(&mut self, all: Vec<Document>, to: usize) {
        let Some((shown, series)) = Series::at(all, to) else { return };
        let document = Document { series, units: self.document.units, ..shown };
        match link::too_long(&document, &self.document) {
            Some(too_long) => self.refuse(&Refusal::TooLong(too_long)),
            None => self.replace(document),
        }
    }

    fn vary(&mut self, variant: &str) {
        match varied(&self.document, variant) {
            Some(document) => {
                self.start = document.clone();
                self.start.answer = Answer::default();
                self.replace(document);
                self.history = History::default();
            }
            None => self.refuse(&Refusal::Variant),
        }
    }

    /// Before another document is begun with: a lesson that somebody works on is kept to come back to, and it is said.
    pub(super) fn leave_for(&mut self, next: &Document) {
        let Some(lesson) = &self.document.lesson else { return };
        if self.document.same_lessons(next) {
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
