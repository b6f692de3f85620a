//! The measuring sheet's table, typed back in the order in which it is printed.

use crate::app::{App, Measure};
use crate::browser::dom::{find, make, on, set};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use kernel::PointId;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlButtonElement};

/// The table.
pub struct Typed {
    body: Element,
    buttons: [HtmlButtonElement; 2],
    rows: RefCell<Vec<(PointId, [NumberBox; 4])>>,
}

impl Typed {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Typed {
        let taking = page.clone();
        on(&find::<Element>("take-measured"), "click", move |_: Event| {
            let points = taking.with(|app| app.document.papers.measuring.points.len());
            taking.send(Measure::Take);
            taking.tell(&format!("Taken: {points} {}", if points == 1 { "point" } else { "points" }));
        });
        let blanking = page.clone();
        on(&find::<Element>("blank-measured"), "click", move |_: Event| blanking.send(Measure::Blank));
        let buttons = ["take-measured", "blank-measured"].map(find);
        Typed { body: find("measured-rows"), buttons, rows: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let (layout, measuring, units) = (&app.document.layout, &app.document.papers.measuring, app.document.units);
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|(id, _)| *id).eq(layout.points().map(|(id, _)| id)) {
            rows.clear();
            self.body.set_text_content(None);
            let row = |(at, (id, _))| (id, row(page, &self.body, at + 1, id));
            *rows = layout.points().enumerate().map(row).collect();
        }
        for (id, boxes) in rows.iter() {
            for (number, value) in boxes.iter().zip(measuring.of(*id).numbers()) {
                number.show(&value.map_or(String::new(), |mm| units.length(mm)));
            }
        }
        self.buttons.iter().for_each(|button| button.set_disabled(measuring.points.is_empty()));
    }
}

/// A point's row: its number on the sheet, its name, its four boxes.
fn row(page: &Page, body: &Element, number: usize, id: PointId) -> [NumberBox; 4] {
    let row: Element = make(body, "tr");
    let heading: Element = make(&row, "th");
    set(&heading, "scope", "row");
    make::<Element>(&heading, "b").set_text_content(Some(&number.to_string()));
    make::<Element>(&heading, "span").set_text_content(Some(&format!(" {}", id.name())));
    let mut column = 0;
    ["x", "y", "z", "±"].map(|name| {
        let (cell, at) = (make::<Element>(&row, "td"), column);
        column += 1;
        NumberBox::blank(page, &cell, &format!("measured {name} of the {}", id.name()), move |page, value| {
            let units = page.with(|app| app.document.units);
            page.send(Measure::Cell(id, at, value.map(|value| units.typed_length(value))));
        })
    })
}
