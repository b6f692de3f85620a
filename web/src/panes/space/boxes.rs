//! The boxes that stand in the way: added, named, typed, mirrored, taken away.

use crate::app::{App, Bulk};
use crate::browser::dom::{Listener, find, make, on, set};
use crate::browser::page::Page;
use crate::content::boxes::BEGINNINGS;
use crate::panes::number_box::NumberBox;
use crate::panes::typed_box::TypedBox;
use crate::text::number::plain;
use kernel::{Obstacle, clean};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

/// The table.
pub struct Boxes {
    table: HtmlElement,
    add: HtmlElement,
    body: Element,
    rows: RefCell<Vec<Row>>,
}

struct Row {
    name: TypedBox,
    corners: [NumberBox; 6],
    mirrored: HtmlInputElement,
    _listeners: [Listener; 2],
}

/// A coordinate of a box: of the corner it reaches from, then of the opposite one.
fn coordinate(one: &mut Obstacle, at: usize) -> &mut f64 {
    if at < 3 { &mut one.from[at] } else { &mut one.to[at - 3] }
}

/// Changes a box of the document.
fn change(page: &Page, which: usize, how: impl FnOnce(&mut Obstacle)) {
    if let Some(mut one) = page.with(|app| app.document.layout.boxes.get(which).cloned()) {
        how(&mut one);
        page.send(Bulk::Box(which, Some(one)));
    }
}

impl Row {
    fn new(page: &Page, body: &Element, which: usize) -> Row {
        let row: Element = make(body, "tr");
        let number = which + 1;
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let name = TypedBox::new(page, &heading, &format!("box {number}, name"), move |page, text| {
            let text = clean(text);
            change(page, which, |one| one.name = text);
        });
        set(&name.input, "inputmode", "text");
        let corners = [0, 1, 2, 3, 4, 5].map(|at| {
            let (corner, axis) = (if at < 3 { "from" } else { "to" }, ["x", "y", "z"][at % 3]);
            let take = move |page: &Page, value| change(page, which, |one| *coordinate(one, at) = value);
            let label = format!("box {number}, {corner} {axis}, mm");
            NumberBox::new(page, &make(&row, "td"), &label, take).stepped(page)
        });
        let mirrored: HtmlInputElement = make(&make::<Element>(&row, "td"), "input");
        set(&mirrored, "type", "checkbox");
        set(&mirrored, "aria-label", &format!("box {number} has a mirror image"));
        let (ticking, ticked) = (page.clone(), mirrored.clone());
        let tick = Listener::new(&mirrored, "change", move |_: Event| {
            change(&ticking, which, |one| one.mirrored = ticked.checked().then_some(true));
        });
        let remove: Element = make(&make::<Element>(&row, "td"), "button");
        remove.set_text_content(Some("×"));
        set(&remove, "aria-label", &format!("remove box {number}"));
        let page = page.clone();
        let removed = Listener::new(&remove, "click", move |_: Event| page.send(Bulk::Box(which, None)));
        Row { name, corners, mirrored, _listeners: [tick, removed] }
    }
}

impl Boxes {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Boxes {
        let add: HtmlElement = find("add-box");
        for beginning in &BEGINNINGS {
            let button: Element = make(&add, "button");
            button.set_text_content(Some(&format!("Add: {}", beginning.name)));
            let page = page.clone();
            on(&button, "click", move |_: Event| {
                let (count, one) =
                    page.with(|app| (app.document.layout.boxes.len(), beginning.on(&app.document.layout)));
                page.send(Bulk::Box(count, Some(one)));
            });
        }
        Boxes { table: find("box-table"), add, body: find("box-rows"), rows: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let boxes = &app.document.layout.boxes;
        self.table.set_hidden(boxes.is_empty());
        self.add.set_hidden(boxes.len() >= Obstacle::MOST);
        let mut rows = self.rows.borrow_mut();
        if rows.len() != boxes.len() {
            rows.clear();
            self.body.set_text_content(None);
            *rows = (0..boxes.len()).map(|which| Row::new(page, &self.body, which)).collect();
        }
        for (row, one) in rows.iter().zip(boxes) {
            let mut one = one.clone();
            row.name.show(&one.name);
            row.mirrored.set_checked(one.mirrored.unwrap_or_default());
            row.corners.iter().enumerate().for_each(|(at, shown)| shown.show(&plain(*coordinate(&mut one, at))));
        }
    }
}
