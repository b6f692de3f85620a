//! What gives way when forces act: bushes, subframe and rack, and where a bush was tightened. Brought up to date only while it is shown.

mod bushes;
mod subframe;
mod tightened;

use crate::app::App;
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::content::racks::{PREPARED, STEER};
use crate::link;
use crate::text::number::fixed;
use kernel::{Anchor, Reading};
use web_sys::{Element, Event, HtmlElement};

/// The pane.
pub struct CompliancePane {
    whole: HtmlElement,
    words: Shown,
    bushes: bushes::Bushes,
    subframe: subframe::Frame,
    tightened: tightened::Tightened,
    prepared: Element,
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
            prepared: find("prepared-racks"),
        }
    }
}

impl Pane for CompliancePane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        if self.prepared.child_element_count() == 0 {
            prepared(&self.prepared);
        }
        self.words.show(&words(app));
        self.bushes.show(page, app);
        self.subframe.show(page, app);
        self.tightened.show(page, app);
    }
}

/// What still hands feel of a side force.
fn words(app: &App) -> String {
    let layout = &app.document.layout;
    if layout.stiffness.is_empty() && layout.subframe.is_none() {
        return "Nothing in this axle gives way yet.".into();
    }
    let steer = Reading::named(STEER).and_then(|reading| app.told(reading, app.study.good.value(reading)).value());
    steer.map_or(String::new(), |steer| {
        let way = if steer > 0.0 { "out of the bend: it gives way" } else { "into the bend: it turns in" };
        let felt = if steer > 0.0 { "vague" } else { "nervous" };
        match steer.abs() {
            small if small < LITTLE => {
                "With the steering wheel held still, a side force of 1 kN on each wheel steers this axle by less than 0.02°.".into()
            }
            steer => format!(
                "With the steering wheel held still, a side force of 1 kN on each wheel steers this axle by {}° {way}; where it is much, it is felt as {felt}.",
                fixed(steer, 2)
            ),
        }
    })
}

/// Less steer than this, °/kN, is not told as a direction.
const LITTLE: f64 = 0.02;

/// The prepared axles, a link each.
fn prepared(list: &Element) {
    for (axle, document) in PREPARED.iter().filter_map(|axle| Some((axle, axle.document()?))) {
        let anchor: Element = make(&make::<Element>(list, "li"), "a");
        anchor.set_text_content(Some(axle.name));
        set(&anchor, "href", &format!("#{}", link::write(&document)));
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
