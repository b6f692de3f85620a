//! The title block, in the manner of ISO 7200, in the lower right corner.

use super::text_box::TextBox;
use crate::app::{About, App};
use crate::browser::dom::{Shown, find};
use crate::browser::page::{Page, Pane};
use crate::drawing::svg::svg;
use crate::drawing::{Theme, projection_symbol, scale_bar};
use kernel::{Guide, Layout};
use std::cell::Cell;
use web_sys::Element;

/// Title, kind, note, projection, scale.
pub struct TitleBlock {
    title: Shown,
    kind: Shown,
    note: TextBox,
    projection: Element,
    scale: Element,
    drawn: Cell<Option<(Theme, f64)>>,
}

impl TitleBlock {
    /// Finds the block on the page.
    pub fn new(page: &Page) -> TitleBlock {
        TitleBlock {
            title: Shown::text(find::<Element>("title")),
            kind: Shown::text(find::<Element>("kind")),
            note: TextBox::new(page, "note", |page, note| page.send(About::Note(note))),
            projection: find("projection"),
            scale: find("scale"),
            drawn: Cell::new(None),
        }
    }
}

/// What kind of axle it is, in words.
fn kind(layout: &Layout) -> String {
    let guide = |guide: &Guide| match guide {
        Guide::Wishbone { .. } => "wishbone",
        Guide::Arms { .. } => "two arms",
        Guide::Strut { .. } => "strut",
    };
    let steered = if layout.rack.is_some() { "" } else { ", unsteered" };
    format!("Upper: {}, lower: {}{steered}", guide(&layout.upper), guide(&layout.lower))
}

impl Pane for TitleBlock {
    fn show(&self, page: &Page, app: &App) {
        self.title.show(&app.document.layout.name);
        self.kind.show(&kind(&app.document.layout));
        self.note.show(&app.document.layout.note);
        let Some(sheet) = page.sheet() else { return };
        let now = Some((page.theme(), sheet.scale()));
        if self.drawn.replace(now) != now {
            self.projection.set_inner_html(&svg(&projection_symbol(), page.theme()));
            self.scale.set_inner_html(&svg(&scale_bar(&sheet), page.theme()));
        }
    }
}
