//! Name and value of the pinned readings in a list of their own, where the table of readings is out of sight.

use crate::app::App;
use crate::browser::dom::{Shown, Veil, find, make};
use kernel::Reading;
use std::cell::RefCell;
use web_sys::Element;

/// The list.
pub struct Pinned {
    list: Element,
    veil: Veil,
    values: RefCell<Vec<[Shown; 2]>>,
}

impl Pinned {
    /// Finds it on the page.
    pub fn new(id: &str) -> Pinned {
        Pinned { list: find(id), veil: Veil::of(id), values: RefCell::default() }
    }

    /// Shows it, or puts it away.
    pub fn show(&self, app: &App, shown: bool) {
        self.veil.set_hidden(!shown);
        if !shown {
            return;
        }
        let pinned: Vec<&Reading> = app.document.pinned.iter().filter_map(|column| Reading::named(column)).collect();
        let mut values = self.values.borrow_mut();
        if values.len() != pinned.len() {
            self.list.set_text_content(None);
            let item = |_: &&Reading| {
                let item: Element = make(&self.list, "li");
                ["span", "b"].map(|tag| Shown::text(make::<Element>(&item, tag)))
            };
            *values = pinned.iter().map(item).collect();
        }
        for ([name, value], reading) in values.iter().zip(pinned) {
            name.show(&reading.full_name());
            value.show(&(app.told_now(reading) + &app.printed_plus_minus(reading)));
        }
    }
}
