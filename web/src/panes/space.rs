//! Wheel space: how near the pieces are to each other here and over all travel and steering, and the litres that the tyre takes. Brought up to date
//! only while it is shown.

mod grid;

use super::rows::Rows;
use crate::app::App;
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::{Page, Pane};
use crate::study::space::{distance, least, pair};
use web_sys::{Element, Event, HtmlElement};

/// The pane.
pub struct SpacePane {
    whole: HtmlElement,
    words: Shown,
    here: Rows,
    grid: grid::Over,
}

impl SpacePane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> SpacePane {
        let opening = page.clone();
        on(&find::<Element>("tab-space"), "click", move |_: Event| opening.change());
        SpacePane {
            whole: find("space"),
            words: Shown::text(find::<Element>("space-words")),
            here: Rows::new("gaps-here"),
            grid: grid::Over::new(page),
        }
    }
}

impl Pane for SpacePane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let (layout, gaps) = (&app.document.layout, app.gaps());
        self.words.show(&least(gaps, layout));
        let row = |gap: &kernel::space::Gap| {
            let meet = if gap.value > 0.0 { "" } else { "!" };
            vec![pair(gap.between, layout), format!("{meet}{}", distance(gap.value))]
        };
        self.here.show(gaps.iter().map(row).collect());
        self.grid.show(page, app);
    }
}
