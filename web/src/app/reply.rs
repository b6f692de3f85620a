//! What a student does in a lesson. No step of the drawing's: undo does not take it back, least of all what has been shown for it.

use super::App;
use super::refusal::Refusal;
use crate::document::Document;
use crate::document::lesson::Answer;
use crate::link;

/// What a student does in a lesson.
#[derive(Clone, Debug)]
pub enum Reply {
    /// The answer.
    Answer(Answer),
    /// The answer is to be checked, and what is hidden shown if there is one.
    Check,
}

impl App {
    /// Takes a reply, unless no link could carry it.
    pub(super) fn reply(&mut self, reply: Reply) {
        match (reply, &self.document.lesson) {
            (Reply::Answer(answer), _) => {
                let document = Document { answer, ..self.document.clone() };
                match link::too_long(&document, &self.document) {
                    Some(too_long) => self.refuse(&Refusal::TooLong(too_long)),
                    None => self.document = document,
                }
            }
            (Reply::Check, Some(lesson)) => self.document.answer = lesson.check(&self.document),
            (Reply::Check, None) => {}
        }
    }

    /// In one lesson there is one answer, whatever becomes of the axle.
    pub(super) fn keep_answer(&self, document: &mut Document) {
        if document.lesson == self.document.lesson {
            document.answer = self.document.answer.clone();
        }
    }
}
