//! The least distances over travel and steering, the litres and the reach: by work beside the page, pale while they are of another car.

use crate::app::{App, Stand};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::Page;
use crate::browser::window::theme;
use crate::drawing::svg::svg;
use crate::drawing::{Theme, depth};
use crate::panes::boxes::Markup;
use crate::panes::followed::Followed;
use crate::study::space::{Room, distance, litres, pair, position, reach, saved};
use crate::text::number::fixed;
use crate::work::space::{room, task};
use kernel::space::{At, Clearance};
use kernel::{Layout, LeftOrRight};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement};

/// What the grid is of.
type Asked = (Layout, LeftOrRight);

/// The tables.
pub struct Over {
    class: Shown,
    litres: Shown,
    clearances: Element,
    reach: Element,
    depth: Markup,
    /// Of what the depth is drawn, and in what theme.
    drawn: RefCell<Option<(Rc<Option<Room>>, Theme)>>,
    other: HtmlElement,
    saved: Shown,
    written: RefCell<Option<[Vec<Line>; 2]>>,
    room: Followed<Asked, Option<Room>>,
    /// The same of the axle laid over.
    compared: Followed<Asked, Option<Room>>,
}

/// A row: its name, its number, the number of an axle laid over, whether pieces meet, and where.
type Line = (String, String, Option<String>, bool, At);

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
            depth: Markup::new("arch-depth"),
            drawn: RefCell::default(),
            other: find("reach-other"),
            saved: Shown::text(find::<Element>("space-saved")),
            written: RefCell::default(),
            room: over_grid(),
            compared: over_grid(),
        }
    }

    /// Shows them.
    pub fn show(&self, page: &Page, app: &App) {
        let known = self.room.ask(page, app.held(), &(app.document.layout.clone(), side(app)));
        self.class.show(if known.as_ref().is_some_and(|(_, new)| *new) { "" } else { "old" });
        let other = self.laid_over(page, app);
        let other = other.as_ref().and_then(|room| room.as_ref().as_ref());
        self.other.set_hidden(other.is_none());
        match known.as_ref().map(|(room, _)| room.as_ref()) {
            None => self.litres.show("Being worked out …"),
            Some(None) => {
                self.litres.show("The wheel reaches no position of the grid.");
                self.saved.show("");
                self.write([Vec::new(), Vec::new()]);
            }
            Some(Some(room)) => {
                self.litres.show(&litres(room));
                self.saved.show(&other.map_or(String::new(), |other| saved(room, other)));
                self.write(lines(room, other, &app.document.layout));
            }
        }
        if let Some((room, _)) = known {
            self.draw(room);
        }
    }

    /// The answer for the axle laid over, if there is one and it is known.
    fn laid_over(&self, page: &Page, app: &App) -> Option<Rc<Option<Room>>> {
        let layout = app.document.compared.clone()?;
        let (room, new) = self.compared.ask(page, app.held(), &(layout, side(app)))?;
        new.then_some(room)
    }

    /// Draws the depth, once for each answer.
    fn draw(&self, room: Rc<Option<Room>>) {
        let same = |(last, theme_then): &(Rc<Option<Room>>, Theme)| Rc::ptr_eq(last, &room) && *theme_then == theme();
        if self.drawn.borrow().as_ref().is_some_and(same) {
            return;
        }
        self.depth.show(room.as_ref().as_ref().map_or(String::new(), |room| svg(&depth(room), theme())));
        self.drawn.replace(Some((room, theme())));
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

/// The wheel that is asked about: of both, the left one.
pub fn side(app: &App) -> LeftOrRight {
    if app.document.whole { LeftOrRight::Left } else { app.document.side }
}

/// The work over the grid.
fn over_grid() -> Followed<Asked, Option<Room>> {
    Followed::new(|(layout, side)| task(layout, *side), |(layout, _), answer| room(layout, answer))
}

fn lines(room: &Room, other: Option<&Room>, layout: &Layout) -> [Vec<Line>; 2] {
    let clearance = room.clearances.iter().map(|one| {
        let Clearance { between, value, at } = *one;
        (pair(between, layout), distance(value), None, value <= 0.0, at)
    });
    let beside = |name: &str| other.map(|other| other.extreme(name).map_or("–".into(), |value| fixed(value, 1)));
    let extreme = room
        .reach
        .iter()
        .map(|(name, one)| (reach(name).to_string(), fixed(one.value, 1), beside(name), false, one.at));
    [clearance.collect(), extreme.collect()]
}

fn row(body: &Element, (name, number, other, meet, at): &Line) {
    let line: Element = make(body, "tr");
    let heading: Element = make(&line, "th");
    set(&heading, "scope", "row");
    heading.set_text_content(Some(name));
    let cell: Element = make(&line, "td");
    cell.set_text_content(Some(number));
    if *meet {
        set(&cell, "class", "over");
    }
    if let Some(other) = other {
        make::<Element>(&line, "td").set_text_content(Some(other));
    }
    let button: Element = make(&make::<Element>(&line, "td"), "button");
    button.set_text_content(Some(&position(*at)));
    set(&button, "data-travel", &at.travel.to_string());
    set(&button, "data-rack", &at.rack.to_string());
}
