//! The workshop: lengths and adjusters, setting a reading where the car stands, and all that this car has different from its design.
//! Brought up to date only while it is shown.

mod changed;
mod lengths;
mod wish;

use super::pressed::Pressed;
use crate::app::App;
use crate::browser::dom::find;
use crate::browser::page::{Page, Pane};
use kernel::{LeftOrRight, Sides};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::HtmlElement;

/// The pane.
pub struct WorkshopPane {
    whole: HtmlElement,
    /// The wheels that are worked on: the hand's choice, kept in no document.
    sides: Rc<Cell<Sides>>,
    choice: Pressed<Sides>,
    lengths: lengths::Lengths,
    wish: wish::Wishing,
    changed: changed::Changed,
}

const SIDES: [(Sides, &str); 3] = [
    (Sides::Both, "work-both"),
    (Sides::One(LeftOrRight::Left), "work-left"),
    (Sides::One(LeftOrRight::Right), "work-right"),
];

impl WorkshopPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> WorkshopPane {
        let sides = Rc::new(Cell::new(Sides::Both));
        let chosen = sides.clone();
        WorkshopPane {
            whole: find("workshop"),
            choice: Pressed::new(page, &SIDES, move |page, sides| {
                chosen.set(sides);
                page.change();
            }),
            lengths: lengths::Lengths::new(&sides),
            wish: wish::Wishing::new(page, &sides),
            changed: changed::Changed::new(page),
            sides,
        }
    }
}

impl Pane for WorkshopPane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        self.choice.show(self.sides.get());
        self.lengths.show(page, app);
        self.wish.show(app);
        self.changed.show(page, app);
    }
}
