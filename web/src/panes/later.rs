//! A pane of the drawer that is furnished when it is first shown: a first visit neither waits for it nor loads its program.

use crate::app::App;
use crate::browser::dom::find;
use crate::browser::page::{Page, Pane};
use std::cell::OnceCell;
use web_sys::HtmlElement;

/// Furnishes a pane.
type Furnish = fn(&Page) -> Box<dyn Pane>;

/// The pane, maybe still to come.
pub struct Later {
    whole: HtmlElement,
    furnish: Furnish,
    pane: OnceCell<Box<dyn Pane>>,
}

impl Later {
    /// A pane that stands in the element of this id.
    pub fn new(id: &str, furnish: Furnish) -> Later {
        Later { whole: find(id), furnish, pane: OnceCell::new() }
    }
}

impl Pane for Later {
    fn show(&self, page: &Page, app: &App) {
        // One that has been shown hears that it is hidden: it may have something to put away.
        if self.pane.get().is_some() || !self.whole.hidden() {
            self.pane.get_or_init(|| (self.furnish)(page)).show(page, app);
        }
    }
}
