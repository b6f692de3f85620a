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
        self.rows.replace(vec![HEADING.map(String::from).to_vec()]);
        self.hear(Slice::default());
        let text = self.text.value();
        if text.trim().is_empty() {
            self.marking.take();
            return;
        }
        self.says.show("Getting ready …");
        self.stop.set_hidden(false);
        let mut marking = self.marking.borrow_mut();
        let marking = marking.get_or_insert_with(|| {
            let pane = self.clone();
            Running::new(move |told| match told {
                Ok(slice) => pane.hear(slice),
                Err(sentence) => pane.end(&sentence),
            })
        });
        marking.ask(&hand_ins::task(&text));
    }

    fn hear(&self, slice: Slice) {
        self.rows.borrow_mut().extend(hand_ins::rows(&slice.news));
        self.table.show(self.rows.borrow().clone());
        self.marked.set([slice.done, slice.of]);
        if slice.of > 0 && slice.last() {
            self.end("");
        } else {
            self.says.show(&self.so_far());
            self.stop.set_hidden(slice.of == 0);
        }
    }

    fn so_far(&self) -> String {
        match self.marked.get() {
            [_, 0] => String::new(),
            [marked, all] => format!("Marked {marked} of {all}."),
        }
    }

    fn stop(&self) {
        // The button goes: whoever pressed it with a key goes on with the rows.
        let _ = find::<HtmlElement>("handed-rows").focus();
        self.end("Stopped.");
    }

    /// Nothing more comes: says why, and how far it went.
    fn end(&self, why: &str) {
        self.marking.take();
        let words = format!("{} {why}", self.so_far());
        self.stop.set_hidden(true);
        self.says.show(words.trim());
        self.page.say(words.trim());
    }
}
