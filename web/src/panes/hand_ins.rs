//! The table of what has been handed in: marked anew when links are pasted, row by row, until it is done or stopped.

use super::rows::Rows;
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::work::{Slice, hand_ins};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlTextAreaElement};

const HEADING: [&str; 5] = ["name", "number", "result", "pinned readings", "written answer"];

struct HandIns {
    page: Page,
    text: HtmlTextAreaElement,
    table: Rows,
    rows: RefCell<Vec<Vec<String>>>,
    says: Shown,
    stop: HtmlElement,
    /// Links marked, and links in all.
    marked: Cell<[usize; 2]>,
    marking: RefCell<Option<Running>>,
}

/// Finds the table and its text on the page.
pub fn furnish(page: &Page) {
    let pane = Rc::new(HandIns {
        page: page.clone(),
        text: find("hand-ins"),
        table: Rows::new("handed"),
        rows: RefCell::default(),
        says: Shown::text(find::<Element>("marked")),
        stop: find("stop-marking"),
        marked: Cell::default(),
        marking: RefCell::default(),
    });
    let begins = pane.clone();
    on(&pane.text, "input", move |_: Event| begins.begin());
    let stop = pane.stop.clone();
    on(&stop, "click", move |_: Event| pane.stop());
}

impl HandIns {
    fn begin(self: &Rc<Self>) {
        self.marking.take();
        self.rows.replace(vec![HEADING.map(String::from).to_vec()]);
        self.hear(Slice::default());
        let pane = self.clone();
        let marking = Running::start(&hand_ins::task(&self.text.value()), move |told| match told {
            Ok(slice) => pane.hear(slice),
            Err(sentence) => pane.end(sentence),
        });
        match marking {
            Ok(marking) => {
                self.marking.replace(Some(marking));
            }
            Err(sentence) => self.end(&sentence),
        }
    }

    fn hear(&self, slice: Slice) {
        self.rows.borrow_mut().extend(hand_ins::rows(&slice.news));
        self.table.show(self.rows.borrow().clone());
        self.marked.set([slice.done, slice.of]);
        if slice.of > 0 && slice.last() {
            self.end("");
        } else {
            self.says.show(&if slice.of == 0 { String::new() } else { self.so_far() });
            self.stop.set_hidden(slice.of == 0);
        }
    }

    fn so_far(&self) -> String {
        let [marked, all] = self.marked.get();
        format!("Marked {marked} of {all}.")
    }

    fn stop(&self) {
        self.marking.take();
        // The button goes: whoever pressed it with a key goes on with the rows.
        let _ = find::<HtmlElement>("handed-rows").focus();
        self.end("Stopped.");
    }

    /// Nothing more comes: says why, and how far it went.
    fn end(&self, why: &str) {
        let words = format!("{} {why}", self.so_far());
        self.stop.set_hidden(true);
        self.says.show(words.trim());
        self.page.say(words.trim());
    }
}
