//! A margin round the tyre: a second outline, and the litres with it. It is the reader's own, in no document.

use crate::app::{App, Room, Say};
use crate::browser::dom::{Shown, find};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use crate::text::number::{fixed, plain};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::Element;

/// What is usual at first, and the most, mm.
const USUAL: f64 = 15.0;
const MOST: f64 = 200.0;

/// The box, and what it comes to.
pub struct Margin {
    mm: Rc<Cell<f64>>,
    typed: NumberBox,
    told: Shown,
}

impl Margin {
    /// Finds its place on the page.
    pub fn new(page: &Page) -> Margin {
        let mm = Rc::new(Cell::new(USUAL));
        let kept = mm.clone();
        let typed = NumberBox::named(page, &find("space-margin"), "margin round the tyre, mm", move |page, value| {
            if (0.0..=MOST).contains(&value) {
                kept.set(value);
                page.change();
            } else {
                page.send(Say::Sentence(format!(
                    "The margin is {} mm; it must be between 0 and {MOST} mm.",
                    plain(value)
                )));
            }
        });
        Margin { mm, typed, told: Shown::text(find::<Element>("space-margin-told")) }
    }

    /// The margin, mm; 0 for none.
    pub fn mm(&self) -> f64 {
        self.mm.get()
    }

    /// Shows it, and the litres with it while the outlines are drawn.
    pub fn show(&self, app: &App) {
        self.typed.show(&plain(self.mm()));
        let litres = match &app.room {
            Room::Open(Some((outlines, false))) => outlines.litres,
            _ => None,
        };
        let words = |litres| {
            format!(
                "The outer line stands {} mm off the tyre everywhere; within it are {} litres.",
                plain(self.mm()),
                fixed(litres, 1)
            )
        };
        self.told.show(&litres.map_or(String::new(), words));
    }
}
