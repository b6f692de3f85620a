//! The drawing for those who do not see it: a table of its joints, brought up to date when nothing moves any more.

use crate::app::App;
use crate::browser::dom::{find, make, set};
use crate::browser::page::{IDLE, Page, Pane};
use crate::browser::window::Soon;
use std::cell::OnceCell;
use web_sys::Element;

/// The table.
#[derive(Default)]
pub struct Joints {
    listing: OnceCell<Soon>,
}

impl Pane for Joints {
    fn show(&self, page: &Page, _: &App) {
        let page = page.clone();
        self.listing.get_or_init(|| Soon::new(IDLE, move || page.with(list))).ask();
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
