//! Wheel space: how near the pieces are to each other here and over all travel and steering, and the litres that the tyre takes. Brought up to date
//! only while it is shown.

mod bends;
mod boxes;
mod grid;
mod margin;
mod thick;

use super::followed::Followed;
use super::rows::Rows;
use crate::app::{App, Room, Show};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::content::arches::PAIRS;
use crate::link;
use crate::study::space::{Outlines, built_round, distance, least, pair};
use crate::work::outlines::{read, task};
use kernel::{Layout, LeftOrRight};
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

/// The pane.
pub struct SpacePane {
    whole: HtmlElement,
    words: Shown,
    round: Shown,
    told: HtmlElement,
    here: Rows,
    boxes: boxes::Boxes,
    thick: thick::Thick,
    bends: bends::Bends,
    grid: grid::Over,
    prepared: Element,
    traced: HtmlInputElement,
    margin: margin::Margin,
    outlines: Followed<Asked, Outlines>,
}

/// What the outlines are of, and the margin, mm.
type Asked = (Layout, LeftOrRight, f64);

impl SpacePane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> SpacePane {
        for (id, column) in [("pin-gap", "least_gap_mm"), ("pin-wheel-gap", "wheel_gap_mm")] {
            let page = page.clone();
            on(&find::<Element>(id), "click", move |_: Event| page.send(Show::Pin(column)));
        }
        let traced: HtmlInputElement = find("space-outlines");
        let changing = page.clone();
        on(&traced, "change", move |_: Event| changing.change());
        SpacePane {
            whole: find("space"),
            words: Shown::text(find::<Element>("space-words")),
            round: Shown::text(find::<Element>("space-round")),
            told: find("space-told"),
            here: Rows::new("gaps-here"),
            boxes: boxes::Boxes::new(page),
            thick: thick::Thick::new(page),
            bends: bends::Bends::new(),
            grid: grid::Over::new(page),
            prepared: find("prepared-arches"),
            traced,
            margin: margin::Margin::new(page),
            outlines: Followed::new(|(layout, side, margin)| task(layout, *side, *margin), |_, answer| read(answer)),
        }
    }

    /// What is to be drawn.
    fn room(&self, page: &Page, app: &App) -> Room {
        if self.whole.hidden() {
            return Room::Closed;
        }
        if !self.traced.checked() {
            return Room::Open(None);
        }
        let question = (app.document.layout.clone(), grid::side(app), self.margin.mm());
        let known = self.outlines.ask(page, app.held(), &question);
        Room::Open(known.map(|(outlines, new)| (outlines, !new)))
    }
}

/// The prepared pairs, a link each.
fn prepared(list: &Element) {
    for (pair, document) in PAIRS.iter().filter_map(|pair| Some((pair, pair.document()?))) {
        let anchor: Element = make(&make::<Element>(list, "li"), "a");
        anchor.set_text_content(Some(pair.name));
        set(&anchor, "href", &format!("#{}", link::write(&document)));
    }
}

impl Pane for SpacePane {
    fn show(&self, page: &Page, app: &App) {
        let room = self.room(page, app);
        if room != app.room {
            page.send(room);
        }
        if self.whole.hidden() {
            return;
        }
        if self.prepared.child_element_count() == 0 {
            prepared(&self.prepared);
        }
        self.margin.show(app);
        self.boxes.show(page, app);
        self.thick.show(app);
        self.bends.show(page, app);
        self.told.set_hidden(app.hides_gaps());
        if app.hides_gaps() {
            return self.words.show("The lesson hides the gaps.");
        }
        let (layout, gaps) = (&app.document.layout, &app.space().gaps);
        self.words.show(&least(gaps, layout));
        self.round.show(&built_round(&app.space().through, layout));
        let row = |gap: &kernel::space::Gap| {
            let meet = if gap.value > 0.0 { "" } else { "!" };
            vec![pair(gap.between, layout), format!("{meet}{}", distance(gap.value))]
        };
        self.here.show(gaps.iter().map(row).collect());
        self.grid.show(page, app);
    }
}
