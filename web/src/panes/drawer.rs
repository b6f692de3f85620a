//! The drawer: one pane at a time, chosen by its tab, in a quarter of the sheet or in half of it; where the sheet shows one view alone, in its
//! place among the rest or instead of it, with the pinned readings above.
//!
//! Tabs and panes are what the markup says: a tab names its pane by `aria-controls`, and `data-large` one that opens large beside the drawing.

use super::pinned::Pinned;
use crate::app::App;
use crate::browser::dom::{Shown, find, on, set};
use crate::browser::page::{Page, Pane, shows_all};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, KeyboardEvent};

/// The drawer.
pub struct Drawer {
    shelf: Rc<Shelf>,
    drawer: Element,
    /// What the button says it does.
    size: Shown,
    /// How much room the drawer takes: for the style.
    room: Shown,
    /// It takes the place of the sheet.
    alone: Cell<bool>,
    /// What the lesson begins with that was opened last.
    lesson: Cell<Option<u32>>,
    /// The pinned readings above a pane that fills the screen, and at the lower edge while the drawing is seen.
    pinned: [Pinned; 2],
}

/// The tabs, and how large each pane is wanted.
struct Shelf {
    row: Element,
    tabs: Vec<Tab>,
    chosen: Cell<usize>,
    /// Where the sheet shows one view alone: the drawer takes its place.
    alone: Cell<bool>,
}

struct Tab {
    button: HtmlElement,
    pane: HtmlElement,
    /// Large beside the three views.
    large: Cell<bool>,
}

impl Shelf {
    fn of_the_page() -> Shelf {
        let row: Element = find("tabs");
        let found = row.children();
        let buttons = (0..found.length()).filter_map(|at| found.item(at)?.dyn_into::<HtmlElement>().ok());
        let tab = |button: HtmlElement| {
            let pane = find(&button.get_attribute("aria-controls").unwrap_or_default());
            Tab { pane, large: Cell::new(button.has_attribute("data-large")), button }
        };
        Shelf { tabs: buttons.map(tab).collect(), row, chosen: Cell::default(), alone: Cell::default() }
    }

    fn named(&self, pane: &str) -> usize {
        self.tabs.iter().position(|tab| tab.pane.id() == pane).unwrap_or_default()
    }

    /// Shows a pane, and the whole of its tab.
    fn choose(&self, page: &Page, chosen: usize) {
        self.chosen.set(chosen);
        for (at, Tab { button, pane, .. }) in self.tabs.iter().enumerate() {
            let selected = at == chosen;
            pane.set_hidden(!selected);
            set(button, "aria-selected", if selected { "true" } else { "false" });
            // The arrow keys walk the tabs; Tab goes on to the pane.
            button.set_tab_index(if selected { 0 } else { -1 });
        }
        if let Some(Tab { button, .. }) = self.tabs.get(chosen) {
            let spare = self.row.client_width() - button.offset_width();
            self.row.set_scroll_left(button.offset_left() - spare / 2);
        }
        page.set_large(self.large(shows_all()));
        page.change();
    }

    /// What makes the drawer large or small here and now, `beside` the three views or without them.
    fn wish(&self, beside: bool) -> Option<&Cell<bool>> {
        if beside { self.tabs.get(self.chosen.get()).map(|tab| &tab.large) } else { Some(&self.alone) }
    }

    fn large(&self, beside: bool) -> bool {
        self.wish(beside).is_some_and(Cell::get)
    }

    /// The tab that a key leads to.
    fn neighbour(&self, key: &str) -> Option<usize> {
        let (at, last) = (self.chosen.get(), self.tabs.len().checked_sub(1)?);
        Some(match key {
            "ArrowRight" => (at + 1) % (last + 1),
            "ArrowLeft" => at.checked_sub(1).unwrap_or(last),
            "Home" => 0,
            "End" => last,
            _ => return None,
        })
    }
}

impl Drawer {
    /// Finds the drawer on the page.
    pub fn new(page: &Page) -> Drawer {
        let shelf = Rc::new(Shelf::of_the_page());
        for (at, tab) in shelf.tabs.iter().enumerate() {
            let (page, clicked) = (page.clone(), shelf.clone());
            on(&tab.button, "click", move |_: Event| clicked.choose(&page, at));
        }
        let (walking, walked) = (page.clone(), shelf.clone());
        on(&shelf.row, "keydown", move |event: KeyboardEvent| {
            let Some(at) = walked.neighbour(&event.key()) else { return };
            event.prevent_default();
            walked.choose(&walking, at);
            let _ = walked.tabs[at].button.focus();
        });
        let button: Element = find("drawer-size");
        let (sizing, sized) = (page.clone(), shelf.clone());
        on(&button, "click", move |_: Event| {
            if let Some(wish) = sized.wish(shows_all()) {
                wish.set(!wish.get());
            }
            sizing.set_large(sized.large(shows_all()));
            sizing.change();
        });
        // Who opens a lesson wants its task first.
        let lesson = page.with(|app| app.document.lesson.is_some());
        shelf.choose(page, shelf.named(if lesson { "lesson" } else { "curves" }));
        let (drawer, sheet): (Element, Element) = (find("drawer"), find("sheet"));
        Drawer {
            shelf,
            drawer,
            size: Shown::text(button),
            room: Shown::attribute(sheet, "data-drawer"),
            alone: Cell::default(),
            lesson: Cell::new(page.with(begins)),
            pinned: ["pinned-above", "pinned-below"].map(Pinned::new),
        }
    }
}

/// What the lesson begins with, if there is one.
fn begins(app: &App) -> Option<u32> {
    app.document.lesson.as_ref().map(|lesson| lesson.begin)
}

impl Pane for Drawer {
    fn show(&self, page: &Page, app: &App) {
        // Who opens a lesson wants its task first.
        let lesson = begins(app);
        if self.lesson.replace(lesson) != lesson && lesson.is_some() {
            self.shelf.choose(page, self.shelf.named("lesson"));
        }
        let beside = shows_all();
        let large = self.shelf.large(beside);
        // The window may have become another.
        page.set_large(large);
        let (room, size) = match (beside, large) {
            (true, true) => ("large", "Smaller"),
            (true, false) => ("small", "Larger"),
            (false, true) => ("alone", "Show the drawing"),
            (false, false) => ("small", "Fill the screen"),
        };
        self.size.show(size);
        self.room.show(room);
        let alone = large && !beside;
        self.pinned[0].show(app, alone);
        self.pinned[1].show(app, !alone && !beside);
        if self.alone.replace(alone) != alone {
            self.drawer.scroll_into_view();
        }
    }
}
