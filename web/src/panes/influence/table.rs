//! The table: a row a part, a column a reading; sorted by a column, shaded by size, and a cell chooses its joint and its reading on the drawing.

use super::choice::{Choice, choose, focus, key, place, target};
use crate::app::App;
use crate::browser::dom::{Shown, document, find, make, on, set};
use crate::browser::page::Page;
use crate::panes::boxes::choice;
use crate::panes::followed::Followed;
use crate::panes::pressed::Pressed;
use crate::study::influence::{Kind, Row, digits, heading, largest, rows, shade, sort};
use crate::work::influence::{Slopes, slopes, task};
use kernel::vary::Quantity;
use kernel::{Layout, LeftOrRight};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement, KeyboardEvent};

/// What the table is of.
type Asked = (Layout, LeftOrRight);

/// The table.
pub struct Table {
    choice: Rc<Choice>,
    kinds: Pressed<Kind>,
    words: Shown,
    columns: (HtmlSelectElement, RefCell<Vec<String>>),
    class: Shown,
    head: Element,
    heads: RefCell<Vec<[String; 3]>>,
    body: Element,
    lines: RefCell<Vec<Line>>,
    slopes: Followed<Asked, Option<Slopes>>,
}

/// A row: its name, what its numbers are per, and each number's text and class.
struct Line {
    row: Element,
    name: Shown,
    per: Shown,
    cells: Vec<[Shown; 2]>,
}

const KINDS: [(Kind, &str); 4] = [
    (Kind::Length, "by-length"),
    (Kind::Build, "by-build"),
    (Kind::Design, "by-design"),
    (Kind::Adjuster, "by-adjuster"),
];

fn says(kind: Kind, none: bool) -> &'static str {
    match kind {
        Kind::Length => {
            "A member is made longer by this much; its joints stay where they are on the other parts, and the wheel follows."
        }
        Kind::Build => {
            "A joint sits elsewhere on its part by this much, or the part is bent; every length stays, and the wheel follows."
        }
        Kind::Design => {
            "A joint is moved in the design by this much; lengths follow, and the wheel at rest stays as it was."
        }
        Kind::Adjuster if none => "This car has no adjusters yet: name them below.",
        Kind::Adjuster => "What this car can be adjusted with, by the turn, the shim or the mm; the wheel follows.",
    }
}

impl Table {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Table {
        let choice_of = Rc::new(Choice {
            kind: Cell::new(Kind::Length),
            sorted: Cell::default(),
            other: RefCell::default(),
            shown: RefCell::default(),
            cell: RefCell::default(),
        });
        let table: Element = find("influence-table");
        let (head, body): (Element, Element) = (find("influence-head"), find("influence-rows"));
        let chosen = choice_of.clone();
        let kinds = Pressed::new(page, &KINDS, move |page, kind| {
            chosen.kind.set(kind);
            page.change();
        });
        let (sorting, sorted) = (page.clone(), choice_of.clone());
        on(&head, "click", move |event: Event| {
            let button = target(&event).and_then(|target| target.closest("button").ok().flatten());
            let column = button.and_then(|button| Quantity::named(&button.get_attribute("data-column")?));
            let Some(column) = column.map(Quantity::column) else { return };
            sorted.sorted.set(Some(column).filter(|column| sorted.sorted.get() != Some(column)));
            sorting.change();
        });
        let (clicking, clicked) = (page.clone(), choice_of.clone());
        on(&body, "click", move |event: Event| {
            if let Some(at) = target(&event).as_ref().and_then(place) {
                choose(&clicking, &clicked, at);
            }
        });
        let (walking, walked) = (page.clone(), choice_of.clone());
        on(&body, "keydown", move |event: KeyboardEvent| key(&walking, &walked, &event));
        let turned = choice_of.clone();
        let columns = choice(page, "influence-columns", &[], move |page, at| {
            // The first entry is the list's heading.
            let told =
                |app: &App| Quantity::all().filter(|quantity| !app.hides(quantity.column())).nth(at.checked_sub(1)?);
            if let Some(quantity) = page.with(told) {
                turned.turn(quantity.column());
            }
            page.change();
        });
        Table {
            choice: choice_of,
            kinds,
            words: Shown::text(find::<Element>("influence-words")),
            columns: (columns, RefCell::default()),
            class: Shown::attribute(table, "class"),
            head,
            heads: RefCell::default(),
            body,
            lines: RefCell::default(),
            slopes: Followed::new(|(layout, side)| task(layout, *side), |(layout, _), answer| slopes(layout, answer)),
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        let side = if app.document.whole { LeftOrRight::Left } else { app.document.side };
        let known = self.slopes.ask(page, app.held(), &(layout.clone(), side));
        let new = known.as_ref().is_some_and(|(_, new)| *new);
        self.class.show(if new { "" } else { "old" });
        let (kind, columns) = (self.choice.kind.get(), self.choice.columns(app));
        self.kinds.show(kind);
        self.words.show(says(kind, layout.changes.adjusters.is_empty()));
        let slopes = known.as_ref().and_then(|(slopes, _)| slopes.as_ref().as_ref());
        let linkage = app.study.good.linkage();
        let mut table = slopes.map_or_else(Vec::new, |slopes| rows(linkage, layout, slopes, kind, &columns));
        let sorted = columns.iter().position(|column| Some(column.column()) == self.choice.sorted.get());
        if let Some(column) = sorted {
            sort(&mut table, column);
        }
        self.show_columns(app);
        self.show_heads(app, &columns, sorted);
        self.show_rows(app, &columns, &table);
        self.choice.shown.replace((table, columns));
    }

