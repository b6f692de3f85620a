//! The variants of the axle: frozen under a name, told apart by the pinned readings where each stands, built again, laid over, thrown away.

use crate::app::{App, Beside, Build, Message};
use crate::browser::dom::{find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::text::unbroken::unbroken;
use kernel::Reading;
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlDialogElement, HtmlInputElement};

/// The table, in the dialog of what is compared.
pub struct Variants {
    dialog: HtmlDialogElement,
    table: Element,
    /// The cells as they were written last; the first row is the heads'.
    written: RefCell<Vec<Vec<String>>>,
}

/// What a button does to a variant, by its place.
type Act = (&'static str, fn(usize) -> Message);

/// The buttons of a row, each by the attribute that holds the row's number.
const ACTS: [Act; 4] = [
    ("data-take", |at| Build::Take(at).into()),
    ("data-lay", |at| Build::Lay(at).into()),
    (BESIDE, |at| Beside::Variant(at).into()),
    ("data-drop", |at| Build::Drop(at).into()),
];

/// The button that puts a variant beside the axle.
const BESIDE: &str = "data-beside";

impl Variants {
    /// Finds the table on the page.
    pub fn new(page: &Page) -> Variants {
        let (dialog, table): (HtmlDialogElement, Element) = (find("compare-page"), find("variants"));
        let (freezing, name) = (page.clone(), find::<HtmlInputElement>("variant-name"));
        on(&find::<Element>("freeze"), "submit", move |event: Event| {
            event.prevent_default();
            freezing.send(Build::Freeze(name.value()));
            name.set_value("");
        });
        let (acting, shown) = (page.clone(), dialog.clone());
        on(&table, "click", move |event: Event| {
            let Some(button) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
            for (attribute, act) in ACTS {
                let Some(at) = button.get_attribute(attribute).and_then(|at| at.parse().ok()) else { continue };
                acting.send(act(at));
                if attribute == "data-drop" {
                    continue;
                }
                shown.close();
                match attribute {
                    // What is laid over is on the drawing, what stands beside in the row; what was built is on both.
                    "data-lay" => acting.show_row(false),
                    BESIDE => acting.show_row(true),
                    _ => acting.refit(),
                }
            }
        });
        Variants { dialog, table, written: RefCell::default() }
    }

    fn write(&self, rows: &[Vec<String>]) {
        self.table.set_text_content(None);
        for (at, row) in rows.iter().enumerate() {
            let line: Element = make(&self.table, "tr");
            // Heads and the present axle come first.
            let variant = at.checked_sub(2).map(|at| at.to_string());
            for (column, text) in row.iter().enumerate() {
                let cell: Element = make(&line, if at == 0 || column == 0 { "th" } else { "td" });
                match &variant {
                    Some(variant) if column == 0 => button(&cell, "data-take", variant, text),
                    _ => cell.set_text_content(Some(text)),
                }
            }
            if let Some(variant) = variant {
                let cell: Element = make(&line, "td");
                button(&cell, "data-lay", &variant, "Compare");
                button(&cell, BESIDE, &variant, "Side by side");
                button(&cell, "data-drop", &variant, "Remove");
            }
        }
    }
}

fn button(cell: &Element, act: &str, variant: &str, text: &str) {
    let button: Element = make(cell, "button");
    set(&button, act, variant);
    button.set_text_content(Some(text));
}

impl Pane for Variants {
    fn show(&self, _: &Page, app: &App) {
        if !self.dialog.open() {
            return;
        }
        let names = std::iter::once("as it is now").chain(app.document.variants.iter().map(|v| v.name.as_str()));
        let row = |name: &str, values: Vec<String>| [vec![name.to_string()], values].concat();
        let pinned = app.document.pinned.iter().filter_map(|column| Reading::named(column));
        let head = |reading: &Reading| match app.document.units.behind(reading) {
            "" => reading.full_name(),
            unit => unbroken(&format!("{}, {unit}", reading.full_name())).into(),
        };
        let mut rows = vec![row("", pinned.map(head).collect())];
        rows.extend(names.zip(app.told_variants()).map(|(name, values)| row(name, values)));
        if *self.written.borrow() != rows {
            self.write(&rows);
            self.written.replace(rows);
        }
    }
}
