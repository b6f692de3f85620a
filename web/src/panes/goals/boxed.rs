//! A table of numbers with what they are now and from where to where they may be: coordinates that may move, lengths to keep.

use super::{LENGTH, change, typed};
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::goal::Goal;
use crate::panes::typed_box::TypedBox;
use crate::text::number::Units;
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement};

/// The table.
pub(super) struct Boxed {
    page: Page,
    table: HtmlElement,
    body: Element,
    range: Range,
    remove: Remove,
    choose: Option<Choose>,
    rows: RefCell<Vec<Row>>,
}

/// The range of a row of the goal.
type Range = fn(&mut Goal, usize) -> Option<&mut [f64; 2]>;

/// Takes a row out of the goal.
type Remove = fn(&mut Goal, usize);

/// Takes what a row of the goal is of in hand.
type Choose = fn(&Page, usize);

/// What a row shows.
pub(super) struct Line {
    pub name: String,
    /// What it is of is in hand.
    pub chosen: bool,
    /// `None` where the axle does not have it.
    pub now: Option<f64>,
    pub range: [f64; 2],
}

struct Row {
    name: Shown,
    /// Of a name that can be pressed.
    chosen: Option<Shown>,
    now: Shown,
    ends: [(TypedBox, Shown); 2],
    away: Shown,
    _listeners: Vec<Listener>,
    /// Behind all that listens.
    _row: Leaves,
}

/// An element that leaves the page with its owner: the last of a row's fields, so that what listens to it has ended before.
pub(super) struct Leaves(pub Element);

impl Drop for Leaves {
    fn drop(&mut self) {
        self.0.remove();
    }
}

const ENDS: [&str; 2] = ["from", "to"];

impl Boxed {
    /// Finds it on the page.
    pub fn new(page: &Page, id: &str, range: Range, remove: Remove) -> Boxed {
        let table: HtmlElement = find(id);
        let body = table.query_selector("tbody").ok().flatten().unwrap_or_else(|| make(&table, "tbody"));
        Boxed { page: page.clone(), table, body, range, remove, choose: None, rows: RefCell::default() }
    }

    /// The same with names that take what they are of in hand.
    pub fn choosing(self, choose: Choose) -> Boxed {
        Boxed { choose: Some(choose), ..self }
    }

    /// Shows it.
    pub fn show(&self, units: Units, lines: &[Line]) {
        let mut rows = self.rows.borrow_mut();
        self.table.set_hidden(lines.is_empty());
        rows.truncate(lines.len());
        while rows.len() < lines.len() {
            let row = Row::new(self, rows.len());
            rows.push(row);
        }
        for (row, line) in rows.iter().zip(lines) {
            row.name.show(&line.name);
            row.chosen.iter().for_each(|chosen| chosen.show(if line.chosen { "true" } else { "false" }));
            row.now.show(&line.now.map_or("not there".into(), |mm| units.length(mm)));
            row.away.show(&format!("remove {}", line.name));
            for (((end, label), name), mm) in row.ends.iter().zip(ENDS).zip(line.range) {
                label.show(&format!("{}, {name}", line.name));
                end.show(&units.length(mm));
            }
        }
    }
}

impl Row {
    fn new(boxed: &Boxed, at: usize) -> Row {
        let Boxed { page, range, remove, choose, .. } = boxed;
        let (range, remove) = (*range, *remove);
        let row: Element = make(&boxed.body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let mut listeners = Vec::new();
        let named = choose.map(|choose| {
            let button: Element = make(&heading, "button");
            let page = page.clone();
            listeners.push(Listener::new(&button, "click", move |_: Event| choose(&page, at)));
            button
        });
        let now = Shown::text(make::<Element>(&row, "td"));
        let ends = [0, 1].map(|end| {
            let typed_box = TypedBox::new(page, &make(&row, "td"), ENDS[end], move |page, text| {
                if let Some(mm) = typed(page, LENGTH, text, ENDS[end]) {
                    change(page, |goal| {
                        if let Some(range) = range(goal, at) {
                            range[end] = mm;
                        }
                    });
                }
            });
            let label = Shown::attribute(typed_box.input.clone(), "aria-label");
            (typed_box, label)
        });
        let button: Element = make(&make(&row, "td"), "button");
        button.set_text_content(Some("×"));
        let clicked = page.clone();
        listeners.push(Listener::new(&button, "click", move |_: Event| change(&clicked, |goal| remove(goal, at))));
        Row {
            chosen: named.clone().map(|button| Shown::attribute(button, "aria-pressed")),
            name: Shown::text(named.unwrap_or(heading)),
            now,
            ends,
            away: Shown::attribute(button, "aria-label"),
            _listeners: listeners,
            _row: Leaves(row),
        }
    }
}
