//! The table of what has been handed in: marked anew when links are pasted, row by row, until it is done or stopped.

use super::rows::Rows;
use crate::browser::dom::{Shown, find, on};
use crate::browser::files;
use crate::browser::page::Page;
use crate::browser::work::Running;
use crate::exchange::marks::{self, Entry};
use crate::work::Slice;
use crate::work::hand_ins::{self, Row};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement, HtmlTextAreaElement};

struct HandIns {
    page: Page,
    text: HtmlTextAreaElement,
    table: Rows,
    rows: RefCell<Vec<Row>>,
    overview: Shown,
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
        overview: Shown::text(find::<Element>("class-overview")),
        says: Shown::text(find::<Element>("marked")),
        stop: find("stop-marking"),
        marked: Cell::default(),
        marking: RefCell::default(),
    });
    let begins = pane.clone();
    on(&pane.text, "input", move |_: Event| begins.begin());
    let comma = || find::<HtmlInputElement>("decimal-comma").checked();
    let copying = pane.clone();
    on(&find::<Element>("copy-marks"), "click", move |_: Event| {
        copying.page.copy(marks::tabbed(&copying.rows.borrow(), comma()), "Table copied");
    });
    let saving = pane.clone();
    on(&find::<Element>("save-marks"), "click", move |_: Event| {
        files::save("answers.csv", "text/csv", &marks::csv(&saving.rows.borrow(), comma()));
    });
    let stop = pane.stop.clone();
    on(&stop, "click", move |_: Event| pane.stop());
}

impl HandIns {
    fn begin(self: &Rc<Self>) {
        self.rows.borrow_mut().clear();
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
        let rows = self.rows.borrow();
        let cells = |row: Vec<Entry>| row.iter().map(|entry| entry.text().to_string()).collect();
        let shown = if rows.is_empty() { Vec::new() } else { marks::table(&rows) };
        self.table.show(shown.into_iter().map(cells).collect());
        self.overview.show(&marks::overview(&rows));
        drop(rows);
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
