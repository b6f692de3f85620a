//! A teacher's series: its exercises in a list, each to be turned to or taken out, others to be added.

use super::acts::{Shelf, click};
use crate::app::{App, Course};
use crate::browser::dom::{Listener, find, make, set};
use crate::browser::page::Page;
use crate::document::Document;
use crate::document::lesson::Lesson;
use crate::document::series::Series;
use crate::panes::boxes::choice;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlSelectElement};

/// The list.
pub(super) struct SeriesRows {
    list: Element,
    /// The titles as they were written last, and which is shown.
    written: RefCell<(Vec<String>, usize)>,
    listeners: RefCell<Vec<Listener>>,
}

impl SeriesRows {
    /// Finds it on the page.
    pub fn new(page: &Page, shelf: &Rc<Shelf>) -> SeriesRows {
        click(page, "series-here", |page| {
            let (lesson, series) = (Some(Lesson::default()), Series::default());
            let exercise = page.with(|app| Document { lesson, series, ..app.document.clone() });
            page.send(Course::Add(Box::new(exercise)));
        });
        let names: Vec<&str> = shelf.0.iter().map(|(name, _)| *name).collect();
        let chosen: HtmlSelectElement = choice(page, "series-shelf", &names, |_, _| {});
        let shelf = shelf.clone();
        click(page, "series-add", move |page| {
            let at = usize::try_from(chosen.selected_index()).unwrap_or_default();
            if let Some((_, document)) = shelf.0.get(at) {
                page.send(Course::Add(Box::new(document.clone())));
            }
        });
        let (written, listeners) = Default::default();
        SeriesRows { list: find("series-rows"), written, listeners }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let now =
            (app.document.lessons().iter().map(|lesson| lesson.title()).collect(), app.document.series.before.len());
        if *self.written.borrow() == now {
            return;
        }
        let mut listeners = self.listeners.borrow_mut();
        listeners.clear();
        self.list.set_text_content(None);
        for (at, title) in now.0.iter().enumerate() {
            let item: Element = make(&self.list, "li");
            let mut button = |text: &str, label: &str, course: Course| {
                let button: Element = make(&item, "button");
                button.set_text_content(Some(text));
                set(&button, "aria-label", label);
                let page = page.clone();
                listeners.push(Listener::new(&button, "click", move |_: Event| page.send(course.clone())));
                button
            };
            let shown = at == now.1;
            let turn = button(title, &format!("Exercise {}: {title}", at + 1), Course::Turn(at));
            set(&turn, "aria-pressed", if shown { "true" } else { "false" });
            if !shown {
                button("×", &format!("Remove exercise {}", at + 1), Course::Remove(at));
            }
        }
        self.written.replace(now);
    }
}
