//! The drawing for those who do not see it: a table of its joints, brought up to date when nothing moves any more.

use crate::app::App;
use crate::browser::dom::{find, make, set, window};
use crate::browser::page::{IDLE, Page, Pane};
use crate::browser::window::later;
use std::cell::Cell;
use web_sys::Element;

/// The table.
#[derive(Default)]
pub struct Joints {
    timer: Cell<i32>,
}

impl Pane for Joints {
    fn show(&self, page: &Page, _: &App) {
        window().clear_timeout_with_handle(self.timer.get());
        let page = page.clone();
        self.timer.set(later(IDLE, move || page.with(list)));
    }
}

fn list(app: &App) {
    let unit = app.document.units.length_name();
    find::<Element>("joints-caption").set_text_content(Some(&format!("Present joint positions, {unit}")));
    let rows: Element = find("joint-rows");
    rows.set_text_content(None);
    for (id, _) in app.study.good.layout().points() {
        let Some(at) = app.study.good.place(id) else { continue };
        let row: Element = make(&rows, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(id.name()));
        for mm in at.iter() {
            make::<Element>(&row, "td").set_text_content(Some(&app.document.units.length(*mm)));
        }
    }
}
