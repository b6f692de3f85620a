//! Where bent arms run: a row a bend, added on the arm's line and then typed.

use crate::app::{App, Bulk};
use crate::browser::dom::{Listener, find, make, set};
use crate::browser::page::Page;
use crate::content::bends::{arms, next};
use crate::panes::number_box::NumberBox;
use crate::text::number::plain;
use kernel::{Layout, Member, Vec3};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement};

/// The table, and a button an arm.
pub struct Bends {
    table: HtmlElement,
    body: Element,
    add: Element,
    rows: RefCell<Vec<Row>>,
    adding: RefCell<Vec<(Member, Element, Listener)>>,
}

struct Row {
    member: Member,
    at: usize,
    name: Element,
    coordinates: [NumberBox; 3],
    _remove: Listener,
}

/// A bend of the document.
fn bend(layout: &Layout, member: Member, at: usize) -> Option<Vec3> {
    layout.solid.as_ref()?.via.get(&member)?.get(at).copied()
}

impl Row {
    fn new(page: &Page, body: &Element, member: Member, at: usize, name: &str) -> Row {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let coordinates = [0, 1, 2].map(|axis| {
            let take = move |page: &Page, value| {
                if let Some(mut to) = page.with(|app| bend(&app.document.layout, member, at)) {
                    to[axis] = value;
                    page.send(Bulk::Bend(member, at, Some(to)));
                }
            };
            let label = format!("{name}, bend {}, {}, mm", at + 1, ["x", "y", "z"][axis]);
            NumberBox::new(page, &make(&row, "td"), &label, take).stepped(page)
        });
        let button: Element = make(&make::<Element>(&row, "td"), "button");
        button.set_text_content(Some("×"));
        set(&button, "aria-label", &format!("remove bend {} of {name}", at + 1));
        let page = page.clone();
        let remove = Listener::new(&button, "click", move |_: Event| page.send(Bulk::Bend(member, at, None)));
        Row { member, at, name: heading, coordinates, _remove: remove }
    }
}

impl Bends {
    /// Finds it on the page.
    pub fn new() -> Bends {
        let (rows, adding) = (RefCell::default(), RefCell::default());
        Bends { table: find("bend-table"), body: find("bend-rows"), add: find("add-bend"), rows, adding }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        let named = |member: Member| member.name(layout);
        let bends: Vec<(Member, usize)> = layout
            .solid
            .iter()
            .flat_map(|solid| solid.via.iter())
            .flat_map(|(member, points)| (0..points.len()).map(|at| (*member, at)))
            .collect();
        self.table.set_hidden(bends.is_empty());
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|row| (row.member, row.at)).eq(bends.iter().copied()) {
            rows.clear();
            self.body.set_text_content(None);
            *rows = bends.iter().map(|(member, at)| Row::new(page, &self.body, *member, *at, named(*member))).collect();
        }
        for row in rows.iter() {
            row.name.set_text_content(Some(&format!("{} {}", named(row.member), row.at + 1)));
            let Some(place) = bend(layout, row.member, row.at) else { continue };
            row.coordinates.iter().zip(place.iter()).for_each(|(shown, value)| shown.show(&plain(*value)));
        }
        self.show_buttons(page, layout);
    }

    /// A button for each arm that the axle has.
    fn show_buttons(&self, page: &Page, layout: &Layout) {
        let mut adding = self.adding.borrow_mut();
        if !adding.iter().map(|(member, ..)| *member).eq(arms(layout)) {
            adding.clear();
            self.add.set_text_content(None);
            *adding = arms(layout)
                .map(|member| {
                    let (button, page) = (make::<Element>(&self.add, "button"), page.clone());
                    let click = Listener::new(&button, "click", move |_: Event| {
                        let next = page.with(|app| next(&app.document.layout, member));
                        // Behind the last: there are never so many.
                        page.send(Bulk::Bend(member, usize::MAX, next));
                    });
                    (member, button, click)
                })
                .collect();
        }
        for (member, button, _) in adding.iter() {
            button.set_text_content(Some(&format!("Bend: {}", member.name(layout))));
        }
    }
}
