//! What may be moved, a coordinate a row: for a student a box to type in and step, for a teacher how far it may go.

use super::acts::teach;
use crate::app::{App, Hand, Point};
use crate::browser::dom::{Listener, Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::document::lesson::{Freed, Lesson, around};
use crate::panes::boxes::choice;
use crate::panes::number_box::NumberBox;
use kernel::PointId;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlSelectElement};

/// A student's boxes.
pub(super) struct FreeBoxes {
    place: Element,
    /// What the boxes stand for.
    boxes: RefCell<Vec<(Freed, NumberBox)>>,
}

impl FreeBoxes {
    /// Finds their place.
    pub fn new() -> FreeBoxes {
        FreeBoxes { place: find("free-boxes"), boxes: RefCell::default() }
    }

    /// Shows them.
    pub fn show(&self, page: &Page, app: &App, lesson: &Lesson) {
        let mut boxes = self.boxes.borrow_mut();
        if !boxes.iter().map(|(free, _)| free).eq(&lesson.free) {
            boxes.clear();
            self.place.set_text_content(None);
            boxes.extend(lesson.free.iter().map(|free| (*free, moving(page, &self.place, *free))));
        }
        for (free, number) in boxes.iter() {
            let at = app.document.layout.point(free.point).map(|at| at[free.axis.min(2)]);
            number.show(&at.map_or(String::new(), |mm| app.document.units.length(mm)));
        }
    }
}

/// A box that moves a joint along one coordinate, by typing or by arrow keys.
fn moving(page: &Page, place: &Element, free: Freed) -> NumberBox {
    NumberBox::named(page, place, &free.name(), move |page, value| {
        let at = page.with(|app| Some((app.document.layout.point(free.point)?, app.document.units)));
        if let Some((mut at, units)) = at {
            at[free.axis.min(2)] = units.typed_length(value);
            page.send(Hand::Select(Some(free.point)));
            page.send(Point::Place(free.point, at));
            page.say(&page.with(App::spoken_joint));
        }
    })
    .stepped(page)
}

/// A teacher's rows, and the joint whose coordinates are freed.
pub(super) struct FreeRows {
    joint: HtmlSelectElement,
    joints: RefCell<Vec<PointId>>,
    axes: [Shown; 3],
    body: Element,
    rows: RefCell<Vec<Row>>,
}

/// A row: what it stands for, its box, the range in words.
struct Row {
    free: (PointId, usize),
    reach: NumberBox,
    range: Shown,
    _remove: Listener,
}

/// A freed coordinate may go so far either way, until something else is typed, mm.
const REACH: f64 = 20.0;

impl FreeRows {
    /// Finds them on the page.
    pub fn new(page: &Page) -> FreeRows {
        let joint = choice(page, "edit-joint", &[], |page, at| {
            // The first choice is none.
            let id = page.with(|app| at.checked_sub(1).and_then(|at| app.document.layout.points().nth(at)));
            page.send(Hand::Select(id.map(|(id, _)| id)));
        });
        let mut axis = 0;
        let axes = ["free-x", "free-y", "free-z"].map(|id| {
            let (button, page, this) = (find::<Element>(id), page.clone(), axis);
            axis += 1;
            on(&button, "click", move |_: Event| turn(&page, this));
            Shown::attribute(button, "aria-pressed")
        });
        FreeRows { joint, joints: RefCell::default(), axes, body: find("free-rows"), rows: RefCell::default() }
    }

    /// Shows them.
    pub fn show(&self, page: &Page, app: &App, lesson: &Lesson) {
        let layout = &app.document.layout;
        let all: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
        if *self.joints.borrow() != all {
            self.joint.set_inner_html("");
            let names = ["choose a joint"].into_iter().chain(all.iter().map(|id| id.name()));
            names.for_each(|name| make::<Element>(&self.joint, "option").set_text_content(Some(name)));
            self.joints.replace(all.clone());
        }
        let chosen = app.selected.and_then(|id| all.iter().position(|other| *other == id));
        self.joint.set_selected_index(chosen.map_or(0, |at| at as i32 + 1));
        for (axis, pressed) in self.axes.iter().enumerate() {
            let free = lesson.free.iter().any(|free| Some(free.point) == app.selected && free.axis == axis);
            pressed.show(if free { "true" } else { "false" });
        }
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|row| row.free).eq(lesson.free.iter().map(|free| (free.point, free.axis))) {
            rows.clear();
            self.body.set_text_content(None);
            rows.extend(lesson.free.iter().map(|free| Row::new(page, &self.body, *free)));
        }
        let units = app.document.units;
        for (row, free) in rows.iter().zip(&lesson.free) {
            let [least, most] = free.range;
            row.reach.show(&units.length((most - least) / 2.0));
            row.range.show(&format!("{} to {} {}", units.length(least), units.length(most), units.length_name()));
        }
    }
}

/// Frees a coordinate of the joint in hand, or keeps it.
fn turn(page: &Page, axis: usize) {
    let joint = page.with(|app| app.selected.and_then(|id| Some((id, app.document.layout.point(id)?))));
    match joint {
        Some((id, at)) => teach(page, |lesson, _| lesson.turn_free(id, axis, at[axis], REACH)),
        None => page.tell("Choose a joint first, here or in the drawing."),
    }
}

impl Row {
    fn new(page: &Page, body: &Element, free: Freed) -> Row {
        let (point, axis) = (free.point, free.axis.min(2));
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(&free.name()));
        let cell = || make::<Element>(&row, "td");
        let reach = NumberBox::new(page, &cell(), &format!("{} ±", free.name()), move |page, value| {
            let reach = page.with(|app| app.document.units.typed_length(value.abs()));
            teach(page, |lesson, app| {
                let at = app.document.layout.point(point).map_or(0.0, |at| at[axis]);
                let freed = lesson.free.iter_mut().find(|free| (free.point, free.axis) == (point, axis));
                freed.into_iter().for_each(|free| free.range = around(at, reach));
            });
        });
        let range = Shown::text(cell());
        let button: Element = make(&cell(), "button");
        button.set_text_content(Some("×"));
        set(&button, "aria-label", &format!("Keep the {}", free.name()));
        let removing = page.clone();
        let remove = Listener::new(&button, "click", move |_: Event| {
            teach(&removing, |lesson, _| lesson.free.retain(|free| (free.point, free.axis) != (point, axis)));
        });
        Row { free: (point, axis), reach, range, _remove: remove }
    }
}

/// What of the start lies beyond where students may move it, in a sentence; empty if nothing does.
pub(super) fn beyond(app: &App, lesson: &Lesson) -> String {
    let out = |free: &&Freed| {
        let at = app.document.layout.point(free.point).map(|at| at[free.axis.min(2)]);
        at.is_some_and(|mm| !(free.range[0]..=free.range[1]).contains(&mm))
    };
    let names: Vec<String> = lesson.free.iter().filter(out).map(Freed::name).collect();
    if names.is_empty() {
        return String::new();
    }
    format!("The start is outside what students may set for {}: type its ± again.", names.join(", "))
}
