//! Another document takes the place of the present one; undo brings that back.

use super::App;
use crate::content::demos;
use crate::document::Document;

/// Another document takes the place of the present one.
#[derive(Clone, Debug)]
pub enum Open {
    /// A document, with what there is to say about it.
    Document(Box<Document>, Vec<String>),
    /// One of the demos, at the present position.
    Demo(usize),
    /// What the link, the file or the demo opened with.
    Start,
}

impl App {
    /// Opens a document: a step of its own, even while a hand holds something.
    pub(super) fn open(&mut self, open: Open) {
        match open {
            Open::Document(document, notices) => {
                self.notices = notices;
                self.begin_with(*document);
            }
            Open::Demo(index) => {
                if let Some(document) = with_demo(&self.document, index) {
                    self.notices.clear();
                    self.begin_with(document);
                }
            }
            Open::Start => {
                let mut start = Document { series: self.document.series.clone(), ..self.start.clone() };
                self.keep_answer(&mut start);
                self.replace(start);
            }
        }
    }

    /// From here on a document is what the page opened with.
    pub(super) fn begin_with(&mut self, document: Document) {
        self.leave_for(&document);
        self.start = document.clone();
        self.replace(document);
    }

    pub(super) fn replace(&mut self, document: Document) {
        self.history.cut();
        self.selected = self.selected.filter(|id| document.layout.point(*id).is_some());
        self.mount = None;
        self.change_to(document, None);
    }
}

/// A demo in place of a document's axle: position and everything it is looked at with stay; a lesson ends with
/// the axles that it compares, and variants and papers were of the other axle.
fn with_demo(document: &Document, index: usize) -> Option<Document> {
    let mut fresh = Document::of(demos::layout(index)?);
    fresh.set_ride(document.ride());
    let rack = document.rack.clamp(-fresh.rack_travel(), fresh.rack_travel());
    let Document { layout, locks, errors, lesson, answer, series, variants, papers, .. } = fresh;
    let compared = document.compared.clone().filter(|_| document.lesson.is_none());
    let beside = if document.lesson.is_none() { document.beside.clone() } else { Vec::new() };
    Some(Document {
        layout,
        compared,
        beside,
        rack,
        locks,
        errors,
        lesson,
        answer,
        series,
        variants,
        papers,
        ..document.clone()
    })
}
