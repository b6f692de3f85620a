//! Rows that are pasted into a table of points: used at once where nothing has to be asked, else in a dialog, where names are matched, a right
//! wheel's data are mirrored, and what is wrong can be corrected.

use crate::app::{Measure, Message, Point, Say};
use crate::browser::dom::{Listener, find, make, on, set};
use crate::browser::page::Page;
use crate::document::Measured;
use crate::exchange::block::{self, Block, Cell, Names};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{
    ClipboardEvent, Element, Event, HtmlButtonElement, HtmlDialogElement, HtmlSelectElement, HtmlTextAreaElement,
};

/// Where rows go.
#[derive(Clone, Copy)]
enum Table {
    /// The table of points.
    Points,
    /// The measuring sheet.
    Sheet,
}

impl Table {
    fn message(self, rows: Vec<Measured>) -> Message {
        match self {
            Table::Points => Point::PlaceAll(rows).into(),
            Table::Sheet => Measure::Fill(rows).into(),
        }
    }
}

/// The dialog, and what is remembered.
struct Pasting {
    page: Page,
    dialog: HtmlDialogElement,
    text: HtmlTextAreaElement,
    names: RefCell<Names>,
    /// Where the rows that are asked about go.
    goes: RefCell<Option<(Table, Option<Cell>)>>,
    listeners: RefCell<Vec<Listener>>,
}

/// Gives both tables of points, and the dialog, their work.
pub fn furnish(page: &Page) {
    let pasting = Rc::new(Pasting {
        page: page.clone(),
        dialog: find("pasting-page"),
        text: find("pasting-text"),
        names: RefCell::default(),
        goes: RefCell::default(),
        listeners: RefCell::default(),
    });
    for (id, table) in [("points", Table::Points), ("measured", Table::Sheet)] {
        let pasting = pasting.clone();
        on(&find::<Element>(id), "paste", move |event: ClipboardEvent| pasting.paste(&event, table));
    }
    let corrected = pasting.clone();
    on(&pasting.text, "input", move |_: Event| corrected.ask());
    for (id, mirror) in [("pasting-use", false), ("pasting-mirror", true)] {
        let pasting = pasting.clone();
        on(&find::<Element>(id), "click", move |_: Event| pasting.take(mirror));
    }
}

/// The cell that an event happened in: rows and columns counted from the first with numbers.
fn cell(event: &Event) -> Option<Cell> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    let before = |element: &Element| {
        std::iter::successors(element.previous_element_sibling(), Element::previous_element_sibling).count()
    };
    let (cell, row) = (target.closest("td").ok()??, target.closest("tbody tr").ok()??);
    Some((before(&row), before(&cell).checked_sub(1)?))
}

impl Pasting {
    /// Takes a block of rows; a single number goes into its box as text does.
    fn paste(self: &Rc<Self>, event: &ClipboardEvent, table: Table) {
        let text = event.clipboard_data().and_then(|data| data.get_data("text").ok()).unwrap_or_default();
        if !text.trim().contains(['\n', '\t', ';']) {
            return;
        }
        event.prevent_default();
        self.goes.replace(Some((table, cell(event))));
        self.text.set_value(&text);
        match self.read() {
            Err(sentence) => self.page.send(Say::Sentence(sentence)),
            Ok(block) if block.is_plain() => self.page.send(table.message(block.rows)),
            Ok(_) => {
                self.ask();
                // Fails only if it is open already.
                let _ = self.dialog.show_modal();
            }
        }
    }

    fn read(&self) -> Result<Block, String> {
        let from = self.goes.borrow().and_then(|(_, from)| from);
        self.page.with(|app| block::read(&self.text.value(), &app.document.layout, &self.names.borrow(), from))
    }

    /// Shows what is understood, and asks for the rest.
    fn ask(self: &Rc<Self>) {
        let (block, why) = match self.read() {
            Ok(block) => (block, String::new()),
            Err(why) => (Block::default(), why),
        };
        let count = block.rows.len();
        let right = if block.is_of_the_right() {
            " Every y is negative, as of a right wheel; the page describes the left one."
        } else {
            ""
        };
        let rows = if count == 1 { "row" } else { "rows" };
        let says = if why.is_empty() { format!("{count} {rows} can be used.{right}") } else { why };
        find::<Element>("pasting-says").set_text_content(Some(&says));
        let wrong: Element = find("pasting-wrong");
        wrong.set_text_content(None);
        block.wrong.iter().for_each(|says| make::<Element>(&wrong, "li").set_text_content(Some(says)));
        self.ask_names(&block);
        let button = |id: &str, says: String, shown: bool| {
            let button: HtmlButtonElement = find(id);
            button.set_text_content(Some(&says));
            button.set_disabled(count == 0);
            button.set_hidden(!shown);
        };
        let asked = !right.is_empty();
        button("pasting-mirror", format!("Use {count} {rows} mirrored to the left"), asked);
        let unchanged = if asked { " unchanged" } else { "" };
        button("pasting-use", format!("Use {count} {rows}{unchanged}"), true);
    }

    /// A choice of points for every name that is not known.
    fn ask_names(self: &Rc<Self>, block: &Block) {
        let list: Element = find("pasting-names");
        self.listeners.borrow_mut().clear();
        list.set_text_content(None);
        let _ = list.toggle_attribute_with_force("hidden", block.unknown.is_empty());
        let points: Vec<_> = self.page.with(|app| app.document.layout.points().map(|(id, _)| id).collect());
        for name in &block.unknown {
            let label: Element = make(&list, "label");
            make::<Element>(&label, "span").set_text_content(Some(&format!("Which point is “{name}”?")));
            let select: HtmlSelectElement = make(&label, "select");
            set(&select, "aria-label", &format!("The point called {name}"));
            let says = ["choose", "none of these"].into_iter().chain(points.iter().map(|id| id.name()));
            says.for_each(|says| make::<Element>(&select, "option").set_text_content(Some(says)));
            let (pasting, name, points, chosen) = (self.clone(), name.to_lowercase(), points.clone(), select.clone());
            self.listeners.borrow_mut().push(Listener::new(&select, "change", move |_: Event| {
                let at = usize::try_from(chosen.selected_index()).unwrap_or_default();
                if at > 0 {
                    pasting
                        .names
                        .borrow_mut()
                        .insert(name.clone(), at.checked_sub(2).and_then(|at| points.get(at)).copied());
                    pasting.ask_soon();
                }
            }));
        }
    }

    /// Asks again once the list that was answered in may go.
    fn ask_soon(self: &Rc<Self>) {
        let pasting = self.clone();
        crate::browser::window::later(0, move || {
            pasting.ask();
            // The list that had the keyboard is gone; the next one, or what follows, goes on.
            let next: Option<HtmlSelectElement> =
                pasting.dialog.query_selector("select").ok().flatten().and_then(|next| next.dyn_into().ok());
            let _ = match next {
                Some(next) => next.focus(),
                None => find::<HtmlButtonElement>("pasting-use").focus(),
            };
        });
    }

    fn take(&self, mirror: bool) {
        let (Ok(block), Some((table, _))) = (self.read(), *self.goes.borrow()) else { return };
        self.dialog.close();
        self.page.send(table.message(if mirror { block.mirrored() } else { block.rows }));
    }
}
