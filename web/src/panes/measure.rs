//! What was measured on a car, and what becomes of it. Brought up to date only while it is shown.

mod picture;
mod tapes;
mod typed;

pub use picture::open_picture;

use crate::app::App;
use crate::browser::dom::{find, on};
use crate::browser::page::{Page, Pane};
use web_sys::{Element, Event, HtmlElement};

/// The pane.
pub struct MeasurePane {
    whole: HtmlElement,
    typed: typed::Typed,
    tapes: tapes::TapeList,
    picture: picture::PicturePart,
}

impl MeasurePane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> MeasurePane {
        let opening = page.clone();
        on(&find::<Element>("tab-measure"), "click", move |_: Event| opening.change());
        MeasurePane {
            whole: find("measure"),
            typed: typed::Typed::new(page),
            tapes: tapes::TapeList::new(page),
            picture: picture::PicturePart::new(page),
        }
    }
}

impl Pane for MeasurePane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        self.typed.show(page, app);
        self.tapes.show(app);
        self.picture.show(page, app);
    }
}
