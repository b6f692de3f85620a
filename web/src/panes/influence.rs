//! Influence: what a little more of each part does, what to turn, and with what this car can be adjusted. Brought up to date only while it is shown.

mod adjusters;
mod card;
mod choice;
mod table;
mod turning;

use crate::app::App;
use crate::browser::dom::find;
use crate::browser::page::{Page, Pane};
use web_sys::HtmlElement;

/// The pane.
pub struct InfluencePane {
    whole: HtmlElement,
    table: table::Table,
    turning: turning::Turning,
    adjusters: adjusters::Adjusters,
}

impl InfluencePane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> InfluencePane {
        InfluencePane {
            whole: find("influence"),
            table: table::Table::new(page),
            turning: turning::Turning::new(page),
            adjusters: adjusters::Adjusters::new(page),
        }
    }
}

impl Pane for InfluencePane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        self.table.show(page, app);
        self.turning.show(page, app);
        self.adjusters.show(app);
    }
}