    fn show_columns(&self, app: &App) {
        let tick = |quantity: Quantity| {
            let mark = if self.choice.shows(app, quantity.column()) { "✓ " } else { "" };
            format!("{mark}{}", heading(quantity, app.document.units).0)
        };
        let names: Vec<String> = Quantity::all().filter(|quantity| !app.hides(quantity.column())).map(tick).collect();
        let (list, written) = &self.columns;
        if *written.borrow() != names {
            list.set_inner_html("");
            for name in std::iter::once("Show or hide …").chain(names.iter().map(String::as_str)) {
                make::<Element>(list, "option").set_text_content(Some(name));
            }
            written.replace(names);
        }
        list.set_selected_index(0);
    }

    fn show_heads(&self, app: &App, columns: &[Quantity], sorted: Option<usize>) {
        let head = |(at, quantity): (usize, &Quantity)| {
            let (name, unit, _) = heading(*quantity, app.document.units);
            [name, unit.into(), if sorted == Some(at) { "descending" } else { "none" }.into()]
        };
        let heads: Vec<[String; 3]> = columns.iter().enumerate().map(head).collect();
        if *self.heads.borrow() == heads {
            return;
        }
        let focus = document().active_element().and_then(|element| element.get_attribute("data-column"));
        self.head.set_text_content(None);
        let row: Element = make(&self.head, "tr");
        for (scope, text) in [("col", "What"), ("col", "per")] {
            let cell: Element = make(&row, "th");
            set(&cell, "scope", scope);
            cell.set_text_content(Some(text));
        }
        for (quantity, [name, unit, sorted]) in columns.iter().zip(&heads) {
            let cell: Element = make(&row, "th");
            set(&cell, "scope", "col");
            set(&cell, "aria-sort", sorted);
            let button: HtmlElement = make(&cell, "button");
            set(&button, "data-column", quantity.column());
            set(&button, "title", "Sort by size");
            make::<Element>(&button, "span").set_text_content(Some(name));
            make::<Element>(&button, "small").set_text_content(Some(unit));
            if focus.as_deref() == Some(quantity.column()) {
                let _ = button.focus();
            }
        }
        self.heads.replace(heads);
    }

    fn show_rows(&self, app: &App, columns: &[Quantity], table: &[Row]) {
        let mut lines = self.lines.borrow_mut();
        if lines.len() != table.len() || lines.first().is_some_and(|line| line.cells.len() != columns.len()) {
            let focused = document().active_element().is_some_and(|element| element.has_attribute("data-at"));
            self.body.set_text_content(None);
            *lines = (0..table.len()).map(|row| Line::new(&self.body, row, columns.len())).collect();
            if let Some(cell) = self.choice.chosen(table, columns).filter(|_| focused) {
                focus(cell);
            }
        }
        let chosen = self.choice.cell.borrow();
        for (at, quantity) in columns.iter().enumerate() {
            let (most, factor) = (largest(table, at), heading(*quantity, app.document.units).2);
            for (line, row) in lines.iter().zip(table) {
                let [text, class] = &line.cells[at];
                text.show(&digits(row.slopes[at].map(|slope| slope * factor), most * factor));
                let is_chosen = chosen.as_ref().is_some_and(|(name, of)| *name == row.name && *of == quantity.column());
                let shade = row.slopes[at].map_or(0, |slope| shade(slope, most));
                class.show(&format!("s{shade}{}", if is_chosen { " chosen" } else { "" }));
            }
        }
        for (line, row) in lines.iter().zip(table) {
            line.name.show(&row.name);
            line.per.show(row.per);
        }
    }
}

impl Line {
    fn new(body: &Element, at: usize, columns: usize) -> Line {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let per = Shown::text(make::<Element>(&row, "td"));
        let cell = |column: usize| {
            let cell: Element = make(&row, "td");
            set(&cell, "data-at", &format!("{at} {column}"));
            // One cell is a stop of the Tab key; the arrow keys walk the others.
            set(&cell, "tabindex", if at == 0 && column == 0 { "0" } else { "-1" });
            [Shown::text(cell.clone()), Shown::attribute(cell, "class")]
        };
        let cells = (0..columns).map(cell).collect();
        Line { row, name: Shown::text(heading), per, cells }
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        self.row.remove();
    }
}
