//! The table of points at rest, each coordinate to be typed. Brought up to date only while it is shown.

use super::number_box::NumberBox;
use crate::app::{App, Hand, Point};
use crate::browser::dom::{Listener, Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::exchange::block;
use kernel::{PointId, Vec3};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement};

/// Every point of the layout.
pub struct Points {
    whole: HtmlElement,
    body: Element,
    rows: RefCell<Vec<Row>>,
    hand: InHand,
}

/// What can be said of the joint in hand beside its coordinates.
struct InHand {
    whole: HtmlElement,
    name: Shown,
    locks: [Shown; 3],
    error: NumberBox,
}

struct Row {
    id: PointId,
    class: Shown,
    boxes: [NumberBox; 3],
    lock: Shown,
    _listeners: Vec<Listener>,
}

impl Points {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> Points {
        let reset = page.clone();
        on(&find::<Element>("reset-point"), "click", move |_: Event| reset.send(Hand::Reset));
        let copied = page.clone();
        on(&find::<Element>("copy-points"), "click", move |_: Event| {
            copied.copy(copied.with(|app| block::write(&app.document.layout)), "Table copied");
        });
        Points { whole: find("points"), body: find("point-rows"), rows: RefCell::default(), hand: InHand::new(page) }
    }
}

impl InHand {
    fn new(page: &Page) -> InHand {
        let mut axis = 0;
        let locks = ["lock-x", "lock-y", "lock-z"].map(|id| {
            let (button, page, this) = (find::<Element>(id), page.clone(), axis);
            axis += 1;
            on(&button, "click", move |_: Event| {
                let change = page.with(|app| app.selected.map(|id| (id, app.document.locked(id))));
                if let Some((id, mut axes)) = change {
                    axes[this] = !axes[this];
                    page.send(Point::Lock(id, axes));
                }
            });
            Shown::attribute(button, "aria-pressed")
        });
        for (axis, name) in ["x", "y", "z"].into_iter().enumerate() {
            for (sign, way) in [(-1.0, "less"), (1.0, "more")] {
                let page = page.clone();
                on(&find::<Element>(&format!("{way}-{name}")), "click", move |_: Event| {
                    page.send(Hand::Nudge(Vec3::ith(axis, sign)));
                    page.say(&page.with(App::spoken_joint));
                });
            }
        }
        let error = NumberBox::new(page, &find("error"), "measuring tolerance", |page, value| {
            if let Some(id) = page.with(|app| app.selected) {
                page.send(Point::Error(id, page.with(|app| app.document.units.typed_length(value))));
            }
        });
        InHand { whole: find("in-hand"), name: Shown::text(find::<Element>("in-hand-name")), locks, error }
    }

    fn show(&self, app: &App) {
        self.whole.set_hidden(app.selected.is_none());
        let Some(id) = app.selected else { return };
        self.name.show(id.name());
        for (lock, locked) in self.locks.iter().zip(app.document.locked(id)) {
            lock.show(if locked { "true" } else { "false" });
        }
        self.error.show(&app.document.units.length(app.document.error(id)));
    }
}

impl Row {
    fn new(page: &Page, body: &Element, id: PointId) -> Row {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let button: Element = make(&heading, "button");
        button.set_text_content(Some(id.name()));
        let select = |element: &Element, event: &'static str| {
            let page = page.clone();
            Listener::new(element, event, move |_: Event| page.send(Hand::Select(Some(id))))
        };
        let mut listeners = vec![select(&button, "click")];
        let boxes = [("x", 0), ("y", 1), ("z", 2)].map(|(axis, index)| {
            let label = format!("{axis} of the {}", id.name());
            let cell: Element = make(&row, "td");
            let number = NumberBox::new(page, &cell, &label, move |page, value| {
                if let Some(mut at) = page.with(|app| app.document.layout.point(id)) {
                    at[index] = page.with(|app| app.document.units.typed_length(value));
                    page.send(Point::Place(id, at));
                }
            })
            .stepped(page);
            listeners.push(select(&number.input, "focus"));
            number
        });
        let button: Element = make(&make::<Element>(&row, "td"), "button");
        set(&button, "class", "lock");
        set(&button, "aria-label", &format!("Lock the {}", id.name()));
        let locking = page.clone();
        listeners.push(Listener::new(&button, "click", move |_: Event| {
            let locked = locking.with(|app| app.document.locked(id));
            locking.send(Point::Lock(id, [locked == [false; 3]; 3]));
        }));
        let (class, lock) = (Shown::attribute(row, "class"), Shown::attribute(button, "aria-pressed"));
        Row { id, class, boxes, lock, _listeners: listeners }
    }
}

impl Pane for Points {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let layout = &app.document.layout;
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|row| row.id).eq(layout.points().map(|(id, _)| id)) {
            // Before their boxes go: a browser takes what is typed in one for done when it goes, and it was meant for the axle before.
            rows.clear();
            self.body.set_text_content(None);
            *rows = layout.points().map(|(id, _)| Row::new(page, &self.body, id)).collect();
        }
        for (row, (id, at)) in rows.iter().zip(layout.points()) {
            row.class.show(if app.selected == Some(id) { "selected" } else { "" });
            // What an exercise keeps is locked like what a hand locks.
            let ranges = app.document.ranges(id);
            row.lock.show(match ranges.iter().filter(|range| range.is_none()).count() {
                0 => "false",
                3 => "true",
                _ => "mixed",
            });
            for (axis, number) in row.boxes.iter().enumerate() {
                number.show(&app.document.units.length(at[axis]));
                number.input.set_read_only(ranges[axis].is_none());
            }
        }
        self.hand.show(app);
    }
}
