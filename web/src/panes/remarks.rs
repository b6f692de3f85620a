//! Remarks beside the drawing, folded: what looks like a slip.

use crate::app::App;
use crate::browser::dom::{Shown, Veil, find, make};
use crate::browser::page::{Page, Pane};
use std::cell::RefCell;
use web_sys::Element;

/// The list.
pub struct Remarks {
    whole: Veil,
    count: Shown,
    list: Element,
    last: RefCell<Vec<String>>,
}

impl Remarks {
    /// Finds it on the page.
    pub fn new() -> Remarks {
        Remarks {
            whole: Veil::of("remarks"),
            count: Shown::text(find::<Element>("remark-count")),
            list: find("remark-list"),
            last: RefCell::default(),
        }
    }
}

impl Pane for Remarks {
    fn show(&self, _: &Page, app: &App) {
        let remarks = app.remarks();
        self.whole.set_hidden(remarks.is_empty());
        self.count.show(&match remarks.len() {
            1 => "1 remark".into(),
            many => format!("{many} remarks"),
        });
        if *self.last.borrow() != remarks {
            self.list.set_text_content(None);
            for remark in remarks {
                make::<Element>(&self.list, "li").set_text_content(Some(remark));
            }
            self.last.replace(remarks.to_vec());
        }
    }
}
