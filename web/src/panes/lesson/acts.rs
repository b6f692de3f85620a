//! What clicks do in a lesson.

use crate::app::{About, App, Open};
use crate::browser::dom::{find, on, window};
use crate::browser::page::Page;
use crate::document::Document;
use crate::document::lesson::Lesson;
use web_sys::{Element, Event};

/// What a click on an element does.
pub(super) fn click(page: &Page, id: &str, act: impl Fn(&Page) + 'static) {
    let page = page.clone();
    on(&find::<Element>(id), "click", move |_: Event| act(&page));
}

/// Changes the lesson in preparation.
pub(super) fn teach(page: &Page, change: impl FnOnce(&mut Lesson, &App)) {
    let lesson = page.with(|app| {
        let mut lesson = app.document.lesson.clone().unwrap_or_default();
        change(&mut lesson, app);
        lesson
    });
    page.send(About::Teach(Some(Box::new(lesson))));
}

/// Opens an exercise. On a small screen the task then stands first.
pub(super) fn begin(page: &Page, document: &Document) {
    page.send(Open::Document(Box::new(document.clone()), Vec::new()));
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// The exercises that come with the page, each with its name.
pub(super) struct Shelf(pub Vec<(&'static str, Document)>);

impl Shelf {
    /// The exercise behind a lesson that is one of them.
    pub fn after(&self, lesson: &Lesson) -> Option<&Document> {
        let is =
            |(_, document): &(&str, Document)| document.lesson.as_ref().is_some_and(|other| other.task == lesson.task);
        let at = self.0.iter().position(is)?;
        self.0.get(at + 1).map(|(_, document)| document)
    }
}
