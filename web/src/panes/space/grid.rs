//! The least distances over travel and steering, the litres and the reach: by work beside the page, pale while they are of another car.

use crate::app::{App, Stand};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::panes::followed::Followed;
use crate::study::space::{Room, distance, pair, position, reach};
use crate::text::number::fixed;
use crate::work::space::{room, task};
use kernel::space::{At, Clearance};
use kernel::{Layout, LeftOrRight};
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// What the grid is of.
type Asked = (Layout, LeftOrRight);

/// The tables.
pub struct Over {
    class: Shown,
    litres: Shown,
    clearances: Element,
    reach: Element,
    written: RefCell<Option<[Vec<Line>; 2]>>,
    room: Followed<Asked, Option<Room>>,
}

/// A row: its name, its number, whether pieces meet, and where.
type Line = (String, String, bool, At);

impl Over {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Over {
        let whole: Element = find("space-grid");
        let going = page.clone();
        on(&whole, "click", move |event: Event| {
            let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            let number = |name| target.as_ref()?.get_attribute(name)?.parse().ok();
            if let (Some(travel), Some(rack)) = (number("data-travel"), number("data-rack")) {
                going.send(Stand::At(travel, rack));
            }
        });
        Over {
            class: Shown::attribute(whole, "class"),
            litres: Shown::text(find::<Element>("space-litres")),
            clearances: find("gap-rows"),
            reach: find("reach-rows"),
            written: RefCell::default(),
            room: Followed::new(|(layout, side)| task(layout, *side), |(layout, _), answer| room(layout, answer)),
        }
    }

    /// Shows them.
    pub fn show(&self, page: &Page, app: &App) {
        let side = if app.document.whole { LeftOrRight::Left } else { app.document.side };
        let known = self.room.ask(page, app.held(), &(app.document.layout.clone(), side));
        self.class.show(if known.as_ref().is_some_and(|(_, new)| *new) { "" } else { "old" });
        match known.as_ref().map(|(room, _)| room.as_ref()) {
            None => self.litres.show("Being worked out …"),
            Some(None) => {
                self.litres.show("The wheel reaches no position of the grid.");
                self.write([Vec::new(), Vec::new()]);
            }
            Some(Some(room)) => {
                self.litres.show(&words(room));
                self.write(lines(room, &app.document.layout));
            }
        }
    }

    fn write(&self, lines: [Vec<Line>; 2]) {
        if self.written.borrow().as_ref() == Some(&lines) {
            return;
        }
        for (body, lines) in [&self.clearances, &self.reach].into_iter().zip(&lines) {
            body.set_text_content(None);
            lines.iter().for_each(|line| row(body, line));
        }
        self.written.replace(Some(lines));
    }
}

fn words(room: &Room) -> String {
    let left_out = match room.unreached {
        0 => String::new(),
        1 => " One position can’t be reached and is left out.".into(),
        many => format!(" {many} positions can’t be reached and are left out."),
    };
    let [litres, turning] = [room.litres, room.turning].map(|litres| fixed(litres, 1));
    format!("The tyre takes {litres} litres; {turning} of them are for steering.{left_out}")
}

fn lines(room: &Room, layout: &Layout) -> [Vec<Line>; 2] {
    let clearance = room.clearances.iter().map(|one| {
        let Clearance { between, value, at } = *one;
        (pair(between, layout), distance(value), value <= 0.0, at)
    });
    let extreme = room.reach.iter().map(|(name, one)| (reach(name).to_string(), fixed(one.value, 1), false, one.at));
    [clearance.collect(), extreme.collect()]
}

fn row(body: &Element, (name, number, meet, at): &Line) {
    let line: Element = make(body, "tr");
    let heading: Element = make(&line, "th");
    set(&heading, "scope", "row");
    heading.set_text_content(Some(name));
    let cell: Element = make(&line, "td");
    cell.set_text_content(Some(number));
    if *meet {
        set(&cell, "class", "over");
    }
    let button: Element = make(&make::<Element>(&line, "td"), "button");
    button.set_text_content(Some(&position(*at)));
    set(&button, "data-travel", &at.travel.to_string());
    set(&button, "data-rack", &at.rack.to_string());
}
