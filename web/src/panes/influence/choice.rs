//! What hands have chosen in the table: its kind, columns and order, and the cell whose joint and reading are on the drawing.

use crate::app::{App, Hand, Show};
use crate::browser::dom::{find, set};
use crate::browser::page::Page;
use crate::study::influence::{Kind, Row, digits, heading, largest};
use kernel::Reading;
use kernel::vary::Quantity;
use std::cell::{Cell, RefCell};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, KeyboardEvent};

/// What hands have chosen; kept in no document.
pub(super) struct Choice {
    pub kind: Cell<Kind>,
    pub sorted: Cell<Option<&'static str>>,
    /// Columns that are shown, or not, unlike those that are by themselves.
    pub other: RefCell<Vec<&'static str>>,
    /// The rows and columns as they are shown.
    pub shown: RefCell<(Vec<Row>, Vec<Quantity>)>,
    /// The cell that was clicked: its row's name and its column.
    pub cell: RefCell<Option<(String, &'static str)>>,
}

/// What is always looked at first.
const FIRST: [&str; 3] = ["toe_deg", "camber_deg", "caster_deg"];

impl Choice {
    pub fn columns(&self, app: &App) -> Vec<Quantity> {
        let first = FIRST.iter().chain(&app.document.pinned).filter_map(|column| Quantity::named(column));
        let mut all: Vec<Quantity> = Vec::new();
        for quantity in first.chain(Quantity::all()) {
            if all.iter().all(|known| known.column() != quantity.column()) {
                all.push(quantity);
            }
        }
        all.retain(|quantity| self.shows(app, quantity.column()));
        all
    }

    pub fn shows(&self, app: &App, column: &str) -> bool {
        let itself = FIRST.contains(&column) || app.document.pinned.contains(&column);
        !app.hides(column) && itself != self.other.borrow().contains(&column)
    }

    /// Where the cell that was clicked stands.
    pub fn chosen(&self, table: &[Row], columns: &[Quantity]) -> Option<[usize; 2]> {
        let cell = self.cell.borrow();
        let (name, column) = cell.as_ref()?;
        let row = table.iter().position(|row| row.name == *name)?;
        Some([row, columns.iter().position(|quantity| quantity.column() == *column)?])
    }

    /// Shows a column that is not, or the other way round.
    pub fn turn(&self, column: &'static str) {
        let mut other = self.other.borrow_mut();
        match other.iter().position(|known| *known == column) {
            Some(at) => drop(other.remove(at)),
            None => other.push(column),
        }
    }
}

/// The place that a cell has in the table: row, column.
pub(super) fn place(cell: &Element) -> Option<[usize; 2]> {
    let at = cell.closest("td").ok().flatten()?.get_attribute("data-at")?;
    let (row, column) = at.split_once(' ')?;
    Some([row.parse().ok()?, column.parse().ok()?])
}

pub(super) fn target(event: &Event) -> Option<Element> {
    event.target()?.dyn_into().ok()
}

/// Chooses a cell: its joint is taken, its reading pinned and said.
pub(super) fn choose(page: &Page, choice: &Choice, [row, column]: [usize; 2]) {
    let shown = choice.shown.borrow();
    let (Some(part), Some(quantity)) = (shown.0.get(row), shown.1.get(column).copied()) else { return };
    choice.cell.replace(Some((part.name.clone(), quantity.column())));
    let (name, joint, per) = (part.name.clone(), part.joint, part.per);
    let (most, slope) = (largest(&shown.0, column), part.slopes[column]);
    drop(shown);
    let (units, pinned) = page.with(|app| (app.document.units, app.document.pinned.clone()));
    let (reading, unit, factor) = heading(quantity, units);
    let amount = digits(slope.map(|slope| slope * factor), most * factor);
    // What a rig's sweep finds is drawn as the momentary axis.
    let column = quantity.column().replace("_sweep", "");
    if let Some(reading) = Reading::named(&column).filter(|reading| !pinned.contains(&reading.column)) {
        // A pinned reading's column is shown by itself.
        choice.other.borrow_mut().retain(|other| *other != reading.column);
        page.send(Show::Pin(reading.column));
    }
    page.send(Hand::Select(joint));
    page.say(&format!("{name}: {reading} {amount} {unit} per {per}"));
    let columns = page.with(|app| choice.columns(app));
    focus([row, columns.iter().position(|column| column.column() == quantity.column()).unwrap_or_default()]);
}

/// Moves the focus to a cell, and the stop of the Tab key with it.
pub(super) fn focus([row, column]: [usize; 2]) {
    let body: Element = find("influence-rows");
    let cell = |selector: &str| body.query_selector(selector).ok().flatten();
    let Some(next) = cell(&format!("td[data-at=\"{row} {column}\"]")) else { return };
    if let Some(old) = cell("td[tabindex=\"0\"]") {
        set(&old, "tabindex", "-1");
    }
    set(&next, "tabindex", "0");
    if let Ok(next) = next.dyn_into::<HtmlElement>() {
        let _ = next.focus();
    }
}

pub(super) fn key(page: &Page, choice: &Choice, event: &KeyboardEvent) {
    let Some([row, column]) = target(event).as_ref().and_then(place) else { return };
    let last = {
        let shown = choice.shown.borrow();
        [shown.0.len(), shown.1.len()].map(|count| count.saturating_sub(1))
    };
    let next = match event.key().as_str() {
        "ArrowUp" => [row.saturating_sub(1), column],
        "ArrowDown" => [last[0].min(row + 1), column],
        "ArrowLeft" => [row, column.saturating_sub(1)],
        "ArrowRight" => [row, last[1].min(column + 1)],
        "Home" => [row, 0],
        "End" => [row, last[1]],
        "Enter" | " " => {
            event.prevent_default();
            return choose(page, choice, [row, column]);
        }
        _ => return,
    };
    event.prevent_default();
    focus(next);
}
