//! All changes in words, each to be taken back by itself.

use crate::app::{App, Build, Edit};
use crate::browser::dom::{Listener, find, make, on, set};
use crate::browser::page::Page;
use crate::text::change::changes;
use crate::text::sentence::capital;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlButtonElement};

/// The list.
pub struct Changed {
    list: Element,
    all: HtmlButtonElement,
    shown: RefCell<(Vec<String>, Vec<Listener>)>,
}

impl Changed {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Changed {
        let (all, page) = (find::<HtmlButtonElement>("all-back"), page.clone());
        on(&all, "click", move |_: Event| {
            let changes = page.with(|app| app.document.layout.changes.taken_back());
            page.send(Edit::Build(Build::All(Box::new(changes))));
        });
        Changed { list: find("changed"), all, shown: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        let words = changes(layout);
        self.all.set_disabled(words.is_empty());
        let mut shown = self.shown.borrow_mut();
        if shown.0 == words && self.list.first_element_child().is_some() {
            return;
        }
        shown.1.clear();
        self.list.set_text_content(None);
        if words.is_empty() {
            make::<Element>(&self.list, "li").set_text_content(Some("Nothing: it is built as designed."));
        }
        for (words, (of, change, _)) in words.iter().zip(layout.changes.iter()) {
            let item: Element = make(&self.list, "li");
            make::<Element>(&item, "span").set_text_content(Some(&capital(words)));
            let back: Element = make(&item, "button");
            back.set_text_content(Some("×"));
            set(&back, "aria-label", &format!("Take back: {words}"));
            let page = page.clone();
            shown.1.push(Listener::new(&back, "click", move |_: Event| {
                page.send(Edit::Build(Build::Change(of, change, 0.0)));
            }));
        }
        shown.0 = words;
    }
}
