//! What gives way when forces act: bushes, subframe and rack, and where a bush was tightened. Brought up to date only while it is shown.

mod bushes;
mod subframe;
mod tightened;

use crate::app::App;
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::{Page, Pane};
use kernel::Anchor;
use web_sys::{Element, Event, HtmlElement};

/// The pane.
pub struct CompliancePane {
    whole: HtmlElement,
    words: Shown,
    bushes: bushes::Bushes,
    subframe: subframe::Frame,
    tightened: tightened::Tightened,
}

impl CompliancePane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> CompliancePane {
        let opening = page.clone();
        on(&find::<Element>("tab-compliance"), "click", move |_: Event| opening.change());
        CompliancePane {
            whole: find("compliance"),
            words: Shown::text(find::<Element>("gives-way")),
            bushes: bushes::Bushes::new(page),
            subframe: subframe::Frame::new(page),
            tightened: tightened::Tightened::new(page),
        }
    }
}

impl Pane for CompliancePane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let layout = &app.document.layout;
        let rigid = layout.stiffness.is_empty() && layout.subframe.is_none();
        self.words.show(if rigid { "Nothing of this axle gives way yet." } else { "" });
        self.bushes.show(page, app);
        self.subframe.show(page, app);
        self.tightened.show(page, app);
    }
}

/// What the page calls a place where something gives way.
fn name(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::LowerFront => "lower front",
        Anchor::LowerRear => "lower rear",
        Anchor::UpperFront => "upper front",
        Anchor::UpperRear => "upper rear",
        Anchor::StrutTop => "strut’s top mount",
        Anchor::TrackRod => "track rod",
        Anchor::Rack => "rack",
    }
}
